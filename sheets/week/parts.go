package week

import (
	"cmp"
	"slices"
	"sort"
	"strings"
	"time"
	"unicode/utf8"

	"castweek/sheets/page"
	"castweek/tree"
)

// late comes first: what cannot be kept.
func (p *printer) late() {
	if len(p.cast.Late) == 0 {
		return
	}
	p.section(p.say("week.late"))
	for _, l := range p.cast.Late {
		p.item(l.Job, p.with("week.lateline", "due", p.fig.Moment(l.Due), "ready", p.fig.Moment(l.Ready)))
	}
}

// decide lists what a person has to look at before the pour: refused trees,
// held jobs, what is left over, remarks.
func (p *printer) decide() {
	p.section(p.say("week.decide"))
	n := 0
	add := func(job, text, remedy string) {
		if remedy != "" && !p.short {
			text = strings.TrimSuffix(text, ".") + ". " + upper(remedy) + "."
		}
		p.Doc.About(job, "")
		p.item(job, text)
		n++
	}
	for i := range p.cast.Trees {
		if t := &p.cast.Trees[i]; !t.Pourable() {
			add("", p.with("week.refused", "letter", t.Letter(), "reason", strings.Join(t.Refused, "; ")), "")
		}
	}
	for _, h := range p.cast.Held {
		add(h.Job, p.with("week.held", "reason", h.Reason)+p.asked(h), "")
	}
	for _, l := range p.cast.LeftOver {
		add(l.Job, p.with("week.leftover", "ids", strings.Join(l.Castings, ", "), "reason", l.Reason), "")
	}
	remarks := p.remarks()
	more := 0
	if p.twin && len(remarks) > p.most {
		more = len(remarks) - p.most
		remarks = remarks[:p.most]
	}
	for _, r := range remarks {
		add(r.Job, r.Text, r.Remedy)
	}
	switch {
	case more > 0:
		p.item("", p.with("week.more", "n", p.fig.Count(more), "sheet", p.say("book.sheet.waiting")))
	case n == 0:
		p.item("", p.say("week.decided"))
	case p.short && len(p.cast.Remarks) > 0:
		p.item("", p.with("week.whattodo", "sheet", p.say("book.sheet.waiting")))
	}
}

// remarks are those of the cast and of its bags; in a full week those that say
// the same of several jobs are one, and the rest of each is left to the
// workbook.
func (p *printer) remarks() []tree.Remark {
	list := p.cast.AllRemarks()
	if !p.short {
		return list
	}
	var out []tree.Remark
	for _, r := range list {
		r.Text, _, _ = strings.Cut(r.Text, ";") // the rest is where the remedy is
		same := slices.IndexFunc(out, func(o tree.Remark) bool { return o.Code == r.Code && o.Text == r.Text && o.Job != "" && r.Job != "" })
		if same < 0 {
			out = append(out, r)
		} else if !strings.Contains(out[same].Job, r.Job) {
			out[same].Job += " " + r.Job
		}
	}
	return out
}

// gone lists what was printed for the cast and is not in it any more.
func (p *printer) gone() {
	var words []string
	for _, g := range p.GoneOf() {
		n := p.fig.Count(g.Number)
		if g.Bag != "" {
			words = append(words, p.with("week.gone.bag", "id", g.Bag, "n", n))
		} else {
			words = append(words, p.with("week.gone.tree", "tree", g.Tree, "n", n))
		}
	}
	if len(words) == 0 {
		return
	}
	list := strings.Join(words, "; ")
	if p.tight {
		p.f.Para(strong, p.say("week.gone")+": "+list)
		return
	}
	p.section(p.say("week.gone"))
	p.item("", list)
}

func upper(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if r == utf8.RuneError {
		return s
	}
	return strings.ToUpper(string(r)) + strings.TrimSuffix(s[n:], ".")
}

func (p *printer) asked(w tree.Waiting) string {
	if w.Ask == "" {
		return ""
	}
	return ". " + p.with("week.ask", "who", w.Ask)
}

// promised is one line a job in the order of the due days.
func (p *printer) promised() {
	jobs := jobsByDue(p.cast)
	p.section(p.say("week.due"))
	if len(jobs) == 0 {
		p.item("", p.say("week.none"))
		return
	}
	if p.twin {
		p.twins(jobs)
		return
	}
	var rows [][]page.Cell
	for _, b := range jobs {
		due := p.due(b)
		what, whom := b.Design, ""
		if b.For != "" {
			whom = ", " + b.For
		}
		if p.tight { // for whom stays
			what = firstLine(what, p.f.Frame.Width()-dueWidth-jobWidth-flaskWidth-printWidth-doneWidth-columnGap-plain.Width(whom))
		}
		var prints []string
		for _, n := range p.Valid(b.Job) {
			prints = append(prints, p.fig.Count(n))
		}
		rows = append(rows, []page.Cell{page.Text(due), {Text: b.Job, Style: &code}, page.Text(what + whom), {Text: flasks(p.cast, b.Job), Style: &strong},
			page.Text(strings.Join(prints, " ")), page.Tick(page.Desk.Tick)})
	}
	p.f.Lay(page.Table{Style: plain, Heads: stamp, Columns: []page.Column{{Head: p.say("week.duehead"), Width: dueWidth}, {Head: p.say("week.jobhead"), Width: jobWidth},
		{Head: p.say("week.whathead")}, {Head: p.say("week.flaskhead"), Width: flaskWidth}, {Head: p.say("week.printhead"), Width: printWidth},
		{Head: p.say("week.donehead"), Width: doneWidth}}}, rows)
}

// due is a job's due day and hour, without the year.
func (p *printer) due(b *tree.Bag) string {
	if b.Due.IsZero() {
		return p.say("none")
	}
	return strings.TrimSuffix(p.fig.Day(b.Due), "\u00a0"+b.Due.Format("2006")) + " " + b.Due.Format("15:04")
}

// twins are two jobs a line, read downwards: for whom, but not what. The day of
// the week is left out.
func (p *printer) twins(jobs []*tree.Bag) {
	const due, job, flask, done, between, tick = 40.0, 22.0, 12.0, 8.0, 3.0, 5.5
	half := (p.f.Frame.Width() - between) / 2
	whom := half - due - job - flask - done
	cells := func(b *tree.Bag) []page.Cell {
		_, day, _ := strings.Cut(p.due(b), " ")
		return []page.Cell{page.Text(cmp.Or(day, p.due(b))), {Text: b.Job, Style: &code}, page.Text(firstLine(b.For, whom-columnGap)),
			{Text: flasks(p.cast, b.Job), Style: &strong}, page.Tick(tick)}
	}
	down := (len(jobs) + 1) / 2
	var rows [][]page.Cell
	for i := range down {
		row := append(cells(jobs[i]), page.Cell{})
		if i+down < len(jobs) {
			row = append(row, cells(jobs[i+down])...)
		} else {
			row = append(row, make([]page.Cell, 5)...)
		}
		rows = append(rows, row)
	}
	columns := []page.Column{{Head: p.say("week.duehead"), Width: due}, {Head: p.say("week.jobhead"), Width: job}, {Head: p.say("week.whomhead"), Width: whom},
		{Head: p.say("week.flaskhead"), Width: flask}, {Width: done}}
	columns = append(append(columns, page.Column{Width: between}), columns...)
	p.f.Lay(page.Table{Style: plain, Heads: stamp, Columns: columns}, rows)
	p.f.Para(stamp, p.with("week.whatelse", "sheet", p.say("book.sheet.week")))
}

// Widths of the columns of what was promised.
const (
	dueWidth   = 54.0
	jobWidth   = 25.0
	flaskWidth = 16.0
	printWidth = 14.0
	doneWidth  = 12.0
	columnGap  = 2.0 // that a table leaves free of a column
)

// firstLine is as much of a text as fits one line; the bag has it whole.
func firstLine(text string, width float64) string {
	width = max(width, 30) // some of it is always there
	lines := plain.Wrap(text, width)
	if len(lines) == 1 {
		return lines[0]
	}
	return plain.Wrap(text, width-plain.Width(" …"))[0] + " …"
}

// poured is one entry a flask, in two columns where they fit, read downwards.
func (p *printer) poured() {
	p.section(p.with("week.poured", "day", p.fig.Day(p.cast.Pour)))
	var list []flask
	half, columns := p.f.Frame.Width()/2, 2
	for i := range p.cast.Trees {
		t := &p.cast.Trees[i]
		if !t.Pourable() {
			continue
		}
		e := flask{t.Letter(), t.Alloy, p.with("week.flaskline", "castings", p.fig.Castings(len(t.Castings)), "g", p.fig.Grams(t.Charge.Total, p.cast.House.ScaleStep))}
		if !t.PourAt.IsZero() && p.fig.Day(t.PourAt) != p.fig.Day(p.cast.Pour) {
			e.rest += ", " + p.fig.Moment(t.PourAt)
		}
		list = append(list, e)
		if e.width() > half-5 {
			columns = 1
		}
	}
	if len(list) == 0 {
		p.item("", p.say("week.none"))
	}
	down := (len(list) + columns - 1) / columns
	for i := range down {
		p.f.Block(plain.Leading(), func(l *page.Leaf, x, y, w float64) {
			for k := i; k < len(list); k += down {
				list[k].put(l, x+float64(k/down)*half, y)
			}
		})
	}
	p.fired()
}

// metal is what to order by when, what a customer has to bring, and what stays
// in the box; in a full week the orders alone.
func (p *printer) metal() {
	var lines []string
	var by time.Time
	var order []string
	end := func() {
		if len(order) > 0 {
			lines = append(lines, p.with("week.order", "by", p.fig.Moment(by), "what", strings.Join(order, ", ")))
		}
		order = nil
	}
	for _, b := range byOrder(p.cast.Buy) {
		what := p.with("week.of", "g", p.fig.Grams(b.Weight, max(p.cast.House.ScaleStep, 1)), "alloy", b.Alloy)
		if !p.short {
			what += " (" + strings.ReplaceAll(b.Trees(), p.cast.Name+"-", "") + ")"
		}
		if b.Owner != "" {
			if !p.short { // it needs a decision, and stands there
				lines = append(lines, p.with("week.bring", "what", what, "who", b.Owner))
			}
			continue
		}
		if !b.OrderBy.Equal(by) {
			end()
			by = b.OrderBy
		}
		order = append(order, what)
	}
	end()
	if p.short {
		for _, text := range lines {
			p.f.Para(plain, text)
		}
		return
	}
	var left []string
	for _, l := range p.cast.LeftByAlloy() {
		text := p.with("week.of", "g", p.fig.Grams(l.Weight, 1), "alloy", l.Alloy)
		if l.Owner != "" {
			text = p.with("week.leftown", "what", text, "who", l.Owner)
		}
		left = append(left, text)
	}
	if len(left) > 0 {
		lines = append(lines, p.with("week.left", "what", strings.Join(left, ", ")))
	}
	if len(lines) == 0 {
		return
	}
	p.section(p.say("week.metal"))
	for _, text := range lines {
		p.item("", text)
	}
}

// byOrder puts what customers bring first, then the orders by their day.
func byOrder(list []tree.Purchase) []tree.Purchase {
	out := append([]tree.Purchase(nil), list...)
	sort.SliceStable(out, func(i, j int) bool {
		if own := out[i].Owner != ""; own != (out[j].Owner != "") {
			return own
		}
		return out[i].OrderBy.Before(out[j].OrderBy)
	})
	return out
}

// A flask is what the page says of one flask.
type flask struct{ letter, alloy, rest string }

const letterRoom = 12.0 // for the letter, before the alloy

func (e flask) width() float64 { return letterRoom + strong.Width(e.alloy) + 5 + plain.Width(e.rest) }

func (e flask) put(l *page.Leaf, x, y float64) {
	l.Text(x, y+strong.Base(), strong, e.letter)
	x = l.Text(x+letterRoom, y+plain.Base(), strong, e.alloy)
	l.Text(x+5, y+plain.Base(), plain, e.rest)
}

// waits is what is not cast by the workshop's own choice, and whom to ask.
func (p *printer) waits() {
	p.section(p.say("week.waits"))
	for _, w := range p.cast.Waiting {
		p.Doc.About(w.Job, "")
		text := w.Design + ": " + w.Reason + p.asked(w)
		if p.twin {
			text = firstLine(w.Reason+p.asked(w), p.f.Frame.Width()-40)
		}
		p.item(w.Job, text)
	}
	if len(p.cast.Waiting) == 0 {
		p.item("", p.say("week.none"))
	}
}
