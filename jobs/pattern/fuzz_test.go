package pattern

import (
	"archive/zip"
	"bytes"
	"errors"
	"math"
	"os"
	"path"
	"path/filepath"
	"strings"
	"testing"

	"castweek/metal/problem"
)

// seeds are all test meshes of one kind that are small enough.
func seeds(f *testing.F, ext string) {
	files, _ := filepath.Glob("testdata/*/*")
	more, _ := filepath.Glob("testdata/*/*/*")
	for _, name := range append(files, more...) {
		if strings.EqualFold(path.Ext(name), ext) {
			data, err := os.ReadFile(name)
			if err != nil {
				f.Fatal(err)
			}
			if len(data) < 6_000 {
				f.Add(data)
			}
		}
	}
}

// survives reads and measures, and checks what must hold for any file.
func survives(t *testing.T, name string, data []byte) {
	opt := Defaults()
	opt.Grid, opt.MostFaces = 24, 20_000
	r, err := Measure(name, data, opt)
	if err != nil {
		var p problem.Problem
		if !errors.As(err, &p) || p.Code == "" || p.Message == "" || p.Remedy == "" || p.Place.File != name {
			t.Fatalf("not a whole problem: %#v", err)
		}
		return
	}
	for _, v := range []float64{float64(r.Volume), float64(r.Bound), float64(r.Area), float64(r.PlainSum), float64(r.PatchedArea)} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Fatalf("%g in %+v", v, r)
		}
	}
	for _, p := range r.Problems {
		if p.Code == "pattern-leak" { // every column closes, whatever the mesh
			t.Fatal(p.Message)
		}
	}
	if r.State != Untrusted && r.Volume <= 0 {
		t.Fatalf("%s with a volume of %g", r.State, float64(r.Volume))
	}
}

func FuzzSTL(f *testing.F) {
	seeds(f, ".stl")
	f.Fuzz(func(t *testing.T, data []byte) { survives(t, "f.stl", data) })
}

func FuzzOBJ(f *testing.F) {
	seeds(f, ".obj")
	f.Fuzz(func(t *testing.T, data []byte) { survives(t, "f.obj", data) })
}

func Fuzz3MF(f *testing.F) {
	seeds(f, ".3mf")
	f.Fuzz(func(t *testing.T, data []byte) { survives(t, "f.3mf", data) })
}

// FuzzModel feeds the text of a model, which a random zip would never reach.
func FuzzModel(f *testing.F) {
	f.Add([]byte(modelOf(cubeMesh, `<item objectid="1"/>`)))
	f.Add([]byte(modelOf(cubeMesh, `<item objectid="1" transform="-1 0 0 0 1 0 0 0 1 15 0 0"/><item objectid="1"/>`)))
	f.Fuzz(func(t *testing.T, model []byte) { survives(t, "f.3mf", pack(string(model))) })
}

const cubeMesh = `<object id="1"><mesh><vertices><vertex x="0" y="0" z="0"/><vertex x="0" y="10" z="0"/><vertex x="10" y="10" z="0"/><vertex x="10" y="0" z="0"/><vertex x="0" y="0" z="10"/><vertex x="10" y="0" z="10"/><vertex x="10" y="10" z="10"/><vertex x="0" y="10" z="10"/></vertices><triangles><triangle v1="0" v2="1" v3="2"/><triangle v1="0" v2="2" v3="3"/><triangle v1="4" v2="5" v3="6"/><triangle v1="4" v2="6" v3="7"/><triangle v1="0" v2="3" v3="5"/><triangle v1="0" v2="5" v3="4"/><triangle v1="1" v2="7" v3="6"/><triangle v1="1" v2="6" v3="2"/><triangle v1="0" v2="4" v3="7"/><triangle v1="0" v2="7" v3="1"/><triangle v1="3" v2="2" v3="6"/><triangle v1="3" v2="6" v3="5"/></triangles></mesh></object>`

func modelOf(resources, build string) string {
	return `<?xml version="1.0" encoding="UTF-8"?><model unit="millimeter" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02"><resources>` + resources + `</resources><build>` + build + `</build></model>`
}

// pack makes a 3MF package with one model part of an unusual name.
func pack(model string) []byte {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, f := range [][2]string{
		{"_rels/.rels", `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Target="/3D/it.model" Id="r" Type="` + modelRelation + `"/></Relationships>`},
		{"3D/it.model", model},
	} {
		w, err := z.Create(f[0])
		if err == nil {
			_, err = w.Write([]byte(f[1]))
		}
		if err != nil {
			panic(err)
		}
	}
	if err := z.Close(); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// Every test file for STL cut short at each of its first 700 bytes.
func TestCutShort(t *testing.T) {
	skipUnderRace(t)
	files, err := filepath.Glob("testdata/made/*.stl")
	if err != nil || len(files) == 0 {
		t.Fatal(err)
	}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for n := range min(len(data), 700) {
			whole := n > 84 && n == 84+50*int(data[80])
			if _, err := Read("t.stl", data[:n], Defaults()); err == nil && !whole && !bytes.Contains(bytes.ToLower(data[:n]), []byte("endsolid")) {
				t.Errorf("%s cut to %d bytes was accepted", name, n)
			}
		}
	}
}
