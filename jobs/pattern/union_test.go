package pattern

import "testing"

func TestPrototype(t *testing.T) {
	show := func(name string, want, area float64, parts ...solid) {
		r := mustMeasure(t, Defaults(), parts...)
		t.Logf("%-16s faces %d V=%.5f (%.5f, %+.5f%%) ±%.4f sum=%.5f A=%.4f (%.4f) solids %d buried %d io %d cav %d %s", name, r.Faces, r.Volume, want, 100*(float64(r.Volume)/want-1), r.Bound, r.PlainSum, r.Area, area, r.Solids, r.BuriedSolids, r.InsideOutSolids, len(r.Cavities), r.State)
	}
	tor := torus(9, 1.2, 400, 60)
	show("torus", 255.34234, 426.161165, tor)
	show("coaxial", 386.89196, 542.8307, tor, tor.shifted(Point{0, 0, 1}))
	show("crossed", 454.54820, 706.849, tor, tor.spun(1, 2, 20*3.14159265358979/180))
	b3, b2 := ball(3, Point{}, 150, 300), ball(2, Point{3.5, 0, 0}, 150, 300)
	show("lens", 139.13732, 141.13774, b3, b2)
	show("nested", 113.07667, 113.087, b3, ball(2, Point{}, 150, 300))
	show("hollow", 55.18141, 185.46268, b3, ball(2.4, Point{}, 150, 300).inverted())
	show("dup", 113.07667, 113.0876, b3, b3)
	show("boxes", 192, 248, box(Point{0, 0, 0}, Point{10, 4, 3}), box(Point{0, 0, 0}, Point{4, 10, 3}))
	show("touch", 48, 80, box(Point{0, 0, 0}, Point{4, 4, 2}), box(Point{0, 0, 2}, Point{4, 4, 3}))
	show("ring", 1, 1, ring(20)...)
}
