package tree

import (
	"fmt"
	"math"
	"strings"
	"time"

	"castweek/jobs/workshop"
	"castweek/metal"
	"castweek/metal/burnout"
	"castweek/metal/invest"
	"castweek/metal/measure"
)

// Investing is the powder and the liquid of one flask, and the clock of mixing.
type Investing struct {
	Fill   measure.CubicMM   // flask less tree
	Powder measure.Milligram // whole grams
	Liquid measure.Milligram // whole grams; of water 1 g is 1 ml
	Ratio  measure.Percent   // liquid of the powder's weight
	Spare  measure.Percent   // mixed beyond what the flask takes
	Clock  []ClockMark
	Sheet  string // where the figures are from
}

// ClockMark is one step of mixing, in minutes from powder into liquid; its Step
// is one of those of [invest.StepMix] and after.
type ClockMark struct {
	Step       string
	From, Till float64
}

// Quench is how long a poured flask waits before it goes into water.
type Quench struct {
	Never       bool    // stones are in it
	Least, Most float64 // minutes; 0 not known
	Words       string  // what sheets say
	Disputed    bool    // sheets disagree about the wait
}

// PowderNeed is the investment powder of all flasks of a cast.
type PowderNeed struct {
	Powder, Bond string
	Flasks       int
	Weight       measure.Milligram
	Liquid       measure.Milligram
}

// gypsumMetal is where the metal itself breaks gypsum down: 24 carat gold cast
// at 1 175 °C asks for phosphate-bonded powder (a gold alloy maker's page).
const gypsumMetal measure.Celsius = 1175

// superheat is added to the liquidus of an alloy that no sheet gives a metal
// temperature for: the middle of the 50 to 100 K of a casters' rule of thumb.
const superheat measure.Celsius = 75

// fire works out powder, kiln and pours of a cast's trees. A tree that can not
// be fired as the house's settings stand is refused, with the reason.
func fire(w *workshop.Workshop, c *Cast) {
	for i := range c.Trees {
		t := &c.Trees[i]
		heat(w, t)
		mixPowder(w, t)
		t.Yield = yieldOf(t.Charge)
	}
	burn(w, c)
	c.tellUnknownHeat()
	var all metal.Charge
	for _, t := range c.Trees {
		if !t.Pourable() {
			continue
		}
		c.addPowder(t)
		all.Patterns += t.Charge.Patterns
		all.Feeders += t.Charge.Feeders
		all.Trunk += t.Charge.Trunk
		all.Button += t.Charge.Button
		all.MeltLoss += t.Charge.MeltLoss
		all.Rounding += t.Charge.Rounding
		all.Total += t.Charge.Total
	}
	c.Yield = yieldOf(all)
}

// tellUnknownHeat asks for what the pour sheets leave boxes for, once an alloy.
func (c *Cast) tellUnknownHeat() {
	letters := map[string][]string{}
	var alloys []string
	for i := range c.Trees {
		t := &c.Trees[i]
		if t.MetalAt > 0 || !t.Pourable() {
			continue
		}
		if letters[t.Alloy] == nil {
			alloys = append(alloys, t.Alloy)
		}
		letters[t.Alloy] = append(letters[t.Alloy], t.Letter())
	}
	for _, a := range alloys {
		c.Remarks = append(c.Remarks, Remark{"", "heat-unknown", fmt.Sprintf("no metal temperature is on file for %s (%s)", a, strings.Join(letters[a], " ")),
			"write it under heat in workshop.yaml, or into the boxes of the pour sheet, from the alloy maker's sheet"})
	}
}

func (t *Tree) refuse(format string, args ...any) {
	t.Refused = append(t.Refused, fmt.Sprintf(format, args...))
}

func (t *Tree) note(format string, args ...any) {
	t.Notes = append(t.Notes, fmt.Sprintf(format, args...))
}

// heat sets how hot metal and flask are at the pour and the wait before the
// quench.
func heat(w *workshop.Workshop, t *Tree) {
	a, _ := w.Alloys.Find(t.Alloy)
	h, ok := w.Firing.HeatOf(a)
	t.FlaskAt, t.MetalAt, t.HeatSheet = h.For(t.Section), h.Metal, h.Source
	t.Quench = Quench{t.InWax, h.WaitLow, h.WaitHigh, h.Quench, h.Disputed}
	if t.MetalAt == 0 && a.Liquidus > 0 {
		t.MetalAt = measure.Celsius(math.Round(float64(a.Liquidus+superheat)/5) * 5)
		t.note("metal temperature: liquidus %s and %d K, a rule of thumb; the alloy maker's sheet wins", a.Liquidus, int(superheat))
	}
	if !ok || t.FlaskAt == 0 {
		t.refuse("no flask temperature is on file for %s; write it under heat in workshop.yaml, from the alloy maker's sheet", t.Alloy)
		return
	}
	if most := w.Firing.StonesTop(); t.InWax && t.FlaskAt > most {
		t.note("the flask is kept at %s for the stones in the wax; without them it would be %s", most, t.FlaskAt)
		t.FlaskAt = most
	}
	if t.InWax && t.Resin {
		t.refuse("stones set in the wax never go with resin: its burnout is too hot for them")
	}
	if t.Bond == bondGypsum && (t.MetalAt >= gypsumMetal || t.FlaskAt > burnout.GypsumCeiling) {
		t.refuse("%s is poured at %s into a flask at %s: gypsum-bonded powder does not stand that; use a phosphate-bonded one", t.Alloy, t.MetalAt, t.FlaskAt)
	}
}

// mixPowder works out powder and liquid of a flask.
func mixPowder(w *workshop.Workshop, t *Tree) {
	for _, p := range w.Powders {
		if p.Name != t.Powder {
			continue
		}
		m, err := p.Mixing.For(invest.FlaskVolume(t.FlaskMM.Diameter, t.FlaskMM.Height), t.Patterns+t.Feeders+t.Trunk, t.Section)
		if err != nil {
			t.refuse("%v", err)
			return
		}
		t.Invest = Investing{Fill: m.Fill, Powder: m.Powder, Liquid: m.Liquid, Ratio: m.Ratio, Spare: m.Spare, Sheet: p.Mixing.Sheet}
		marks, _ := p.Mixing.Clock.Marks()
		for _, k := range marks {
			t.Invest.Clock = append(t.Invest.Clock, ClockMark(k))
		}
		return
	}
	t.refuse("no investment powder of the house is for %s", t.Alloy)
}

// Out is how many minutes a flask may stand out of the kiln before its pour, 0
// not known.
func (c *Cast) Out(t *Tree) float64 {
	if t.OutOfKiln > 0 {
		return t.OutOfKiln
	}
	return c.OutOfKiln
}

// LoadOf is the kiln load of a tree; nil when it is in none.
func (c *Cast) LoadOf(t *Tree) *Load {
	if t.Kiln < 1 || t.Kiln > len(c.Loads) {
		return nil
	}
	return &c.Loads[t.Kiln-1]
}

func (c *Cast) addPowder(t Tree) {
	for i := range c.Powders {
		if p := &c.Powders[i]; p.Powder == t.Powder {
			p.Flasks++
			p.Weight += t.Invest.Powder
			p.Liquid += t.Invest.Liquid
			return
		}
	}
	c.Powders = append(c.Powders, PowderNeed{t.Powder, t.Bond, 1, t.Invest.Powder, t.Invest.Liquid})
}

func hours(h float64) time.Duration { return time.Duration(math.Round(h*60)) * time.Minute }
