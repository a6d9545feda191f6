package pattern

import "math"

// A welder gives equal points the same number, by an open hash table over
// their exact bits, with -0 taken for 0.
type welder struct {
	points [][3]float64
	table  []int32 // point + 1, 0 is empty
	first  int     // points before it belong to an earlier body
}

// newBody keeps the points so far and joins no later point to them.
func (w *welder) newBody() {
	w.first = len(w.points)
	clear(w.table)
}

func hashPoint(p *[3]float64) uint64 {
	h := math.Float64bits(p[0])*0x9E3779B97F4A7C15 ^ math.Float64bits(p[1])*0xC2B2AE3D27D4EB4F ^ math.Float64bits(p[2])*0x165667B19E3779F9
	h ^= h >> 29
	h *= 0xBF58476D1CE4E5B9
	return h ^ h>>32
}

// add returns the number of the point.
func (w *welder) add(p [3]float64) int32 {
	for k := range p {
		p[k] += 0 // -0 + 0 is 0
	}
	if (len(w.points)-w.first)*2 >= len(w.table) {
		w.grow()
	}
	mask := uint64(len(w.table) - 1)
	for i := hashPoint(&p) & mask; ; i = (i + 1) & mask {
		at := w.table[i]
		if at == 0 {
			w.points = append(w.points, p)
			w.table[i] = int32(len(w.points))
			return int32(len(w.points) - 1)
		}
		if w.points[at-1] == p {
			return at - 1
		}
	}
}

func (w *welder) grow() {
	size := max(64, len(w.table)*2)
	w.table = make([]int32, size)
	mask := uint64(size - 1)
	for k := w.first; k < len(w.points); k++ {
		i := hashPoint(&w.points[k]) & mask
		for w.table[i] != 0 {
			i = (i + 1) & mask
		}
		w.table[i] = int32(k + 1)
	}
}
