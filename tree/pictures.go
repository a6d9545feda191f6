package tree

import (
	"fmt"
	"math"
	"strconv"

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

// spots marks in the pictures of a bag where its stones sit, by what the job
// tells. A place outside the pattern is no place: it is told, and not drawn.
// from gives for each line of the bag its line in the job.
func spots(j *jobs.Job, b *Bag, from []int) []string {
	var told []string
	for i := range b.Stones {
		st, line := &b.Stones[i], &j.Stones[from[i]]
		drawn := 0
		for n, seat := range line.Sits {
			mark := st.Mark
			if len(line.Sits) > 1 {
				mark += strconv.Itoa(n + 1)
			}
			p := pictureOf(j, b, line.Part, seat.View)
			if p == nil {
				continue // without the mesh's views nothing is drawn at all
			}
			if seat.X > p.Width || seat.Y > p.Height {
				told = append(told, fmt.Sprintf("%s at %s %s x %s mm lies outside the pattern, which is %s x %s mm there.",
					mark, seat.View, trim(seat.X), trim(seat.Y), trim(measure.MM(math.Floor(float64(p.Width)*100)/100)), trim(measure.MM(math.Floor(float64(p.Height)*100)/100))))
				continue
			}
			p.Spots = append(p.Spots, Spot{mark, seat.X, seat.Y})
			drawn++
		}
		st.Drawn = drawn > 0 && drawn == len(line.Sits)
	}
	return told
}

// pictureOf finds the picture of a part from one side; equal patterns share
// theirs.
func pictureOf(j *jobs.Job, b *Bag, part int, view string) *Picture {
	for i := range b.Pictures {
		p := &b.Pictures[i]
		if p.View != view {
			continue
		}
		for k := range j.Parts {
			if j.Parts[k].Name == p.Part && j.Parts[k].Pattern.Mesh == j.Parts[part].Pattern.Mesh && j.Parts[k].Pattern.Mirrored == j.Parts[part].Pattern.Mirrored {
				return p
			}
		}
	}
	return nil
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
