package record

import (
	"slices"
	"time"
)

// A Print is one print of what goes by itself: a bag, a tree's pour sheet, a
// list, a label. It keeps line by line what it says, so that the next one can
// tell what is new.
type Print struct {
	Key      string
	Number   int // from 1
	At       time.Time
	Replaces int      // number of the print that is to be torn, 0 none
	AllNew   bool     // so much has changed that bars would say nothing
	Proposal bool     // printed before the cast was accepted
	Paper    string   // full sheet of the series it was laid for; empty in older records
	Lines    []string // in the order of the page
	Changes  []Change
	Removed  []string // lines of the earlier print that have nothing in their place
}

// Change is a line that differs from the earlier print. An empty Was means that
// nothing stood there.
type Change struct {
	Line int
	Was  string
}

// allNewBeyond is the share of changed lines above which bars in the margin
// would say nothing (technical manuals' practice for revised pages).
const allNewBeyond = 0.6

// First is a print that replaces none.
func First(key string, at time.Time, proposal bool) Print {
	return Print{Key: key, Number: 1, At: at, Proposal: proposal}
}

// Next is the print that replaces p and says other lines. Alike asks how much
// of one line is in another, from 0 to 1.
func (p Print) Next(lines []string, at time.Time, proposal bool, alike func(a, b string) float64) Print {
	n := Print{Key: p.Key, Number: p.Number + 1, At: at, Replaces: p.Number, Proposal: proposal, Paper: p.Paper, Lines: lines}
	for _, h := range hunks(p.Lines, lines) {
		n.replace(h, alike)
	}
	n.moved(alike)
	if float64(len(n.Changes)) > allNewBeyond*float64(len(lines)) {
		n.AllNew, n.Changes, n.Removed = true, nil, nil
	}
	return n
}

// replace pairs each new line of a hunk with the earlier one that is most like
// it; in a hunk of as many new lines as old ones the rest are paired in order.
func (p *Print) replace(h hunk, alike func(a, b string) float64) {
	was := make([]int, len(h.now))
	taken := make([]bool, len(h.old))
	for i, now := range h.now {
		was[i] = -1
		best := 0.0
		for k, old := range h.old {
			if s := alike(now, old); !taken[k] && s > best {
				was[i], best = k, s
			}
		}
		if was[i] >= 0 {
			taken[was[i]] = true
		}
	}
	for i := range h.now {
		if len(h.now) == len(h.old) && was[i] < 0 && !taken[i] {
			was[i], taken[i] = i, true
		}
		c := Change{Line: h.at + i}
		if was[i] >= 0 {
			c.Was = h.old[was[i]]
		}
		p.Changes = append(p.Changes, c)
	}
	for k, old := range h.old {
		if !taken[k] {
			p.Removed = append(p.Removed, old)
		}
	}
}

// asGood is the share of two lines from which one that came and one that went
// are the same in another place.
const asGood = 0.5

// moved pairs lines that were added with the ones that went elsewhere.
func (p *Print) moved(alike func(a, b string) float64) {
	for i := range p.Changes {
		c := &p.Changes[i]
		best, at := asGood, -1
		for k, gone := range p.Removed {
			if s := alike(p.Lines[c.Line], gone); c.Was == "" && s >= best {
				best, at = s, k
			}
		}
		if at >= 0 {
			c.Was = p.Removed[at]
			p.Removed = slices.Delete(p.Removed, at, at+1)
		}
	}
	if len(p.Removed) == 0 {
		p.Removed = nil
	}
}

// A hunk is a run of lines that stand in the place of others.
type hunk struct {
	at       int // of the first new line
	old, now []string
}

// mostCompared bounds the table of the comparison; beyond it everything
// between the first and the last difference is one hunk.
const mostCompared = 4_000_000

// hunks compares two lists of lines by their longest common subsequence.
func hunks(old, now []string) []hunk {
	start := 0
	for start < len(old) && start < len(now) && old[start] == now[start] {
		start++
	}
	end := 0
	for end < len(old)-start && end < len(now)-start && old[len(old)-1-end] == now[len(now)-1-end] {
		end++
	}
	old, now = old[start:len(old)-end], now[start:len(now)-end]
	if len(old)*len(now) > mostCompared {
		return []hunk{{start, old, now}}
	}
	common := longest(old, now)
	var out []hunk
	i, k := 0, 0
	for i < len(old) || k < len(now) {
		if i < len(old) && k < len(now) && old[i] == now[k] {
			i, k = i+1, k+1
			continue
		}
		h := hunk{at: start + k}
		for i < len(old) || k < len(now) {
			switch {
			case i < len(old) && k < len(now) && old[i] == now[k]:
			case k == len(now) || i < len(old) && common[i+1][k] >= common[i][k+1]:
				h.old = append(h.old, old[i])
				i++
				continue
			default:
				h.now = append(h.now, now[k])
				k++
				continue
			}
			break
		}
		out = append(out, h)
	}
	return out
}

// longest is the table of the lengths of the longest common subsequences of
// the ends of two lists.
func longest(old, now []string) [][]int {
	out := make([][]int, len(old)+1)
	for i := range out {
		out[i] = make([]int, len(now)+1)
	}
	for i := len(old) - 1; i >= 0; i-- {
		for k := len(now) - 1; k >= 0; k-- {
			if old[i] == now[k] {
				out[i][k] = out[i+1][k+1] + 1
			} else {
				out[i][k] = max(out[i+1][k], out[i][k+1])
			}
		}
	}
	return out
}

// Prints are the last prints of all that a cast was printed on.
type Prints struct {
	Cast string
	List []Print // in the order of their keys
}

// Last finds the last print of a key.
func (p *Prints) Last(key string) (Print, bool) {
	i, found := p.find(key)
	if !found {
		return Print{}, false
	}
	return p.List[i], true
}

// Keep puts a print in the place of the last one of its key.
func (p *Prints) Keep(now Print) {
	i, found := p.find(now.Key)
	if found {
		p.List[i] = now
		return
	}
	p.List = slices.Insert(p.List, i, now)
}

func (p *Prints) find(key string) (int, bool) {
	return slices.BinarySearchFunc(p.List, key, func(a Print, key string) int {
		switch {
		case a.Key < key:
			return -1
		case a.Key > key:
			return 1
		}
		return 0
	})
}
