package reading

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// The smallest type of the house, and a point in millimetres.
const (
	smallest = 9
	pointMM  = 25.4 / 72
)

var (
	pageSize = regexp.MustCompile(`<page width="([\d.]+)" height="([\d.]+)"`)
	wordBox  = regexp.MustCompile(`xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*)<`)
)

// Tidy reads where words stand: none in type under 9 pt, none at the edge of the
// paper where printers fail, and none on another.
func Tidy(t *testing.T, name string, pdf []byte) {
	t.Helper()
	typeSizes(t, name, pdf)
	bbox := run(t, "pdftotext", pdf, "-bbox", "FILE", "-")
	edges(t, name, bbox)
	overlaps(t, name, bbox)
}

// Sizes are those of the pages in points: "595 x 842".
func Sizes(t *testing.T, pdf []byte) []string {
	t.Helper()
	var out []string
	for _, m := range pageSize.FindAllStringSubmatch(run(t, "pdftotext", pdf, "-bbox", "FILE", "-"), -1) {
		w, _ := strconv.ParseFloat(m[1], 64)
		h, _ := strconv.ParseFloat(m[2], 64)
		out = append(out, fmt.Sprintf("%.0f x %.0f", w, h))
	}
	return out
}

// typeSizes reads the sizes of type out of the page itself.
func typeSizes(t *testing.T, name string, pdf []byte) {
	t.Helper()
	xml := run(t, "pdftohtml", pdf, "-xml", "-stdout", "-i", "-zoom", "1", "FILE")
	sizes := regexp.MustCompile(`<fontspec id="\d+" size="(-?\d+)"`).FindAllStringSubmatch(xml, -1)
	if len(sizes) == 0 {
		t.Fatalf("%s: no type found", name)
	}
	for _, m := range sizes {
		if n, _ := strconv.Atoi(m[1]); n < smallest {
			t.Errorf("%s: type of %d pt", name, n)
		}
	}
}

// edges: words keep 10 mm off the sides of the sheet.
func edges(t *testing.T, name, bbox string) {
	edge := 9.5 / pointMM
	var width, height float64
	for _, line := range strings.Split(bbox, "\n") {
		if m := pageSize.FindStringSubmatch(line); m != nil {
			width, _ = strconv.ParseFloat(m[1], 64)
			height, _ = strconv.ParseFloat(m[2], 64)
		}
		m := wordBox.FindStringSubmatch(line)
		if m == nil {
			continue
		}
		var v [4]float64
		for i := range v {
			v[i], _ = strconv.ParseFloat(m[i+1], 64)
		}
		if v[0] < edge || v[2] > width-edge || v[1] < 6/pointMM || v[3] > height-5/pointMM {
			t.Errorf("%s: %q stands at the edge: %v of %.0f x %.0f pt", name, m[5], v, width, height)
		}
	}
}

// overlaps: no two words of a page lie on each other.
func overlaps(t *testing.T, name, bbox string) {
	type box struct {
		v    [4]float64
		text string
	}
	for _, sheet := range strings.Split(bbox, "<page ")[1:] {
		var boxes []box
		for _, m := range wordBox.FindAllStringSubmatch(sheet, -1) {
			var b box
			for i := range b.v {
				b.v[i], _ = strconv.ParseFloat(m[i+1], 64)
			}
			// The reader's boxes hold ascent and descent; take the body of the letters.
			h := b.v[3] - b.v[1]
			b.v[1], b.v[3] = b.v[1]+h*0.28, b.v[3]-h*0.24
			b.text = m[5]
			boxes = append(boxes, b)
		}
		for i, a := range boxes {
			for _, b := range boxes[i+1:] {
				if min(a.v[2], b.v[2])-max(a.v[0], b.v[0]) > 0.8 && min(a.v[3], b.v[3])-max(a.v[1], b.v[1]) > 0.8 {
					t.Errorf("%s: %q and %q lie on each other at %.0f,%.0f pt", name, a.text, b.text, a.v[0], a.v[1])
				}
			}
		}
	}
}
