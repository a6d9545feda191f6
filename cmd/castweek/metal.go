package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"

	"castweek/metal/book"
	"castweek/tree"

	"github.com/spf13/cobra"
)

type holdingJSON struct {
	Lot      string  `json:"lot"`
	Alloy    string  `json:"alloy"`
	Owner    string  `json:"owner"`
	Form     string  `json:"form"`
	Fineness float64 `json:"fineness"`
	From     string  `json:"from"`
	Grams    float64 `json:"grams"`
	Melts    int     `json:"melts"`

	MadeOf []string `json:"made_of"`          // "bought", "tree 2026-W49-A", "lot L1"
	Barred string   `json:"barred,omitempty"` // why it is not cast as it is
}

type metalTreeJSON struct {
	Tree     string  `json:"tree"`
	Alloy    string  `json:"alloy"`
	Charged  float64 `json:"charged_g"`
	Button   float64 `json:"button_g"`
	Castings float64 `json:"castings_g"`
	Filings  float64 `json:"filings_g"`
	Open     float64 `json:"open_g"`
}

type stepJSON struct {
	Line     int     `json:"id"`
	Movement string  `json:"movement"`
	From     string  `json:"from"`
	To       string  `json:"to"`
	Grams    float64 `json:"grams"`
}

type traceJSON struct {
	Of    string     `json:"of"`
	Back  []stepJSON `json:"back"`
	Forth []stepJSON `json:"forth"`

	Castings []string `json:"castings"` // of a tree, by its accepted cast
}

// metalAnswer is the JSON answer of the verb.
type metalAnswer struct {
	Schema int             `json:"schema"`
	OnHand []holdingJSON   `json:"on_hand"`
	Trees  []metalTreeJSON `json:"trees"`
	Traces []traceJSON     `json:"traces"`
}

func metalCmd(s *streams) *cobra.Command {
	var trace string
	var asJSON, all bool
	c := &cobra.Command{
		Use:   "metal FOLDER",
		Short: "show the metal on hand, and follow a lot, tree or job both ways",
		Example: `  castweek metal samples/saltmarsh
  castweek metal samples/saltmarsh --trace T-1`,
		Args: oneFolder,
		RunE: func(_ *cobra.Command, args []string) error {
			h, err := openHouse(s, args[0])
			if err != nil {
				return err
			}
			b, err := h.readBook(s)
			if err != nil {
				return err
			}
			var traces []followed
			if trace != "" {
				if traces, err = h.follow(s, b, trace); err != nil {
					return err
				}
			}
			switch {
			case asJSON:
				return writeJSON(s.out, h.metalState(b, traces, all))
			case trace != "":
				tellTraces(s.out, traces)
				return nil
			}
			return h.tellMetal(s.out, b, all)
		},
	}
	c.Flags().StringVar(&trace, "trace", "", "follow this tree, lot, job or casting")
	c.Flags().BoolVar(&all, "all", false, "show lots that ran out too, and all trees")
	c.Flags().BoolVar(&asJSON, "json", false, "answer as JSON")
	return c
}

func (h *house) metalState(b *book.Book, traces []followed, all bool) metalAnswer {
	a := metalAnswer{schemaVersion, []holdingJSON{}, []metalTreeJSON{}, []traceJSON{}}
	for _, l := range b.OnHand() {
		if l.Grams > 0 || all {
			a.OnHand = append(a.OnHand, holdingJSON{l.Lot, l.Alloy, l.Owner, string(l.Form), float64(l.Fineness) / 1000, string(l.From), inGrams(l.Grams), l.Melts, madeOf(b, l.Lot), tree.Barred(h.shop, b, l)})
		}
	}
	for _, t := range b.Trees() {
		a.Trees = append(a.Trees, metalTreeJSON{t.Tree, t.Alloy, inGrams(t.Charged), inGrams(t.Button), inGrams(t.Castings), inGrams(t.Filings), inGrams(t.Open())})
	}
	for _, t := range traces {
		steps := func(list []book.Step) []stepJSON {
			out := []stepJSON{}
			for _, x := range list {
				out = append(out, stepJSON{x.Movement, string(x.Kind), called(x.From), called(x.To), inGrams(x.Grams)})
			}
			return out
		}
		a.Traces = append(a.Traces, traceJSON{called(t.Of), steps(t.Back), steps(t.Forth), append([]string{}, t.castings...)})
	}
	return a
}

// called writes "lot L3"; a way out or in is named by its movement alone.
func called(n book.Node) string {
	if n.Kind == book.SupplierNode || n.Kind == book.OutNode {
		return n.Name
	}
	return string(n.Kind) + " " + n.Name
}

// lastShown is how many trees are listed unasked: those of the last few casts.
const lastShown = 20

func (h *house) tellMetal(out io.Writer, b *book.Book, all bool) error {
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "lot\talloy\tfineness\tfrom\tform\tmelts\towner\ton hand\tmade of")
	var barred []string
	for _, l := range b.OnHand() {
		if l.Grams > 0 || all {
			fmt.Fprintf(w, "%s\t%s\t%s\t%s\t%s\t%d\t%s\t%s\t%s\n", l.Lot, l.Alloy, l.Fineness, l.From, l.Form, l.Melts, ownerWord(l.Owner), l.Grams, strings.Join(madeOf(b, l.Lot), ", "))
			if why := tree.Barred(h.shop, b, l); why != "" && l.Grams > 0 {
				barred = append(barred, fmt.Sprintf("%s is not cast as it is: %s", l.Lot, why))
			}
		}
	}
	for _, line := range barred {
		fmt.Fprintln(w, line)
	}
	fmt.Fprintln(w, "\nalloy\tform\towner\tin all\tfine metal in it")
	for _, x := range b.Sums() {
		if x.Grams > 0 || all {
			fmt.Fprintf(w, "%s\t%s\t%s\t%s\t%s\n", x.Alloy, x.Form, ownerWord(x.Owner), x.Grams, x.Fine.Milligram())
		}
	}
	if trees := b.Trees(); len(trees) > 0 {
		if over := len(trees) - lastShown; over > 0 && !all {
			fmt.Fprintf(w, "\n%s before these; --all shows them", count(over, "tree"))
			trees = trees[over:]
		}
		fmt.Fprintln(w, "\ntree\talloy\tcharged\tbutton back\tcastings\tfilings\tlost or not booked")
		for _, t := range trees {
			fmt.Fprintf(w, "%s\t%s\t%s\t%s\t%s\t%s\t%s\n", t.Tree, t.Alloy, t.Charged, t.Button, t.Castings, t.Filings, t.Open())
		}
	}
	return w.Flush()
}

// madeOf says in a few words where the metal of a lot is from, each source once.
func madeOf(b *book.Book, lot string) (out []string) {
	for _, m := range b.Into(lot) {
		what := string(m.Kind)
		switch {
		case m.Kind == book.ToMelt:
			what = "lot " + m.Lot
		case m.Tree != "":
			what = "tree " + m.Tree
		case m.Kind == book.Filings && m.Job != "":
			what = "job " + m.Job
		}
		if !slices.Contains(out, what) {
			out = append(out, what)
		}
	}
	return out
}

func ownerWord(owner string) string {
	if owner == "" {
		return "house"
	}
	return owner
}
