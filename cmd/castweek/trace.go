package main

import (
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"castweek/metal/book"
	"castweek/tree"
	"castweek/tree/record"
)

// followed is a trace of the book with what the accepted casts know of it: the
// castings of a tree.
type followed struct {
	book.Trace
	castings []string
}

// follow traces a tree, lot, job or casting. The book may say of castings only
// that they came off a tree; which of them are whose, the accepted casts know.
func (h *house) follow(s *streams, b *book.Book, name string) (out []followed, err error) {
	o := &opened{dir: h.dir}
	o.readRecords(os.DirFS(h.dir))
	if bad := o.recordProblems(); len(bad.Errors()) > 0 {
		tellProblems(s, bad)
		return nil, told(exitRefused)
	}
	on := castingsOn(o.records)
	for _, t := range b.Trace(name) {
		f := followed{Trace: t}
		if t.Of.Kind == book.TreeNode {
			f.castings = on[t.Of.Name]
		}
		out = append(out, f)
	}
	var trees []string
	for t, ids := range on {
		if t != name && slices.ContainsFunc(ids, func(id string) bool { return id == name || strings.HasPrefix(id, name+"/") }) {
			trees = append(trees, t)
		}
	}
	slices.Sort(trees)
	for _, t := range trees {
		f := followed{book.Trace{Of: book.Node{Kind: book.TreeNode, Name: t}}, on[t]}
		for _, x := range b.Trace(t) {
			if x.Of.Kind == book.TreeNode {
				f.Trace = x
			}
		}
		out = append(out, f)
	}
	if len(out) == 0 && on[name] != nil {
		out = append(out, followed{book.Trace{Of: book.Node{Kind: book.TreeNode, Name: name}}, on[name]})
	}
	if len(out) == 0 {
		return nil, refused(fmt.Errorf("neither the metal's book nor an accepted cast knows a tree, lot, job or casting %s", name))
	}
	return out, nil
}

// castingsOn lists the castings of every accepted tree.
func castingsOn(records []record.Record[tree.Cast]) map[string][]string {
	on := map[string][]string{}
	for _, r := range records {
		for _, t := range r.Trees {
			on[t.Name] = t.Castings
		}
	}
	return on
}

func tellTraces(w io.Writer, traces []followed) {
	for _, t := range traces {
		fmt.Fprintf(w, "%s\n", called(t.Of))
		if len(t.castings) > 0 {
			fmt.Fprintf(w, "  castings %s\n", strings.Join(t.castings, ", "))
		}
		if len(t.Back)+len(t.Forth) == 0 {
			fmt.Fprintln(w, "  no metal is booked for it yet")
		}
		for _, part := range []struct {
			title string
			steps []book.Step
		}{{"came from", t.Back}, {"went to", t.Forth}} {
			if len(part.steps) == 0 {
				continue
			}
			fmt.Fprintf(w, "  %s\n", part.title)
			for _, x := range part.steps {
				fmt.Fprintf(w, "  %*sline %d: %s\n", 2*x.Depth, "", x.Movement, inWords(x))
			}
		}
	}
}

// inWords says one step: what was done, how much, from where and where to.
func inWords(x book.Step) string {
	text := fmt.Sprintf("%s, %s", x.Kind, x.Grams)
	if x.From.Kind != book.SupplierNode {
		text += " from " + called(x.From)
	}
	if x.To.Kind != book.OutNode {
		text += " to " + called(x.To)
	}
	return text
}
