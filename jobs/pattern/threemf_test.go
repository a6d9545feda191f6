package pattern

import (
	"errors"
	"fmt"
	"runtime"
	"strings"
	"testing"

	"castweek/metal/problem"
)

func code(err error) string {
	var p problem.Problem
	if errors.As(err, &p) {
		return p.Code
	}
	return fmt.Sprint(err)
}

func measureModel(t *testing.T, resources, build string) (Report, error) {
	t.Helper()
	return Measure("t.3mf", pack(modelOf(resources, build)), coarser(64))
}

// Objects fill by themselves before they are united: a hollow of one object
// does not cut another (3MF Core 1.4.0, 3.4.3.1 and 4.1.1).
func TestBodiesAreUnitedAfterEachIsFilled(t *testing.T) {
	t.Parallel()
	// A cube of 10 with a hollow of 6, and a solid cube of 10 on the same place.
	hollow := hollowCube()
	r, err := measureModel(t, cubeMesh+hollow, `<item objectid="2"/>`)
	if err != nil {
		t.Fatal(err)
	}
	closeTo(t, "hollow", float64(r.Volume), 1000-216, 0.1)
	if len(r.Cavities) != 1 {
		t.Errorf("%d cavities", len(r.Cavities))
	}
	r, err = measureModel(t, cubeMesh+hollow, `<item objectid="2"/><item objectid="1"/>`)
	if err != nil {
		t.Fatal(err)
	}
	closeTo(t, "filled", float64(r.Volume), 1000, 0.1)
}

// hollowCube is object 2: the cube, and a smaller one inside out within it.
func hollowCube() string {
	b := strings.Builder{}
	b.WriteString(`<object id="2"><mesh><vertices>`)
	outer, in := box(Point{}, Point{10, 10, 10}), box(Point{2, 2, 2}, Point{8, 8, 8}).inverted()
	for _, s := range []solid{outer, in} {
		for _, p := range s.points {
			fmt.Fprintf(&b, `<vertex x="%g" y="%g" z="%g"/>`, p[0], p[1], p[2])
		}
	}
	b.WriteString(`</vertices><triangles>`)
	for i, s := range []solid{outer, in} {
		for _, f := range s.faces {
			fmt.Fprintf(&b, `<triangle v1="%d" v2="%d" v3="%d"/>`, f[0]+int32(8*i), f[1]+int32(8*i), f[2]+int32(8*i))
		}
	}
	b.WriteString(`</triangles></mesh></object>`)
	return b.String()
}

func TestTransformsOfComponents(t *testing.T) {
	t.Parallel()
	// Shifted by 5, then the whole stretched by 2 along x.
	r, err := measureModel(t, cubeMesh+`<object id="3"><components><component objectid="1"/><component objectid="1" transform="-1 0 0 0 1 0 0 0 1 15 0 0"/></components></object>`,
		`<item objectid="3" transform="2 0 0 0 1 0 0 0 1 100 0 0"/>`)
	if err != nil {
		t.Fatal(err)
	}
	closeTo(t, "volume", float64(r.Volume), 3000, 0.5)
	closeTo(t, "left end", r.Box.Min[0], 100, 1e-9)
	closeTo(t, "right end", r.Box.Max[0], 130, 1e-9)
	if r.InsideOutSolids != 0 {
		t.Error("a mirrored component is not inside out")
	}
}

func TestWrongPackages(t *testing.T) {
	for _, c := range []struct{ name, resources, build, want string }{
		{"no item", cubeMesh, ``, "mesh-empty"},
		{"twelve numbers", cubeMesh, `<item objectid="1" transform="1 0 0"/>`, "mesh-3mf"},
		{"flattened", cubeMesh, `<item objectid="1" transform="1 0 0 0 1 0 0 0 0 0 0 0"/>`, "mesh-3mf"},
		{"infinite", strings.Replace(cubeMesh, `x="0"`, `x="INF"`, 1), `<item objectid="1"/>`, "mesh-3mf"},
		{"itself", `<object id="1"><components><component objectid="1"/></components></object>`, `<item objectid="1"/>`, "mesh-3mf"},
		{"later object", `<object id="2"><components><component objectid="1"/></components></object>` + cubeMesh, `<item objectid="2"/>`, "mesh-3mf"},
		{"twice", cubeMesh + cubeMesh, `<item objectid="1"/>`, "mesh-3mf"},
		{"unclosed", strings.Replace(cubeMesh, `</mesh>`, ``, 1), `<item objectid="1"/>`, "mesh-3mf"},
	} {
		if _, err := measureModel(t, c.resources, c.build); code(err) != c.want {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	for _, c := range []struct{ name, from, to string }{
		{"unknown required extension", ` xmlns="`, ` requiredextensions="z" xmlns:z="http://example.org/lattice" xmlns="`},
		{"undeclared required extension", ` xmlns="`, ` requiredextensions="z" xmlns="`},
		{"unknown unit", "millimeter", "ell"},
		{"document type", "<model", "<!DOCTYPE m [<!ENTITY a 'b'>]><model"},
		{"encoding", "UTF-8", "ISO-8859-1"},
	} {
		model := strings.Replace(modelOf(cubeMesh, `<item objectid="1"/>`), c.from, c.to, 1)
		if _, err := Measure("t.3mf", pack(model), Defaults()); code(err) != "mesh-3mf" {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// A member of 200 MB in 200 kB is refused by its size, unread.
func TestZipBombIsNotUnpacked(t *testing.T) {
	skipUnderRace(t)
	data := pack(modelOf(cubeMesh+strings.Repeat(" ", 100<<20), `<item objectid="1"/>`))
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	_, err := Measure("t.3mf", data, Defaults())
	runtime.ReadMemStats(&after)
	if code(err) != "mesh-too-large" || !strings.Contains(err.Error(), "refused unread") {
		t.Errorf("%v", err)
	}
	if used := after.TotalAlloc - before.TotalAlloc; used > 40<<20 {
		t.Errorf("%d bytes were used for %d", used, len(data))
	}
}
