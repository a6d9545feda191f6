package pattern

import (
	"context"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"
	"time"
)

// union.mjs unites the solids that are given as one binary STL each, by the
// reference library, and answers with volume, area and milliseconds.
const unionScript = `
import { readFileSync } from 'node:fs';
import Module from 'manifold-3d';
const m = await Module(); m.setup();
function load(file) {
  const b = readFileSync(file), v = new DataView(b.buffer, b.byteOffset, b.byteLength), n = v.getUint32(80, true);
  const index = new Map(), points = [], faces = new Uint32Array(3 * n);
  for (let i = 0; i < n; i++) for (let k = 0; k < 3; k++) {
    const o = 84 + 50 * i + 12 + 12 * k, x = v.getFloat32(o, true), y = v.getFloat32(o + 4, true), z = v.getFloat32(o + 8, true);
    const key = x + ',' + y + ',' + z;
    let p = index.get(key);
    if (p === undefined) { p = points.length / 3; index.set(key, p); points.push(x, y, z); }
    faces[3 * i + k] = p;
  }
  return new m.Mesh({ numProp: 3, vertProperties: new Float32Array(points), triVerts: faces });
}
const meshes = process.argv.slice(2).map(load);
const start = performance.now();
const parts = meshes.map(x => new m.Manifold(x));
const all = m.Manifold.union(parts);
const volume = all.volume(), area = all.surfaceArea();
console.log(JSON.stringify({ volume, area, ms: performance.now() - start, status: all.status() }));
`

type exactUnion struct {
	Volume, Area, MS float64
	Status           string
}

// refsFolder is a folder with node_modules/manifold-3d (npm i manifold-3d,
// Apache-2.0), which no user needs.
func refsFolder(t testing.TB) string {
	dir := os.Getenv("CASTWEEK_REFS")
	if dir == "" {
		t.Skip("CASTWEEK_REFS names no folder with node_modules/manifold-3d")
	}
	if _, err := exec.LookPath("node"); err != nil {
		if os.Getenv("CASTWEEK_READERS") == "required" {
			t.Fatal("node is not there")
		}
		t.Skip("node is not there")
	}
	return dir
}

func uniteExactly(t testing.TB, parts []solid) exactUnion {
	dir := refsFolder(t)
	script := filepath.Join(dir, "union.mjs")
	if err := os.WriteFile(script, []byte(unionScript), 0o644); err != nil {
		t.Fatal(err)
	}
	args := []string{script}
	for i, p := range parts {
		file := filepath.Join(t.TempDir(), strconv.Itoa(i)+".stl")
		if err := os.WriteFile(file, stlOf(p), 0o644); err != nil {
			t.Fatal(err)
		}
		args = append(args, file)
	}
	ctx, stop := context.WithTimeout(context.Background(), 2*time.Minute)
	defer stop()
	c := exec.CommandContext(ctx, "node", args...)
	c.Stderr = os.Stderr
	out, err := c.Output()
	if err != nil {
		t.Fatal(err)
	}
	var u exactUnion
	if err := json.Unmarshal(out, &u); err != nil || u.Volume == 0 {
		t.Fatalf("%s: %v", out, err)
	}
	return u
}

func TestAgreesWithTheExactLibrary(t *testing.T) {
	refsFolder(t)
	lap := torus(9, 1.2, 200, 40)
	for name, parts := range map[string][]solid{
		"ring":    ring(8),
		"turned":  spunAll(ring(6)),
		"tori":    {lap, lap.spun(1, 2, 0.35), lap.spun(1, 2, 1.2)},
		"boxes":   {box(Point{}, Point{10, 4, 3}), box(Point{3.1, 0.9, 1.85}, Point{5.4, 3.2, 4.15}), box(Point{-1, 1, 1}, Point{12, 2, 2})},
		"spheres": {ball(3, Point{}, 60, 120), ball(2, Point{3.5, 0, 0}, 60, 120), ball(1, Point{0, 0, 2.6}, 60, 120)},
	} {
		want := uniteExactly(t, parts)
		r := mustMeasure(t, Defaults(), parts...)
		closeTo(t, name+": volume", float64(r.Volume), want.Volume, 1e-4*want.Volume)
		closeTo(t, name+": within its bound", float64(r.Volume), want.Volume, float64(r.Bound)+1e-6*want.Volume)
		closeTo(t, name+": area", float64(r.Area), want.Area, 2e-4*want.Area)
	}
}

// At least four times as fast as the exact library on a ring of a million
// faces, welded meshes in and volume and area out on both sides, in one run.
func TestSpeedAgainstTheExactLibrary(t *testing.T) {
	skipUnderRace(t)
	refsFolder(t)
	parts := ring(34)
	want := uniteExactly(t, parts)
	m, err := Read("ring.stl", stlOf(parts...), Defaults())
	if err != nil {
		t.Fatal(err)
	}
	best, volume := time.Hour, 0.0
	for range 3 {
		start := time.Now()
		c := &chain{m.Points, m.Faces, m.body}
		var s soundness
		c.split(c.repair(&s, m.grain), &s)
		c.orient(&s)
		volume = c.unite(&s, Defaults(), m.bodies).volume
		best = min(best, time.Since(start))
	}
	ratio := want.MS / (best.Seconds() * 1000)
	t.Logf("%d faces: exact library %.0f ms, here %v, %.1f times as fast; volume %.5f and %.5f, %+.5f %%", len(m.Faces), want.MS, best, ratio, want.Volume, volume, 100*(volume/want.Volume-1))
	closeTo(t, "volume", volume, want.Volume, 1e-4*want.Volume)
	if ratio < 4 {
		t.Errorf("only %.1f times as fast", ratio)
	}
}

// admesh (GPL-2, called as a program) adds up the solids in float32: good to
// 2e-5. It hangs on some files, so it has a deadline.
func TestSumAgreesWithAdmesh(t *testing.T) {
	t.Parallel()
	if _, err := exec.LookPath("admesh"); err != nil {
		t.Skip("admesh is not there")
	}
	number := regexp.MustCompile(`Volume\s*:\s*([-0-9.]+)`)
	for _, parts := range [][]solid{{torus(9, 1.2, 200, 40)}, ring(4), {ball(3, Point{}, 60, 120), ball(2, Point{3.5, 0, 0}, 60, 120)}} {
		file := filepath.Join(t.TempDir(), "t.stl")
		if err := os.WriteFile(file, stlOf(parts...), 0o644); err != nil {
			t.Fatal(err)
		}
		ctx, stop := context.WithTimeout(context.Background(), 20*time.Second)
		out, err := exec.CommandContext(ctx, "admesh", file).Output()
		stop()
		if err != nil {
			t.Fatal(err)
		}
		found := number.FindSubmatch(out)
		if found == nil {
			t.Fatalf("no volume in %s", out)
		}
		want, err := strconv.ParseFloat(string(found[1]), 64)
		if err != nil {
			t.Fatal(err)
		}
		r := mustMeasure(t, coarser(64), parts...)
		closeTo(t, "plain sum", float64(r.PlainSum), want, 2e-5*want)
	}
}
