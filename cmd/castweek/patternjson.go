package main

import (
	"errors"

	"castweek/jobs/pattern"
	"castweek/metal/problem"
)

// patternsAnswer is the JSON answer of the verb. A file that can not be read
// is in no list of numbers.
type patternsAnswer struct {
	Schema     int           `json:"schema"`
	Patterns   []patternJSON `json:"patterns"`
	Unreadable []problemJSON `json:"unreadable"`
}

type patternJSON struct {
	File             string        `json:"file"`
	Volume           float64       `json:"volume_mm3"`
	Bound            float64       `json:"bound_mm3"`
	PlainSum         float64       `json:"plain_sum_mm3"`
	Area             float64       `json:"area_mm2"`
	Solids           int           `json:"solids"`
	OpenEdges        int           `json:"open_edges"`
	NonManifoldEdges int           `json:"non_manifold_edges"`
	DegenerateFaces  int           `json:"degenerate_faces"`
	DuplicateFaces   int           `json:"duplicate_faces"`
	Junctions        int           `json:"t_junctions"`
	FlippedFaces     int           `json:"flipped_faces"`
	InsideOutSolids  int           `json:"inside_out_solids"`
	Cavities         []cavityJSON  `json:"cavities"`
	PatchedArea      float64       `json:"patched_area_mm2"`
	FingerHole       *float64      `json:"finger_hole_mm"`
	FingerAxis       *[3]float64   `json:"finger_axis"`
	Thinnest         *thinJSON     `json:"thinnest"`
	NarrowGaps       []gapJSON     `json:"narrow_gaps"`
	Thickest         float64       `json:"thickest_mm"`
	Size             [3]float64    `json:"size_mm"`
	State            string        `json:"state"`
	Unit             string        `json:"unit"`
	UnitWouldFit     *string       `json:"unit_would_fit"`
	Problems         []problemJSON `json:"problems"`
}

type cavityJSON struct {
	Volume float64    `json:"volume_mm3"`
	At     [3]float64 `json:"at"`
}

type thinJSON struct {
	MM   float64    `json:"mm"`
	At   [3]float64 `json:"at"`
	Area float64    `json:"area_mm2"`
}

type gapJSON struct {
	MM    float64    `json:"mm"`
	At    [3]float64 `json:"at"`
	Depth float64    `json:"depth_mm"`
}

func patternsJSON(files []string, list []measured) patternsAnswer {
	a := patternsAnswer{schemaVersion, []patternJSON{}, []problemJSON{}}
	for i, m := range list {
		if m.err != nil {
			var p problem.Problem
			if !errors.As(m.err, &p) {
				p = problem.Problem{Code: "pattern-unreadable", Place: problem.Place{File: files[i]}, Message: m.err.Error()}
			}
			a.Unreadable = append(a.Unreadable, problemsJSON(problem.List{p})...)
			continue
		}
		a.Patterns = append(a.Patterns, onePattern(files[i], m.report))
	}
	return a
}

func onePattern(file string, r pattern.Report) patternJSON {
	size := r.Box.Size()
	p := patternJSON{
		File: file, State: string(r.State), Unit: string(r.Unit),
		Volume: decimals(float64(r.Volume), 6), Bound: decimals(float64(r.Bound), 6),
		PlainSum: decimals(float64(r.PlainSum), 6), Area: decimals(float64(r.Area), 4),
		PatchedArea: decimals(float64(r.PatchedArea), 4),
		Solids:      r.Solids, OpenEdges: r.OpenEdges, NonManifoldEdges: r.NonManifoldEdges,
		DegenerateFaces: r.DegenerateFaces, DuplicateFaces: r.DuplicateFaces,
		Junctions: r.Junctions, FlippedFaces: r.FlippedFaces, InsideOutSolids: r.InsideOutSolids,
		Cavities: []cavityJSON{}, NarrowGaps: []gapJSON{},
		Thickest: decimals(float64(r.Thickest), 2), Size: [3]float64{mm(size.Length), mm(size.Width), mm(size.Height)},
		Problems: problemsJSON(r.Problems),
	}
	for _, c := range r.Cavities {
		p.Cavities = append(p.Cavities, cavityJSON{decimals(float64(c.Volume), 4), at(c.At)})
	}
	if r.Finger != nil {
		d, a := mm(r.Finger.Diameter), places(r.Finger.Axis, 6)
		p.FingerHole, p.FingerAxis = &d, &a
	}
	if r.Thinnest != nil {
		p.Thinnest = &thinJSON{mm(r.Thinnest.MM), at(r.Thinnest.At), decimals(float64(r.Thinnest.Area), 2)}
	}
	for _, g := range r.NarrowGaps {
		p.NarrowGaps = append(p.NarrowGaps, gapJSON{mm(g.MM), at(g.At), mm(g.Depth)})
	}
	if r.UnitWouldFit != "" {
		u := string(r.UnitWouldFit)
		p.UnitWouldFit = &u
	}
	return p
}
