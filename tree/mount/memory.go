package mount

import "math"

// A Memory keeps what searches in the same house measure again and again: the
// poses of a body in a flask, and which places of a pair are too near. Searches
// that share one give the same trees as those that do not, only sooner. It is not
// for several goroutines at once.
type Memory struct {
	poses  map[poseKey]*poses
	number int // of poses given out, so that pairs can be told apart
	pairs  int // tables in all
	most   int // tables kept
	hung   []*hung
}

// NewMemory is an empty memory.
func NewMemory() *Memory { return &Memory{poses: map[poseKey]*poses{}, most: mostPairs} }

type poseKey struct {
	room  room
	tilt  float64
	sound Sound
	poor  bool
	mark
	feeders      Feeders
	thick, width float64
}

// of gives the poses of a body in a room.
func (m *Memory) of(b *Body, r room, o Options) *poses {
	k := poseKey{r, o.tilt(), o.sound(), o.Poor, b.traced.mark, b.Feeders, float64(b.Thickest), float64(b.SectionWidth)}
	p, ok := m.poses[k]
	if !ok {
		p = &poses{body: b, room: r, tilt: o.tilt(), sound: o.sound(), poor: o.Poor, memory: m}
		m.poses[k] = p
	}
	return p
}

// mostPairs is the number of tables kept, at about 2 kB each; when there are more,
// all are forgotten, which costs time and changes no answer.
const mostPairs = 20_000 // 40 MB

// A pair says, for every distance in height at which two castings can touch and
// for every hour mark, whether they were compared and whether they were too near.
type pair struct {
	low   float64 // the first distance in height, in steps of heightStep
	known []uint64
	near  []uint64
}

// pairOf is the table of b beside a.
func (m *Memory) pairOf(a, b *hung, gap float64) *pair {
	if b.number < len(a.beside) && a.beside[b.number] != nil {
		return a.beside[b.number]
	}
	if m.pairs++; m.pairs > m.most {
		for _, h := range m.hung {
			h.beside = nil
		}
		m.pairs = 1
	}
	// Beyond these they are apart whatever the hour: up+b.low-a.high >= gap, or
	// a.low-up-b.high >= gap.
	low, high := math.Floor((a.low-b.high-gap)/heightStep), math.Ceil((a.high-b.low+gap)/heightStep)
	n := int(high-low) + 1
	both := make([]uint64, 2*n)
	p := &pair{low, both[:n], both[n:]}
	if len(a.beside) <= b.number {
		a.beside = append(a.beside, make([]*pair, m.number-len(a.beside))...)
	}
	a.beside[b.number] = p
	return p
}

// remember gives a pose its number.
func (m *Memory) remember(h *hung) *hung {
	if h != nil {
		h.number = m.number
		m.number++
		m.hung = append(m.hung, h)
	}
	return h
}

// clear is [clear] of two castings, looked up where it was asked before. Heights
// between the steps, which no search tries, are compared afresh.
func (m *Memory) clear(a, b *hung, turn int, up, gap float64) bool {
	if up+b.low-a.high >= gap || a.low-up-b.high >= gap {
		return true
	}
	p := m.pairOf(a, b, gap)
	at := up/heightStep - p.low
	i := int(at)
	if float64(i) != at || i < 0 || i >= len(p.known) {
		return clear(a, b, turn, up, gap)
	}
	bit := uint64(1) << turn
	if p.known[i]&bit == 0 {
		p.known[i] |= bit
		if !clear(a, b, turn, up, gap) {
			p.near[i] |= bit
		}
	}
	return p.near[i]&bit == 0
}
