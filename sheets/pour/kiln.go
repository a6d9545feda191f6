package pour

import (
	"strconv"

	"castweek/metal/measure"
	"castweek/sheets/page"
	"castweek/tree"
)

// Columns of the page at the kiln, from the left edge of the frame.
const (
	kilnPlan  = 47.0
	kilnReal  = 117.0
	kilnAlloy = 69.0
)

// glove is the hand of a caster at the kiln.
var glove = page.Gloved

// kilnPage is one flask at the kiln: five large values at most (flask, alloy,
// grams, flask and metal temperature), what to read back, and the cautions
// straight before the pour. It is one page, after so many before it.
func (p *printer) kilnPage(t *tree.Tree, nth, before int) []*page.Leaf {
	begun := p.doc.Bookmark()
	leaves := p.kilnLeaves(t, nth, before, false)
	if len(leaves) > 1 { // no room for what the changed lines were
		p.doc.Rewind(begun)
		leaves = p.kilnLeaves(t, nth, before, true)
	}
	return leaves
}

func (p *printer) kilnLeaves(t *tree.Tree, nth, before int, barsOnly bool) []*page.Leaf {
	f := p.kilnFlow(t.Name)
	f.BarsOnly = barsOnly
	foot := f.Foot
	f.Foot = func(l *page.Leaf, n, of int) { foot(l, n+before, of+before) }
	wide := kilnValue.Width(t.Alloy) > f.Frame.Width()-kilnAlloy
	f.Block(kilnName.Leading(), func(l *page.Leaf, x, y, w float64) {
		base := y + kilnName.Base()
		x = l.Text(x, base, kilnWords, p.say("pour.head.flask"))
		x = l.Text(x+5, base, kilnName, t.Letter())
		if !wide {
			l.Text(max(x+10, f.Frame.Left+kilnAlloy), base, kilnValue, t.Alloy)
		}
	})
	if wide {
		f.Para(kilnValue, t.Alloy)
	}
	f.Para(kilnWords, p.kilnLine(t, nth))
	if owner, yes := whose(t); yes {
		f.Para(page.Style{Face: page.Bold, Size: page.Kiln.Stamp}, p.with("pour.owner", "owner", owner))
	}
	unit := "\u00a0" + p.say("unit.g")
	p.kilnRow(f, "pour.grams", p.Scale(t.Charge.Total)+unit, p.Cells(t.Charge.Total), p.say("unit.g"))
	p.pourCautions(f, t)
	if t.FlaskAt <= 0 || t.MetalAt <= 0 {
		f.Para(kilnStamp, p.say("pour.unknown"))
	}
	p.kilnRow(f, "pour.flaskat", p.degrees(t.FlaskAt), "0000", "°C")
	p.kilnRow(f, "pour.metalat", p.degrees(t.MetalAt), "0000", "°C")
	f.Gap(1)
	p.result(f)
	f.Para(kilnHead, p.done(t))
	f.Para(kilnStamp, p.say("pour.makers"))
	return f.End()
}

func (p *printer) kilnLine(t *tree.Tree, nth int) string {
	s := p.with("pour.nth", "n", p.fig.Count(nth), "of", p.fig.Count(len(p.trees)))
	switch {
	case t.Order == 0:
		s = p.say("pour.unordered")
	case !t.PourAt.IsZero():
		s += ", " + p.pourTime(t)
	}
	if t.Flask != "" {
		s += ", " + t.Flask
	}
	if t.Crucible != "" {
		s += ", " + named(p.say("pour.crucible"), t.Crucible)
	}
	return s
}

// done is what happens to the poured flask.
func (p *printer) done(t *tree.Tree) string {
	switch q := t.Quench; {
	case t.InWax || q.Never:
		return p.say("pour.donewax")
	case q.Disputed:
		return p.say("pour.donedecided")
	case q.Most > q.Least:
		return p.with("pour.donewait", "low", p.fig.Set(q.Least, 0), "high", p.fig.Set(q.Most, 0))
	}
	return p.say("pour.done")
}

// pourTime is when it is a flask's turn, with the day where that is not the
// cast day.
func (p *printer) pourTime(t *tree.Tree) string {
	if t.PourAt.YearDay() != p.cast.Pour.YearDay() || t.PourAt.Year() != p.cast.Pour.Year() {
		return p.with("pour.day", "day", p.say("day."+strconv.Itoa(int(t.PourAt.Weekday()))), "at", t.PourAt.Format("15:04"))
	}
	return t.PourAt.Format("15:04")
}

// degrees writes a temperature; one that nobody gave is nothing, and boxes to
// write it in take its place.
func (p *printer) degrees(c measure.Celsius) string {
	if c <= 0 {
		return ""
	}
	return p.fig.Set(float64(c), 0) + "\u00a0°C"
}

// kilnRow is one value to keep to and the boxes for the real one.
func (p *printer) kilnRow(f *page.Flow, key, value, form, unit string) {
	f.Block(kilnValue.Leading(), func(l *page.Leaf, x, y, w float64) {
		base := y + kilnValue.Base()
		plan := max(x+kilnPlan, l.Text(x, base, kilnWords, p.say(key))+3)
		if value == "" {
			l.Digits(plan, y+(kilnValue.Leading()-glove.CellH)/2, glove, form, kilnWords, unit)
		} else {
			l.Text(plan, base, kilnValue, value)
		}
		l.Digits(x+kilnReal, y+(kilnValue.Leading()-glove.CellH)/2, glove, form, kilnWords, unit)
	})
}

// result is what the caster writes down when the flask is poured.
func (p *printer) result(f *page.Flow) {
	f.Block(glove.Pitch, func(l *page.Leaf, x, y, w float64) {
		base := y + (glove.Pitch+page.CapMM(kilnWords.Size))/2
		l.Text(x, base, kilnWords, p.say("pour.poured"))
		end := l.Digits(x+kilnPlan, y+1, glove, "00", kilnWords, "")
		l.Disc(end+2, y+4.5, 0.8)
		l.Disc(end+2, y+9.5, 0.8)
		l.Digits(end+4, y+1, glove, "00", kilnWords, "")
	})
	f.Gap(1.5)
	f.Block(glove.Pitch, func(l *page.Leaf, x, y, w float64) {
		at := x
		for _, key := range []string{"pour.good", "pour.short", "pour.again"} {
			left := l.TickBox(at, y+2, glove.Tick)
			l.Text(left, y+(glove.Pitch+page.CapMM(kilnWords.Size))/2, kilnWords, p.say(key))
			at += w / 3
		}
	})
}
