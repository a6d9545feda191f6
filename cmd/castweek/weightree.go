package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sort"
	"strings"

	"castweek/jobs"
	"castweek/metal/book"
	"castweek/metal/measure"
	"castweek/metal/problem"
	"castweek/tree"
	"castweek/tree/record"
)

// acceptedTree finds what an accepted cast says of a tree: nil where no cast of
// that name was accepted. Only that cast's record is read.
func (h *house) acceptedTree(name string) (*tree.Tree, error) {
	cut := strings.LastIndex(name, "-")
	if cut < 0 || !record.ValidName(name[:cut]) {
		return nil, nil
	}
	list, err := h.acceptedTrees(name[:cut])
	if list == nil || err != nil {
		return nil, err
	}
	var letters []string
	for i := range list {
		if list[i].Name == name {
			return &list[i], nil
		}
		letters = append(letters, list[i].Letter())
	}
	return nil, refused(fmt.Errorf("the accepted cast %s has no tree %s; it has %s", name[:cut], name[cut+1:], strings.Join(letters, ", ")))
}

// acceptedTrees are those of one cast; nil when it was not accepted.
func (h *house) acceptedTrees(cast string) ([]tree.Tree, error) {
	file := filepath.Join(h.dir, castsDir, cast+".yaml")
	data, err := os.ReadFile(file)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, refused(err)
	}
	r, err := record.Decode[tree.Cast](data)
	if err != nil {
		return nil, refused(fmt.Errorf("%s: %w; %s", file, err, bringBack))
	}
	return r.Paper.Trees, nil
}

// lastTrees are the trees of the last accepted cast.
func (h *house) lastTrees() ([]tree.Tree, error) {
	entries, err := os.ReadDir(filepath.Join(h.dir, castsDir))
	if err != nil {
		return nil, nil // none was accepted
	}
	var names []string
	for _, e := range entries {
		if name, ok := strings.CutSuffix(e.Name(), ".yaml"); ok && record.ValidName(name) {
			names = append(names, name)
		}
	}
	if len(names) == 0 {
		return nil, nil
	}
	sort.Strings(names)
	return h.acceptedTrees(names[len(names)-1])
}

// farOff is how much finer than its alloy a lot may be before it is asked
// whether it is that alloy, in ‰: common practice, no source. Makers run 2 to 5
// ‰ over the mark.
const farOff book.Parts = 20_000

// judgeLot remarks on metal that comes in and could not be cast as it is, or
// that is hardly the alloy it is called.
func (h *house) judgeLot(b *book.Book, m book.Movement) (list problem.List) {
	switch m.Kind {
	case book.Opening, book.Bought, book.CustomerIn, book.FromMelt:
	default:
		return nil
	}
	at := problem.Place{File: "lot " + m.Lot}
	a, _ := h.alloys.Find(m.Alloy)
	l := book.Holding{Lot: m.Lot, Alloy: m.Alloy, Owner: m.Owner, Form: m.Form, Fineness: m.Fineness, From: m.From, Grams: m.Grams}
	if why := tree.Barred(h.shop, b, l); why != "" {
		list.Remark(at, "lot-barred", "take it back with --reverse if it was not meant", "it will not be cast as it is: %s", why)
	} else if strings.Contains(strings.ToLower(m.Note), "solder") {
		list.Remark(at, "lot-barred", "assay it or send it to the refiner", "it will not be cast as it is: its note speaks of solder")
	} else if noble := book.Parts(a.Fineness()); noble > 0 && m.Fineness > noble+farOff {
		list.Remark(at, "lot-fineness-far", "check alloy and fineness; take it back with --reverse if one of them is wrong", "%s is far finer than %s: is it that alloy?", m.Fineness, m.Alloy)
	}
	return list
}

// judgeTree holds a movement against what was planned for its tree: metal of
// another alloy or of another customer is refused, what a person may have
// decided is remarked.
func (h *house) judgeTree(b *book.Book, m book.Movement) (list problem.List, err error) {
	if m.Kind == book.Reversal {
		return nil, nil
	}
	list = h.judgeLot(b, m)
	if m.Tree == "" {
		return list, nil
	}
	at := problem.Place{File: "tree " + m.Tree}
	if l, ok := b.Lot(m.Lot); ok && m.Kind == book.ToTree {
		if why := tree.Barred(h.shop, b, l); why != "" {
			list.Remark(problem.Place{File: "lot " + m.Lot}, "lot-barred", "take it back with --reverse if it was not meant", "the plan leaves this lot alone: %s", why)
		}
	}
	t, err := h.acceptedTree(m.Tree)
	switch {
	case err != nil:
		return nil, err
	case t == nil:
		list.Remark(at, "book-tree-unplanned", "check the name; accept the cast first, so that weight and alloy can be held against it", "no accepted cast has this tree")
	case t.Alloy != m.Alloy:
		list.Add(at, "book-tree-alloy", "check the lot and the tree; never two alloys in a pour", "it is to be cast in %s, and this is %s", t.Alloy, m.Alloy)
	case m.Owner != "" && m.Owner != t.Owner:
		list.Add(at, "book-tree-owner", "check the lot and the tree; a customer's metal is never melted with another's", "it is cast of the metal of %s, and this is %s's", t.Owner, m.Owner)
	case m.Owner == "" && t.Owner != jobs.House && m.Kind == book.ToTree:
		list.Remark(at, "book-tree-top-up", "top it up only where it was agreed, on the receipt", "it is cast of %s's own metal, and this is the house's", t.Owner)
	}
	return list, nil
}

// progressOf says how far a tree is weighed out, and what is still to come.
func progressOf(b *book.Book, t *tree.Tree) string {
	if t == nil {
		return ""
	}
	out := measure.Milligram(0)
	for _, a := range b.Trees() {
		if a.Tree == t.Name {
			out = a.Charged
		}
	}
	text := fmt.Sprintf("%s: %s planned, %s weighed out", t.Name, t.Charge.Total, out)
	switch rest := t.Charge.Total - out; {
	case rest > 0:
		text += fmt.Sprintf(", %s to go", rest)
	case rest < 0:
		text += fmt.Sprintf(", %s more than planned", -rest)
	}
	return text
}
