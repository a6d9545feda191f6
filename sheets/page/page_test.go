package page

import (
	"bytes"
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

var asOf = time.Date(2026, 11, 30, 8, 0, 0, 0, time.UTC)

func trial(title string) *Doc { return New(Options{Title: title, AsOf: asOf}) }

// specimen lays something of everything.
func specimen() *Doc {
	d := trial("specimen \U0001F48D")
	d.About("K-1", "notes")
	f := d.Flow(A5, A5.Inside(14))
	f.Head = func(l *Leaf, n int) float64 {
		l.TextRight(A5.W-WordEdge, 18, Style{MonoBold, Bench.Identity}, "K-1")
		return 22
	}
	f.Foot = func(l *Leaf, n, of int) {
		l.ControlBar(14, A5.H-9, Style{Regular, Bench.Stamp}, "50 mm")
	}
	f.Para(Style{Regular, 12}, "ring for \U0001F48D שלום Øster, Ø 2.5 mm and ⌀3 mm; ☐ open ✓ done 12\u202f500 g")
	f.Lay(Table{Columns: []Column{{"what", 0, AlignLeft}, {"g", 25, AlignPoint}, {"seen", 15, AlignCentre}}, Style: Style{Regular, 12}, Pitch: 9},
		[][]Cell{{Text("band, with a long name that needs more than one line"), Text("12.40"), Tick(6)}, {Text("head"), Text("0.5"), Box()}, {Text("all"), Text("112"), Text("-")}})
	for s := Hazard; s <= Information; s++ {
		s := s
		f.Block(12, func(l *Leaf, x, y, w float64) {
			l.Shape(s, x, y, 10)
			l.Digits(x+20, y, Dirty, "00.00", Style{Regular, 12}, "g")
			l.TickBox(x+80, y, 8)
		})
	}
	f.StartBar()
	f.Block(30, func(l *Leaf, x, y, w float64) { l.Code(d.Code("K-1"), x, y, 0.8) })
	f.EndBar()
	d.Put(f.End()...)
	return d
}

func TestSameBytesTwice(t *testing.T) {
	a, err := specimen().Bytes()
	if err != nil {
		t.Fatal(err)
	}
	b, err := specimen().Bytes()
	if err != nil || !bytes.Equal(a, b) {
		t.Fatalf("two runs differ: %d and %d bytes, %v", len(a), len(b), err)
	}
}

func TestLackingSignsAreTold(t *testing.T) {
	d := specimen()
	var all string
	for _, p := range d.Problems() {
		all += p.String()
	}
	for _, want := range []string{"U+1F48D", "U+05E9", "K-1", "notes"} {
		if !strings.Contains(all, want) {
			t.Errorf("no remark with %q in:\n%s", want, all)
		}
	}
}

// TestGlyphs holds what the layout relies on: which signs the faces lack, and
// that all digits of a face share one width.
func TestGlyphs(t *testing.T) {
	for _, f := range []Face{Regular, Bold, Mono, MonoBold} {
		for _, r := range "✓☐⌀\u2009\u202f\u2007△שع" {
			if f.Has(r) {
				t.Errorf("face %d has %q", f, r)
			}
		}
		for _, r := range "éőЖλ€×±°½−→■□\u00a0" {
			if !f.Has(r) {
				t.Errorf("face %d lacks %q", f, r)
			}
		}
		for _, r := range "0123456789" {
			if f.table()[r] != f.table()['0'] {
				t.Errorf("face %d: width of %c", f, r)
			}
		}
	}
}

// TestLevels: the sizes that the distances give, and their ratio of 1.5
// (MIL-STD-1472E, 5.5.2).
func TestLevels(t *testing.T) {
	for mm, r := range map[float64]Reading{500: Bench, 700: Wall, 1000: Kiln} {
		if math.Abs(r.Words-0.024*mm) > 0.3 {
			t.Errorf("words at %v mm: %v pt", mm, r.Words)
		}
		if r.Value/r.Words < 1.49 || r.Identity/r.Value < 1.49 || r.Stamp < Smallest {
			t.Errorf("levels at %v mm: %+v", mm, r)
		}
		// ISO 9241-3 by way of a maker's guide: capitals of 16 minutes of arc at least.
		if minutes := math.Atan(CapMM(r.Words)/mm) * 180 / math.Pi * 60; minutes < 16 {
			t.Errorf("capitals at %v mm are %.1f minutes of arc", mm, minutes)
		}
	}
}

func TestNotANumber(t *testing.T) {
	d := trial("x")
	l := d.Leaf(A5)
	l.Line(1, 1, math.NaN(), 2, Hair)
	d.Put(l)
	if _, err := d.Bytes(); err == nil {
		t.Fatal("a line to nowhere was written")
	}
}

func TestNoDate(t *testing.T) {
	d := New(Options{})
	d.Put(d.Leaf(A5))
	if _, err := d.Bytes(); err == nil {
		t.Fatal("a document without a date was written")
	}
}

func TestSmallTypeIsRefused(t *testing.T) {
	d := trial("x")
	d.Leaf(A5).Text(20, 20, Style{Regular, 8}, "small")
	if d.broken == nil {
		t.Fatal("8 pt was written")
	}
}

// TestWrapKeepsAll: wrapping loses and adds nothing but spaces, and no line is
// wider than asked unless it is a single character.
func TestWrapKeepsAll(t *testing.T) {
	s := Style{Regular, 12}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`([a-zA-Z0-9é./\-]{0,30}[ ]{0,2}(mm|g|\n)?){0,12}`).Draw(t, "text")
		width := rapid.Float64Range(3, 150).Draw(t, "width")
		lines := s.Wrap(text, width)
		squeeze := strings.NewReplacer(" ", "", "\u00a0", "", "\n", "").Replace
		if got := squeeze(strings.Join(lines, "")); got != squeeze(text) {
			t.Fatalf("%q became %q", text, got)
		}
		for _, l := range lines {
			if len([]rune(l)) > 1 && s.Width(l) > width+0.01 {
				t.Fatalf("%q is %.2f mm wide, not %.2f", l, s.Width(l), width)
			}
		}
	})
}

func TestWrapKeepsUnits(t *testing.T) {
	s := Style{Regular, 12}
	for _, l := range s.Wrap(strings.Repeat("2.5 mm deep ", 30), 40) {
		if strings.HasPrefix(l, "mm") {
			t.Errorf("a unit begins the line %q", l)
		}
	}
}

func FuzzText(f *testing.F) {
	f.Add("K-204 \U0001F48D", 20.0)
	f.Add("\xff\u202e\u0000\r\nØ 3", 0.1)
	f.Fuzz(func(t *testing.T, text string, width float64) {
		if !(width > 0 && width < 500) || len(text) > 2000 {
			t.Skip()
		}
		d := trial(text)
		fl := d.Flow(A6, A6.Inside(10))
		fl.ParaAt(Style{Regular, 12}, 10, width, text)
		d.Put(fl.End()...)
		if _, err := d.Bytes(); err != nil {
			t.Fatal(err)
		}
	})
}
