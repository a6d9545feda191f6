package main

import (
	"fmt"
	"io"
	"strings"

	"castweek/metal/measure"
	"castweek/tree"
)

// tellFire says when each kiln load is switched on and poured, how much powder
// the flasks take, and what becomes of the metal.
func tellFire(b io.Writer, c *tree.Cast) {
	if c.Yield.Total == 0 {
		return
	}
	fmt.Fprintln(b)
	for _, l := range c.Loads {
		var letters []string
		last := l.First
		for i := range c.Trees {
			if t := &c.Trees[i]; t.Kiln == l.Number && t.PourAt.After(last) {
				last = t.PourAt
			}
		}
		for _, name := range l.Trees {
			letters = append(letters, name[strings.LastIndex(name, "-")+1:])
		}
		fmt.Fprintf(b, "kiln load %d, %s: %s; on %s, poured %s", l.Number, l.Programme, strings.Join(letters, " "), l.On.Format(dayForm), l.First.Format(dayForm))
		if last.After(l.First) {
			fmt.Fprintf(b, " to %s", last.Format("15:04"))
		}
		fmt.Fprintln(b)
		switch {
		case l.ClocksBy > 0:
			fmt.Fprintf(b, "  in it the clocks go forward to %s\n", l.ClocksTo.Format(dayForm))
		case l.ClocksBy < 0:
			fmt.Fprintf(b, "  in it the clocks go back to %s\n", l.ClocksTo.Format(dayForm))
		}
	}
	for _, p := range c.Powders {
		fmt.Fprintf(b, "powder: %s g of %s and %s g of liquid for %s\n", p.Weight.Number(0), p.Powder, p.Liquid.Number(0), count(p.Flasks, "flask"))
	}
	y := c.Yield
	fmt.Fprintf(b, "metal: %s g; %s g become castings, %s g are tied up, %s g expected to be lost; charge yield %s %%, net yield %s %%\n",
		y.Total.Number(3), y.Castings.Number(3), y.TiedUp.Number(3), y.Loss.Number(3), tenths(y.Charge), tenths(y.Net))
}

func tenths(p measure.Percent) string { return measure.Decimals(float64(p), 1) }
