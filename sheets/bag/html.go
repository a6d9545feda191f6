package bag

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"strconv"
	"strings"

	"castweek/jobs/stone"
	"castweek/sheets/desk"
	"castweek/sheets/page"
	"castweek/sheets/words"
	"castweek/tree"
)

//go:embed bag.html
var pageSource string

var pageTemplate = template.Must(template.New("bag").Funcs(template.FuncMap{
	"say": func(string) string { return "" }, "fill": func(string, ...string) string { return "" },
	"day": func(any) string { return "" }, "mm": func(any) string { return "" }, "num": func(any) string { return "" },
	"grams": func(any) string { return "" }, "text": func(string) string { return "" },
}).Parse(pageSource))

// Page writes one bag as a page in HTML: for phones and screen readers, and
// for every script and sign that the paper's fonts lack. It needs no script
// and loads nothing.
func Page(c *tree.Cast, b *tree.Bag, o Options) ([]byte, error) {
	pr := newPrinter(c, o)
	if o.Prints != nil {
		if p, known := o.Prints.Last(PrintKey(b)); known {
			pr.Print = &p
		}
	}
	s := &sheet{printer: pr, b: b}
	t, err := pageTemplate.Clone()
	if err != nil {
		return nil, err
	}
	t.Funcs(template.FuncMap{"say": pr.words.Say, "fill": pr.words.With, "day": pr.fig.Moment, "mm": pr.fig.MM, "num": pr.fig.Count, "text": pr.fig.Text, "grams": s.grams})
	var out bytes.Buffer
	if err := t.Execute(&out, s.page()); err != nil {
		return nil, fmt.Errorf("page of job %s: %w", b.Job, err)
	}
	return out.Bytes(), nil
}

// PageName is the name of a bag's page as a file: "K-204_2.html", with the
// piece, "spares" or "all" behind the job number.
func PageName(b *tree.Bag) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(`/\:*?"<>| `, r) || r < ' ' {
			return '_'
		}
		return r
	}, b.Key()) + ".html"
}

// A webPage is what the template of the page prints.
type webPage struct {
	*tree.Bag
	Lang         string
	Cast         string
	Proposal     bool
	IDs          string
	Alloys       []string
	Warnings     []webCaution
	FindingLines []string
	Lines        []webStone
	Stops        webStops
	Work         []webPart
	Sources      string
	Views, Seats []webView
	Stamp        string
	Tear, AllNew string
	Changes      []webChange
	Removed      []string

	CountIn, CountOut, ShankBoxes, Weighed, Hands webFill
	Each                                          []webFill
}

type webCaution struct{ Word, Text string }

type webChange struct{ Now, Was string }

type webStone struct {
	*tree.BagStone
	Name, Size, Estimate string
	Cares                []webCare
}

type webCare struct{ Word, Level string }

type webStops struct {
	Now, Rest []string
	Limits    []webLimit
}

type webLimit struct{ Marks, Fits, Cut string }

// A webPart is a part of the setting under its heading.
type webPart struct {
	Head  string
	Tasks []webTask
}

type webTask struct {
	ID       string
	N        int
	Cautions []webCaution
	Text     string
}

type webView struct {
	Title         string
	Width, Height string
	Paths         []string
	Spots         []webSpot
}

type webSpot struct {
	X, Y, AtX, AtY, Mark string
	Led                  bool
}

func cautionOf(w *words.Words, fig words.Figures, text string) webCaution {
	key, _, rest := signal(text)
	return webCaution{w.Say(key), fig.Text(rest)}
}

// page fills in what the template prints.
func (s *sheet) page() webPage {
	c, b, w, fig := s.cast, s.b, s.words, s.fig
	p := webPage{Bag: b, Lang: w.Lang, Cast: c.Name, Proposal: c.Proposal, Alloys: s.alloys(), Stamp: s.Stamp()}
	ids := make([]string, len(b.Castings))
	for i, k := range b.Castings {
		ids[i] = k.ID
	}
	p.IDs = strings.Join(ids, " ")
	if len(ids) >= together {
		p.IDs = b.Job + ", " + fig.Castings(len(ids))
	}
	for _, t := range b.Cautions {
		p.Warnings = append(p.Warnings, cautionOf(w, fig, t))
	}
	for _, f := range b.Findings {
		p.FindingLines = append(p.FindingLines, s.finding(f))
	}
	for i := range b.Stones {
		p.Lines = append(p.Lines, s.webStone(&b.Stones[i]))
	}
	p.Stops, p.Work, p.Sources = s.webStops(), s.webWork(), fig.Text(s.sourceText())
	p.CountIn, p.CountOut = s.webCountIn(), s.webCountOut()
	p.ShankBoxes, p.Weighed, p.Each, p.Hands = s.webShank(), s.webWeights(), s.webEach(), s.webHands()
	for i := range b.Pictures {
		p.Views = append(p.Views, viewOf(&b.Pictures[i]))
	}
	for i := range b.Pictures {
		if pic := &b.Pictures[i]; len(pic.Spots) > 0 {
			d := drawingOf(pic, widestView, widestView)
			p.Seats = append(p.Seats, d.view(w.With("bag.spots", "what", strings.TrimSpace(pic.Part+" "+pic.View), "scale", fig.Set(d.scale, 2))))
		}
	}
	s.versions(&p)
	return p
}

// versions fills in what differs from the print before.
func (s *sheet) versions(p *webPage) {
	k := s.Print
	if k == nil {
		return
	}
	for _, change := range k.Changes {
		now := k.Lines[change.Line]
		p.Changes = append(p.Changes, webChange{desk.Plain(now), desk.Was(s.words, now, change.Was)})
	}
	for _, line := range k.Removed {
		p.Removed = append(p.Removed, s.with("sheet.removed", "what", desk.Plain(line)))
	}
	n := strconv.Itoa(k.Replaces)
	if k.Replaces > 0 {
		p.Tear = s.with("sheet.tear", "n", n)
	}
	if k.AllNew {
		p.AllNew = s.with("sheet.allnew", "n", n)
	}
}

func (s *sheet) webStone(st *tree.BagStone) webStone {
	out := webStone{BagStone: st, Name: stoneWords(st), Size: s.size(st), Estimate: s.say("none")}
	if st.Estimate.High > 0 {
		out.Estimate = s.fig.Carat(st.Estimate.Low, st.Estimate.High)
	}
	for _, c := range st.Stands {
		out.Cares = append(out.Cares, webCare{careWord(s.words, c), levelWord(s.words, c.Level)})
	}
	return out
}

func (s *sheet) webStops() webStops {
	var out webStops
	list := stopsOf(s.b, s.say("steps.each"))
	for _, t := range list.now {
		out.Now = append(out.Now, s.fig.Text(t))
	}
	for _, t := range list.rest {
		out.Rest = append(out.Rest, s.fig.Text(t))
	}
	for _, k := range sameLimits(list.limits) {
		out.Limits = append(out.Limits, webLimit{k.mark, s.fig.Text(k.fits), s.fig.Text(k.cut)})
	}
	return out
}

func (s *sheet) webWork() []webPart {
	w := workOf(s.b, s.say("steps.each"))
	n := 0
	part := func(head string, list []task) webPart {
		out := webPart{Head: head}
		for _, t := range list {
			n++
			k := webTask{ID: "step-" + strconv.Itoa(n), N: n, Text: s.taskText(t)}
			for _, c := range t.cautions {
				k.Cautions = append(k.Cautions, cautionOf(s.words, s.fig, c))
			}
			out.Tasks = append(out.Tasks, k)
		}
		return out
	}
	out := []webPart{}
	if len(w.before) > 0 {
		out = append(out, part(s.say("steps.before"), w.before))
	}
	for _, r := range w.runs {
		out = append(out, part(strings.Join(marksOf(r.lines), ", ")+": "+s.runWords(r.lines), r.tasks))
	}
	if len(w.after) > 0 {
		out = append(out, part(s.say("steps.after"), w.after))
	}
	if len(out) == 0 && !stopsOf(s.b, s.say("steps.each")).empty() {
		out = append(out, webPart{})
	}
	return out
}

func levelWord(w *words.Words, l stone.Level) string {
	_, key := shown(l)
	return w.Say(key)
}

// widestView is how wide a drawing on a page may be, in millimetres; a narrower
// screen makes it smaller.
const widestView = 130

// viewOf shows a picture at its true size.
func viewOf(p *tree.Picture) webView {
	bare := *p
	bare.Spots = nil
	d := drawn(&bare, 1)
	return d.view(strings.TrimSpace(p.Part + " " + p.View))
}

// view turns a drawing for the screen, whose y runs downwards.
func (d *drawing) view(title string) webView {
	short := func(v float64) string { return strconv.FormatFloat(v, 'f', 2, 64) }
	base := d.top + float64(d.pic.Height)*d.scale
	v := webView{Title: title, Width: short(d.width()), Height: short(d.height())}
	for _, line := range d.pic.Lines {
		var b strings.Builder
		for _, q := range line {
			if b.Len() > 0 {
				b.WriteByte(' ')
			}
			b.WriteString(short(d.left+q[0]*d.scale) + "," + short(base-q[1]*d.scale))
		}
		v.Paths = append(v.Paths, b.String())
	}
	for _, m := range d.marks {
		k := webSpot{X: short(d.left + m.x), Y: short(d.top + m.y)}
		if m.whole {
			k.Mark, k.AtX, k.AtY, k.Led = m.mark, short(d.left+m.atX), short(d.top+m.atY+page.CapMM(strong.Size)/2), m.led
		}
		v.Spots = append(v.Spots, k)
	}
	return v
}
