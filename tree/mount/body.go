package mount

import (
	"crypto/sha256"
	"encoding/binary"
	"math"
	"strconv"

	"castweek/metal/measure"
	"castweek/metal/problem"
)

// A Body is one casting to hang. Its outline is Points (with Faces when they are
// known), in millimetres in the pattern's own frame; without points it is the box
// of Size. Corners of a mesh that are not joined to faces are taken by their
// convex hull; with faces the outline follows the pattern slice by slice.
type Body struct {
	ID     string
	Points [][3]float64
	Faces  [][3]int32 // corners of each triangle, counted from 0
	Size   measure.Size

	Weight measure.Gram // of the casting in metal; decides its level

	// Thickest is the thickness of the section that is fed, SectionWidth its width;
	// 0 when unknown, and then the section counts as a plate (the safe side).
	Thickest     measure.MM
	SectionWidth measure.MM

	Feeders Feeders
	Attach  Attach

	traced *outline
}

// Feeders says how a body is fed. Diameter and Length of 0 are computed; a length
// that is given is the least one. With InMesh the mesh ends in its own feeder, of
// the given Length (0: measured), and nothing is added to it.
type Feeders struct {
	InMesh   bool
	Count    int // 0 counts as 1
	Diameter measure.MM
	Length   measure.MM
}

// Attach says where the feeder meets the pattern. Toward points out of the
// pattern to the trunk; for a ring it points from the head to the far side of the
// shank. The zero Toward leaves the choice to this package, which then goes by
// outer size alone and says so in [Placement.AttachChosen]. At is the spot; nil
// takes the middle of the pattern's end in that direction.
type Attach struct {
	Toward [3]float64
	At     *[3]float64
}

// Traced measures the outline once and keeps it in the body that is returned.
// Copies of that body share it, so that equal patterns are measured once.
func (b Body) Traced() Body {
	if b.traced == nil && b.unusable() == "" {
		b.traced = trace(b)
	}
	return b
}

// A mark tells outlines apart by what they are measured from.
type mark [sha256.Size]byte

func (b *Body) mark() mark {
	buf := make([]byte, 0, 128+24*len(b.Points)+12*len(b.Faces))
	put := func(x ...float64) {
		for _, v := range x {
			buf = binary.LittleEndian.AppendUint64(buf, math.Float64bits(v))
		}
	}
	put(float64(len(b.Points)), float64(len(b.Faces)), float64(b.Size.Length), float64(b.Size.Width), float64(b.Size.Height), float64(b.Feeders.Length))
	put(b.Attach.Toward[:]...)
	if b.Attach.At != nil {
		put(b.Attach.At[:]...)
	}
	buf = strconv.AppendBool(buf, b.Feeders.InMesh)
	for i := range b.Points {
		put(b.Points[i][:]...)
	}
	for _, f := range b.Faces {
		for _, i := range f {
			buf = binary.LittleEndian.AppendUint32(buf, uint32(i))
		}
	}
	return sha256.Sum256(buf)
}

// unusable says what keeps the body from being mounted at all, or "".
func (b Body) unusable() string {
	for _, p := range b.Points {
		for _, x := range p {
			if !finite(x) || x < -farthest || x > farthest {
				return "has a corner that is not a usable number"
			}
		}
	}
	for _, f := range b.Faces {
		for _, i := range f {
			if i < 0 || int(i) >= len(b.Points) {
				return "has a face with a corner that does not exist"
			}
		}
	}
	if len(b.Points) == 0 {
		for _, x := range []measure.MM{b.Size.Length, b.Size.Width, b.Size.Height} {
			if !usable(x) || x == 0 {
				return "has neither points nor an outer size"
			}
		}
		if b.Feeders.InMesh {
			return "has its feeder in a mesh, but no mesh"
		}
	}
	t := vec(b.Attach.Toward)
	if !finite(t.dot(t)) {
		return "has an attach direction that is not a usable number"
	}
	if b.Attach.At != nil && !finite(vec(*b.Attach.At).dot(vec(*b.Attach.At))) {
		return "has an attach point that is not a usable number"
	}
	switch {
	case !finite(float64(b.Weight)) || b.Weight <= 0:
		return "has no weight"
	case !usable(b.Thickest) || !usable(b.SectionWidth):
		return "has a section that is not a usable length"
	case !usable(b.Feeders.Diameter) || !usable(b.Feeders.Length) || b.Feeders.Count < 0 || b.Feeders.Count > mostFeeders:
		return "has feeders of an unusable number or size"
	case !b.Feeders.InMesh && b.Feeders.Diameter == 0 && b.Thickest == 0:
		return "has neither a feeder diameter nor a thickest section to find it from"
	}
	return ""
}

// farthest is the largest coordinate read, in mm, and mostFeeders the largest
// number of feeders of one casting; both only keep nonsense out.
const (
	farthest    = 10_000
	mostFeeders = 20
)

func usable(x measure.MM) bool { return finite(float64(x)) && x >= 0 && x <= farthest }

// faults lists what is wrong with the input as a whole.
func faults(f Flask, g Gaps, o Options, bodies []Body) problem.List {
	var l problem.List
	f.faults(&l, g)
	o.faults(&l)
	seen := make(map[string]bool, len(bodies))
	for _, b := range bodies {
		switch {
		case b.ID == "":
			l.Add(problem.Place{}, "mount-no-id", "give every casting an id", "a casting has no id")
		case seen[b.ID]:
			l.Add(problem.Place{}, "mount-twice", "list every casting once", "casting %s is listed twice", b.ID)
		}
		seen[b.ID] = true
		if why := b.unusable(); why != "" {
			l.Add(problem.Place{}, "mount-body", "measure the pattern again, or give its outer size, weight and thickest section", "casting %s %s", b.ID, why)
		}
	}
	return l
}
