package tree

import (
	"slices"
	"sort"
	"time"

	"castweek/jobs"
	"castweek/jobs/workshop"
	"castweek/metal/book"
	"castweek/metal/problem"
	"castweek/tree/clock"
	"castweek/tree/record"
)

// Input is what planning stands on.
type Input struct {
	Folder   *jobs.Folder
	Records  []record.Record[Cast] // accepted casts, by name
	AsOf     time.Time             // moment of planning
	Book     *book.Book            // the metal's book; nil when there is none
	Thorough bool                  // search longer; never a worse plan

	traced *traced   // equal parts are traced, and equal sets mounted, once for all questions
	most   int       // trees beyond which an answer is of no use; 0: none
	next   time.Time // pour after the one that is planned; zero if that does not matter
}

// A Refusal says that a person's wishes can not be followed; nothing is planned
// against them.
type Refusal struct{ Problems problem.List }

func (r Refusal) Error() string { return "the wishes can not be followed" }

// A Plan is the proposal for the next open cast.
type Plan struct {
	Cast     Cast
	Accepted []string // names of the accepted casts
	Groups   []Bound
}

// Bound says how many trees the castings of one alloy and owner need at least.
type Bound struct {
	Alloy, Owner string
	Trees, Bound int
	Proved       bool
}

// Make plans the next cast that is neither accepted nor past its cut-off. The
// same input gives the same plan on every machine.
func Make(in Input) (*Plan, error) {
	w := in.Folder.Workshop
	asOf := in.AsOf.In(w.Zone)
	schedule, err := clock.ParseSchedule(w.CastDay, w.Zone)
	if err != nil {
		return nil, err
	}
	p := &Plan{}
	taken := map[string]bool{}
	for _, r := range in.Records {
		taken[r.Cast] = true
		p.Accepted = append(p.Accepted, r.Cast)
	}
	sort.Strings(p.Accepted)
	pour, closes, name, err := schedule.Open(asOf, w.CutOff, func(n string) bool { return taken[n] })
	if err != nil {
		return nil, err
	}
	p.Cast = Cast{Name: name, Pour: pour, CutOff: closes, AsOf: asOf, Proposal: true, House: houseOf(w)}

	q := newQueue(in, &p.Cast)
	in.traced, in.next = newTraced(w), schedule.Next(pour)
	f, err := q.fit(in)
	if err != nil {
		return nil, err
	}
	p.Groups = f.Groups
	p.Cast.Trees = build(w, name, f.hung, in.Folder.Wishes)
	fire(w, &p.Cast)
	shareLots(w, in, &p.Cast)
	p.Cast.LeftOver = f.Left
	p.Cast.Remarks = append(p.Cast.Remarks, prices(in, q, f.groups, f.hung, in.next)...)
	p.Cast.Late = late(w, schedule, &p.Cast, q.items, f.left)
	p.Cast.Bags = bags(w, &p.Cast, q)
	p.Cast.OwnMetal = ownMetal(w, in, &p.Cast, f.hung)
	tellLaw(w, &p.Cast, in.Folder.Jobs)
	return p, nil
}

func houseOf(w *workshop.Workshop) House {
	return House{Name: w.Name, Series: w.Paper.Series, Decimal: w.Paper.Decimal, TwoUp: w.Paper.TwoUp, Short: w.Paper.Short, ScaleStep: w.ScaleStep,
		Stone: StoneLimits{w.Limits.StoneFits, w.Limits.StoneReturn}, BenchTime: w.BenchTime, Recount: w.Limits.Recount}
}

// leftOver gathers castings that could not be placed, by job and reason.
func leftOver(left []leftItem) []LeftOver {
	var out []LeftOver
	at := map[string]int{}
	for _, l := range left {
		key := l.item.casting.Job.Number + "\x00" + l.reason
		i, ok := at[key]
		if !ok {
			i = len(out)
			at[key] = i
			out = append(out, LeftOver{Job: l.item.casting.Job.Number, Reason: l.reason})
		}
		out[i].Castings = append(out[i].Castings, l.item.casting.ID)
	}
	for i := range out {
		slices.SortFunc(out[i].Castings, jobs.CompareNumbers)
	}
	sort.SliceStable(out, func(i, j int) bool { return jobs.CompareNumbers(out[i].Job, out[j].Job) < 0 })
	return out
}

// late lists jobs that will not be ready in time: those of this cast, and
// those left over, which have to wait for the next one.
func late(w *workshop.Workshop, s clock.Schedule, c *Cast, items []*item, left []leftItem) []Late {
	ready := map[*jobs.Job]time.Time{}
	for _, it := range items {
		ready[it.casting.Job] = c.Pour.Add(w.BenchTime)
	}
	for i := range c.Trees {
		t := &c.Trees[i]
		first, waits := c.laterDay(t)
		for k := range t.Castings {
			if j := jobOf(items, t.Castings[k].Casting); waits && j != nil && first.Add(w.BenchTime).After(ready[j]) {
				ready[j] = first.Add(w.BenchTime)
			}
		}
	}
	for _, l := range left {
		ready[l.item.casting.Job] = s.Next(c.Pour).Add(w.BenchTime)
	}
	var out []Late
	for j, r := range ready {
		if r.After(j.Due) {
			out = append(out, Late{j.Number, j.Due, r})
		}
	}
	sort.Slice(out, func(i, j int) bool { return jobs.CompareNumbers(out[i].Job, out[j].Job) < 0 })
	return out
}

// laterDay is the first pour of a tree's kiln load where that waited for a kiln
// until a day after the cast day.
func (c *Cast) laterDay(t *Tree) (first time.Time, waits bool) {
	l := c.LoadOf(t)
	if l == nil {
		return first, false
	}
	return l.First, l.First.Sub(c.Pour) > sameDay
}

func jobOf(items []*item, casting string) *jobs.Job {
	for _, it := range items {
		if it.casting.ID == casting {
			return it.casting.Job
		}
	}
	return nil
}
