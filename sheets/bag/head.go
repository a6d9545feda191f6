package bag

import (
	"strings"

	"castweek/sheets/page"
)

// Sizes of the head and foot of a leaf, in millimetres.
const (
	leftEdge   = 13.0 // where a clip may hold the paper
	footHeight = 8.0
	module     = 0.8 // of the QR code: read at arm's length
)

// begin starts the flow of a bag on a paper.
func (s *sheet) begin(p page.Paper) {
	frame := p.Inside(leftEdge)
	frame.Bottom -= footHeight
	s.f = s.doc.Flow(p, frame)
	s.f.Head, s.f.Foot = s.head, s.foot
}

func (s *sheet) head(l *page.Leaf, number int) float64 {
	if number > 1 {
		return s.again(l)
	}
	return s.first(l)
}

// first draws the head of the first leaf: on the right the QR code above the
// job number, on the left which castings these are, the piece in words, and
// for whom. A job number too long for that takes the first line for itself.
func (s *sheet) first(l *page.Leaf) float64 {
	fr := s.f.Frame
	job := s.jobStyle(fr.Width() * 0.4)
	c := s.doc.Code(s.b.Job)
	side := c.Side(module)
	top, bottom, block := fr.Top, fr.Top-3+side, side
	if w := job.Width(s.b.Job); w > fr.Width()*0.4 {
		y := l.Lines(fr.Left, top+job.Base()-1, job, job.Wrap(s.b.Job, fr.Width()))
		top = y - job.Base() + 1
		bottom = top - 3 + side
	} else {
		block = max(side, w)
		l.TextRight(fr.Right, bottom+job.Base()-1, job, s.b.Job)
		bottom += job.Leading()
	}
	l.Code(c, fr.Right-side+3, top-3, module)

	width := fr.Width() - block - 3
	y := s.stamps(l, fr.Left, top, width)
	y = s.ids(l, fr.Left, y, width)
	s.doc.Field("design")
	y = s.name(l, y, bottom, width)
	kind := s.b.Kind
	if s.b.Title != "" {
		kind += ", " + s.b.Title
	}
	l.Text(fr.Left, y+plain.Base(), plain, kind)
	y += plain.Leading()
	return max(y, bottom) + 1
}

// name draws the design, beside the code and then below it. What does not fit
// the upper half of the leaf is kept for the flow.
func (s *sheet) name(l *page.Leaf, y, bottom, width float64) float64 {
	fr := s.f.Frame
	st := value
	if s.form == Short {
		st = strong
	}
	text := s.b.Design
	for text != "" {
		room := width
		if y > bottom {
			room = fr.Width()
		}
		if y > fr.Top+fr.Height()*0.5 {
			s.rest = text
			break
		}
		lines := st.Wrap(text, room)
		l.Text(fr.Left, y+st.Base(), st, lines[0])
		y += st.Leading()
		text = strings.Join(lines[1:], " ")
	}
	return y
}

// jobStyle is the largest of the sizes in which the job number fits.
func (s *sheet) jobStyle(width float64) page.Style {
	for _, st := range []page.Style{identity, bigCode} {
		if s.form == Short && st == identity {
			continue
		}
		if st.Width(s.b.Job) <= width {
			return st
		}
	}
	return code
}

// stamps draws what kind of paper this is: the word "proposal" until the cast
// is accepted, the print it is, and which print it replaces.
func (s *sheet) stamps(l *page.Leaf, x, y, width float64) float64 {
	line := s.say("bag.title") + " " + s.cast.Name
	if s.form == Short {
		line = s.say("bag.short") + " " + s.cast.Name
	}
	if s.cast.Proposal {
		word := s.say("sheet.proposal")
		l.Rect(x, y, strong.Width(word)+3, strong.Leading()+0.5, page.Heavy)
		l.Text(x+1.5, y+strong.Base()+0.2, strong, word)
		end := x + strong.Width(word) + 6
		below := l.Lines(end, y+strong.Base()+0.2, stamp, stamp.Wrap(line, x+width-end)) - strong.Base()
		y = max(y+strong.Leading()+2, below+1)
	} else {
		y = l.Lines(x, y+stamp.Base(), stamp, stamp.Wrap(line, width)) - stamp.Base() + 0.5
	}
	text := s.Stamp()
	if text == "" {
		return y
	}
	s.doc.Quiet(func() { y = l.Lines(x, y+stamp.Base(), stamp, stamp.Wrap(text, width)) - stamp.Base() + 1 })
	return y
}

// ids draws the castings of the bag in the largest type; more than four are
// listed in the bag's contents and only counted here.
func (s *sheet) ids(l *page.Leaf, x, y, width float64) float64 {
	const most = 4
	if n := len(s.b.Castings); n > most {
		st := page.Style{Face: page.Bold, Size: page.Bench.Identity}
		if s.form == Short {
			st = value
		}
		return l.Lines(x, y+st.Base(), st, st.Wrap(s.fig.Castings(n), width)) - st.Base()
	}
	st := identity
	if s.form == Short {
		st = bigCode
	}
	at := x
	for _, c := range s.b.Castings {
		w := st.Width(c.ID)
		for _, smaller := range []page.Style{bigCode, code} {
			if w > width && smaller.Size < st.Size {
				st = smaller
				w = st.Width(c.ID)
			}
		}
		if at > x && at+w > x+width {
			at, y = x, y+st.Leading()
		}
		for i, line := range st.Wrap(c.ID, width) {
			if i > 0 {
				at, y = x, y+st.Leading()
			}
			at = l.Text(at, y+st.Base(), st, line)
		}
		at += st.Width("n") * 0.7
	}
	return y + st.Leading()
}

// again draws the head of a following leaf: the same identity, smaller.
func (s *sheet) again(l *page.Leaf) float64 {
	fr := s.f.Frame
	st := bigCode
	if st.Width(s.b.Job) > fr.Width()/2 {
		st = code
	}
	l.TextRight(fr.Right, fr.Top+st.Base()-1, st, s.b.Job)
	x := fr.Left
	if s.cast.Proposal {
		x = l.Text(x, fr.Top+st.Base()-1, strong, s.say("sheet.proposal")) + 3
	}
	room := fr.Right - st.Width(s.b.Job) - 4 - x
	second, ids := fr.Left, s.which(room)
	if code.Width(ids)+4+plain.Width(s.b.Design) <= room { // all on one line
		x = l.Text(x, fr.Top+st.Base()-1, code, ids) + 4
		l.Text(x, fr.Top+st.Base()-1, plain, s.b.Design)
		y := fr.Top + st.Leading()
		l.Line(fr.Left, y, fr.Right, y, page.Edge)
		return y + 1.5
	}
	if code.Width(ids) <= room {
		l.Text(x, fr.Top+st.Base()-1, code, ids)
	} else { // no room beside the number: below it, before the name
		second = l.Text(second, fr.Top+st.Leading()+plain.Base()-1, code, fit(code, ids, fr.Width()*0.7)) + 3
	}
	l.Text(second, fr.Top+st.Leading()+plain.Base()-1, plain, fit(plain, s.b.Design, fr.Right-second))
	y := fr.Top + st.Leading() + plain.Leading()
	l.Line(fr.Left, y, fr.Right, y, page.Edge)
	return y + 1.5
}

// which names the castings of the bag in few characters.
func (s *sheet) which(room float64) string {
	if len(s.b.Castings) > 2 || len(s.b.Castings) == 0 {
		return s.fig.Castings(len(s.b.Castings))
	}
	ids := make([]string, len(s.b.Castings))
	for i, c := range s.b.Castings {
		ids[i] = c.ID
	}
	all := strings.Join(ids, " ")
	if code.Width(all) > room { // the job number stands beside it
		all = strings.ReplaceAll(all, s.b.Job, "")
	}
	return all
}

// fit is the first line of a text that stands in full on the first leaf.
func fit(st page.Style, text string, width float64) string {
	lines := st.Wrap(text, width)
	if len(lines) == 1 {
		return lines[0]
	}
	return st.Wrap(text, width-st.Width(" …"))[0] + " …"
}

// foot repeats the number and counts the pages above the place of the thumb,
// with the bar that proves the true size below.
func (s *sheet) foot(l *page.Leaf, number, of int) {
	fr := s.f.Frame
	y := fr.Bottom + footHeight - 1
	l.Line(fr.Left, y-6, fr.Right, y-6, page.Hair)
	count := s.PageOf(number, of)
	if fr.Width() < plain.Width(count)+code.Width(s.b.Job)+2 { // the print stands beside the bar
		count = s.Count(number, of)
		l.TextRight(fr.Right, s.f.Paper.H-page.LineEdge-2, stamp, s.Number())
	}
	l.Text(fr.Left, y-1, plain, count)
	l.TextRight(fr.Right, y-1, code, s.b.Job)
	s.TrueSize(l, fr.Left, s.f.Paper.H-page.LineEdge-2, stamp, fr.Right)
}
