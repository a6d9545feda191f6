package pour

import (
	"math"
	"time"

	"castweek/metal/measure"
	"castweek/sheets/page"
	"castweek/tree"
)

// Measures of the drawn burnout, in millimetres.
const (
	leastCurve = 52.0 // readable from half a metre
	mostCurve  = 95.0
	axisLeft   = 21.0 // room for the temperatures
	axisBelow  = 15.0 // room for hours and days
	outPitch   = 5.5  // from one row of flask letters to the next
	outApart   = 6.0  // least distance of two letters in a row
)

// curve draws the temperature of the kiln over the clock: every hold marked
// with its temperature, the ceiling as a dashed line, and above it the letter
// of each flask at the minute in which it comes out. It is as high as the page
// allows, with so much kept free below it where that is possible.
func (p *printer) curve(f *page.Flow, load *tree.Load, out []*tree.Tree, below float64) {
	if len(load.Path) < 2 {
		return
	}
	width := f.Frame.Width() - axisLeft - 4
	end := load.Path[len(load.Path)-1].Minute
	for _, t := range out {
		end = max(end, t.PourAt.Sub(load.On).Minutes())
	}
	top := math.Ceil(float64(max(load.Top, load.Ceiling))/100+0.6) * 100
	across := func(minute float64) float64 { return minute / end * width }
	rows, at := outRows(out, load.On, across)
	strip := float64(rows)*outPitch + 2
	f.Need(strip + leastCurve + axisBelow)
	high := f.Left() - strip - axisBelow
	if high-below >= leastCurve {
		high -= below
	}
	high = min(high, mostCurve)
	up := func(c measure.Celsius) float64 { return float64(c) / top * high }
	// what the curve says is its points, at whatever height it is drawn
	var says []string
	for _, c := range load.Path {
		says = append(says, p.fig.Set(c.Minute, 1)+" min "+p.degrees(c.At))
	}
	for _, t := range out {
		says = append(says, t.Letter()+" "+p.fig.Moment(t.PourAt))
	}
	f.Figure(says, strip+high+axisBelow, func(l *page.Leaf, x, y, w float64) {
		x += axisLeft
		floor := y + strip + high
		p.degreesAxis(l, x, floor, width, high, top)
		p.hoursAxis(l, x, floor, high, load.On, end, across)
		if load.Ceiling > 0 {
			line := floor - up(load.Ceiling)
			l.Dashed([][2]float64{{x, line}, {x + width, line}}, false, page.Edge)
			label := p.with("pour.curve.ceiling", "at", p.degrees(load.Ceiling))
			l.Clear(x+1, line-benchWords.Leading(), benchHead.Width(label)+1, benchWords.Leading()-0.6)
			l.Text(x+1.5, line-1.4, benchHead, label)
		}
		for i, t := range out {
			px := x + across(t.PourAt.Sub(load.On).Minutes())
			base := y + float64(at[i]+1)*outPitch - 1
			l.Line(px, base+0.8, px, floor-up(t.FlaskAt), page.Hair)
			l.TextCentre(px, base, benchHead, t.Letter())
		}
		var line [][2]float64
		for _, c := range load.Path {
			line = append(line, [2]float64{x + across(c.Minute), floor - up(c.At)})
		}
		l.Path(line, false, page.Heavy)
		before := math.Inf(1) // level of the hold before
		for _, s := range load.Stages {
			if s.Kind == tree.StageChange {
				continue
			}
			from, till := s.Reached.Sub(load.On).Minutes(), s.Till.Sub(load.On).Minutes()
			level := floor - up(s.At)
			l.Disc(x+across(from), level, 1.1)
			l.Disc(x+across(till), level, 1.1)
			text, base := p.degrees(s.At), level-1.7
			if math.Abs(level-before) < benchWords.Leading() { // beside it: below the line
				base = level + 2 + page.CapMM(benchHead.Size)
			}
			before = level
			right := max(x+across(till)-0.8, x+benchHead.Width(text)+1)
			l.Clear(right-benchHead.Width(text)-0.5, base-0.2-page.CapMM(benchHead.Size), benchHead.Width(text)+1, page.CapMM(benchHead.Size)+0.8)
			l.TextRight(right, base, benchHead, text)
		}
		for _, t := range out {
			l.Disc(x+across(t.PourAt.Sub(load.On).Minutes()), floor-up(t.FlaskAt), 1.1)
		}
	})
}

// outRows puts the letters of the flasks into rows, so that two that come out
// near each other do not cover each other.
func outRows(out []*tree.Tree, on time.Time, across func(float64) float64) (rows int, at []int) {
	var last []float64
	for _, t := range out {
		x, row := across(t.PourAt.Sub(on).Minutes()), 0
		for row < len(last) && x-last[row] < outApart {
			row++
		}
		if row == len(last) {
			last = append(last, x)
		}
		last[row] = x
		at = append(at, row)
	}
	return len(last), at
}

// degreesAxis is the upright axis with a light line every 200 °C.
func (p *printer) degreesAxis(l *page.Leaf, x, floor, width, high, top float64) {
	l.Line(x, floor, x, floor-high, page.Edge)
	for c := 0.0; c <= top; c += 200 {
		y := floor - c/top*high
		if c > 0 {
			l.Line(x, y, x+width, y, page.Hair)
		}
		l.TextRight(x-1.5, y+page.CapMM(benchWords.Size)/2, benchWords, p.fig.Set(c, 0)+"\u00a0°C")
	}
}

// hoursAxis is the clock below the curve: full hours, as many as have room, and
// the day at its first hour and at midnight.
func (p *printer) hoursAxis(l *page.Leaf, x, floor, high float64, on time.Time, end float64, across func(float64) float64) {
	l.Line(x, floor, x+across(end), floor, page.Edge)
	step := 24
	for _, h := range []int{1, 2, 3, 4, 6, 12} {
		if across(float64(h)*60) >= benchWords.Width("00:00")+3 {
			step = h
			break
		}
	}
	last := on.Add(time.Duration(end * float64(time.Minute)))
	day, free := -1, 0.0 // free: right of the label before, which is near where the clocks go forward
	for at := time.Date(on.Year(), on.Month(), on.Day(), on.Hour(), 0, 0, 0, on.Location()); !at.After(last); at = at.Add(time.Hour) {
		minute := at.Sub(on).Minutes()
		if minute < 0 {
			continue
		}
		px := x + across(minute)
		tick := 1.0
		if wide := benchWords.Width("00:00"); at.Hour()%step == 0 && px-wide/2 >= free {
			tick = 2
			l.TextCentre(px, floor+2.5+benchWords.Base(), benchWords, at.Format("15:04"))
			free = px + wide/2 + 1.5
		}
		l.Line(px, floor, px, floor+tick, page.Hair)
		if at.YearDay() == day {
			continue
		}
		if name := p.fig.Day(at); day < 0 && across(end) > 0 {
			until := time.Date(at.Year(), at.Month(), at.Day()+1, 0, 0, 0, 0, at.Location()).Sub(on).Minutes()
			if until > end || across(until-minute) > benchWords.Width(name)+3 { // else the next day covers it
				l.Text(px, floor+2.5+benchWords.Leading()+benchWords.Base(), benchWords, name)
			}
		} else {
			l.Line(px, floor, px, floor-high, page.Hair)
			l.Text(min(px, x+across(end)-benchWords.Width(name)), floor+2.5+benchWords.Leading()+benchWords.Base(), benchWords, name)
		}
		day = at.YearDay()
	}
}
