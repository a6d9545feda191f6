package pour

import (
	"castweek/metal/invest"
	"castweek/metal/measure"
	"castweek/sheets/page"
	"castweek/tree"
)

// whole writes a weight that is weighed in whole grams.
func (p *printer) whole(m measure.Milligram) string { return p.fig.Set(float64(m)/1000, 0) }

// invest is the mixing of one flask: powder and liquid with boxes for what was
// really weighed, and the working time as a line from powder into liquid to the
// loss of its gloss.
func (p *printer) invest(f *page.Flow, t *tree.Tree) {
	if t.Invest.Powder == 0 {
		return
	}
	lines := float64((len(t.Invest.Clock)+1)/2+1)*benchWords.Leading() + benchStamp.Leading()
	warnings := 1.0
	if t.Bond == "phosphate" {
		warnings = 2
	}
	p.section(f, "pour.invest", warnings*warnHeight+hand.CellH+3+clockHeight+lines)
	p.warn(f, p.say("pour.warn.dust"))
	if t.Bond == "phosphate" {
		p.warn(f, p.say("pour.warn.ammonia"))
	}
	f.Para(benchHead, p.with("pour.invest.mix", "powder", p.fig.Text(t.Powder), "ratio", p.fig.Set(float64(t.Invest.Ratio), 1), "spare", p.fig.Set(float64(t.Invest.Spare), 1)))
	f.Gap(1)
	f.Block(hand.CellH+2, func(l *page.Leaf, x, y, w float64) {
		for i, line := range []struct {
			words  string
			weight measure.Milligram
		}{{p.say("pour.invest.powder"), t.Invest.Powder}, {p.say("pour.invest.liquid"), t.Invest.Liquid}} {
			left := x + float64(i)*w/2
			base := y + hand.CellH - 2
			end := l.Text(left, base, benchWords, line.words)
			l.Text(max(left+17, end+2), base, benchValue, p.whole(line.weight)+"\u00a0"+p.say("unit.g"))
			l.Digits(left+50, y, hand, "0000", benchWords, p.say("unit.g"))
		}
	})
	p.clock(f, t.Invest.Clock)
	f.Para(benchStamp, p.with("pour.sheet", "source", p.fig.Text(t.Invest.Sheet)))
}

// Measures of the drawn working time, in millimetres.
const (
	clockBar    = 7.0
	clockHeight = 18.0
)

// clock draws the steps of mixing to scale, each with its number and the
// minutes at which it begins and ends, and names them below.
func (p *printer) clock(f *page.Flow, marks []tree.ClockMark) {
	if len(marks) == 0 || marks[len(marks)-1].Till <= 0 {
		return
	}
	end := marks[len(marks)-1].Till
	f.Block(clockHeight, func(l *page.Leaf, x, y, w float64) {
		y += 2
		w -= 52
		at := func(minute float64) float64 { return x + 2 + minute/end*(w-14) }
		minute := func(m float64) {
			l.Line(at(m), y, at(m), y+clockBar+1.5, page.Edge)
			l.TextCentre(at(m), y+clockBar+1.5+benchWords.Base(), benchWords, p.fig.Set(m, 1))
		}
		for i, k := range marks {
			l.Rect(at(k.From), y, at(k.Till)-at(k.From), clockBar, page.Edge)
			l.TextCentre((at(k.From)+at(k.Till))/2, y+clockBar/2+page.CapMM(benchHead.Size)/2, benchHead, p.fig.Count(i+1))
			minute(k.From)
		}
		minute(end)
		l.Text(at(end)+4.5, y+clockBar+1.5+benchWords.Base(), benchWords, "min")
		p.clockBoxes(l, x+w+6, y-1, p.say("pour.invest.start"))
	})
	steps := make([]string, len(marks))
	down := (len(marks) + 1) / 2
	for k, m := range marks {
		steps[k] = p.with("pour.invest.clock", "n", p.fig.Count(k+1), "from", p.fig.Set(m.From, 1), "till", p.fig.Set(m.Till, 1), "step", p.step(m.Step))
		if benchWords.Width(steps[k]) > f.Frame.Width()/2-3 { // no room for two beside each other
			down = len(marks)
		}
	}
	for i := range down {
		f.Block(benchWords.Leading(), func(l *page.Leaf, x, y, w float64) {
			for k := i; k < len(steps); k += down {
				l.Text(x+float64(k/down)*w/2, y+benchWords.Base(), benchWords, steps[k])
			}
		})
	}
}

// step names a step of mixing. A record of an older build has it in words.
func (p *printer) step(step string) string {
	switch step {
	case invest.StepMix:
		return p.say("pour.step.mix")
	case invest.StepBowl:
		return p.say("pour.step.bowl")
	case invest.StepFill:
		return p.say("pour.step.fill")
	case invest.StepFlask:
		return p.say("pour.step.flask")
	case invest.StepStill:
		return p.say("pour.step.still")
	}
	return p.fig.Text(step)
}
