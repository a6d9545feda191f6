package tree

import (
	"slices"
	"testing"

	"castweek/tree/mount"
)

func TestNotesNameTheirCastingsOnce(t *testing.T) {
	castings := []Hanging{{Casting: "K-1/1", Job: "K-1", Part: "stud"}, {Casting: "K-1/2", Job: "K-1", Part: "stud"}, {Casting: "K-1/3", Job: "K-1", Part: "stud"},
		{Casting: "K-2/1", Job: "K-2", Part: "band"}, {Casting: "K-2/2", Job: "K-2", Part: "band"}, {Casting: "K-3/1", Job: "K-3"}}
	about := func(message, detail string, ids ...string) (out []mount.Remark) {
		for _, id := range ids {
			out = append(out, mount.Remark{ID: id, Message: message, Detail: detail, Remedy: "do this"})
		}
		return out
	}
	got := notesOf(castings, slices.Concat(about("too thin", "2 mm", "K-1/1", "K-2/1"), about("too flat", "9°", "K-3/1"), about("too thin", "2 mm", "K-1/2", "K-1/3"), about("too flat", "7°", "K-2/1", "K-2/2")))
	want := []BuildNote{{"too thin: all 3 of K-1 stud, K-2/1 (2 mm)", "do this"}, {"too flat: K-3/1 (9°), K-2/1, K-2/2 (7°)", "do this"}}
	if !slices.Equal(got, want) {
		t.Errorf("%q", got)
	}
}
