package bag

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"strconv"
	"strings"

	"castweek/jobs/stone"
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
	w := o.words(c)
	fig := words.FiguresOf(w, c.House.Decimal)
	t, err := pageTemplate.Clone()
	if err != nil {
		return nil, err
	}
	t.Funcs(template.FuncMap{"say": w.Say, "fill": w.With, "day": fig.Moment, "mm": fig.MM, "num": fig.Count, "text": fig.Text,
		"grams": (&sheet{printer: &printer{cast: c, words: w, fig: fig}, b: b}).grams})
	var out bytes.Buffer
	if err := t.Execute(&out, pageOf(c, b, w, fig)); err != nil {
		return nil, fmt.Errorf("page of job %s: %w", b.Job, err)
	}
	return out.Bytes(), nil
}

// PageName is the name of a bag's page as a file: "K-204_2.html", with the
// piece, "spares" or "all" behind the job number.
func PageName(b *tree.Bag) string {
	which := strconv.Itoa(b.Piece)
	switch {
	case b.Piece == 0 && len(b.Castings) > 0 && b.Castings[0].Spare:
		which = "spares"
	case b.Piece == 0:
		which = "all"
	}
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(`/\:*?"<>| `, r) || r < ' ' {
			return '_'
		}
		return r
	}, b.Job) + "_" + which + ".html"
}

// A webPage is what the template of the page prints.
type webPage struct {
	*tree.Bag
	Lang     string
	Cast     string
	Proposal bool
	IDs      string
	Alloys   []string
	Warnings []webCaution
	Lines    []webStone
	Weighed  []webWeight
	Views    []webView
	Changes  []webChange
}

type webCaution struct{ Word, Text string }

type webChange struct{ What, Was string }

type webStone struct {
	*tree.BagStone
	Name, Size, Estimate string
	Cares                []webCare
	Steps                []webStep
	Sources              string
}

type webCare struct{ Word, Level string }

type webStep struct {
	ID         string
	Caution    *webCaution
	Text, Tool string
}

type webWeight struct{ Stage, Expected string }

type webView struct {
	Title         string
	Width, Height string
	Paths         []string
	Spots         []webSpot
}

type webSpot struct{ X, Y, Mark string }

func cautionOf(w *words.Words, fig words.Figures, text string) webCaution {
	key, _, rest := signal(text)
	return webCaution{w.Say(key), fig.Text(rest)}
}

func pageOf(c *tree.Cast, b *tree.Bag, w *words.Words, fig words.Figures) webPage {
	s := &sheet{printer: &printer{cast: c, words: w, fig: fig}, b: b}
	p := webPage{Bag: b, Lang: w.Lang, Cast: c.Name, Proposal: c.Proposal, Alloys: s.alloys()}
	ids := make([]string, len(b.Castings))
	for i, k := range b.Castings {
		ids[i] = k.ID
	}
	p.IDs = strings.Join(ids, " ")
	if len(ids) >= together {
		p.IDs = b.Job + ", " + w.With("bag.castings", "n", fig.Count(len(ids)))
	}
	for _, t := range b.Cautions {
		p.Warnings = append(p.Warnings, cautionOf(w, fig, t))
	}
	for i := range b.Stones {
		p.Lines = append(p.Lines, s.webStone(&b.Stones[i], i))
	}
	for _, r := range s.stages() {
		expected := w.Say("none")
		if r.expected > 0 {
			expected = s.grams(r.expected)
		}
		p.Weighed = append(p.Weighed, webWeight{r.stage, expected})
	}
	for i := range b.Pictures {
		p.Views = append(p.Views, viewOf(&b.Pictures[i]))
	}
	if b.Print != nil && !b.Print.AllNew {
		for _, k := range b.Print.Changes {
			was, _ := s.change(k.What)
			p.Changes = append(p.Changes, webChange{k.What, was})
		}
	}
	return p
}

func (s *sheet) webStone(st *tree.BagStone, n int) webStone {
	out := webStone{BagStone: st, Name: stoneWords(st), Size: s.size(st), Estimate: s.say("none"), Sources: strings.Join(sourcesOf(st), "; ")}
	if st.Estimate.High > 0 {
		out.Estimate = s.fig.Carat(st.Estimate.Low, st.Estimate.High)
	}
	for _, c := range st.Stands {
		out.Cares = append(out.Cares, webCare{careWord(s.words, c), levelWord(s.words, c.Level)})
	}
	for i, k := range st.Steps {
		step := webStep{ID: fmt.Sprintf("step-%d-%d", n+1, i+1), Text: s.fig.Text(k.Text), Tool: s.fig.Text(k.Tool)}
		if k.Caution != "" {
			c := cautionOf(s.words, s.fig, k.Caution)
			step.Caution = &c
		}
		out.Steps = append(out.Steps, step)
	}
	return out
}

func levelWord(w *words.Words, l stone.Level) string {
	_, key := shown(l)
	return w.Say(key)
}

// viewOf turns a picture for the screen, whose y runs downwards.
func viewOf(p *tree.Picture) webView {
	short := func(v float64) string { return strconv.FormatFloat(v, 'f', 2, 64) }
	h := float64(p.Height)
	v := webView{Title: strings.TrimSpace(p.Part + " " + p.View), Width: short(float64(p.Width)), Height: short(h)}
	for _, line := range p.Lines {
		var b strings.Builder
		for _, q := range line {
			if b.Len() > 0 {
				b.WriteByte(' ')
			}
			b.WriteString(short(q[0]) + "," + short(h-q[1]))
		}
		v.Paths = append(v.Paths, b.String())
	}
	for _, k := range p.Spots {
		v.Spots = append(v.Spots, webSpot{short(float64(k.X)), short(h - float64(k.Y)), k.Mark})
	}
	return v
}
