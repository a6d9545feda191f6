package pack

// repair fills trays of the given kinds evenly without regard to their limits,
// and then takes out of the trays that are too full: one move or swap at a
// time, the one that lowers the overload most, until there is none or nothing
// helps. steps bounds the moves. nil if it fails.
func (s *space) repair(units []unit, kinds []int, steps int) *filling {
	f := &filling{s: s, units: units}
	for _, k := range kinds {
		f.open(k)
	}
	for _, u := range order(units) {
		if !s.spend(int64(len(kinds)*s.dims + 20)) {
			return nil
		}
		best, least := -1, 0.0
		for t := range f.trays {
			if full, ok := f.fullAfter(t, u); ok && (best < 0 || full < least) && f.friendly(t, u, -1) {
				best, least = t, full
			}
		}
		if best < 0 {
			return nil
		}
		f.add(best, u)
	}
	for range steps {
		if f.whole() {
			return f
		}
		if !f.relieve() {
			return nil
		}
	}
	return nil
}

func (f *filling) whole() bool {
	for t := range f.trays {
		if f.overload(t, nil, nil) > 0 {
			return false
		}
	}
	return true
}

// overload is by how much tray t passes its limits, in shares of them, once the
// size out has left it and the size in has joined it.
func (f *filling) overload(t int, out, in []int64) float64 {
	tr := &f.trays[t]
	over := 0.0
	for d, c := range f.s.q.Bins[tr.kind].Capacity {
		v := tr.load[d]
		if out != nil {
			v -= out[d]
		}
		if in != nil {
			v += in[d]
		}
		if v > c {
			over += share(v-c, c)
		}
	}
	return over
}

// leastGain is the smallest lowering of the overload that counts; less is dust.
const leastGain = 1e-12

// relieve makes the best single move or swap out of a tray that is too full.
func (f *filling) relieve() bool {
	gain, from, to, moved, back := leastGain, -1, -1, -1, -1
	for t := range f.trays {
		over := f.overload(t, nil, nil)
		if over == 0 {
			continue
		}
		for _, u := range f.trays[t].units {
			out := f.units[u].size[f.trays[t].kind]
			for o := range f.trays {
				in := f.units[u].size[f.trays[o].kind]
				if o == t || in == nil {
					continue
				}
				if !f.s.spend(int64(8 * (len(f.trays[o].units) + 1))) {
					return false
				}
				was := over + f.overload(o, nil, nil)
				if g := was - f.overload(t, out, nil) - f.overload(o, nil, in); g > gain && f.friendly(o, u, -1) {
					gain, from, to, moved, back = g, t, o, u, -1
				}
				for _, w := range f.trays[o].units {
					home, away := f.units[w].size[f.trays[t].kind], f.units[w].size[f.trays[o].kind]
					if home == nil {
						continue
					}
					left := f.overload(t, out, home)
					if was-left <= gain {
						continue
					}
					if g := was - left - f.overload(o, away, in); g > gain && f.friendly(o, u, w) && f.friendly(t, w, u) {
						gain, from, to, moved, back = g, t, o, u, w
					}
				}
			}
		}
	}
	if from < 0 {
		return false
	}
	f.remove(from, moved)
	if back >= 0 {
		f.remove(to, back)
		f.add(from, back)
	}
	f.add(to, moved)
	return true
}
