package tree

import (
	"slices"
	"sort"
	"strings"
	"time"

	"castweek/jobs/workshop"
	"castweek/metal/measure"
	"castweek/metal/mix"
)

// Purchase is metal that no lot on hand can give: to be ordered, or to be
// brought by the customer whose it is.
type Purchase struct {
	Alloy, Owner string
	Weight       measure.Milligram
	OrderBy      time.Time // so that it is here at the first pour that needs it
	For          []TreeShort
}

// TreeShort is what one tree is short of. A tree of an accepted cast was spoken
// of when that cast was planned.
type TreeShort struct {
	Tree     string
	Weight   measure.Milligram
	Accepted bool
}

// TreeNames names the trees that are short.
func (p Purchase) TreeNames() (out []string) {
	for _, t := range p.For {
		out = append(out, t.Tree)
	}
	return out
}

// Trees names them in one text.
func (p Purchase) Trees() string { return strings.Join(p.TreeNames(), ", ") }

// here is the part of it that the trees of this cast are short of.
func (p Purchase) here() (mg measure.Milligram) {
	for _, t := range p.For {
		if !t.Accepted {
			mg += t.Weight
		}
	}
	return mg
}

// purchases gathers what is short by alloy and owner.
type purchases struct {
	shop *workshop.Workshop
	list []Purchase
}

func (b *purchases) add(p mix.Pour, short measure.Milligram, pour time.Time, here bool) {
	if short == 0 {
		return
	}
	by := pour.Add(-b.lead(p.Alloy))
	line := TreeShort{p.Tree, short, !here}
	for i := range b.list {
		if x := &b.list[i]; x.Alloy == p.Alloy && x.Owner == p.Owner {
			x.Weight += short
			x.For = append(x.For, line)
			if by.Before(x.OrderBy) {
				x.OrderBy = by
			}
			return
		}
	}
	b.list = append(b.list, Purchase{p.Alloy, p.Owner, short, by, []TreeShort{line}})
}

// put lists them on the cast, and says when it is too late for the delivery or
// when it is a customer who has to bring it. What only accepted casts are short
// of was said with them and is listed without another remark.
func (b *purchases) put(c *Cast) {
	sort.SliceStable(b.list, func(i, j int) bool {
		x, y := b.list[i], b.list[j]
		if x.Alloy != y.Alloy {
			return x.Alloy < y.Alloy
		}
		return x.Owner < y.Owner
	})
	c.Buy = b.list
	for _, p := range c.Buy {
		missing := p.here()
		switch {
		case missing == 0:
		case p.Owner != "":
			c.Remarks = append(c.Remarks, Remark{"", "metal-customer-short", p.Owner + "'s own " + p.Alloy + ": " + missing.String() + " are missing",
				"agree it with the customer, on the receipt: more metal, topping up, the smallest flask, or made by hand"})
		case c.Pour.Add(-b.lead(p.Alloy)).Before(c.AsOf):
			c.Remarks = append(c.Remarks, Remark{"", "metal-order-late", missing.String() + " of " + p.Alloy + " are missing, and the delivery takes longer than until the pour",
				"ask the supplier for a quicker delivery, or cast it next time"})
		}
	}
}

func (b *purchases) lead(alloy string) time.Duration {
	a, _ := b.shop.Alloys.Find(alloy)
	return b.shop.Stock.ReuseOf(a).Lead
}

// AlloyLeft is what stays of an alloy after the cast, all lots together.
type AlloyLeft struct {
	Alloy, Owner string
	Weight       measure.Milligram
}

// LeftByAlloy adds up what stays, by alloy and owner; what runs out is left
// out.
func (c *Cast) LeftByAlloy() (out []AlloyLeft) {
	for _, l := range c.LotsLeft {
		i := slices.IndexFunc(out, func(x AlloyLeft) bool { return x.Alloy == l.Alloy && x.Owner == l.Owner })
		switch {
		case l.Weight == 0:
		case i < 0:
			out = append(out, AlloyLeft{l.Alloy, l.Owner, l.Weight})
		default:
			out[i].Weight += l.Weight
		}
	}
	sort.Slice(out, func(i, j int) bool {
		if out[i].Alloy != out[j].Alloy {
			return out[i].Alloy < out[j].Alloy
		}
		return out[i].Owner < out[j].Owner
	})
	return out
}
