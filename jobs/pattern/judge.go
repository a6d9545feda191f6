package pattern

import (
	"fmt"
	"math"

	"castweek/metal/problem"
)

const (
	// PatchRemarkLimit and PatchLimit are shares of the skin. Below the first,
	// patches change the volume of a ring by less than 0.01 %; up to the second
	// by less than the patched bound that is stated; above it whole pieces may
	// be missing.
	PatchRemarkLimit = 0.001
	PatchLimit       = 0.01
)

// judge finds the state and writes the problems.
func (r *Report) judge(m *Mesh, s *soundness, u *united, opt Options) {
	at := problem.Place{File: r.File}
	share := 0.0
	if r.Area > 0 {
		share = float64(r.PatchedArea) / float64(r.Area)
	}
	if s.open > 0 {
		r.State = Patched
		r.Spots = append(r.Spots, spots("open edges", s.openAt, r)...)
		text := fmt.Sprintf("%d open edges in %s, first %s; closed with %.3g mm² of patches (%.2g %% of the skin)", s.open, counted(s.holes, "place"), r.Frame.where(s.openAt[0]), float64(r.PatchedArea), share*100)
		switch {
		case share > PatchLimit:
			r.State = Untrusted
			r.Problems.Add(at, "pattern-open", "close the mesh in the program that made it", "%s: too much to trust a volume", text)
		case share > PatchRemarkLimit:
			r.Problems.Remark(at, "pattern-patched", "have the mesh closed, or check the weight of the printed pattern", "%s", text)
		default:
			r.Problems.Remark(at, "pattern-patched", "nothing to do for the weight", "%s", text)
		}
	}
	if s.oneSided > 0 {
		r.State = Untrusted
		r.Problems.Add(at, "pattern-one-sided", "repair the mesh in the program that made it", "the skin turns over into its own other side along %d edges", s.oneSided)
	}
	for _, h := range s.shells {
		if h.unsure {
			r.State = Untrusted
			r.Problems.Add(at, "pattern-in-or-out", "turn that solid the right way out, or cut it off, in the program that made it",
				"a solid of %.1f mm³, %s, is inside out and %.0f %% of its skin lies inside others: it may be metal or a cut; as metal the pattern has %.1f mm³, as a cut %.1f mm³",
				h.volume, r.Frame.where(h.box.centre()), h.buried*100, float64(r.Volume), s.asCuts)
		}
	}
	if r.Volume <= 0 || r.Solids == 0 || math.IsNaN(float64(r.Volume)) {
		r.State = Untrusted
		r.Problems.Add(at, "pattern-no-volume", "export the solid, not its faces or curves", "the faces enclose no volume")
	}
	if u.leaks > 0 {
		r.State = Untrusted
		r.Problems.Add(at, "pattern-leak", "repair the mesh in the program that made it", "%d columns through the pattern do not close", u.leaks)
	}
	if s.nonManifold > 0 {
		r.Spots = append(r.Spots, spots("edges of more than two faces", s.manyAt, r)...)
		r.Problems.Remark(at, "pattern-nonmanifold", "nothing to do for the weight; a printer may stumble", "%s used by more than two faces, first %s", counted(s.nonManifold, "edge"), r.Frame.where(s.manyAt[0]))
	}
	if s.junctions > 0 {
		r.Spots = append(r.Spots, spots("T-junctions", s.junctionAt, r)...)
		r.Problems.Remark(at, "pattern-junction", "nothing to do for the weight; a printer may stumble", "%s on the edge of another face, first %s; the faces were cut there", counted(s.junctions, "corner"), r.Frame.where(s.junctionAt[0]))
	}
	if s.flipped > 0 {
		r.Spots = append(r.Spots, spots("flipped faces", s.flippedAt, r)...)
		r.Problems.Remark(at, "pattern-flipped", "nothing to do for the weight", "%s the wrong way out, turned, first %s", counted(s.flipped, "face"), r.Frame.where(s.flippedAt[0]))
	}
	if s.duplicates > 0 {
		r.Spots = append(r.Spots, spots("double faces", s.duplicateAt, r)...)
		r.Problems.Remark(at, "pattern-double", "nothing to do for the weight; look whether a part is in the file twice", "%s there twice, first %s", counted(s.duplicates, "face"), r.Frame.where(s.duplicateAt[0]))
	}
	if r.InsideOutSolids > 0 {
		r.Problems.Remark(at, "pattern-inside-out", "nothing to do for the weight; a printer may leave it out", "%d of %d solids were inside out and were turned", r.InsideOutSolids, r.Solids)
	}
	for i := range r.Cavities {
		v := &r.Cavities[i]
		v.Where = r.Frame.where(v.At)
		r.Problems.Remark(at, "pattern-cavity", "open it to the outside, or fill it: a closed cavity cannot be invested", "a closed cavity of %.2f mm³, %s", float64(v.Volume), v.Where)
	}
	if size := float64(r.Box.longest()); m.grain > 1e-4*size {
		r.Problems.Remark(at, "pattern-precision", "move the pattern to the origin and export it again", "so far from the origin the file's numbers step by %.2g mm", m.grain)
	}
	if m.backward > m.forward {
		r.Problems.Remark(at, "pattern-normals", "nothing to do: the order of the corners decides", "most stated normals point against the order of the corners")
	}
	if float64(r.Overlap()) > 2*float64(r.Bound) {
		r.Problems.Remark(at, "pattern-overlap", "nothing to do: the overlap is not charged", "the solids add up to %.1f mm³, but %.1f mm³ of that overlaps (%.1f %%)", float64(r.PlainSum), float64(r.Overlap()), 100*float64(r.Overlap())/float64(r.PlainSum))
	}
	if r.BuriedSolids > 0 {
		r.Problems.Remark(at, "pattern-buried", "look whether a stone or a spare part was exported with it", "%d of %d solids lie wholly inside others and add nothing", r.BuriedSolids, r.Solids)
	}
	r.judgeWidths(opt)
	for _, n := range m.notes {
		r.Problems.Remark(at, n.code, n.remedy, "%s", n.message)
	}
}

// counted writes "1 face" and "2 faces".
func counted(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %ss", n, one)
}

// most groups of one sort of fault that are listed.
const mostSpots = 5

// spots groups places that lie within a tenth of the longest side.
func spots(what string, at []Point, r *Report) []Spot {
	reach := r.Box.longest() / 10
	var out []Spot
	for _, p := range at {
		found := false
		for i := range out {
			if out[i].At.distance(p) <= reach {
				out[i].Count++
				found = true
				break
			}
		}
		if !found && len(out) < mostSpots {
			out = append(out, Spot{What: what, Count: 1, At: p, Where: r.Frame.where(p)})
		}
	}
	return out
}

// mostPlaces is how many thin walls, and how many gaps, get words of their own.
const mostPlaces = 5

// judgeWidths names the places of thin walls and narrow gaps, the worst first.
func (r *Report) judgeWidths(opt Options) {
	at := problem.Place{File: r.File}
	for i := range r.Walls {
		w := &r.Walls[i]
		w.Where = r.Frame.where(w.At)
		if i >= mostPlaces {
			continue
		}
		r.Problems.Remark(at, "pattern-thin", "thicken it in the model, or agree that it may not fill",
			"a wall of %.2f mm, limit %.2f mm, over %.1f mm², %s", float64(w.MM), float64(opt.Wall), float64(w.Area), w.Where)
	}
	for i := range r.KnifeEdges {
		r.KnifeEdges[i].Where = r.Frame.where(r.KnifeEdges[i].At)
	}
	if n := len(r.Walls) - mostPlaces; n > 0 {
		r.Problems.Remark(at, "pattern-thin", "look at the whole pattern", "walls below the limit in %d more places", n)
	}
	if n := len(r.NarrowGaps) - mostPlaces; n > 0 {
		r.Problems.Remark(at, "pattern-gap", "look at the whole pattern", "narrow gaps in %d more places", n)
	}
	for i := range r.NarrowGaps {
		g := &r.NarrowGaps[i]
		g.Where = r.Frame.where(g.At)
		if i >= mostPlaces {
			continue
		}
		r.Problems.Remark(at, "pattern-gap", "widen it, or let the parts overlap a little: investment in it breaks off and is carried into the metal",
			"a gap of %.2f mm, limit %.2f mm, %.1f mm deep, %s", float64(g.MM), float64(opt.Gap), float64(g.Depth), g.Where)
	}
}
