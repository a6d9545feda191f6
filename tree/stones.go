package tree

import (
	"slices"
	"strings"

	"castweek/jobs"
	"castweek/jobs/setting"
	"castweek/jobs/stone"
	"castweek/jobs/workshop"
	"castweek/metal/measure"
)

// stones turns the stones of a job into lines of a bag of so many pieces, in
// the order in which they are set: what bears heat first. from gives for each
// its line in the job.
func stones(w *workshop.Workshop, j *jobs.Job, pieces int) (out []BagStone, from []int) {
	house := w.Bench()
	lines := make([]setting.Line, len(j.Stones))
	for i, s := range j.Stones {
		lines[i] = lineOf(s)
	}
	from = setting.Order(lines)
	for n, i := range from {
		s := j.Stones[i]
		part := j.Parts[s.Part]
		b := BagStone{
			Mark: strings.ToUpper(jobs.Letter(n)), Place: s.Place, Kind: s.Kind, Cut: s.Cut, Origin: s.Origin, Treatment: s.Treatment,
			Length: s.Length, Width: s.Width, Depth: s.Depth, Assumed: s.Assumed, Count: s.Count * pieces, Each: s.Count, Spares: s.Spares,
			Style: s.Style, InWax: s.InWax, Part: part.Name, Owner: s.Owner, Risk: s.Risk, Parcel: s.Parcel, Here: s.Here, Ordered: s.Ordered,
			Estimate: estimate(lines[i]),
		}
		care, notes := stone.CareOf(lines[i].Kind, s.Treatment)
		b.Stands = care.Cells()
		for _, n := range notes {
			b.Care = append(b.Care, n.Text)
		}
		if style, ok := setting.StyleOf(s.Style); ok {
			in := setting.Input{Style: style, Metal: setting.MetalOf(part.Alloy), Stone: lines[i], Wall: s.Wall, Girdle: s.Girdle, Ring: j.Kind == jobs.Ring,
				Placed: len(s.Sits) > 0, Pieces: pieces, InWax: s.InWax, House: house, Seat: s.Seat, Thickness: s.Metal}
			if m, ok := w.Material(part.Pattern.Material); ok {
				in.Shrinkage = m.Shrinkage
			}
			if c := s.Claws; c != nil {
				in.Claws = setting.Wires{Count: c.Count, Finished: c.Finished, Modelled: c.Modelled, Overlap: c.Overlap, Height: c.Height, Shared: c.Shared}
			}
			for k := range lines {
				if k != i {
					in.Others = append(in.Others, lines[k])
				}
			}
			b.Steps, b.Stops = setting.Steps(in)
		}
		out = append(out, b)
	}
	return out, from
}

func lineOf(s jobs.Stone) setting.Line {
	cut, _ := stone.CutOf(s.Cut)
	return setting.Line{Place: s.Place, Kind: stone.Find(s.Kind), Cut: cut, Treatment: s.Treatment, Origin: s.Origin,
		Length: s.Length, Width: s.Width, Depth: s.Depth, DepthAssumed: s.Assumed, Count: s.Count}
}

func estimate(l setting.Line) Estimate {
	e := stone.Weigh(stone.Measured{Kind: l.Kind, Cut: l.Cut, Length: l.Length, Width: l.Width, Depth: l.Depth, DepthAssumed: l.DepthAssumed})
	out := Estimate{Low: e.Low(), High: e.High()}
	var formulas []string
	for _, way := range e.Ways { // where they part, both are told
		if !slices.Contains(formulas, way.Formula) {
			formulas = append(formulas, way.Formula)
		}
	}
	out.Formula = strings.Join(formulas, " or ")
	return out
}

// sum adds up what is known whole: a sum of some would be taken for that of
// all. whole says that every casting's finished weight is known.
func (w *Weights) sum(list []BagStone, whole bool) {
	for _, s := range list {
		if s.Estimate.High <= 0 {
			w.Stones, whole = 0, false
			break
		}
		// By the higher estimate, each line rounded as it is told.
		w.Stones += measure.Carat(float64(s.Estimate.High) * float64(s.Count)).Weight().Round(1)
	}
	if w.Finished > 0 {
		w.Metal = w.Finished + w.Findings
	}
	if whole {
		w.Whole = w.Metal + w.Stones
	}
}
