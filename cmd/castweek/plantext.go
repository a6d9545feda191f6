package main

import (
	"bytes"
	"fmt"
	"strings"
	"text/tabwriter"

	"castweek/tree"
)

const dayForm = "Mon 2 Jan 2006 15:04"

// tellPlan writes the short summary: what is cast, what to weigh, what waits
// and for whom, what needs a person. Where the sheets are comes last.
func tellPlan(s *streams, o *opened, p *tree.Plan) {
	var b bytes.Buffer
	c := &p.Cast
	fmt.Fprintf(&b, "%s: cast %s, pour %s, orders close %s\n", c.House.Name, c.Name, c.Pour.Format(dayForm), c.CutOff.Format(dayForm))
	on := 0
	for _, t := range c.Trees {
		on += len(t.Castings)
	}
	fmt.Fprintf(&b, "%s read as of %s: %s on %s, %d waiting\n", count(len(o.folder.Jobs)+len(o.folder.Held), "job"), c.AsOf.Format(dayForm), count(on, "casting"), count(len(c.Trees), "tree"), len(c.Waiting))
	tellTrees(&b, p)
	tellFire(&b, c)
	tellLists(&b, c)
	_, _ = s.out.Write(b.Bytes())
}

func tellTrees(b *bytes.Buffer, p *tree.Plan) {
	if c := &p.Cast; len(c.Trees) == 0 {
		if len(c.Waiting)+len(c.Held)+len(c.LeftOver) > 0 {
			fmt.Fprint(b, "\nnothing can be cast\n")
		} else {
			fmt.Fprint(b, "\nnothing is left to cast\n")
		}
		return
	}
	fmt.Fprintln(b)
	t := tabwriter.NewWriter(b, 0, 8, 2, ' ', 0)
	fmt.Fprintln(t, "tree\talloy\towner\tflask\tcastings\tweigh\tfor")
	for _, x := range p.Cast.Trees {
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%d\t%s g\t%s\n", x.Name, x.Alloy, x.Owner, x.Flask, len(x.Castings), inSteps(x.Charge.Total, p.Cast.House.ScaleStep), jobsOf(x))
	}
	t.Flush()
	fmt.Fprintln(b)
	for _, g := range p.Groups {
		if g.Trees == 0 { // all of it is left over, and told there
			continue
		}
		if g.Proved {
			fmt.Fprintf(b, "%s, %s: %s; fewer is impossible\n", g.Alloy, g.Owner, count(g.Trees, "tree"))
		} else {
			fmt.Fprintf(b, "%s, %s: %s; at least %d\n", g.Alloy, g.Owner, count(g.Trees, "tree"), g.Bound)
		}
	}
}

// jobsOf lists the jobs of a tree once each.
func jobsOf(t tree.Tree) string {
	var out []string
	seen := map[string]bool{}
	for _, h := range t.Castings {
		if !seen[h.Job] {
			seen[h.Job] = true
			out = append(out, h.Job)
		}
	}
	return strings.Join(out, " ")
}

func tellLists(b *bytes.Buffer, c *tree.Cast) {
	section := func(title string, n int, line func(i int) string) {
		if n == 0 {
			return
		}
		fmt.Fprintf(b, "\n%s\n", title)
		for i := range n {
			fmt.Fprintf(b, "  %s\n", line(i))
		}
	}
	section("waiting", len(c.Waiting), func(i int) string {
		w := c.Waiting[i]
		return fmt.Sprintf("%s %s: %s%s", w.Job, w.Design, w.Reason, ask(w.Ask))
	})
	section("held, the file has an error", len(c.Held), func(i int) string { return c.Held[i].Job + ": " + c.Held[i].Reason })
	var refused []tree.Tree
	for _, t := range c.Trees {
		if !t.Pourable() {
			refused = append(refused, t)
		}
	}
	section("do not pour: no pour sheet is printed", len(refused), func(i int) string {
		return refused[i].Name + ": " + strings.Join(refused[i].Refused, "; ")
	})
	section("left over", len(c.LeftOver), func(i int) string {
		l := c.LeftOver[i]
		return strings.Join(l.Castings, ", ") + ": " + l.Reason
	})
	section("late", len(c.Late), func(i int) string {
		l := c.Late[i]
		return fmt.Sprintf("%s is due %s and ready %s", l.Job, l.Due.Format(dayForm), l.Ready.Format(dayForm))
	})
	step := c.House.ScaleStep
	section("metal to buy", len(c.Buy), func(i int) string {
		x := c.Buy[i]
		if x.Owner != "" {
			return fmt.Sprintf("%s g of %s for %s, from %s", inSteps(x.Weight, step), x.Alloy, x.Trees(), x.Owner)
		}
		return fmt.Sprintf("%s g of %s for %s, order by %s", inSteps(x.Weight, step), x.Alloy, x.Trees(), x.OrderBy.Format(dayForm))
	})
	left := c.LeftByAlloy()
	section("metal left when it is weighed out", len(left), func(i int) string {
		x := left[i]
		return fmt.Sprintf("%s g of %s%s", x.Weight.Number(3), x.Alloy, of(x.Owner))
	})
	section("needs a person", len(c.Remarks), func(i int) string {
		r := c.Remarks[i]
		return strings.TrimSpace(r.Job + " " + r.Text + "; " + r.Remedy)
	})
}

func ask(whom string) string {
	if whom == "" {
		return ""
	}
	return "; ask " + whom
}

func of(owner string) string {
	if owner == "" {
		return ""
	}
	return ", " + owner + "'s"
}
