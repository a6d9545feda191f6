package bag

import (
	"strings"

	"castweek/jobs/setting"
	"castweek/sheets/page"
	"castweek/tree"
)

// StopLines are the lines of a bag that say when to stop: what is so already, the
// limits of size of each line of stones, and what holds for all.
type stopLines struct {
	now    []string
	limits []limit
	rest   []string
}

// A limit is within which sizes stones are set as they are, and within which
// the seat is cut to them; outside they go back.
type limit struct{ mark, fits, cut string }

func (s stopLines) empty() bool { return len(s.now)+len(s.limits)+len(s.rest) == 0 }

func stopsOf(b *tree.Bag, each string) stopLines {
	var out stopLines
	type said struct {
		lines   []*tree.BagStone
		numbers [][]setting.Number
	}
	shared, order := map[string]*said{}, []string(nil)
	for i := range b.Stones {
		st := &b.Stones[i]
		sized, limited := limitOf(st)
		if limited {
			out.limits = append(out.limits, sized)
		}
		for _, stop := range st.Stops {
			switch {
			case stop.Now:
				text := stop.Text
				if len(b.Stones) > 1 {
					text = st.Mark + ": " + text
				}
				out.now = append(out.now, text)
			case limited && strings.HasPrefix(stop.Code, "size-"):
			default:
				key := withHoles(stop.Text, stop.Numbers)
				if shared[key] == nil {
					shared[key] = &said{}
					order = append(order, key)
				}
				shared[key].lines = append(shared[key].lines, st)
				shared[key].numbers = append(shared[key].numbers, stop.Numbers)
			}
		}
	}
	for _, key := range order {
		k := shared[key]
		text := filled(k.lines, key, k.numbers, each)
		if marks := marksOf(k.lines); len(k.lines) < len(b.Stones) && !strings.Contains(text, "\u00a0") {
			text = strings.Join(marks, ", ") + ": " + text
		}
		out.rest = append(out.rest, text)
	}
	return out
}

// limitOf reads the limits of a line of stones out of its stop lines.
func limitOf(st *tree.BagStone) (limit, bool) {
	find := func(code string) string {
		for _, k := range st.Stops {
			if k.Code == code && !k.Now {
				var sides []string
				for _, n := range k.Numbers {
					sides = append(sides, strings.ReplaceAll(strings.TrimSuffix(n.String(), " mm"), " ", "\u00a0"))
				}
				return strings.Join(sides, " x ")
			}
		}
		return ""
	}
	out := limit{st.Mark, find("size-fits"), find("size-cut")}
	return out, out.fits != "" && out.cut != "" && find("size-return") == out.cut
}

// stops lays the lines that say when to stop, each beside a heavy bar that may
// go on over a leaf, and the limits of size in a table.
func (s *sheet) stops(list stopLines) {
	if list.empty() {
		return
	}
	for _, text := range list.now {
		s.stop(strong, text+" ("+s.say("steps.now")+")")
	}
	if len(list.limits) > 0 {
		s.limits(list.limits)
	}
	for _, text := range list.rest {
		s.stop(plain, text)
	}
}

// sameLimits puts lines with the same limits into one.
func sameLimits(list []limit) []limit {
	var out []limit
	for _, k := range list {
		known := false
		for i := range out {
			if out[i].fits == k.fits && out[i].cut == k.cut {
				out[i].mark += ", " + k.mark
				known = true
			}
		}
		if !known {
			out = append(out, k)
		}
	}
	return out
}

// limitsHigh is how high the table of sizes is with its head and the line below
// it, or the beginning of a long one.
func limitsHigh(list []limit) float64 {
	if len(list) == 0 {
		return 0
	}
	high := 2.0
	for _, k := range sameLimits(list)[:min(len(sameLimits(list)), 4)] {
		high += float64(1+strings.Count(k.fits, " x "))*plain.Leading() + 1.5
	}
	return high + 4*plain.Leading()
}

// limits lays the table of sizes.
func (s *sheet) limits(list []limit) {
	var rows [][]page.Cell
	for _, k := range sameLimits(list) {
		cell := func(text string) page.Cell { return page.Cell{Text: s.fig.Text(text), Style: &strong} }
		rows = append(rows, []page.Cell{cell(k.mark), cell(k.fits), cell(k.cut)})
	}
	first, second := plain.Width(s.say("steps.measured"))+2.5, plain.Width(s.say("steps.fits"))+2.5
	for _, k := range list {
		for _, part := range strings.Split(k.fits, " x ") {
			second = max(second, strong.Width(part+" x")+2.5)
		}
	}
	s.f.Need(limitsHigh(list))
	s.f.Lay(page.Table{Style: plain, Heads: plain, Pitch: plain.Leading() + 1.5, Columns: []page.Column{
		{Head: s.say("steps.measured"), Width: max(first, s.f.Frame.Width()*0.16)}, {Head: s.say("steps.fits"), Width: second}, {Head: s.say("steps.cut")}}}, rows)
	s.f.Gap(1)
	s.stop(strong, s.say("steps.return"))
}

// stopIndent is the place of the words beside the heavy bar.
const stopIndent = 4.0

// stop lays one line beside its bar.
func (s *sheet) stop(style page.Style, text string) {
	lines := style.Wrap(s.fig.Text(text), s.f.Frame.Width()-stopIndent)
	s.f.Gap(0.6)
	s.f.Need(min(float64(len(lines))*style.Leading(), s.f.Frame.Height()/2))
	s.f.Line([]string{text}, func() {
		for _, line := range lines {
			s.f.Need(style.Leading())
			l := s.f.Leaf()
			l.Bar(s.f.Frame.Left, s.f.Y, 1.2, style.Leading())
			l.Text(s.f.Frame.Left+stopIndent, s.f.Y+style.Base(), style, line)
			s.f.Y += style.Leading()
		}
	})
	s.f.Gap(0.6)
}
