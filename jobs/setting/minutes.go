package setting

import (
	"castweek/jobs/stone"
	"castweek/metal/measure"
)

// Minutes is bench time.
type Minutes float64

// A Span is a range of bench time.
type Span struct{ Low, High Minutes }

// Times are the planner's minutes per stone. No reliable table of them was
// found in print: the defaults are from memory and every one is a setting.
type Times struct {
	Claw        Span // up to LargeFrom
	FourClaw    Span // above LargeFrom, up to four claws
	SixClaw     Span // above LargeFrom, more claws
	Bezel       Span
	Bead        Span
	Pave        Span
	Channel     Span
	ChannelEdge Span // stones with corners
	Flush       Span
	Points      Span
	Cleaning    Span // of a stone cast in place

	First     Minutes // once a piece
	LargeFrom measure.MM
	PerMM     measure.Percent // more for each mm above LargeFrom
	Platinum  float64         // factor
}

// DefaultTimes are the planner's defaults, from memory.
func DefaultTimes() Times {
	return Times{
		Claw: Span{3, 6}, FourClaw: Span{20, 30}, SixClaw: Span{30, 40}, Bezel: Span{30, 45}, Bead: Span{8, 15}, Pave: Span{8, 15},
		Channel: Span{6, 10}, ChannelEdge: Span{10, 15}, Flush: Span{6, 10}, Points: Span{40, 60}, Cleaning: Span{1, 3},
		First: 5, LargeFrom: 3, PerMM: 25, Platinum: 1.3,
	}
}

// Minutes is the time for all stones of the line on one piece, without the
// addition for the first stone of a piece, which is [Times.First] once. A line
// that is no size or no count takes none.
func (t Times) Minutes(in Input) Span {
	s := in.Stone
	if s.Count < 1 || !(s.Length > 0) {
		return Span{}
	}
	base := t.base(in)
	factor := 1.0
	if over := s.Length - t.LargeFrom; over > 0 && !in.InWax {
		factor += float64(over) * float64(t.PerMM) / 100
	}
	if in.Metal == Platinum {
		factor *= t.Platinum
	}
	factor *= float64(s.Count)
	return Span{base.Low * Minutes(factor), base.High * Minutes(factor)}
}

func (t Times) base(in Input) Span {
	if in.InWax {
		return t.Cleaning
	}
	switch in.Style {
	case Claw:
		switch {
		case in.Stone.Length <= t.LargeFrom:
			return t.Claw
		case in.Claws.Count > 4:
			return t.SixClaw
		}
		return t.FourClaw
	case Bezel:
		return t.Bezel
	case Bead:
		return t.Bead
	case Pave:
		return t.Pave
	case Channel:
		if in.Stone.Cut == stone.Round {
			return t.Channel
		}
		return t.ChannelEdge
	case Flush:
		return t.Flush
	case Points:
		return t.Points
	}
	return Span{}
}
