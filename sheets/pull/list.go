package pull

import (
	"strings"

	"castweek/sheets/desk"
	"castweek/sheets/page"
)

// rows lays lines as one table. Those that are here get boxes for what is
// really pulled. The name of the stone stands on each line, so that a line
// that goes on over a page still says what it is.
func (p *printer) rows(f *page.Flow, list []*line, here bool) {
	var rows [][]page.Cell
	for _, l := range list {
		rows = append(rows, p.row(l, here))
	}
	f.Lay(p.table(here, f.Frame.Width()), rows)
}

func (p *printer) table(here bool, width float64) page.Table {
	t := page.Table{Style: plain, Heads: stamp, Pitch: hand.CellH + 3, Columns: []page.Column{
		{Head: p.say("pull.stone"), Width: 0.205 * width}, {Head: p.say("pull.size"), Width: 27}, {Head: p.say("pull.take"), Width: 17, Align: page.AlignPoint},
		{Head: p.say("pull.need"), Width: 14, Align: page.AlignPoint}, {Head: p.say("pull.spares"), Width: 16, Align: page.AlignPoint},
		{Head: p.say("pull.where")}, {Head: p.say("pull.for")}}}
	if here {
		t.Columns = append(t.Columns, page.Column{Head: p.say("pull.pulled"), Width: 16}, page.Column{Head: p.say("pull.short"), Width: 16},
			page.Column{Head: p.say("pull.substitute"), Width: 30})
	} else {
		t.Columns = append(t.Columns, page.Column{Head: p.say("pull.state"), Width: 60})
	}
	return t
}

func (p *printer) row(l *line, here bool) []page.Cell {
	s := l.stone
	where := s.Parcel
	if desk.Customers(s.Owner) {
		where = strings.TrimSpace(where + "\n" + p.with("pull.owner", "owner", s.Owner))
	}
	row := []page.Cell{{Text: sortOf(s), Style: &strong}, {Text: p.size(s), Style: &value}, {Text: p.fig.Count(l.take()), Style: &value}, page.Text(p.fig.Count(l.count)),
		page.Text(p.fig.Count(l.spares)), page.Text(where), {Text: strings.Join(l.jobs, "  "), Style: &code}}
	if !here {
		state := p.say("pull.nothere")
		if s.Ordered != "" {
			state = p.with("pull.ordered", "from", p.fig.Text(s.Ordered))
		}
		return append(row, page.Text(state))
	}
	return append(row, p.boxes(p.digits(l.take())), p.boxes(p.digits(l.take())), page.Box())
}

// digits is one box for each digit that the count can need.
func (p *printer) digits(n int) string {
	form := "00"
	for m := 100; n >= m; m *= 10 {
		form += "0"
	}
	return form
}

func (p *printer) boxes(form string) page.Cell {
	return page.Cell{Draw: func(l *page.Leaf, x, y, w, h float64) { l.Digits(x, y+(h-hand.CellH)/2, hand, form, plain, "") }}
}

// total is the count of all stones to be taken, with boxes for the count that
// the parcels on the table give.
func (p *printer) total(f *page.Flow, list []*line) {
	take, count, spares := 0, 0, 0
	for _, l := range list {
		take, count, spares = take+l.take(), count+l.count, spares+l.spares
	}
	f.Gap(4)
	f.Block(value.Leading()+5, func(l *page.Leaf, x, y, w float64) {
		l.Line(x, y, x+w, y, page.Edge)
		base := y + 2 + value.Base()
		end := l.Text(x, base, strong, p.say("pull.total"))
		x = l.Text(max(x+32, end+3), base, value, p.fig.Count(take))
		x = l.Text(x+8, base, plain, p.with("pull.sum", "count", p.fig.Count(count), "spares", p.fig.Count(spares), "lines", p.fig.Count(len(list))))
		x = l.Text(x+12, base, plain, p.say("pull.counted"))
		x = l.Digits(x+4, y+3, hand, "0"+p.digits(take), plain, "")
		x = l.Text(x+12, base, strong, p.say("pull.end"))
		l.WriteLine(x+2, base+1, f.Frame.Right-x-2)
	})
}
