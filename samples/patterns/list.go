package main

import "math"

// inside is the bore that a pattern needs for a finished inside diameter:
// casting shrinks it by 1.3 %, cleaning up takes 0.1 mm a side.
func inside(finished float64) float64 { return (finished - 0.2) / (1 - 0.013) }

// patterns lists every pattern of the sample by its file name.
func patterns() map[string][]solid {
	all := map[string][]solid{}

	all["plain-band"] = []solid{band(inside(18.10), 4.2, 2.1)} // UK P½
	all["stacking-band"] = []solid{band(inside(16.71), 2.2, 1.9)}
	all["own-gold-band"] = []solid{band(inside(19.10), 5.0, 2.1)}

	s := inside(19.49)
	all["signet"] = []solid{band(s, 4.0, 2.4),
		plate(vec{0, 0, 0}, 6.5, 5.4, s/2+1.0, s/2+3.0, 0), shoulder(s, 1), shoulder(s, -1)}

	c := inside(16.91)
	top := c/2 + 1.9
	all["claw-ring"] = append(head(6.5, 6, 1.3, top-0.9, top+3.4), band(c, 2.3, 2.1))

	h := inside(17.51)
	all["seat-shank"] = []solid{band(h, 2.6, 2.1), plate(vec{0, 0, 0}, 2.4, 1.9, h/2+1.2, h/2+2.6, 0)}

	two := inside(17.11)
	all["collar-shank"] = []solid{band(two, 3.2, 2.1), plate(vec{0, 0, 0}, 3.0, 2.4, two/2+1.3, two/2+2.9, 0)}
	all["collar"] = []solid{tube(vec{}, 4.3, 1.15, 0, 4.2), tube(vec{}, 3.9, 1.6, 0, 1.6)}

	ch := inside(17.11)
	all["channel-band"] = []solid{rail(ch, 4.2, 1.2, 0), rail(ch+2.2, 1.1, 1.5, 1.55), rail(ch+2.2, 1.1, 1.5, -1.55)}

	p := inside(16.31)
	all["bead-row-band"] = append(append(beads(p, 1.9, 0.95, 0.42, 1.6, 10), beads(p, 1.9, -0.95, 0.42, 1.6, 10)...), rail(p, 2.9, 2.0, 0))

	q := inside(17.90)
	all["point-ring"] = append(corners(5.0, 1.5, q/2+1.2, q/2+4.9), band(q, 2.6, 2.1))

	f := inside(18.70)
	all["flush-band"] = []solid{rail(f, 5.2, 2.6, 0)}

	all["drop-left"] = []solid{tube(vec{}, 3.1, 1.0, 0, 3.0), tube(vec{}, 2.7, 1.5, 0, 1.2),
		loop(vec{0, 4.0, 0.9}, vec{1, 0, 0}, vec{0, 1, 0}, 1.3, 0.5), ball(vec{1.4, -3.6, 0.9}, vec{1.3, 1.9, 0.9})}

	all["leaf-pendant"] = []solid{plate(vec{0, 0, 0}, 5.5, 10, 0, 1.6, 1.0), loop(vec{0, 11.4, 0.9}, vec{0, 1, 0}, vec{0, 0, 1}, 1.9, 0.7),
		wire(vec{0, -8.5, 2.2}, vec{0, 8.5, 2.2}, 0.7, 0.5)}

	all["stud"] = []solid{tube(vec{}, 2.2, 0.9, 0, 2.2), plate(vec{0, 0, 0}, 2.0, 2.0, 0, 0.9, 0), wire(vec{0, 0, 0.4}, vec{0, 0, -9.5}, 0.5, 0.45)}

	all["cufflink-face"] = []solid{plate(vec{0, 0, 0}, 8, 8, 0, 2.2, 1.2), wire(vec{0, 0, 0.6}, vec{0, 0, -8}, 1.5, 1.2), wire(vec{-4.5, 0, -8}, vec{4.5, 0, -8}, 1.4, 1.4)}

	all["wave-brooch"] = brooch()
	return all
}

// shoulder fills the corner between band and plate of a signet, on one side,
// outside the bore.
func shoulder(inside, side float64) solid {
	r := inside/2 + 1.9
	return ball(vec{side * r * math.Sin(0.62), 0, r * math.Cos(0.62)}, vec{1.8, 2.2, 1.8})
}

// brooch is three rows of running waves of wire over two bars.
func brooch() []solid {
	var out []solid
	for row := 0; row < 3; row++ {
		y := float64(row-1) * 5
		at := func(i int) vec {
			x := float64(i) - 16
			return vec{x, y + 1.6*math.Sin(x*0.55), 0}
		}
		for i := 0; i < 32; i++ {
			out = append(out, wire(at(i), at(i+1), 0.8, 0.78))
		}
		for i := 0; i <= 32; i++ {
			out = append(out, ball(at(i), vec{0.82, 0.82, 0.82}))
		}
	}
	for _, x := range []float64{-12, 12} {
		out = append(out, wire(vec{x, -7.5, -0.6}, vec{x, 7.5, -0.6}, 0.9, 0.9))
	}
	return append(out, plate(vec{0, 0, -1.2}, 3.2, 6.2, 0, 1.8, 0.4))
}
