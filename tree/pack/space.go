package pack

import (
	"slices"
)

// unlimited stands for a kind of bin of which there are as many as are wanted.
const unlimited = 1 << 30

// A space is a question whose wishes have been read: what is left to pack, and
// into what. It also keeps what has been learned about sets that cannot hang.
type space struct {
	q      *Question
	wishes wishes
	dims   int
	avail  []int // by kind, less the fixed bins
	free   []int // items to be packed, rising
	left   []Left
	jobs   []int // by item: number of its job, or -1
	work   int64
	limit  int64
	hang   *hanging
}

// newSpace reads a question; on any fault there is no space.
func newSpace(q *Question) (*space, faults) {
	if fs := q.checkNumbers(); fs != nil {
		return nil, fs
	}
	w, fs := q.readWishes()
	s := &space{q: q, wishes: w, dims: len(q.Bins[0].Capacity), limit: q.Limit}
	if s.limit <= 0 {
		s.limit = DefaultLimit
	}
	for _, b := range q.Bins {
		switch {
		case b.Available == 0:
			s.avail = append(s.avail, unlimited)
		default:
			s.avail = append(s.avail, max(0, b.Available))
		}
	}
	fs = append(fs, s.takeFixed()...)
	if fs == nil {
		fs = s.takeItems()
	}
	if fs != nil {
		return nil, fs
	}
	s.nameJobs()
	return s, nil
}

// takeFixed uses up the bins as they were. Together with their load they stand
// outside every bound, which counts one for each.
func (s *space) takeFixed() (fs faults) {
	for k, g := range s.q.Fixed {
		load, ok := s.load(g.Bin, g.Items)
		if !ok || !fits(load, s.q.Bins[g.Bin].Capacity) {
			fs.add(FixedUnfit, []string{fixed(k)}, g.Items, "the bin as it was passes the limits of %q", s.q.Bins[g.Bin].Name)
		}
		if s.avail[g.Bin] == 0 {
			fs.add(FixedRunsOut, []string{fixed(k)}, nil, "more bins as they were want %q than there are", s.q.Bins[g.Bin].Name)
			continue
		}
		if s.avail[g.Bin] != unlimited {
			s.avail[g.Bin]--
		}
	}
	return fs
}

// takeItems sorts the items into those to be packed and those that no bin
// takes, and refuses a set to be kept together that no bin takes.
func (s *space) takeItems() (fs faults) {
	for i := range s.q.Items {
		if s.wishes.fixed[i] >= 0 {
			continue
		}
		if dim, ok := s.takes([]int{i}); !ok {
			why := TooBig
			if !slices.ContainsFunc(s.avail, func(n int) bool { return n > 0 }) {
				why = RanOut
			}
			s.left = append(s.left, Left{i, why, dim})
			continue
		}
		s.free = append(s.free, i)
	}
	for k, set := range s.q.Together {
		if len(set) < 2 || s.wishes.fixed[set[0]] >= 0 {
			continue
		}
		var all []int
		for i := range s.q.Items {
			if s.wishes.block[i] == s.wishes.block[set[0]] {
				all = append(all, i)
			}
		}
		if _, ok := s.takes(all); !ok {
			names := []string{together(k)}
			for k2, set2 := range s.q.Together {
				if k2 != k && len(set2) > 0 && s.wishes.block[set2[0]] == s.wishes.block[set[0]] {
					names = append(names, together(k2))
				}
			}
			fs.add(TogetherTooBig, names, all, "those to be kept together are too much for any bin")
		}
	}
	return fs
}

// takes tells whether some kind of bin that is in use takes a set, and if
// none does, in which dimension the best of them falls shortest.
func (s *space) takes(items []int) (dim int, ok bool) {
	dim = -1
	best := 0.0
	for k, b := range s.q.Bins {
		load, goes := s.load(k, items)
		if s.avail[k] == 0 || !goes {
			continue
		}
		if fits(load, b.Capacity) {
			return -1, true
		}
		worst, over := 0, 0.0
		for d := range load {
			if o := share(load[d], b.Capacity[d]); load[d] > b.Capacity[d] && o > over {
				worst, over = d, o
			}
		}
		if dim < 0 || over < best {
			dim, best = worst, over
		}
	}
	return dim, false
}

// size is what item i takes in a bin of kind k; nil where it never goes in.
func (s *space) size(k, i int) []int64 {
	if in := s.q.Items[i].SizeIn; in != nil {
		return in[k]
	}
	return s.q.Items[i].Size
}

// load is what a set takes in a bin of kind k; false where one never goes in.
func (s *space) load(k int, items []int) ([]int64, bool) {
	sum := make([]int64, s.dims)
	for _, i := range items {
		size := s.size(k, i)
		if size == nil {
			return nil, false
		}
		for d, v := range size {
			sum[d] += v
		}
	}
	return sum, true
}

func (s *space) nameJobs() {
	s.jobs = make([]int, len(s.q.Items))
	number := map[string]int{}
	for i, it := range s.q.Items {
		n, seen := number[it.Job]
		if !seen {
			n = len(number)
			number[it.Job] = n
		}
		if it.Job == "" {
			n = -1
		}
		s.jobs[i] = n
	}
}

func fits(load, capacity []int64) bool {
	for d, v := range load {
		if v > capacity[d] {
			return false
		}
	}
	return true
}

// share is load by limit. One division is rounded alike on every machine.
func share(load, capacity int64) float64 {
	if load == 0 {
		return 0
	}
	if capacity == 0 {
		return 1e18
	}
	return float64(load) / float64(capacity)
}

// spend counts work and tells whether there is any left.
func (s *space) spend(units int64) bool {
	s.work += units
	return s.work < s.limit
}

func sorted(items []int) []int {
	out := slices.Clone(items)
	slices.Sort(out)
	return out
}
