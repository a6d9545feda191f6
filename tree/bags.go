package tree

import (
	"fmt"
	"sort"
	"strings"

	"castweek/jobs"
	"castweek/jobs/workshop"
	"castweek/metal/measure"
)

// bags makes a bag for every piece with castings on the trees, one for the
// spares of a job, and one for all pieces of a job that keeps them together.
func bags(w *workshop.Workshop, c *Cast, q *queue) []Bag {
	b := bagger{shop: w, cast: c, on: map[string]*Tree{}, hung: map[string]Hanging{}}
	for i := range c.Trees {
		for _, h := range c.Trees[i].Castings {
			b.on[h.Casting], b.hung[h.Casting] = &c.Trees[i], h
		}
	}
	var list []*jobs.Job
	seen := map[*jobs.Job]bool{}
	for _, it := range q.items {
		if j := it.casting.Job; !seen[j] {
			seen[j] = true
			list = append(list, j)
		}
	}
	var out []Bag
	for _, j := range list {
		out = append(out, b.job(j, q.hung)...)
	}
	return out
}

type bagger struct {
	shop *workshop.Workshop
	cast *Cast
	on   map[string]*Tree // castings of this cast: their tree
	hung map[string]Hanging
}

// job gathers the castings of a job by piece. cast names those of earlier
// casts.
func (b *bagger) job(j *jobs.Job, cast hungs) []Bag {
	pieces := map[int][]jobs.Casting{}
	for _, k := range j.Castings() {
		n := k.Piece
		if j.Bag == "together" {
			n = 1
		}
		pieces[n] = append(pieces[n], k)
	}
	var numbers []int
	for n := range pieces {
		numbers = append(numbers, n)
	}
	sort.Slice(numbers, func(i, k int) bool { // spares, numbered 0, last
		return numbers[i] != 0 && (numbers[k] == 0 || numbers[i] < numbers[k])
	})
	var out []Bag
	for _, n := range numbers {
		bag, used := b.bag(j, n, pieces[n], cast)
		if used {
			out = append(out, bag)
		}
	}
	return out
}

// bag fills one bag; used is false when none of its castings is in this cast.
func (b *bagger) bag(j *jobs.Job, piece int, castings []jobs.Casting, cast hungs) (bag Bag, used bool) {
	bag = Bag{Job: j.Number, Design: j.Design, For: j.For, Due: j.Due, Kind: string(j.Kind), Piece: piece, Of: j.Pieces,
		Finish: j.Finish, Masked: j.Masked, Plated: j.Plated, LastStep: j.LastStep, Hallmark: j.Hallmark, Owner: j.Owner, Notes: j.Notes}
	pieces := 1
	switch {
	case j.Bag == "together" && j.Pieces > 1:
		bag.Piece, pieces = 0, j.Pieces
		bag.Title = fmt.Sprintf("%d pieces together", j.Pieces)
	case piece == 0:
		bag.Title, pieces = "spares", 0
	case j.Pieces > 1:
		bag.Title = fmt.Sprintf("piece %d of %d", piece, j.Pieces)
	}
	whole := true // every casting's finished weight is known
	for _, k := range castings {
		part := j.Parts[k.Part]
		t := b.on[k.ID]
		if t == nil {
			on, _ := cast.of(k.ID)
			bag.Missing = append(bag.Missing, missing(k.ID, on.tree))
			continue
		}
		used = true
		h := b.hung[k.ID]
		bag.Castings = append(bag.Castings, BagCasting{ID: k.ID, Part: part.Name, Alloy: t.Alloy, Tree: t.Name, Flask: t.Flask, Material: h.Material, Spare: k.Spare > 0, Rod: part.Pattern.Rod != nil, Cast: h.Metal})
		bag.Weights.Cast += h.Metal
		c := &bag.Castings[len(bag.Castings)-1]
		c.Finished, c.Band = finished(b.shop, &part)
		bag.Weights.Finished += c.Finished
		whole = whole && (c.Finished > 0 || c.Rod)
	}
	if !used {
		return bag, false
	}
	if !whole {
		bag.Weights.Finished = 0 // a sum of some would be taken for that of all
	}
	bag.Pictures = pictures(j)
	bag.Size = finger(j)
	bag.Remarks = benchRemarks(j)
	bag.Shank = shanks(j)
	if pieces > 0 { // spares carry neither stones nor findings
		bag.Assembly = b.assembly(j, bag.Castings)
		for _, f := range j.Findings {
			bag.Findings = append(bag.Findings, BagFinding{f.Name, f.Count * pieces, f.Alloy, f.Weight.Round(1), f.Marked, f.Here, f.From})
			bag.Weights.Findings += measure.Milligram(f.Count*pieces) * f.Weight.Round(1)
		}
		var from []int
		bag.Stones, from = stones(b.shop, j, pieces)
		bag.Remarks = append(bag.Remarks, spots(j, &bag, from)...)
	}
	bag.Weights.sum(bag.Stones, whole)
	bag.Cautions = cautions(b.shop, j, &bag)
	return bag, true
}

func missing(id, tree string) string {
	if tree != "" {
		return id + " was cast on " + tree
	}
	return id + " is on no tree of this cast"
}

// assembly are the job's own steps, opened by where each part comes from when
// there is more than one. It does not say that they are joined: a sizing rod is
// not.
func (b *bagger) assembly(j *jobs.Job, castings []BagCasting) []string {
	var out []string
	if len(j.Parts) > 1 {
		type source struct{ part, tree string }
		var order []source
		from := map[source][]string{}
		for _, c := range castings {
			k := source{c.Part, c.Tree}
			if from[k] == nil {
				order = append(order, k)
			}
			from[k] = append(from[k], c.ID)
		}
		var parts []string
		for _, k := range order {
			ids := strings.Join(from[k], ", ")
			if n := len(from[k]); n > mostNamed {
				ids = fmt.Sprintf("%d castings", n)
			}
			parts = append(parts, fmt.Sprintf("%s (%s) from %s", k.part, ids, k.tree))
		}
		out = append(out, "Lay out all parts: "+strings.Join(parts, ", ")+".")
	}
	return append(out, j.Assembly...)
}

// mostNamed is how many castings of one part and tree are named one by one.
const mostNamed = 4

func finger(j *jobs.Job) *Finger {
	if j.Size == nil {
		return nil
	}
	f := &Finger{AsTyped: j.SizeText, Inside: j.Size.Inside, Resizable: j.Resizable}
	for _, p := range j.Parts {
		f.Finishes = max(f.Finishes, p.Pattern.Finishes)
	}
	var other []string
	for _, l := range j.Size.Labels() {
		if l.Reached() && l.System != j.Size.System {
			other = append(other, l.System.Name()+" "+l.Text)
		}
	}
	f.Other = strings.Join(other, ", ")
	if j.Gauge != "" {
		f.Gauge = j.Gauge
		if j.GaugeOf != "" {
			f.Gauge += ", " + j.GaugeOf
		}
	}
	return f
}

func shanks(j *jobs.Job) []ShankLine {
	var out []ShankLine
	for _, p := range j.Parts {
		if s := p.Shank; s != nil {
			out = append(out, ShankLine{p.Name, section(s.Modelled, s.ModelledWidth), section(s.Finished, s.FinishedWidth)})
		}
	}
	return out
}

func section(thick, width measure.MM) string {
	if width > 0 {
		return trim(thick) + " x " + trim(width) + " mm"
	}
	return trim(thick) + " mm"
}
