package tree

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

// Printed is what was last printed of the bags of a cast, so that a page that
// replaces an earlier one can say so.
type Printed struct {
	Cast string
	Bags []PrintedBag
}

// PrintedBag is what one bag said. Print is nil for a first print.
type PrintedBag struct {
	Key   string
	Print *Print
	Facts []Fact
}

// A Fact is one thing that a bag says, in words, under a name that [Change]
// uses.
type Fact struct{ What, Words string }

// allNewBeyond is the share of changed facts above which bars in the margin
// would say nothing (technical manuals' practice for revised pages).
const allNewBeyond = 0.6

// Number tells the bags of a cast from their earlier prints: an unchanged bag
// keeps its print, a changed one is the next print and lists what changed. It
// returns what is to be kept for the next time.
func (p Printed) Number(c *Cast, at time.Time) Printed {
	next := Printed{Cast: c.Name}
	earlier := map[string]PrintedBag{}
	if p.Cast == c.Name {
		for _, b := range p.Bags {
			earlier[b.Key] = b
		}
	}
	for i := range c.Bags {
		b := &c.Bags[i]
		now := PrintedBag{b.key(), nil, b.facts()}
		if old, known := earlier[now.Key]; known {
			now.Print = old.Print
			if !slices.Equal(now.Facts, old.Facts) {
				now.Print = now.against(old, at)
			}
			delete(earlier, now.Key)
		}
		b.Print = now.Print
		next.Bags = append(next.Bags, now)
	}
	// what is not in this plan may come back: its number is not forgotten
	for _, b := range p.Bags {
		if _, left := earlier[b.Key]; left {
			next.Bags = append(next.Bags, b)
		}
	}
	return next
}

// key tells a bag from the others of its cast, whatever is in it.
func (b *Bag) key() string { return fmt.Sprintf("%s/%d %s", b.Job, b.Piece, b.Title) }

func (b PrintedBag) against(old PrintedBag, at time.Time) *Print {
	number := 1
	if old.Print != nil {
		number = old.Print.Number
	}
	p := &Print{Number: number + 1, At: at, Replaces: number}
	was := map[string]string{}
	for _, f := range old.Facts {
		was[f.What] = f.Words
	}
	for _, f := range b.Facts {
		if w := was[f.What]; w != f.Words {
			p.Changes = append(p.Changes, Change{f.What, w})
		}
		delete(was, f.What)
	}
	for _, f := range old.Facts {
		if w := was[f.What]; w != "" {
			p.Removed = append(p.Removed, f.What+": "+w)
		}
	}
	p.AllNew = float64(len(p.Changes)) > allNewBeyond*float64(len(b.Facts))
	return p
}

// facts lists what a bag says, under the names that [Change] uses.
func (b *Bag) facts() []Fact {
	var castings, alloys, findings, shank []string
	for _, c := range b.Castings {
		castings = append(castings, fmt.Sprintf("%s on %s", c.ID, c.Tree))
		if n := len(alloys); n == 0 || alloys[n-1] != c.Alloy {
			alloys = append(alloys, c.Alloy)
		}
	}
	castings = append(castings, b.Missing...)
	for _, f := range b.Findings {
		findings = append(findings, fmt.Sprintf("%d %s, %s, %s", f.Count, f.Name, f.Alloy, f.Weight))
	}
	for _, s := range b.Shank {
		shank = append(shank, fmt.Sprintf("%s %s to %s", s.Part, s.Modelled, s.Finished))
	}
	size := ""
	if s := b.Size; s != nil {
		size = strings.Trim(fmt.Sprintf("%s, gauge %s, resizable %s", s.AsTyped, s.Gauge, s.Resizable), " ,")
	}
	facts := []Fact{
		{"castings", list(castings)}, {"design", b.Design}, {"for", b.For}, {"size", size}, {"alloy", list(alloys)}, {"due", b.Due.Format("Mon 2 Jan 2006 15:04")},
		{"owner", b.Owner}, {"findings", list(findings)}, {"assembly", strings.Join(b.Assembly, " ")},
		{"finish", list(filled("", b.Finish, "masked ", b.Masked, "plated ", b.Plated, "last ", b.LastStep))},
		{"hallmark", b.Hallmark}, {"shank", list(shank)}, {"weights", b.Weights.Cast.String()}, {"notes", b.Notes},
	}
	for _, s := range b.Stones {
		facts = append(facts, Fact{"stone " + s.Mark, s.words()})
	}
	return facts
}

func (s BagStone) words() string {
	size := trim(s.Length) + " mm"
	if s.Width != s.Length {
		size = trim(s.Length) + " x " + trim(s.Width) + " mm"
	}
	return list(filled(fmt.Sprintf("%d + %d ", s.Count, s.Spares), s.Kind, "", s.Cut, "", size, "deep ", trim(s.Depth), "", s.Style, "at ", s.Place, "of ", s.Owner, "risk ", s.Risk, "parcel ", s.Parcel))
}

// filled joins pairs of a prefix and a value, the empty values left out.
func filled(pairs ...string) []string {
	var out []string
	for i := 0; i+1 < len(pairs); i += 2 {
		if pairs[i+1] != "" {
			out = append(out, pairs[i]+pairs[i+1])
		}
	}
	return out
}

func list(words []string) string { return strings.Join(words, ", ") }
