package tree

import (
	"math"

	"castweek/jobs"
	"castweek/jobs/pattern"
	"castweek/jobs/workshop"
	"castweek/metal/measure"
)

// pictures are the views of each part of a job at true size, equal patterns
// once. A mirrored part is shown mirrored.
func pictures(j *jobs.Job) []Picture {
	var out []Picture
	type shown struct {
		mesh     string
		mirrored bool
	}
	seen := map[shown]bool{}
	for _, p := range j.Parts {
		k := shown{p.Pattern.Mesh, p.Pattern.Mirrored}
		if p.Pattern.Skin == nil || seen[k] {
			continue
		}
		seen[k] = true
		for _, v := range p.Pattern.Skin.Views {
			pic := Picture{Part: p.Name, View: v.Name, Width: v.Width, Height: v.Height}
			for _, l := range append(append([]pattern.Line{}, v.Outline...), v.Edges...) {
				pic.Lines = append(pic.Lines, lineOfView(l, v.Width, p.Pattern.Mirrored && v.Name != "side"))
			}
			out = append(out, pic)
		}
	}
	return out
}

func lineOfView(l pattern.Line, width measure.MM, mirrored bool) [][2]float64 {
	out := make([][2]float64, len(l))
	for i, p := range l {
		if mirrored {
			p[0] = float64(width) - p[0]
		}
		out[i] = [2]float64{math.Round(p[0]*100) / 100, math.Round(p[1]*100) / 100}
	}
	return out
}

// finished is the expected weight of a measured part when it is cleaned up, and
// how far it may lie either way; zero for a part without a mesh.
func finished(w *workshop.Workshop, p *jobs.Part) (measure.Milligram, measure.Percent) {
	m := p.Pattern.Measured
	a, known := w.Alloys.Find(p.Alloy)
	material, ok := w.Material(p.Pattern.Material)
	if m == nil || !known || !ok {
		return 0, 0
	}
	r := m.Finished(a.Density(), pattern.Finishing{Shrinkage: material.Shrinkage, Least: pattern.LeastCleaned, Most: pattern.MostCleaned})
	if r.Likely <= 0 {
		return 0, 0
	}
	band := max(r.Most-r.Likely, r.Likely-r.Least) / r.Likely * 100
	return r.Likely.Round(1), measure.Percent(math.Ceil(float64(band)))
}
