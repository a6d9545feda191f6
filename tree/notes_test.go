package tree

import (
	"slices"
	"testing"

	"castweek/tree/mount"
)

func TestNotesNameTheirCastingsOnce(t *testing.T) {
	castings := []Hanging{{Casting: "K-1/1", Job: "K-1", Part: "stud"}, {Casting: "K-1/2", Job: "K-1", Part: "stud"}, {Casting: "K-1/3", Job: "K-1", Part: "stud"},
		{Casting: "K-2/1", Job: "K-2", Part: "band"}, {Casting: "K-2/2", Job: "K-2", Part: "band"}, {Casting: "K-3/1", Job: "K-3"}}
	about := func(message string, ids ...string) (out []mount.Remark) {
		for _, id := range ids {
			out = append(out, mount.Remark{ID: id, Message: message, Remedy: "do this"})
		}
		return out
	}
	got := notesOf(castings, slices.Concat(about("too thin", "K-1/1", "K-2/1"), about("too flat", "K-3/1"), about("too thin", "K-1/2", "K-1/3"), about("too flat", "K-2/1", "K-2/2")))
	want := []BuildNote{{"all 3 of K-1 stud, K-2/1: too thin", "do this"}, {"K-3/1, K-2/1, K-2/2: too flat", "do this"}}
	if !slices.Equal(got, want) {
		t.Errorf("%q", got)
	}
}
