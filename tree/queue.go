package tree

import (
	"fmt"
	"slices"
	"strings"

	"castweek/jobs"
	"castweek/jobs/workshop"
	"castweek/metal"
	"castweek/metal/measure"
)

// An item is a casting that is to be hung, with all that packing asks of it.
type item struct {
	casting  jobs.Casting
	place    int // in the queue
	part     *jobs.Part
	alloy    metal.Alloy
	density  measure.GramPerCC // of the alloy
	material workshop.Material
	volume   measure.CubicMM // of the pattern
	inWax    bool            // holds stones set in the wax
	section  string          // thin, medium or heavy
	outer    measure.Size
	thickest measure.MM
}

// metal of the pattern, at the alloy's density.
func (it *item) metal() measure.Milligram { return it.volume.Times(it.density).RoundUp(1) }

// A queue is the castings to be hung in this cast.
type queue struct {
	shop    *workshop.Workshop
	wishes  jobs.Wishes
	items   []*item
	waiting []*item // of jobs that wait for something
	hung    hungs
}

// newQueue sorts the folder's jobs: what is to be cast goes to the queue, what
// waits or is held is listed on the cast.
func newQueue(in Input, c *Cast) *queue {
	q := &queue{shop: in.Folder.Workshop, wishes: in.Folder.Wishes, hung: hungOn(in.Records)}
	for _, h := range in.Folder.Held {
		c.Held = append(c.Held, Waiting{Job: h.Job, Reason: h.Reason})
	}
	for _, j := range in.Folder.Jobs {
		q.job(j, c)
	}
	c.Remarks = append(c.Remarks, q.hung.strangers(in.Folder, c.AsOf)...)
	c.Remarks = append(c.Remarks, q.dropMet()...)
	return q
}

func (q *queue) job(j *jobs.Job, c *Cast) {
	var open, cast []jobs.Casting
	for _, k := range j.Castings() {
		if _, accepted := q.hung.of(k.ID); accepted {
			cast = append(cast, k)
		} else {
			open = append(open, k)
		}
	}
	c.Remarks = append(c.Remarks, q.hung.contradictions(j, cast, c.AsOf)...)
	if len(open) == 0 || !j.Active() {
		return
	}
	if reason, ask, waits := j.Waits(); waits {
		for _, k := range open {
			q.waiting = append(q.waiting, q.item(k))
		}
		c.Waiting = append(c.Waiting, Waiting{Job: j.Number, Design: j.Design, For: j.For, Due: j.Due, Reason: reason, Ask: ask})
		if ready := c.Pour.Add(q.shop.BenchTime); ready.After(j.Due) {
			c.Remarks = append(c.Remarks, Remark{j.Number, "late-waiting",
				fmt.Sprintf("waits (%s), and even this cast would finish it only on %s, after its due day", reason, ready.Format("Mon 2 Jan 2006")), "agree a new day with the customer"})
		}
		return
	}
	for _, k := range open {
		q.items = append(q.items, q.item(k))
	}
}

// dropMet drops the wishes to keep a tree of which accepted casts hold all
// castings: they have been met.
func (q *queue) dropMet() (out []Remark) {
	var open []jobs.KeptTree
	for _, k := range q.wishes.Keep {
		var on []string
		met := 0
		for _, id := range k.Castings {
			if h, accepted := q.hung.of(id); accepted {
				met++
				if !slices.Contains(on, h.tree) {
					on = append(on, h.tree)
				}
			}
		}
		if met == 0 || met < len(k.Castings) {
			open = append(open, k)
			continue
		}
		out = append(out, Remark{"", "wish-met", fmt.Sprintf("tree %s is no longer to be kept as it was (%s:%d): all its castings are on %s, of an accepted cast", k.Tree, k.At.File, k.At.Line, strings.Join(on, ", ")), "take the line out of wishes.yaml"})
	}
	q.wishes.Keep = open
	return out
}

func (q *queue) item(k jobs.Casting) *item {
	part := &k.Job.Parts[k.Part]
	it := &item{casting: k, part: part, volume: part.Pattern.Volume, outer: part.Pattern.OuterSize()}
	it.alloy, _ = q.shop.Alloys.Find(part.Alloy)
	it.density = it.alloy.Density()
	it.material, _ = q.shop.Material(part.Pattern.Material)
	it.thickest = part.Pattern.ThickestSection()
	it.section = part.Section
	if it.section == "" {
		it.section = q.shop.Sections.Of(it.thickest)
	}
	for _, s := range k.Job.Stones {
		it.inWax = it.inWax || (s.InWax && s.Part == k.Part)
	}
	return it
}
