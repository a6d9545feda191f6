package pour

import (
	"castweek/sheets/page"
	"castweek/tree"
)

// stockPage is what the whole cast takes: powder and liquid flask by flask with
// what has to stand ready of each, and what becomes of the metal.
func (p *printer) stockPage() []*page.Leaf {
	f := p.benchFlow("pour.stock", p.cast.Name, nil, 0)
	p.Opening(f, benchHead, benchWords, hand.Tick)
	f.Para(benchName, p.say("pour.stock.powder"))
	var rows [][]page.Cell
	for _, t := range p.trees {
		rows = append(rows, []page.Cell{page.Tick(hand.Tick - 2), {Text: t.Letter(), Style: &benchHead}, page.Text(t.Flask), page.Text(p.fig.Text(t.Powder)),
			page.Text(p.whole(t.Invest.Powder)), page.Text(p.whole(t.Invest.Liquid)), page.Text(p.fig.Set(float64(t.Invest.Ratio), 1) + "\u00a0%")})
	}
	for _, n := range p.cast.Powders {
		rows = append(rows, []page.Cell{{}, {}, {Text: p.with("pour.stock.flasks", "n", p.fig.Count(n.Flasks)), Style: &benchHead}, {Text: p.fig.Text(n.Powder), Style: &benchHead},
			{Text: p.whole(n.Weight), Style: &benchHead}, {Text: p.whole(n.Liquid), Style: &benchHead}, {}})
	}
	f.Lay(page.Table{Style: benchWords, Pitch: hand.Tick - 1, Columns: []page.Column{{Width: 12}, {Head: p.say("pour.head.flask"), Width: 17}, {Head: p.say("pour.out.size"), Width: 28},
		{Head: p.say("pour.stock.which")}, {Head: p.say("pour.stock.p"), Width: 28, Align: page.AlignPoint}, {Head: p.say("pour.stock.w"), Width: 28, Align: page.AlignPoint}, {Head: p.say("pour.stock.ratio"), Width: 20}}}, rows)
	f.Para(benchWords, p.say("pour.stock.spare"))
	p.yields(f)
	return f.End()
}

// yields says what is cast, what comes back and what is lost, tree by tree and
// of all.
func (p *printer) yields(f *page.Flow) {
	f.Gap(5)
	f.Need(benchName.Leading() + 4*benchWords.Leading())
	f.Para(benchName, p.say("pour.stock.metal"))
	row := func(s *page.Style, letter, alloy string, y tree.Yield) []page.Cell {
		cell := func(text string) page.Cell { return page.Cell{Text: text, Style: s} }
		return []page.Cell{cell(letter), cell(alloy), cell(p.Exact(y.Castings)), cell(p.Exact(y.TiedUp)), cell(p.Exact(y.Loss)), cell(p.Exact(y.Total)),
			cell(p.fig.Set(float64(y.Charge), 1) + "\u00a0%"), cell(p.fig.Set(float64(y.Net), 1) + "\u00a0%")}
	}
	var rows [][]page.Cell
	for _, t := range p.trees {
		rows = append(rows, row(&benchWords, t.Letter(), t.Alloy, t.Yield))
	}
	rows = append(rows, row(&benchHead, "", p.say("pour.together"), p.cast.Yield))
	f.Lay(page.Table{Style: benchWords, Every: 3, Columns: []page.Column{{Head: p.say("pour.head.flask"), Width: 15}, {Head: p.say("pour.head.alloy")},
		{Head: p.say("pour.yield.cast"), Width: 26, Align: page.AlignPoint}, {Head: p.say("pour.yield.back"), Width: 28, Align: page.AlignPoint}, {Head: p.say("pour.yield.loss"), Width: 24, Align: page.AlignPoint},
		{Head: p.say("pour.yield.total"), Width: 27, Align: page.AlignPoint}, {Head: p.say("pour.yield.charge"), Width: 18}, {Head: p.say("pour.yield.net"), Width: 18}}}, rows)
	f.Gap(1)
	f.Para(benchWords, p.say("pour.yield.words"))
}
