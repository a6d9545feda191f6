package tree

import (
	"cmp"
	"slices"
	"strings"

	"castweek/jobs"
)

// letters names the trees in the order that they have: a tree that a person
// keeps has the letter of the plan before, since it may stand on the bench with
// it; the others take the free ones. Both come back in the order of the letters.
func letters(hung []hungTree, kept []jobs.KeptTree) ([]hungTree, []string) {
	of := make([]string, len(hung))
	taken := map[string]bool{}
	for _, k := range kept {
		i := slices.IndexFunc(hung, func(h hungTree) bool { return sameCastings(h, k.Castings) })
		if i >= 0 && of[i] == "" && !taken[k.Tree] {
			of[i], taken[k.Tree] = k.Tree, true
		}
	}
	next := 0
	for i := range of {
		for of[i] == "" {
			if l := treeLetter(next); !taken[l] {
				of[i], taken[l] = l, true
			}
			next++
		}
	}
	order := make([]int, len(hung))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(len(of[a]), len(of[b])), strings.Compare(of[a], of[b]))
	})
	trees, names := make([]hungTree, len(hung)), make([]string, len(hung))
	for to, from := range order {
		trees[to], names[to] = hung[from], of[from]
	}
	return trees, names
}

func sameCastings(h hungTree, ids []string) bool {
	if len(h.items) != len(ids) {
		return false
	}
	for _, it := range h.items {
		if !slices.Contains(ids, it.casting.ID) {
			return false
		}
	}
	return true
}

// treeLetter is the n-th letter, from 0: A … Z, AA.
func treeLetter(n int) string { return strings.ToUpper(jobs.Letter(n)) }

// treeName names a tree of a cast: 2026-W49-A.
func treeName(cast, letter string) string { return cast + "-" + letter }
