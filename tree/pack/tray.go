package pack

import "slices"

// A tray is a bin while it is being filled.
type tray struct {
	kind  int
	load  []int64
	units []int
}

// A filling is units in trays; what the searches hand to each other.
type filling struct {
	s     *space
	units []unit
	trays []tray
}

func (f *filling) open(kind int) int {
	f.trays = append(f.trays, tray{kind: kind, load: make([]int64, f.s.dims)})
	return len(f.trays) - 1
}

// admits tells whether unit u may join tray t.
func (f *filling) admits(t, u int) bool {
	tr := &f.trays[t]
	size := f.units[u].size[tr.kind]
	if size == nil {
		return false
	}
	return fitsWith(tr.load, size, f.s.q.Bins[tr.kind].Capacity) && f.friendly(t, u, -1)
}

// friendly tells whether no wish and no refusal keeps unit u out of tray t once
// unit without has left it (-1: none has).
func (f *filling) friendly(t, u, without int) bool {
	tr := &f.trays[t]
	if len(f.units[u].foes) > 0 {
		for _, v := range tr.units {
			if v != without && f.units[u].hates(v) {
				return false
			}
		}
	}
	if f.s.hang == nil || len(f.s.hang.refuse[tr.kind]) == 0 {
		return true
	}
	items := slices.Clone(f.units[u].items)
	for _, v := range tr.units {
		if v != without {
			items = append(items, f.units[v].items...)
		}
	}
	slices.Sort(items)
	return !f.s.hang.barred(tr.kind, items)
}

func (f *filling) add(t, u int) {
	tr := &f.trays[t]
	tr.units = append(tr.units, u)
	for d, v := range f.units[u].size[tr.kind] {
		tr.load[d] += v
	}
}

func (f *filling) remove(t, u int) {
	tr := &f.trays[t]
	at := slices.Index(tr.units, u)
	tr.units = slices.Delete(tr.units, at, at+1)
	for d, v := range f.units[u].size[tr.kind] {
		tr.load[d] -= v
	}
}

// items of tray t, rising.
func (f *filling) items(t int) []int {
	var out []int
	for _, u := range f.trays[t].units {
		out = append(out, f.units[u].items...)
	}
	slices.Sort(out)
	return out
}

// groups hands back the trays in use as groups, by least item.
func (f *filling) groups() []Group {
	var gs []Group
	for t := range f.trays {
		if len(f.trays[t].units) > 0 {
			gs = append(gs, Group{Bin: f.trays[t].kind, Items: f.items(t), Load: slices.Clone(f.trays[t].load)})
		}
	}
	slices.SortFunc(gs, func(a, b Group) int { return a.Items[0] - b.Items[0] })
	return gs
}
