package main

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"time"

	"castweek/cmd/castweek/save"
	"castweek/metal/book"
	"castweek/metal/problem"
	"castweek/tree"

	"github.com/spf13/cobra"
)

// weighFlags are one movement as typed.
type weighFlags struct {
	movement, lot, alloy, fineness, from, grams, owner, form, melts, tree, into, job, note, who, at string
	reverse                                                                                         int
	ask, asJSON                                                                                     bool
}

// weighAnswer is the JSON answer of the verb.
type weighAnswer struct {
	Schema   int           `json:"schema"`
	Line     int           `json:"id"`
	Lot      string        `json:"lot"`
	Grams    float64       `json:"grams"`
	Left     float64       `json:"on_hand_g"`
	Problems []problemJSON `json:"problems"`

	Fineness float64 `json:"fineness"`       // of the lot, in ‰; 0 without a lot
	Melts    int     `json:"melts"`          // of the lot
	Planned  float64 `json:"tree_planned_g"` // charge of the tree, by its accepted cast; 0: none
	Out      float64 `json:"tree_weighed_g"` // weighed out to it so far
}

func weighCmd(s *streams) *cobra.Command {
	var f weighFlags
	c := &cobra.Command{
		Use:   "weigh FOLDER",
		Short: "add one movement of metal to the metal's book",
		Long: `Add one movement to the metal's book, metal.csv in the job folder. It is on the
disk when this says so. What a lot on hand already says need not be said again.
At a terminal it asks for what no flag says. A tree of an accepted cast takes
its own alloy and its own customer's metal only. A line is never changed:
--reverse takes one back.

Movements: ` + words(book.Kinds()) + `.
A fineness is from: ` + words(book.Origins()) + `.
Forms: ` + words(book.Forms()) + `.`,
		Example: `  castweek weigh DIR
  castweek weigh DIR --who AB --movement bought --lot L1 --alloy "750 yellow" --fineness 750 --from certificate --form grain --grams 100
  castweek weigh DIR --who AB --movement "to tree" --lot L1 --tree 2026-W49-A --grams 62.40
  castweek weigh DIR --who AB --movement "button back" --tree 2026-W49-A --grams 30.15
  castweek weigh DIR --who AB --reverse 3`,
		Args: oneFolder,
		RunE: func(_ *cobra.Command, args []string) error { return runWeigh(s, args[0], f) },
	}
	for _, x := range []struct {
		to         *string
		name, help string
	}{
		{&f.movement, "movement", "what is done with the metal"}, {&f.lot, "lot", "lot number; left out for a new lot, the next free one is taken"},
		{&f.alloy, "alloy", "alloy"}, {&f.fineness, "fineness", "fineness in ‰"}, {&f.from, "from", "where the fineness is from"},
		{&f.grams, "grams", "what was weighed, in g"}, {&f.owner, "owner", "customer who owns the metal; the house when left out"},
		{&f.form, "form", "form of the metal"}, {&f.melts, "melts", "how often it was melted before it came in"}, {&f.tree, "tree", "tree"},
		{&f.into, "into", "lot that a melt makes"}, {&f.job, "job", "job"}, {&f.note, "note", "anything else"},
		{&f.who, "who", "name or initials of who weighs"}, {&f.at, "at", "moment, such as 2026-11-25T16:05:00Z (default now)"},
	} {
		c.Flags().StringVar(x.to, x.name, "", x.help)
	}
	c.Flags().IntVar(&f.reverse, "reverse", 0, "take back the line of this id")
	c.Flags().BoolVar(&f.ask, "ask", false, "ask for what is missing, though the answers come from no terminal")
	c.Flags().BoolVar(&f.asJSON, "json", false, "answer as JSON")
	return c
}

func words[T ~string](list []T) string {
	var s []string
	for _, w := range list {
		s = append(s, string(w))
	}
	return strings.Join(s, ", ")
}

func runWeigh(s *streams, dir string, f weighFlags) error {
	h, err := openHouse(s, dir)
	if err != nil {
		return err
	}
	if f.ask || s.person() && !f.asJSON {
		b, err := h.readBook(s)
		if err != nil {
			return err
		}
		if err := h.askMissing(s, b, &f); err != nil {
			return err
		}
	}
	// The movement is made up while the book is locked: another weighing may
	// have taken the next lot number meanwhile.
	file := filepath.Join(dir, bookFile)
	var booked book.Movement
	var said problem.List
	torn, err := save.Append(file, func(old []byte) ([]byte, error) {
		now, problems := book.Read(file, old)
		if len(problems.Errors()) > 0 {
			said = problems
			return nil, errNotBooked
		}
		m, err := h.movement(s, now, f)
		if err != nil {
			return nil, err
		}
		if said, err = h.judgeTree(now, m); err != nil {
			return nil, err
		}
		if len(said.Errors()) > 0 {
			return nil, errNotBooked
		}
		line, m, problems := book.AppendLine(file, old, m)
		for i := range problems {
			if problems[i].Place.Line == m.Place.Line { // it stands in no file yet
				problems[i].Place = problem.Place{File: "this movement"}
			}
		}
		if f.reverse > 0 && len(problems.Errors()) > 0 && problems.Errors()[0].Place.Line > 0 {
			said.Add(problem.Place{File: "this movement"}, "book-reverses", "take those lines back first, the last one first", "line %d can not be taken back: later lines stand on it", f.reverse)
		}
		said, booked = append(said, problems...), m
		if len(problems.Errors()) > 0 {
			return nil, errNotBooked
		}
		return line, nil
	})
	if len(torn) > 0 {
		said.Remark(problem.Place{File: file}, "book-torn", "weigh and book it again if it is not in the book", "an unfinished last line was set aside in %s", file+save.TornSuffix)
	}
	return h.tellBooked(s, f, booked, said, err)
}

func (h *house) tellBooked(s *streams, f weighFlags, m book.Movement, said problem.List, err error) error {
	tellProblems(s, said)
	if errors.Is(err, errNotBooked) {
		return told(exitRefused)
	}
	if err != nil {
		var ours *exitError
		if errors.As(err, &ours) {
			return ours
		}
		return failed(err)
	}
	b, err := h.readBook(&streams{err: io.Discard})
	if err != nil {
		return err
	}
	left, _ := b.Lot(m.Lot)
	var t *tree.Tree
	if m.Tree != "" {
		if t, err = h.acceptedTree(m.Tree); err != nil {
			return err
		}
	}
	if f.asJSON {
		a := weighAnswer{Schema: schemaVersion, Line: m.ID, Lot: m.Lot, Grams: inGrams(m.Grams), Left: inGrams(left.Grams), Problems: problemsJSON(said), Fineness: float64(left.Fineness) / 1000, Melts: left.Melts}
		for _, x := range b.Trees() {
			if x.Tree == m.Tree {
				a.Out = inGrams(x.Charged)
			}
		}
		if t != nil {
			a.Planned = inGrams(t.Charge.Total)
		}
		return writeJSON(s.out, a)
	}
	fmt.Fprintf(s.out, "booked as line %d: %s, %s of %s", m.ID, m.Kind, m.Grams, m.Alloy)
	if m.Lot != "" {
		fmt.Fprintf(s.out, ", lot %s; %s of it on hand", m.Lot, left.Grams)
		if m.Kind != book.ToTree {
			fmt.Fprintf(s.out, ", %s, %s", left.Fineness, melted(left.Melts))
		}
	}
	fmt.Fprintln(s.out)
	if m.Kind == book.ToTree && t != nil {
		fmt.Fprintln(s.out, progressOf(b, t))
	}
	return nil
}

// moment of the movement: the flag, else now, in whole seconds.
func (h *house) moment(s *streams, at string) (time.Time, error) {
	if at == "" {
		return s.now().In(h.zone).Truncate(time.Second), nil
	}
	t, err := time.Parse(time.RFC3339, at)
	if err != nil {
		return t, wrongUsage("--at %q is not a moment; write it as 2026-11-25T16:05:00Z", at)
	}
	return t, nil
}
