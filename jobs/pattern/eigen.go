package pattern

import "math"

// eigen gives the eigenvalues of a symmetric matrix, largest first, and their
// unit vectors, by Jacobi's rotations.
func eigen(m [3][3]float64) ([3]float64, [3]Point) {
	v := [3]Point{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}
	for range 30 {
		for p := range 2 {
			for q := p + 1; q < 3; q++ {
				if m[p][q] == 0 {
					continue
				}
				theta := (m[q][q] - m[p][p]) / (2 * m[p][q])
				t := 1 / (math.Abs(theta) + math.Sqrt(theta*theta+1))
				if theta < 0 {
					t = -t
				}
				c := 1 / math.Sqrt(t*t+1)
				s := t * c
				for k := range 3 {
					m[k][p], m[k][q] = c*m[k][p]-s*m[k][q], s*m[k][p]+c*m[k][q]
				}
				for k := range 3 {
					m[p][k], m[q][k] = c*m[p][k]-s*m[q][k], s*m[p][k]+c*m[q][k]
				}
				m[p][q], m[q][p] = 0, 0
				vp, vq := v[p], v[q]
				v[p], v[q] = vp.scale(c).sub(vq.scale(s)), vp.scale(s).add(vq.scale(c))
			}
		}
	}
	e := [3]float64{m[0][0], m[1][1], m[2][2]}
	for i := range 2 {
		for j := range 2 - i {
			if e[j] < e[j+1] {
				e[j], e[j+1] = e[j+1], e[j]
				v[j], v[j+1] = v[j+1], v[j]
			}
		}
	}
	return e, v
}
