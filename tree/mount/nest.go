package mount

import "math"

// turns holds cosine and sine of every hour mark.
var turns = func() (t [slots][2]float64) {
	for k := range t {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / slots)
		t[k] = [2]float64{cos, sin}
	}
	return t
}()

// clear says whether two hung castings keep all distances when b hangs turn hour
// marks on from a and up higher.
func clear(a, b *hung, turn int, up, gap float64) bool {
	if up+b.low-a.high >= gap || a.low-up-b.high >= gap {
		return true
	}
	cos, sin := turns[turn][0], turns[turn][1]
	m := b.middle
	x, y, z := m[0]*cos+m[1]*sin-a.middle[0], -m[0]*sin+m[1]*cos-a.middle[1], m[2]+up-a.middle[2]
	if far := gap + a.radius + b.radius; x*x+y*y+z*z >= far*far {
		return true
	}
	own := func(p *piece) turned { return turned{piece: p, cos: 1} }
	other := func(p *piece) turned { return turned{p, cos, sin, up} }
	for i := range a.pieces {
		for j := range b.pieces {
			if !apart(own(&a.pieces[i]), other(&b.pieces[j]), gap) {
				return false
			}
		}
	}
	for i := range a.pieces {
		if !apart(own(&a.pieces[i]), other(b.feeder), gap) {
			return false
		}
	}
	for j := range b.pieces {
		if !apart(own(a.feeder), other(&b.pieces[j]), gap) {
			return false
		}
	}
	return apart(own(a.feeder), other(b.feeder), 0)
}

// nest measures how close such castings hang to each other, on a level and above
// one another.
func (h *hung) nest(r room) {
	h.girth = slots
	for k := 1; k <= slots/2; k++ {
		if clear(h, h, k, 0, r.between) {
			h.girth = k
			break
		}
	}
	lo, hi := 0, int(math.Ceil((h.high-h.low+r.between)/heightStep))
	for hi-lo > 1 {
		if mid := (lo + hi) / 2; clear(h, h, 0, float64(mid)*heightStep, r.between) {
			hi = mid
		} else {
			lo = mid
		}
	}
	h.pitch = float64(hi) * heightStep
}

// share is the height of trunk that a casting takes when the trunk is full of its
// like, in mm.
func (h *hung) share() float64 { return h.pitch / float64(slots/h.girth) }

// roots is the length of trunk that the roots of such castings have, and one more
// pitch for the first level, in mm.
func (h *hung) roots(r room) float64 { return h.rootHigh(r) - h.rootLow(r) + h.pitch }

// A style is a way to hold all castings of a tree.
type style struct{ roll, extra float64 }

// styles: edge on or flat to the neighbour, with feeders as short as can be or
// longer, which makes room near the trunk.
var styles = [...]style{{0, 0}, {90, 0}, {0, 3}, {90, 3}, {0, 6}, {90, 6}, {0, 10}, {90, 10}}

// shortStyles is the number of styles with the shortest feeders.
const shortStyles = 2

// otherTilts are tried, in this order, for a body that does not fit at the tilt
// that was asked.
var otherTilts = [...]float64{45, 60, 30, 75, 15, 90, 0}

// poses are those of one body, found when they are asked for.
type poses struct {
	body   *Body
	room   room
	tilt   float64
	sound  Sound
	poor   bool
	found  [len(styles)]*hung
	asked  [len(styles)]bool
	off    bool // the tilt was looked for
	memory *Memory
}

// in gives the pose of a style that takes the least height, or nil.
func (p *poses) in(k int) *hung {
	if p.asked[k] {
		return p.found[k]
	}
	p.asked[k] = true
	p.findTilt()
	p.found[k] = p.least(pose{p.tilt, styles[k].roll, styles[k].extra, p.longest()})
	return p.found[k]
}

func (p *poses) least(at pose) *hung {
	var best *hung
	for i := range p.body.traced.frames {
		if h := hang(p.body, &p.body.traced.frames[i], at, p.room); h != nil && (best == nil || h.share() < best.share()-roundOff) {
			best = h
		}
	}
	return p.memory.remember(best)
}

// longest is the longest feeder that may be tried.
func (p *poses) longest() float64 {
	if p.poor {
		return math.Max(longestFeeder, p.sound.longest(p.body))
	}
	return p.sound.longest(p.body)
}

// findTilt settles the tilt: the first that has a sound pose, else, where poor
// ones may be taken, the first that has a pose at all.
func (p *poses) findTilt() {
	if p.off {
		return
	}
	p.off = true
	try := func(tilt, longest float64) bool {
		for k := range shortStyles {
			if h := p.least(pose{tilt, styles[k].roll, 0, longest}); h != nil {
				p.tilt, p.found[k] = tilt, h
				return true
			}
		}
		return false
	}
	tilts := append([]float64{p.tilt}, otherTilts[:]...)
	for _, tilt := range tilts {
		if p.sound.tilted(tilt) && try(tilt, p.sound.longest(p.body)) {
			return
		}
	}
	for _, tilt := range tilts {
		if p.poor && try(tilt, p.longest()) {
			return
		}
	}
}

// orBest is the pose in a style, or else the best of the short ones, or nil.
func (p *poses) orBest(k int) *hung {
	h := p.in(k)
	for j := 0; h == nil && j < shortStyles; j++ {
		h = p.in(j)
	}
	return h
}
