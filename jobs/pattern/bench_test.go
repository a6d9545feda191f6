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
