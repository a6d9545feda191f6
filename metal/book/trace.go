package book

import "castweek/metal/measure"

// A NodeKind says what metal passed through.
type NodeKind string

const (
	LotNode      NodeKind = "lot"
	TreeNode     NodeKind = "tree"
	JobNode      NodeKind = "job"
	SupplierNode NodeKind = "from outside"
	OutNode      NodeKind = "sent out"
)

// A Node is a place where metal was.
type Node struct {
	Kind NodeKind
	Name string
}

// A Step is metal that went from one node to another.
type Step struct {
	From, To Node
	Movement int // ID
	Kind     Kind
	Grams    measure.Milligram
	Depth    int // 1 is next to what was asked for
}

// A Trace follows one node both ways. Back says where its metal is from, Forth
// where it went, each nearest first and then in the order of the book.
type Trace struct {
	Of          Node
	Back, Forth []Step
}

// steps are the book's movements as steps; a reversed one is none.
func (b *Book) steps() (out []Step) {
	for _, m := range b.Movements {
		if !b.Stands(m) {
			continue
		}
		lot, tree, job := Node{LotNode, m.Lot}, Node{TreeNode, m.Tree}, Node{JobNode, m.Job}
		var from, to Node
		switch m.Kind {
		case Opening, Bought, CustomerIn:
			from, to = Node{SupplierNode, string(m.Kind)}, lot
		case ToTree:
			from, to = lot, tree
		case ButtonBack:
			from, to = tree, lot
		case CastingsOut:
			from, to = tree, job
			if m.Job == "" {
				to = Node{OutNode, string(m.Kind)}
			}
		case Filings:
			switch from, to = tree, lot; {
			case m.Tree != "":
			case m.Job != "":
				from = job
			default:
				from = Node{SupplierNode, string(m.Kind)}
			}
		case ToMelt:
			from, to = lot, Node{LotNode, m.Into}
		case FromMelt:
			continue // the lot is there already, as what the melt made
		case ToRefiner, GivenBack:
			from, to = lot, Node{OutNode, string(m.Kind)}
		}
		out = append(out, Step{From: from, To: to, Movement: m.ID, Kind: m.Kind, Grams: m.Grams})
	}
	return out
}

// Trace finds the nodes of that name, trees first, then lots, then jobs, and
// follows them. Metal only flows onward in the book: what came into a lot after
// a tree took from it is not that tree's. Nil when nothing has the name.
func (b *Book) Trace(name string) (out []Trace) {
	steps := b.steps()
	for _, k := range []NodeKind{TreeNode, LotNode, JobNode} {
		n := Node{k, name}
		t := Trace{Of: n, Back: follow(steps, n, true), Forth: follow(steps, n, false)}
		if len(t.Back)+len(t.Forth) > 0 {
			out = append(out, t)
		}
	}
	return out
}

// follow walks the steps breadth first. Each step is taken once.
func follow(steps []Step, of Node, back bool) (out []Step) {
	type reached struct {
		node  Node
		bound int // only steps before (back) or after this movement
		depth int
	}
	bound := 0
	if back {
		bound = len(steps) + 1
		if n := len(steps); n > 0 {
			bound = steps[n-1].Movement + 1
		}
	}
	taken := map[int]bool{}
	for queue := []reached{{of, bound, 1}}; len(queue) > 0; queue = queue[1:] {
		at := queue[0]
		for _, s := range steps {
			here, next := s.From, s.To
			if back {
				here, next = s.To, s.From
			}
			if here != at.node || taken[s.Movement] || back && s.Movement >= at.bound || !back && s.Movement <= at.bound {
				continue
			}
			taken[s.Movement] = true
			s.Depth = at.depth
			out = append(out, s)
			if next.Kind != SupplierNode && next.Kind != OutNode {
				queue = append(queue, reached{next, s.Movement, at.depth + 1})
			}
		}
	}
	return out
}

// Stands tells whether a movement counts: it is no reversal and no line takes it
// back.
func (b *Book) Stands(m Movement) bool { return !b.reversed[m.ID] && m.Kind != Reversal }

// Into lists the movements that a lot is made of, in the order of the book:
// what came into it, and what was melted to make it. Reversed ones are none.
func (b *Book) Into(lot string) (out []Movement) {
	for _, m := range b.Movements {
		if !b.Stands(m) || m.Kind == FromMelt {
			continue
		}
		if m.Lot == lot && rules[m.Kind].lot > 0 || m.Into == lot {
			out = append(out, m)
		}
	}
	return out
}
