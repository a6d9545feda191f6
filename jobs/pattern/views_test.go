package pattern

import (
	"bytes"
	"encoding/binary"
	"image/png"
	"math"
	"testing"
)

// enclosed is the area inside the outlines (shoelace formula), holes taken off.
func enclosed(v View) float64 {
	sum := 0.0
	for _, l := range v.Outline {
		for i := 1; i < len(l); i++ {
			sum += l[i-1][0]*l[i][1] - l[i][0]*l[i-1][1]
		}
	}
	return math.Abs(sum) / 2
}

func TestViewsAreTrueToSize(t *testing.T) {
	t.Parallel()
	m, err := Read("t.stl", stlOf(torus(9.6, 1.1, 200, 40)), Defaults())
	if err != nil {
		t.Fatal(err)
	}
	r := m.Measure(ringOptions())
	v := m.Views(r.Frame)
	closeTo(t, "front width", float64(v[0].Width), 21.4, 0.01)
	closeTo(t, "side width", float64(v[1].Width), 2.2, 0.01)
	closeTo(t, "top height", float64(v[2].Height), 2.2, 0.01)
	if len(v[0].Outline) != 2 || len(v[1].Outline) != 1 || len(v[2].Outline) != 1 {
		t.Fatalf("%d, %d and %d outlines", len(v[0].Outline), len(v[1].Outline), len(v[2].Outline))
	}
	// A torus from the front is a disc of R+r with a hole of R-r; from the side
	// a stadium.
	closeTo(t, "stadium", enclosed(v[1]), 2.2*19.2+math.Pi*1.21, 0.4)
	for _, view := range v {
		for _, l := range view.Outline {
			if l[0] != l[len(l)-1] {
				t.Errorf("%s: an outline is open", view.Name)
			}
			for _, p := range l {
				if p[0] < -0.05 || p[1] < -0.05 || p[0] > float64(view.Width)+0.05 || p[1] > float64(view.Height)+0.05 {
					t.Fatalf("%s: %v is outside", view.Name, p)
				}
			}
		}
	}
	for i, want := range []float64{10.7, 8.5} {
		for _, p := range v[0].Outline[i] {
			closeTo(t, "radius", math.Hypot(p[0]-10.7, p[1]-10.7), want, 0.05)
		}
	}
}

// A picture says how large it is to be printed: its width in dots by its dots a
// metre is that of the three views and the margins, at 300 dots an inch or more.
func TestPictureIsTrueToSize(t *testing.T) {
	t.Parallel()
	for _, size := range []float64{4, 22, 90} {
		m, err := Read("t.stl", stlOf(box(Point{}, Point{size, size / 2, size / 4})), Defaults())
		if err != nil {
			t.Fatal(err)
		}
		v := m.Views(m.Measure(coarser(64)).Frame)
		data, err := Picture(v[:]...)
		if err != nil {
			t.Fatal(err)
		}
		img, err := png.DecodeConfig(bytes.NewReader(data)) // checks every sum
		if err != nil {
			t.Fatal(err)
		}
		i := bytes.Index(data, []byte("pHYs"))
		if i < 0 {
			t.Fatal("no scale")
		}
		perMM := float64(binary.BigEndian.Uint32(data[i+4:])) / 1000
		if perMM < 11.8 {
			t.Errorf("%.1f dots a mm", perMM)
		}
		closeTo(t, "width", (float64(img.Width)-4*20)/perMM, size+size/2+size, 3/perMM)
	}
}

func TestPictureIsTheSameTwice(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	draw := func() []byte {
		m, err := Read("t.stl", stlOf(ring(5)...), Defaults())
		if err != nil {
			t.Fatal(err)
		}
		v := m.Views(m.Measure(ringOptions()).Frame)
		png, err := Picture(v[:]...)
		if err != nil {
			t.Fatal(err)
		}
		if len(v[2].Edges) == 0 {
			t.Error("no edges are seen from the top")
		}
		return png
	}
	if a := draw(); !bytes.Equal(a, draw()) || !bytes.HasPrefix(a, []byte("\x89PNG")) {
		t.Error("two pictures differ")
	}
}
