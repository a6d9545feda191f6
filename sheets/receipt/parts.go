package receipt

import (
	"slices"
	"strconv"
	"strings"

	"castweek/metal/measure"
	"castweek/sheets/page"
	"castweek/sheets/words"
)

// broughtIn lays each lot with how its fineness is known, and boxes for what it
// weighs at the counter.
func (p *printer) broughtIn() {
	p.doc.Field("metal brought in")
	var rows [][]page.Cell
	form := ""
	for _, m := range p.r.In {
		form = longer(form, p.form(m.Told))
	}
	form = longer(form, p.form(p.r.Need.Total))
	for _, m := range p.r.In {
		rows = append(rows, p.weighed(p.lot(m), m.Told, form, m.Told > 0))
	}
	if len(rows) > 1 {
		rows = append(rows, p.weighed(p.say("receipt.together"), 0, form, false))
	}
	p.table("receipt.in", "receipt.told", form, rows)
}

// lot says what a lot is, in the customer's words and then in the house's.
func (p *printer) lot(m Lot) string {
	fineness := p.say("receipt.nofineness")
	if m.Fineness > 0 {
		fineness = p.fine(m.Fineness)
	}
	known := p.with("receipt.known."+strings.ReplaceAll(string(m.Known), " ", ""), "fineness", fineness)
	switch {
	case m.Counted == 0 && m.Why != "":
		known += "; " + p.with("receipt.notcountedwhy", "why", p.fig.Text(m.Why))
	case m.Counted == 0:
		known += "; " + p.say("receipt.notcounted")
	case m.Counted != m.Fineness:
		known += "; " + p.with("receipt.counted", "fineness", p.fine(m.Counted))
	}
	return strings.Trim(p.fig.Text(m.What)+", "+m.Alloy, ", ") + "\n" + known
}

// weighed is a row of a thing, its printed weight and boxes for the real one.
func (p *printer) weighed(what string, w measure.Milligram, form string, print bool) []page.Cell {
	text := p.say("none")
	if print {
		text = p.fig.Grams(w, p.step)
	}
	return []page.Cell{page.Text(what), page.Text(text), {Draw: func(l *page.Leaf, x, y, _, h float64) {
		l.Digits(x, y+(h-hand.CellH)/2, hand, form, p.plain, p.say("unit.g"))
	}}}
}

// table lays rows of weighed under the title of its section; expected is the
// key of the head of its middle column.
func (p *printer) table(title, expected, form string, rows [][]page.Cell) {
	p.f.Gap(2)
	head, real := p.say(expected), hand.DigitsWidth(form, p.plain, p.say("unit.g"))+2
	p.f.Lay(page.Table{Style: p.plain, Heads: p.strong, Pitch: hand.Pitch, Columns: []page.Column{
		{Head: p.say(title)}, {Head: head, Width: p.strong.Width(head) + 4, Align: page.AlignPoint}, {Head: p.say("receipt.real"), Width: real}}}, rows)
}

// form is how many boxes a weight needs: those of the printed one and one more
// before the point.
func (p *printer) form(w measure.Milligram) string {
	form := strings.Repeat("0", len(strconv.FormatInt(int64(w)/1000, 10))+1)
	if n := words.Decimals(p.r.Step); n > 0 {
		form += p.fig.Mark() + strings.Repeat("0", n)
	}
	return form
}

func longer(a, b string) string {
	if len(b) > len(a) {
		return b
	}
	return a
}

// needs lays what the job takes, in one row from the pieces to the sum.
func (p *printer) needs() {
	p.doc.Field("what the job takes")
	n := p.r.Need
	t := page.Table{Style: p.plain, Heads: p.plain, Pitch: p.plain.Leading() + 1, Every: 99}
	var row []page.Cell
	for _, c := range []struct {
		key string
		w   measure.Milligram
	}{{"pieces", n.Pieces}, {"feeders", n.Feeders}, {"trunk", n.Trunk}, {"button", n.Button}, {"loss", n.Loss}, {"total", n.Total}} {
		t.Columns = append(t.Columns, page.Column{Head: p.say("receipt.need." + c.key)})
		row = append(row, page.Text(p.fig.Grams(c.w, p.step)))
	}
	row[len(row)-1].Style = &p.strong
	text := p.say("receipt.needs")
	if p.r.Alloy != "" {
		text = p.with("receipt.needsof", "alloy", p.r.Alloy)
	}
	p.title(text, 3*p.plain.Leading())
	p.f.Lay(t, [][]page.Cell{row})
}

// balance lays what is missing or over, and what is expected back with boxes
// for what does come back.
func (p *printer) balance() {
	p.doc.Field("missing")
	text := p.say("receipt.notweighed")
	switch {
	case p.r.Missing.Weight > 0:
		text = p.with("receipt.missing", "weight", p.grams(p.r.Missing.Weight), "fineness", p.fine(p.r.Missing.Fineness))
	case p.r.Over > 0:
		text = p.with("receipt.over", "weight", p.grams(p.r.Over))
	case slices.ContainsFunc(p.r.In, func(m Lot) bool { return m.Told > 0 && m.Counted > 0 }):
		text = p.say("receipt.enough")
	}
	p.f.Gap(1)
	p.f.Para(p.value, text)
	p.doc.Field("what comes back")
	if len(p.r.Back) == 0 {
		return
	}
	form := ""
	for _, b := range p.r.Back {
		form = longer(form, p.form(b.Expected))
	}
	var rows [][]page.Cell
	for _, b := range p.r.Back {
		rows = append(rows, p.weighed(p.fig.Text(b.What), b.Expected, form, true))
	}
	p.table("receipt.back", "receipt.expected", form, rows)
}

// choices lays a box to tick for each way to meet what is missing.
func (p *printer) choices() {
	if len(p.r.Choices) == 0 {
		return
	}
	p.doc.Field("choices")
	p.title(p.say("receipt.choices"), hand.Pitch)
	for _, c := range p.r.Choices {
		indent := hand.Tick * 5 / 3
		lines := p.plain.Wrap(p.choice(c), p.f.Frame.Width()-indent)
		h := max(float64(len(lines))*p.plain.Leading(), hand.Tick) + 1.5
		p.f.Block(h, func(l *page.Leaf, x, y, _ float64) {
			at := l.TickBox(x, y, hand.Tick)
			if len(lines) == 1 {
				y += (hand.Tick - p.plain.Leading()) / 2
			}
			l.Lines(at, y+p.plain.Base(), p.plain, lines)
		})
	}
}

// choice says one way in words.
func (p *printer) choice(c Choice) string {
	switch c.Way {
	case TopUp:
		what := p.fine(c.Fineness)
		if c.Alloy != "" {
			what += " (" + c.Alloy + ")"
		}
		return p.with("receipt.topup", "weight", p.grams(c.Weight), "what", what)
	case SmallestFlask:
		text := p.with("receipt.flask", "flask", c.Flask, "weight", p.grams(c.Weight))
		if c.Missing > 0 {
			return text + " " + p.with("receipt.flaskmissing", "weight", p.grams(c.Missing))
		}
		return text + " " + p.say("receipt.flaskenough")
	}
	return p.say("receipt.byhand")
}

// sign lays what counts, and the lines for both hands, at the coming and at the
// going.
func (p *printer) sign() {
	p.doc.Field("signatures")
	line := page.Cell{Draw: func(l *page.Leaf, x, y, w, h float64) { l.WriteLine(x, y+h-1.5, w-2) }}
	counts := p.strong.Wrap(p.say("receipt.counts"), p.f.Frame.Width())
	p.f.Gap(1)
	p.f.Need(float64(len(counts)+1)*p.strong.Leading() + 2*signHeight + 3)
	p.f.Para(p.strong, p.say("receipt.counts"))
	p.f.Gap(1)
	date := p.say("receipt.signdate")
	p.f.Lay(page.Table{Style: p.plain, Heads: p.plain, Pitch: signHeight, Every: 99, Columns: []page.Column{
		{Head: p.say("receipt.sign"), Width: 26}, {Head: p.say("receipt.signin")}, {Head: p.say("receipt.signback")}, {Head: date, Width: p.plain.Width(date) + 4}}},
		[][]page.Cell{{page.Text(p.say("receipt.customer")), line, line, page.Box()}, {page.Text(p.say("receipt.house")), line, line}})
}
