package jobs

import "castweek/metal/problem"

// Wishes are what a person decides over the planner, from wishes.yaml.
type Wishes struct {
	Together []Group // on one tree
	Apart    []Group // no casting of one member on a tree with one of another
	First    []Wish  // jobs for the first pour
	Mixed    []Wish  // jobs whose sections may share a tree against the house rule
	Broken   []BrokenFlask
	Keep     []KeptTree // trees as they were
}

// A Group is a list of jobs and castings that a wish speaks of. What is named
// but held has no castings.
type Group struct {
	At      problem.Place
	Members []Member
}

// A Member of a group is a job with all its castings, or one casting.
type Member struct {
	Named    string // as typed
	Castings []string
}

// Castings are those of all members.
func (g Group) Castings() []string {
	var out []string
	for _, m := range g.Members {
		out = append(out, m.Castings...)
	}
	return out
}

// A Wish names one job.
type Wish struct {
	At  problem.Place
	Job string
}

// BrokenFlask takes flasks of one size out of use.
type BrokenFlask struct {
	At    problem.Place
	Flask string
	Count int
}

// KeptTree is a tree that stays as it was: these castings and no others.
type KeptTree struct {
	At       problem.Place
	Tree     string // its letter in the plan before
	Flask    string // "" when any will do
	Castings []string
}

// Empty tells whether nothing is wished.
func (w Wishes) Empty() bool {
	return len(w.Together)+len(w.Apart)+len(w.First)+len(w.Mixed)+len(w.Broken)+len(w.Keep) == 0
}
