package pattern

import (
	"castweek/metal/measure"
)

// Measure reads a mesh file and measures it. An error is a [problem.Problem]
// about a file that cannot be read; what is wrong with a mesh that can be read
// is in the report.
func Measure(name string, data []byte, opt Options) (Report, error) {
	m, err := Read(name, data, opt)
	if err != nil {
		return Report{File: name}, err
	}
	return m.Measure(opt), nil
}

// Measure measures the mesh, which stays as it is.
func (m *Mesh) Measure(opt Options) Report {
	opt = opt.filled()
	r := Report{File: m.Name, Unit: m.unit, State: Exact, Faces: len(m.Faces) + m.degenerate, Points: len(m.Points), Box: m.Box()}
	c := &chain{m.Points, m.Faces, m.body}
	var s soundness
	t := c.repair(&s, m.grain)
	c.split(t, &s)
	c.orient(&s)
	r.surface(c, &s)
	c = c.withoutCopies(&s)
	u := c.unite(&s, opt, m.bodies)
	s.asCuts = c.withCuts(&s, opt, m.bodies)
	r.Volume, r.Area = measure.CubicMM(u.volume), measure.SquareMM(u.area)
	r.Bound = measure.CubicMM(u.bound + s.patchRoom)
	r.BuriedSolids = u.buried
	ball, middle := thickest(&u, r.Box)
	r.Thickest, r.SectionWidth = measure.MM(ball), measure.MM(c.sectionWidth(thinned(u.skin, mostSkin), middle, ball))
	r.thin(&u, opt)
	if opt.Kind == Ring {
		r.Finger = c.finger(u.skin, r.Box)
	}
	r.Frame = newFrame(r.Finger, thinned(u.skin, mostSkin), r.Box)
	r.DegenerateFaces = m.degenerate
	r.judge(m, &s, &u, opt)
	r.wouldFit(opt.Kind)
	return r
}

// surface fills what the repaired surface alone tells.
func (r *Report) surface(c *chain, s *soundness) {
	r.PlainSum = measure.CubicMM(signedVolume(c.points, c.faces, r.Box.centre()))
	r.OpenEdges, r.NonManifoldEdges = s.open, s.nonManifold
	r.DuplicateFaces, r.FlippedFaces = s.duplicates, s.flipped
	r.JoinedPoints, r.Junctions, r.Holes = s.joined, s.junctions, s.holes
	r.PatchedArea = measure.SquareMM(s.patched)
	scrap := leastShell * boxVolume(r.Box)
	for _, h := range s.shells {
		switch {
		case h.cavity:
			r.Cavities = append(r.Cavities, Cavity{Volume: measure.CubicMM(-h.volume), At: h.box.centre()})
		case h.volume > scrap:
			r.Solids++
			if h.turned {
				r.InsideOutSolids++
			}
		}
	}
}
