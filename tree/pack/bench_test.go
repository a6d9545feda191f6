package pack

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// benchSolve solves each of the questions once a round.
func benchSolve(b *testing.B, qs []Question) {
	b.Helper()
	if len(qs) == 0 {
		b.Skip("no such instances under -data")
	}
	proved := 0
	for b.Loop() {
		proved = 0
		for _, q := range qs {
			if a, _ := Solve(q); a.Proved {
				proved++
			}
		}
	}
	b.ReportMetric(float64(b.Elapsed().Milliseconds())/float64(b.N*len(qs)), "ms/question")
	b.ReportMetric(float64(proved)/float64(len(qs))*100, "%proved")
}

func benchFiles(b *testing.B, folder, holding string) {
	dir := filepath.Join(dataRoot(), folder)
	if _, err := os.Stat(dir); err != nil {
		b.Skip("no such instances under -data")
	}
	var qs []Question
	for _, name := range files(b, dir) {
		if strings.Contains(name, holding) {
			qs = append(qs, read(b, filepath.Join(dir, name)))
		}
	}
	benchSolve(b, qs)
}

func BenchmarkWeek1000(b *testing.B) {
	text, err := os.ReadFile(filepath.Join("testdata", "weeks", "week-1000.json"))
	if err != nil {
		b.Fatal(err)
	}
	w, err := readWeek(text)
	if err != nil {
		b.Fatal(err)
	}
	qs := w.groups("ams")
	for b.Loop() {
		for _, q := range qs {
			Solve(q)
		}
	}
}

func BenchmarkStress99(b *testing.B) {
	var qs []Question
	for _, k := range []int{2, 3, 5} {
		for _, q := range stressGroups(b, k) {
			qs = append(qs, stressed(q, k, 0.99, 0.99))
		}
	}
	benchSolve(b, qs)
}

func BenchmarkUniform120(b *testing.B)   { benchFiles(b, "falkenauer_u", "u120") }
func BenchmarkUniform250(b *testing.B)   { benchFiles(b, "falkenauer_u", "u250") }
func BenchmarkUniform500(b *testing.B)   { benchFiles(b, "falkenauer_u", "u500") }
func BenchmarkUniform1000(b *testing.B)  { benchFiles(b, "falkenauer_u", "u1000") }
func BenchmarkTriplet60(b *testing.B)    { benchFiles(b, "falkenauer_t", "t60") }
func BenchmarkTriplet120(b *testing.B)   { benchFiles(b, "falkenauer_t", "t120") }
func BenchmarkTriplet249(b *testing.B)   { benchFiles(b, "falkenauer_t", "t249") }
func BenchmarkTriplet501(b *testing.B)   { benchFiles(b, "falkenauer_t", "t501") }
func BenchmarkHard28(b *testing.B)       { benchFiles(b, "hard28", "") }
func BenchmarkScholl3(b *testing.B)      { benchFiles(b, "scholl3", "") }
func BenchmarkVector2(b *testing.B)      { benchFiles(b, "gen2d", "") }
func BenchmarkVector3(b *testing.B)      { benchFiles(b, "new3d", "_60_") }
func BenchmarkVector3Large(b *testing.B) { benchFiles(b, "new3d", "_120_") }
func BenchmarkTriplet3(b *testing.B)     { benchFiles(b, "triplet3d", "") }
