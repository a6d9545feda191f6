package tree

import (
	"fmt"
	"sort"
	"time"

	"castweek/jobs"
	"castweek/jobs/workshop"
	"castweek/metal"
	"castweek/metal/measure"
	"castweek/tree/mount"
)

func earliest(g *group) time.Time {
	first := g.items[0].casting.Job.Due
	for _, it := range g.items {
		if it.casting.Job.Due.Before(first) {
			first = it.casting.Job.Due
		}
	}
	return first
}

// wishedFirst tells whether the tree holds a job that a person wishes on the
// first pour.
func (h hungTree) wishedFirst(first map[string]bool) bool {
	for _, it := range h.items {
		if first[it.casting.Job.Number] {
			return true
		}
	}
	return false
}

// sortHung puts the trees into the order in which they are named: those wished
// first, then group by group, the heavier first.
func sortHung(hung []hungTree, groups []*group, first map[string]bool) {
	rank := map[*group]int{}
	for i, g := range groups {
		rank[g] = i
	}
	weight := func(h hungTree) (mg measure.Milligram) {
		for _, it := range h.items {
			mg += it.metal()
		}
		return mg
	}
	sort.SliceStable(hung, func(i, j int) bool {
		a, b := hung[i], hung[j]
		if x, y := a.wishedFirst(first), b.wishedFirst(first); x != y {
			return x
		}
		if a.group != b.group {
			return rank[a.group] < rank[b.group]
		}
		if wa, wb := weight(a), weight(b); wa != wb {
			return wa > wb
		}
		return a.items[0].casting.ID < b.items[0].casting.ID
	})
}

// build works out each tree: what hangs on it, its metal, and what the built
// tree must weigh before it is invested.
func build(w *workshop.Workshop, cast string, hung []hungTree, wishes jobs.Wishes) []Tree {
	var out []Tree
	first := firstJobs(wishes)
	hung, names := letters(hung, wishes.Keep)
	for i, h := range hung {
		t := buildTree(w, treeName(cast, names[i]), h)
		t.First = h.wishedFirst(first)
		out = append(out, t)
	}
	return out
}

func buildTree(w *workshop.Workshop, name string, h hungTree) Tree {
	a := h.items[0].alloy
	in := chargeInputOf(w, h)
	t := Tree{
		Name: name, Alloy: a.Name, Fineness: a.Fineness().PerMille(), Owner: h.group.owner,
		Flask: h.flask.Name, FlaskMM: FlaskSize{h.flask.InnerDiameter, h.flask.Height},
		Resin: h.group.resin, InWax: h.group.inWax, Section: finest(h.items),
		Feeders: in.Feeders, Trunk: in.Trunk, Button: w.Button.String(), Rule: w.Button, Cavity: h.flask.ButtonCavity, Loss: in.Loss,
		Lots: Lots{Standard: measure.PerMille(float64(standardOf(w, a)) / 1000)},
	}
	if p, ok := powderFor(w, a); ok {
		t.Powder, t.Bond = p.Name, bond(p)
	}
	for _, it := range h.items {
		t.Patterns += it.volume
	}
	t.Charge = metal.NewCharge(in)
	t.Crucible = smallestCrucible(w, a, t.Charge.Total)
	at := map[string]mount.Placement{}
	for _, p := range h.mount.Placements {
		at[p.ID] = p
	}
	for i, it := range h.items {
		p := at[it.casting.ID]
		t.Castings = append(t.Castings, Hanging{
			Casting: it.casting.ID, Job: it.casting.Job.Number, Design: it.casting.Job.Design, Part: it.part.Name,
			Material: it.material.Name, Volume: it.volume, Metal: t.Charge.Castings[i], Outer: it.outer, Thickest: it.thickest,
			Feeders: feederWords(it.part, p), Level: p.Level, Hour: p.Hour, Tilt: p.TiltDeg,
		})
	}
	t.Before = before(w, h, in)
	t.Drawing = drawingOf(h.mount)
	t.Build = notesOf(t.Castings, append(mixedSections(h.items), h.mount.Remarks...))
	return t
}

// chargeInputOf is all that the charge of a hung tree is worked out from.
func chargeInputOf(w *workshop.Workshop, h hungTree) metal.ChargeInput {
	in := chargeInput(w, h.items[0].alloy, h.flask)
	in.Trunk, in.Feeders = h.mount.TrunkVolume, h.mount.FeederVolume
	for _, it := range h.items {
		in.Castings = append(in.Castings, it.volume)
	}
	return in
}

func chargeOf(w *workshop.Workshop, h hungTree) metal.Charge {
	return metal.NewCharge(chargeInputOf(w, h))
}

func bond(p workshop.Powder) string {
	if p.Phosphate {
		return "phosphate"
	}
	return "gypsum"
}

// before adds up the built tree by pattern material. Trunk and feeders are of
// the trunk material.
func before(w *workshop.Workshop, h hungTree, in metal.ChargeInput) []MaterialWeight {
	volume := map[string]measure.CubicMM{w.Trunk: in.Trunk + in.Feeders}
	for _, it := range h.items {
		volume[it.material.Name] += it.volume
	}
	var out []MaterialWeight
	for _, m := range w.Materials {
		if v := volume[m.Name]; v > 0 {
			out = append(out, MaterialWeight{m.Name, m.Density, v, v.Times(m.Density).Round(w.ScaleStep)})
		}
	}
	return out
}

// feederWords says how a casting is fed, as it was mounted.
func feederWords(part *jobs.Part, p mount.Placement) string {
	if ownFeeder(part) {
		return "none"
	}
	if p.FeederInMesh {
		return "in the mesh"
	}
	return fmt.Sprintf("%d x %s x %s mm", p.Feeders, trim(p.FeederDiameter), trim(p.FeederLength))
}

// trim writes a length without its unit and without zeros at the end.
func trim(m measure.MM) string {
	s := measure.Decimals(float64(m), 2)
	for s[len(s)-1] == '0' {
		s = s[:len(s)-1]
	}
	if s[len(s)-1] == '.' {
		s = s[:len(s)-1]
	}
	return s
}
