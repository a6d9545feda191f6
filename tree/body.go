package tree

import (
	"math"

	"castweek/jobs"
	"castweek/jobs/workshop"
	"castweek/metal/measure"
	"castweek/tree/mount"
)

// traced keeps what mounting looks at and what it said, so that equal shapes are
// measured and equal sets mounted once, for all that one run of planning asks.
type traced struct {
	*known
	memory  *mount.Memory
	helpers []*traced // share what is known, each with a memory of its own
}

// A shape is all that a body is traced from.
type shape struct {
	skin            *jobs.Skin
	size            measure.Size
	thickest, width measure.MM
	feeders         mount.Feeders
	toward          [3]float64
}

type needKey struct {
	shape
	flask string
	poor  bool
	resin bool
}

func newTraced(w *workshop.Workshop) *traced {
	return &traced{known: newKnown(w.Gaps.Neighbour), memory: mount.NewMemory()}
}

// of is the body of a casting.
func (t *traced) of(it *item) mount.Body {
	body := t.body.of(it.part, func() mount.Body {
		body := bodyOf(it, t.gap)
		like := t.shapes.of(tracedAs(it, body), body.Traced)
		like.Weight = body.Weight
		return like
	})
	body.ID = it.casting.ID
	return body
}

func tracedAs(it *item, b mount.Body) shape {
	return shape{it.part.Pattern.Skin, b.Size, b.Thickest, b.SectionWidth, b.Feeders, b.Attach.Toward}
}

// need is how much of a flask a casting takes, with poor hangs or without.
func (t *traced) need(w *workshop.Workshop, f workshop.Flask, it *item, poor bool) mount.Need {
	body := t.of(it)
	k := needKey{tracedAs(it, body), f.Name, poor, it.material.Resin}
	return t.needs.of(k, func() mount.Need {
		return mount.Estimate(mountFlask(f), mountGaps(w, it.material.Resin), body, t.options(w, poor))
	})
}

// options are how the house hangs castings.
func (t *traced) options(w *workshop.Workshop, poor bool) mount.Options {
	h := w.Hang
	return mount.Options{TiltDeg: h.Tilt, Sound: mount.Sound{LeastTilt: h.LeastTilt, MostTilt: h.MostTilt, Longest: h.Longest}, Poor: poor, Memory: t.memory}
}

func bodyOf(it *item, gap measure.MM) mount.Body {
	body := mount.Body{
		ID: it.casting.ID, Size: it.outer, Weight: it.volume.Times(it.density), Thickest: it.thickest,
		Feeders: mount.Feeders{InMesh: it.part.Feeders.InMesh, Count: it.part.Feeders.Count, Diameter: it.part.Feeders.Diameter, Length: it.part.Feeders.Length},
	}
	switch p := it.part.Pattern; {
	case p.Measured != nil:
		body.SectionWidth = p.Measured.SectionWidth
	case p.Rod == nil: // a section is no wider than the second of the outer sizes
		body.SectionWidth = middleOf(it.outer)
	}
	if r := it.part.Pattern.Rod; r != nil {
		body.SectionWidth = r.Diameter           // round, not a plate
		body.Attach.Toward = [3]float64{1, 0, 0} // fed at its end
		if ownFeeder(it.part) {
			return standing(body, *r, gap)
		}
	}
	if s := it.part.Pattern.Skin; s != nil {
		body.Points, body.Faces = s.Points, s.Faces
		body.Attach = attach(it)
	}
	return body
}

// middleOf is the second largest of three outer sizes.
func middleOf(s measure.Size) measure.MM {
	return max(min(s.Length, s.Width), min(max(s.Length, s.Width), s.Height))
}

// headOff is how far the middle of a ring has to lie from the middle of its
// hole before the ring counts as having a head.
const headOff measure.MM = 0.3

// attach finds where a ring is fed: at the shank opposite its head. A ring
// without a head is fed anywhere on its round, here at its lowest side. What is
// no ring leaves the choice to mounting.
func attach(it *item) mount.Attach {
	m := it.part.Pattern.Measured
	if m == nil || m.Finger == nil || it.part.Feeders.InMesh {
		return mount.Attach{}
	}
	axis, hole := m.Finger.Axis, m.Finger.Centre
	if it.part.Pattern.Mirrored {
		axis[0], hole[0] = -axis[0], -hole[0]
	}
	var mid [3]float64
	for _, p := range it.part.Pattern.Skin.Points {
		for k := range mid {
			mid[k] += p[k] / float64(len(it.part.Pattern.Skin.Points))
		}
	}
	away := across([3]float64{hole[0] - mid[0], hole[1] - mid[1], hole[2] - mid[2]}, axis)
	if length(away) < float64(headOff) {
		away = across([3]float64{0, 0, -1}, axis)
		if length(away) < 0.1 {
			away = across([3]float64{0, -1, 0}, axis)
		}
	}
	return mount.Attach{Toward: away}
}

// across is what of v lies at right angles to the unit vector axis.
func across(v [3]float64, axis [3]float64) [3]float64 {
	d := v[0]*axis[0] + v[1]*axis[1] + v[2]*axis[2]
	return [3]float64{v[0] - d*axis[0], v[1] - d*axis[1], v[2] - d*axis[2]}
}

func length(v [3]float64) float64 { return math.Sqrt(v[0]*v[0] + v[1]*v[1] + v[2]*v[2]) }
