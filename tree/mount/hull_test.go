package mount

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

func (h hull) triangles() []tri {
	var out []tri
	for _, f := range h.faces {
		out = append(out, tri{h.corners[f[0]], h.corners[f[1]], h.corners[f[2]]})
	}
	return out
}

// outside is the distance of a point from a hull by looking at every facet: 0
// inside, else the nearest facet.
func (h hull) outside(p vec) float64 {
	in, best := true, math.Inf(1)
	for _, t := range h.triangles() {
		if n := t[1].sub(t[0]).cross(t[2].sub(t[0])).unit(); p.sub(t[0]).dot(n) > 1e-9 {
			in = false
		}
		best = math.Min(best, triangleDistance(tri{p, p, p}, t))
	}
	if in {
		return 0
	}
	return best
}

func TestHullHoldsItsPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rand.New(rand.NewPCG(uint64(rapid.IntRange(0, 1<<30).Draw(t, "points")), 1))
		n := rapid.IntRange(1, 300).Draw(t, "n")
		rough := rapid.SampledFrom([]float64{0, 0.04, 0.5}).Draw(t, "coarse")
		shape := rapid.IntRange(0, 5).Draw(t, "shape")
		points := make([]vec, n)
		for i := range points {
			p := vec{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}
			switch shape {
			case 1: // on a sphere
				p = p.unit().times(10)
			case 2: // on a grid, with many equal and coplanar
				for k := range p {
					p[k] = math.Round(p[k] * 2)
				}
			case 3: // flat
				p[2] = 0
			case 4: // a thin blade
				p = vec{p[0] * 20, p[1], p[2] * 0.01}
			case 5: // a line
				p = vec{p[0], 2 * p[0], 3 * p[0]}
			}
			points[i] = p
		}
		h := hullOf(points, rough)
		if h.pad > rough+1e-9 {
			t.Fatalf("pad %v over %v", h.pad, rough)
		}
		for _, p := range points {
			if d := h.outside(p); d > h.pad+1e-6 {
				t.Fatalf("%v lies %v outside, pad %v", p, d, h.pad)
			}
		}
		// Every edge is used once each way: the surface is closed.
		edges := map[[2]int]int{}
		for _, f := range h.faces {
			for k := range 3 {
				edges[[2]int{f[k], f[(k+1)%3]}]++
			}
		}
		for e, n := range edges {
			if n != 1 || edges[[2]int{e[1], e[0]}] != 1 {
				t.Fatalf("edge %v is used %d and %d times", e, n, edges[[2]int{e[1], e[0]}])
			}
		}
	})
}

// Volumes and surfaces from the elementary formulas.
func TestHullVolume(t *testing.T) {
	b := box(vec{0, 0, 0}, vec{2, 3, 4})
	near(t, "box", b.volume(), 24, 1e-9)
	near(t, "its surface", b.surface(), 52, 1e-9)
	h := hullOf([]vec{{0, 0, 0}, {6, 0, 0}, {0, 6, 0}, {0, 0, 6}, {1, 1, 1}}, 0)
	near(t, "corner of a cube", h.volume(), 36, 1e-9)
	var ball []vec
	r := rand.New(rand.NewPCG(7, 7))
	for range 4000 {
		ball = append(ball, vec{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}.unit().times(10))
	}
	near(t, "ball", hullOf(ball, 0).volume(), 4*math.Pi/3*1000, 20)
}

// Widths of regular bodies from their standard formulas: tetrahedron of edge a, a/√2;
// octahedron a·√(2/3); cube a.
func TestLeastWidth(t *testing.T) {
	tetra := []vec{{1, 1, 1}, {1, -1, -1}, {-1, 1, -1}, {-1, -1, 1}} // edge 2√2
	near(t, "tetrahedron", leastWidth(tetra), 2, 1e-9)
	octa := []vec{{1, 0, 0}, {-1, 0, 0}, {0, 1, 0}, {0, -1, 0}, {0, 0, 1}, {0, 0, -1}} // edge √2
	near(t, "octahedron", leastWidth(octa), math.Sqrt2*math.Sqrt(2.0/3), 1e-9)
	near(t, "box", leastWidth(box(vec{0, 0, 0}, vec{5, 2, 9}).corners), 2, 1e-9)
	near(t, "its diagonal", diameterOf(box(vec{0, 0, 0}, vec{3, 4, 12}).corners), 13, 1e-9)
}

// A distance that is accepted is there, and one that is there with room to spare is
// accepted, against triangles by brute force.
func TestApartAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rand.New(rand.NewPCG(uint64(rapid.IntRange(0, 1<<30).Draw(t, "bodies")), 2))
		body := func() hull {
			points := make([]vec, 4+r.IntN(12))
			for i := range points {
				points[i] = vec{r.NormFloat64() * 4, r.NormFloat64() * 2, r.NormFloat64()}
			}
			return hullOf(points, 0)
		}
		a, b := body(), body()
		angle, up, out := r.Float64()*7, r.Float64()*6-3, r.Float64()*14
		for i := range b.corners {
			b.corners[i][0] += out
		}
		sin, cos := math.Sincos(angle)
		pa, pb := a.piece(), b.piece()
		at := turned{&pb, cos, sin, up}
		moved := hull{faces: b.faces}
		for _, c := range b.corners {
			moved.corners = append(moved.corners, at.place(c))
		}
		d := math.Inf(1)
		for _, x := range a.triangles() {
			for _, y := range moved.triangles() {
				d = math.Min(d, triangleDistance(x, y))
			}
		}
		if a.outside(moved.corners[0]) == 0 || moved.outside(a.corners[0]) == 0 {
			d = 0
		}
		own := turned{piece: &pa, cos: 1}
		for _, need := range []float64{0.01, 0.5, 3, d - 1e-6, d + 1e-6} {
			if need <= 0 {
				continue
			}
			got := apart(own, at, need)
			if got && d < need-1e-8 {
				t.Fatalf("accepted %v at a distance of %v", need, d)
			}
			if !got && d > need+1e-7 {
				t.Fatalf("refused %v at a distance of %v", need, d)
			}
		}
	})
}
