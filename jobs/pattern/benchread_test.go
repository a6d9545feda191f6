package pattern

import (
	"bytes"
	"fmt"
	"testing"
)

// asASCII and as3MF write the ring in the other formats.
func asASCII(parts []solid) []byte {
	var b bytes.Buffer
	for _, p := range parts {
		b.WriteString("solid part\n")
		for _, f := range p.faces {
			b.WriteString(" facet normal 0 0 0\n  outer loop\n")
			for _, k := range f {
				fmt.Fprintf(&b, "   vertex %.6f %.6f %.6f\n", p.points[k][0], p.points[k][1], p.points[k][2])
			}
			b.WriteString("  endloop\n endfacet\n")
		}
		b.WriteString("endsolid part\n")
	}
	return b.Bytes()
}

func as3MF(parts []solid) []byte {
	var b, items bytes.Buffer
	for i, p := range parts {
		fmt.Fprintf(&b, `<object id="%d"><mesh><vertices>`, i+1)
		for _, v := range p.points {
			fmt.Fprintf(&b, `<vertex x="%.6f" y="%.6f" z="%.6f"/>`+"\n", v[0], v[1], v[2])
		}
		b.WriteString(`</vertices><triangles>`)
		for _, f := range p.faces {
			fmt.Fprintf(&b, `<triangle v1="%d" v2="%d" v3="%d"/>`+"\n", f[0], f[1], f[2])
		}
		b.WriteString(`</triangles></mesh></object>`)
		fmt.Fprintf(&items, `<item objectid="%d"/>`, i+1)
	}
	return pack(modelOf(b.String(), items.String()))
}

func asOBJ(parts []solid) []byte {
	var b bytes.Buffer
	first := 1
	for _, p := range parts {
		for _, v := range p.points {
			fmt.Fprintf(&b, "v %.6f %.6f %.6f\n", v[0], v[1], v[2])
		}
		for _, f := range p.faces {
			fmt.Fprintf(&b, "f %d %d %d\n", first+int(f[0]), first+int(f[1]), first+int(f[2]))
		}
		first += len(p.points)
	}
	return b.Bytes()
}

// The same ring says the same in every format.
func TestFormatsAgree(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	parts := smallRing()
	want := mustMeasure(t, coarser(128), parts...)
	for name, data := range map[string][]byte{"a.stl": asASCII(parts), "a.3mf": as3MF(parts), "a.obj": asOBJ(parts)} {
		r, err := Measure(name, data, coarser(128))
		if err != nil {
			t.Fatal(err)
		}
		closeTo(t, name, float64(r.Volume), float64(want.Volume), 1e-5*float64(want.Volume))
		if r.Solids != 7 || r.State != Exact || r.Faces != want.Faces {
			t.Errorf("%s: %d solids, %s, %d faces", name, r.Solids, r.State, r.Faces)
		}
	}
}

func benchmarkRead(b *testing.B, name string, data []byte) {
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Read(name, data, Defaults()); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkReadASCII100k(b *testing.B) { benchmarkRead(b, "a.stl", asASCII(ring(11))) }
func BenchmarkRead3MF100k(b *testing.B)   { benchmarkRead(b, "a.3mf", as3MF(ring(11))) }
func BenchmarkReadOBJ100k(b *testing.B)   { benchmarkRead(b, "a.obj", asOBJ(ring(11))) }
