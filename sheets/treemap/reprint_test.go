package treemap

import (
	"strings"
	"testing"

	"castweek/tree/record"
)

// Another name of one design is all that changes on the map of its tree: the
// room that the later print's own lines take moves and scales no drawing.
func TestReprintMarksOnlyWhatChanged(t *testing.T) {
	c := sample(t)
	o := Options{Prints: &record.Prints{Cast: c.Name}}
	if _, _, err := Print(c, o); err != nil {
		t.Fatal(err)
	}
	changed := map[string]string{}
	for i := range c.Trees {
		list := c.Trees[i].Castings
		was, job := list[0].Design, list[0].Job
		changed["tree map "+c.Trees[i].Name] = was
		for k := range list {
			if list[k].Job == job {
				list[k].Design = "another name of it"
			}
		}
	}
	if _, _, err := Print(c, o); err != nil {
		t.Fatal(err)
	}
	for _, p := range o.Prints.List {
		if p.Number != 2 || p.AllNew || len(p.Changes) == 0 || len(p.Removed) > 0 {
			t.Errorf("%s: print %d, all new %v, changes %v, removed %q", p.Key, p.Number, p.AllNew, p.Changes, p.Removed)
			continue
		}
		for _, k := range p.Changes {
			if strings.Contains(p.Lines[k.Line], "another name of it") && strings.Contains(k.Was, changed[p.Key]) {
				continue
			}
			t.Errorf("%s: %q was %q", p.Key, p.Lines[k.Line], k.Was)
		}
	}
	if len(o.Prints.List) != len(c.Trees) {
		t.Errorf("%d maps of %d trees", len(o.Prints.List), len(c.Trees))
	}
}
