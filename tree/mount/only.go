package mount

// Only is the tree with some of its castings taken off: what is left hangs
// where it hung, and the trunk keeps its length.
func (t Tree) Only(keep func(id string) bool) Tree {
	out := t
	out.Placements, out.hung, out.Levels, out.FeederVolume, out.Remarks = nil, nil, nil, 0, nil
	for _, r := range t.Remarks {
		if keep(r.ID) {
			out.Remarks = append(out.Remarks, r)
		}
	}
	for i, p := range t.Placements {
		if !keep(p.ID) {
			continue
		}
		out.Placements = append(out.Placements, p)
		out.hung = append(out.hung, t.hung[i])
		out.FeederVolume += p.FeederVolume
	}
	for _, l := range t.Levels {
		l.Count = 0
		for _, p := range out.Placements {
			if p.Level == l.Number {
				l.Count++
			}
		}
		if l.Count > 0 {
			out.Levels = append(out.Levels, l)
		}
	}
	return out
}
