package record

import (
	"bytes"
	"math"
	"reflect"
	"regexp"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

type paper struct {
	Text   string
	Number float64
	Lines  [][][2]float64
	Deep   *paper
}

func sample() Record[paper] {
	return Record[paper]{Schema: schema, Cast: "2026-W49", Pour: time.Date(2026, 12, 3, 9, 0, 0, 0, time.UTC), Accepted: time.Date(2026, 11, 30, 8, 0, 0, 0, time.UTC),
		Trees: []Tree{{"2026-W49-A", "750 yellow", "house", []string{"K-204/1", "K-204/2"}}},
		Paper: paper{"N", 0.1, [][][2]float64{{{1, 2}, {3, 4.5}}}, &paper{Text: "~"}}}
}

func TestRoundTrip(t *testing.T) {
	b, err := Encode(sample())
	if err != nil {
		t.Fatal(err)
	}
	got, err := Decode[paper](b)
	if err != nil {
		t.Fatal(err)
	}
	want := sample()
	want.End = want.Cast
	want.Paper.Deep.Lines = [][][2]float64{} // an empty list comes back as one
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%+v\n%s", got, b)
	}
}

// Whatever is printed comes back exactly, or a sheet printed again would differ.
func TestEveryTextAndNumberComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := sample()
		r.Paper.Text = rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{"", "null", "yes", "0412", "1e3", "- a", "a: b", "# x", " x ", "a\nb\n", "12:30", "\t", "!!x", "&a", "'", "\"", "½ 🙂"})).Draw(t, "text")
		r.Paper.Number = rapid.Float64().Draw(t, "number")
		if math.IsNaN(r.Paper.Number) || math.IsInf(r.Paper.Number, 0) {
			return
		}
		b, err := Encode(r)
		if err != nil {
			t.Fatal(err)
		}
		got, err := Decode[paper](b)
		if err != nil {
			t.Fatalf("%v\n%s", err, b)
		}
		if got.Paper.Text != r.Paper.Text || got.Paper.Number != r.Paper.Number {
			t.Fatalf("%q %v came back as %q %v", r.Paper.Text, r.Paper.Number, got.Paper.Text, got.Paper.Number)
		}
		again, err := Encode(got)
		if err != nil || !bytes.Equal(b, again) {
			t.Fatalf("written again it differs (%v)", err)
		}
	})
}

func TestRefused(t *testing.T) {
	b, _ := Encode(sample())
	good := string(b)
	for name, bad := range map[string]string{
		"another field":  strings.Replace(good, "cast:", "castx:", 1),
		"one more field": strings.Replace(good, "trees:", "mine: yes\ntrees:", 1),
		"no name":        strings.Replace(good, "2026-W49\n", "week 49\n", 1),
		"schema":         strings.Replace(good, "schema: 1", "schema: 2", 1),
		"twice":          strings.Replace(good, "K-204/2", "K-204/1", 1),
		"half":           good[:len(good)/2],
		"empty":          "",
	} {
		if bad == good {
			t.Fatalf("%s: nothing was changed", name)
		}
		if _, err := Decode[paper]([]byte(bad)); err == nil {
			t.Errorf("%s was read", name)
		}
	}
}

// A full disk, or a copy that was broken off, leaves the beginning of a record:
// none of its beginnings may pass for the whole, or a ring is cast twice.
func TestNoBeginningIsARecord(t *testing.T) {
	b, _ := Encode(sample())
	for n := range len(b) - 1 { // the last byte is the end of the last line
		if _, err := Decode[paper](b[:n]); err == nil {
			t.Errorf("%d of %d bytes were read:\n%s", n, len(b), b[:n])
		}
	}
	if _, err := Decode[paper](b); err != nil {
		t.Error(err)
	}
}

// What is wrong is said in words of ours, and a field of another build is told
// from damage.
func TestWhatIsWrongIsSaid(t *testing.T) {
	b, _ := Encode(sample())
	good := string(b)
	for bad, want := range map[string]string{
		strings.Replace(good, "trees:", "mine: yes\ntrees:", 1): "^line 6 holds what this build does not know: another build wrote it",
		strings.Replace(good, "number: 0.1", "number: x", 1):    "^the file is damaged on line ",
		strings.Replace(good, "end: 2026-W49\n", "", 1):         "cut short",
		"": "^the file is empty$",
	} {
		if _, err := Decode[paper]([]byte(bad)); err == nil || !regexp.MustCompile(want).MatchString(err.Error()) {
			t.Errorf("%v, want %q", err, want)
		}
	}
}
