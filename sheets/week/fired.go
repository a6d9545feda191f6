package week

import (
	"strings"
	"time"
)

// pours says when the first pour is, and by when the first kiln is on.
func (p *printer) pours() string {
	at := p.fig.Moment(p.cast.Pour)
	var on time.Time
	for _, l := range p.cast.Loads {
		if on.IsZero() || l.On.Before(on) {
			on = l.On
		}
	}
	if on.IsZero() {
		return p.with("week.pours", "at", at)
	}
	return p.with("week.poursfrom", "at", at, "on", p.fig.Moment(on))
}

// fired is what has to be switched on and stand ready for the pours, and what
// becomes of their metal; a full week leaves it to the
// pour sheets.
func (p *printer) fired() {
	c := p.cast
	if p.short {
		return
	}
	for _, l := range c.Loads {
		var letters []string
		for i := range c.Trees {
			if t := &c.Trees[i]; t.Kiln == l.Number {
				letters = append(letters, t.Letter())
			}
		}
		p.f.Para(plain, p.with("week.load", "n", p.fig.Count(l.Number), "on", p.fig.Moment(l.On), "first", p.fig.Moment(l.First), "flasks", strings.Join(letters, " ")))
	}
	for _, n := range c.Powders {
		p.f.Para(plain, p.with("week.powder", "powder", n.Powder, "p", p.fig.Set(float64(n.Weight)/1000, 0), "w", p.fig.Set(float64(n.Liquid)/1000, 0)))
	}
	if y := c.Yield; y.Total > 0 {
		p.f.Para(plain, p.with("week.yield", "all", p.Exact(y.Total), "cast", p.Exact(y.Castings), "back", p.Exact(y.TiedUp), "loss", p.Exact(y.Loss),
			"charge", p.fig.Set(float64(y.Charge), 1), "net", p.fig.Set(float64(y.Net), 1)))
	}
}
