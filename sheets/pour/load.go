package pour

import (
	"strings"

	"castweek/sheets/page"
	"castweek/tree"
)

// loadPage is one kiln load: what is to be seen to before the kiln is switched
// on, the programme on the clock, its curve, and each flask with the minute in
// which it comes out.
func (p *printer) loadPage(load *tree.Load) []*page.Leaf {
	name := p.with("pour.load", "n", p.fig.Count(load.Number))
	f := p.benchFlow("pour.burnout", p.cast.Name+" "+p.fig.Count(load.Number), nil, 0)
	p.Opening(f, benchHead, benchWords, hand.Tick)
	f.Para(benchName, name+": "+p.fig.Text(load.Programme))
	out := p.inLoad(load)
	var letters []string
	for _, t := range out {
		letters = append(letters, t.Letter())
	}
	f.Para(benchWords, p.with("pour.load.in", "n", p.fig.Count(len(out)), "letters", strings.Join(letters, " ")))
	p.warn(f, p.say("pour.warn.alone"))
	f.Block(hand.Pitch, func(l *page.Leaf, x, y, w float64) {
		base := y + (hand.Pitch+page.CapMM(benchValue.Size))/2
		l.Text(x, base, benchValue, p.with("pour.load.on", "on", p.fig.Moment(load.On)))
		p.clockBoxes(l, x+w-46, y+1, p.say("pour.load.real"))
	})
	if len(load.Riding) > 0 {
		f.Para(benchWords, p.say("pour.load.riding"))
	}
	if !load.RoomKnown {
		f.Para(benchWords, p.say("pour.load.room"))
	}
	switch {
	case load.ClocksBy > 0:
		f.Para(benchHead, p.with("pour.load.forward", "at", p.fig.Moment(load.ClocksTo)))
	case load.ClocksBy < 0:
		f.Para(benchHead, p.with("pour.load.back", "at", p.fig.Moment(load.ClocksTo)))
	}
	f.Gap(2)
	if load.Sulphur == 0 {
		p.warn(f, p.say("pour.warn.ammonia"))
	} else {
		p.warn(f, p.with("pour.warn.sulphur", "at", p.degrees(load.Sulphur)))
	}
	if load.CeilingBy != "" {
		f.Para(benchHead, p.with("pour.load.by", "at", p.degrees(load.Ceiling), "sheet", p.fig.Text(load.CeilingBy)))
	}
	p.programme(f, load)
	f.Gap(2)
	p.curve(f, load, out, outHeight(len(out))+3)
	p.comesOut(f, out)
	f.Para(benchStamp, p.with("pour.sheet", "source", p.fig.Text(load.Sheet)))
	return f.End()
}

// clockBoxes are for a moment of the day, their words left of them, ending
// after 46 mm.
func (p *printer) clockBoxes(l *page.Leaf, x, y float64, words string) {
	l.TextRight(x+15, y+hand.CellH-2, benchWords, words)
	end := l.Digits(x+17, y, hand, "00", benchWords, "")
	l.Disc(end+1.5, y+3, 0.6)
	l.Disc(end+1.5, y+6, 0.6)
	l.Digits(end+3, y, hand, "00", benchWords, "")
}

// inLoad are the flasks of a load in the order in which they come out.
func (p *printer) inLoad(load *tree.Load) []*tree.Tree {
	var out []*tree.Tree
	for _, t := range p.trees {
		if t.Kiln == load.Number {
			out = append(out, t)
		}
	}
	return out
}

// programme is the burnout line by line: the way up is part of each hold.
func (p *printer) programme(f *page.Flow, load *tree.Load) {
	var rows [][]page.Cell
	for _, s := range load.Stages {
		what := p.with("pour.stage.hold", "at", p.degrees(s.At))
		switch s.Kind {
		case tree.StageChange:
			what = p.with("pour.stage.change", "at", p.degrees(s.At))
		case tree.StageSoak:
			what = p.with("pour.stage.soak", "at", p.degrees(s.At))
		}
		reached := s.Reached.Format("15:04")
		if s.Kind == tree.StageSoak {
			reached = p.say("none")
		}
		rows = append(rows, []page.Cell{page.Tick(hand.Tick - 2), page.Text(s.From.Format("15:04")), {Text: what, Style: &benchHead}, page.Text(reached), page.Text(s.Till.Format("15:04"))})
	}
	f.Lay(page.Table{Style: benchWords, Pitch: hand.Tick - 1, Columns: []page.Column{{Width: 12}, {Head: p.say("pour.stage.from"), Width: 24}, {Head: p.say("pour.stage.what")},
		{Head: p.say("pour.stage.reached"), Width: 32}, {Head: p.say("pour.stage.till"), Width: 24}}}, rows)
	f.Para(benchWords, p.with("pour.load.ramp", "up", p.fig.Set(load.Ramp, 0), "down", p.fig.Set(load.Cooling, 0)))
}

// outHeight is what the table of so many flasks takes with its head; more than
// a page of them are parted.
func outHeight(flasks int) float64 {
	return float64(min(flasks, 20))*hand.Pitch + 2*benchHead.Leading() + 2 + 2*benchStamp.Leading()
}

// comesOut is each flask with its minute and its temperature.
func (p *printer) comesOut(f *page.Flow, out []*tree.Tree) {
	var rows [][]page.Cell
	for _, t := range out {
		longest := p.say("none")
		if m := p.cast.Out(t); m > 0 {
			longest = p.fig.Set(m, 1) + "\u00a0min"
		}
		rows = append(rows, []page.Cell{page.Tick(hand.Tick), {Text: t.Letter(), Style: &benchValue}, {Text: t.Alloy, Style: &benchHead},
			page.Text(t.Flask), {Text: t.PourAt.Format("15:04"), Style: &benchHead}, {Text: p.degrees(t.FlaskAt), Style: &benchHead}, page.Text(longest), page.Tick(hand.Tick)})
	}
	f.Gap(2)
	f.Need(outHeight(len(rows)))
	f.Lay(page.Table{Style: benchWords, Pitch: hand.Pitch, Columns: []page.Column{{Head: p.say("pour.out.in"), Width: 12}, {Head: p.say("pour.head.flask"), Width: 17},
		{Head: p.say("pour.head.alloy")}, {Head: p.say("pour.out.size"), Width: 28}, {Head: p.say("pour.out.at"), Width: 23}, {Head: p.say("pour.flaskat"), Width: 22},
		{Head: p.say("pour.out.most"), Width: 24}, {Head: p.say("pour.out.out"), Width: 12}}}, rows)
}
