package main

import "math"

// Rings lie round the y axis; their head is at the top, towards z.

// band is a plain shank: flat inside, softly rounded outside.
func band(inside, width, thick float64) solid {
	r, h := inside/2, width/2
	outline := [][2]float64{{r, -h}, {r, h}}
	const n = 10
	for i := 0; i <= n; i++ {
		y := h - width*float64(i)/n
		x := y / h
		outline = append(outline, [2]float64{r + thick*(0.72+0.28*math.Sqrt(max(0, 1-x*x))), y})
	}
	return ring(outline, 120)
}

// rail is a band of square section.
func rail(inside, width, thick, y float64) solid {
	r, h := inside/2, width/2
	return ring([][2]float64{{r, y - h}, {r, y + h}, {r + thick, y + h}, {r + thick, y - h}}, 120)
}

// tube is an upright collar round a stone: a bezel or a gallery ring.
func tube(mid vec, outer, wall, low, high float64) solid {
	outline := [][2]float64{{outer - wall, low}, {outer, low}, {outer, high}, {outer - wall, high}}
	return grid(72, len(outline), func(i, k int) vec {
		a := 2 * math.Pi * float64(i) / 72
		p := outline[k]
		return mid.add(vec{p[0] * math.Cos(a), p[0] * math.Sin(a), p[1]})
	})
}

// head is a claw head for a round stone: claws, an upper and a lower gallery.
// base is the height of its foot, girdle that of the stone's girdle plane.
func head(stone float64, claws int, wireMM, base, girdle float64) []solid {
	r := stone / 2
	stand := r + wireMM*0.25 // the claw overlaps the girdle by a quarter of its wire
	var out []solid
	for i := 0; i < claws; i++ {
		a := 2*math.Pi*float64(i)/float64(claws) + math.Pi/float64(claws)
		foot := vec{stand * 0.45 * math.Cos(a), stand * 0.45 * math.Sin(a), base}
		tip := vec{stand * math.Cos(a), stand * math.Sin(a), girdle + stone*0.43}
		out = append(out, wire(foot, tip, wireMM/2, wireMM/2))
	}
	upper := girdle - stone*0.12
	part := (upper - base) / (girdle + stone*0.43 - base)
	at := stand * (0.45 + 0.55*part)
	out = append(out, loop(vec{0, 0, upper}, vec{1, 0, 0}, vec{0, 1, 0}, at, 0.5))
	out = append(out, loop(vec{0, 0, base + 0.5}, vec{1, 0, 0}, vec{0, 1, 0}, stand*0.5, 0.55))
	return out
}

// corners is a head for a square stone: four stout claws at its points.
func corners(side, wireMM, base, girdle float64) []solid {
	var out []solid
	r := side / math.Sqrt2
	for i := 0; i < 4; i++ {
		a := math.Pi/4 + math.Pi/2*float64(i)
		foot := vec{r * 0.5 * math.Cos(a), r * 0.5 * math.Sin(a), base}
		tip := vec{r * 1.02 * math.Cos(a), r * 1.02 * math.Sin(a), girdle + side*0.45}
		out = append(out, wire(foot, tip, wireMM/2, wireMM/2))
	}
	return append(out, loop(vec{0, 0, base + 0.6}, vec{1, 0, 0}, vec{0, 1, 0}, r*0.55, 0.6))
}

// beads is a row of so many grains of a radius over the top of a band.
func beads(inside, thick, y, radius, pitch float64, count int) []solid {
	r := inside/2 + thick
	var out []solid
	for i := 0; i < count; i++ {
		a := (float64(i) - float64(count-1)/2) * pitch / r
		out = append(out, ball(vec{r * math.Sin(a), y, r * math.Cos(a)}, vec{radius, radius, radius}))
	}
	return out
}
