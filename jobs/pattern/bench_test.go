package pattern

import (
	"sync"
	"testing"
)

// millionRing is a ring of seven solids and about a million faces.
var millionRing = sync.OnceValue(func() []byte { return stlOf(ring(34)...) })

func BenchmarkReadMillion(b *testing.B) {
	data := millionRing()
	b.ReportAllocs()
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		m, err := Read("ring.stl", data, Defaults())
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(len(m.Faces)), "faces")
	}
}

func BenchmarkReportPlates(b *testing.B) {
	var plates []solid
	for k := range 20 {
		plates = append(plates, box(Point{0, 0, 0.6 * float64(k)}, Point{25, 25, 0.6*float64(k) + 0.3}))
	}
	b.ReportAllocs()
	for b.Loop() {
		mustMeasure(b, Defaults(), plates...)
	}
}

func BenchmarkReportMillion(b *testing.B) {
	data := millionRing()
	opt := Defaults()
	opt.Kind = Ring
	b.ReportAllocs()
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if _, err := Measure("ring.stl", data, opt); err != nil {
			b.Fatal(err)
		}
	}
}
