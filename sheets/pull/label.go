package pull

import (
	"errors"

	"castweek/metal/problem"
	"castweek/sheets/desk"
	"castweek/sheets/page"
	"castweek/tree"
)

// Labels are cut from a full sheet, ten to one.
const (
	labelColumns = 2
	labelRows    = 5
)

// Labels prints a label for each small parcel: one line of stones of one bag.
func Labels(c *tree.Cast, o Options) ([]byte, problem.List, error) {
	p := newPrinter(c, o, "pull.labels")
	var leaves []*page.Leaf
	for _, b := range p.Bags() {
		for k := range b.Stones {
			s := &b.Stones[k]
			leaves = append(leaves, p.Label("parcel label "+b.Key()+" "+s.Mark, func() *page.Leaf { return p.label(b, s) }))
		}
	}
	if len(leaves) == 0 {
		return nil, nil, errors.New("no stones to label")
	}
	p.doc.PutGrid(p.sheet, labelColumns, labelRows, leaves...)
	return p.Close("parcel labels")
}

// label says whose bag the stones belong into, then what and how many they are.
func (p *printer) label(b *tree.Bag, s *tree.BagStone) *page.Leaf {
	const left = page.WordEdge
	p.doc.About(b.Job, "stone "+s.Mark)
	size := page.Paper{Name: "label", W: p.sheet.W / labelColumns, H: p.sheet.H / labelRows}
	l := p.doc.Leaf(size)
	room := size.W - 2*left
	y := page.LineEdge + value.Base()
	x := l.Text(left, y, big, b.Job)
	l.Text(x+4, y, plain, b.Title)
	l.TextRight(size.W-left, y, big, s.Mark)
	y += strong.Leading() + 1
	lines := strong.Wrap(sortOf(s), room)
	if len(lines) > 2 {
		lines = plain.Wrap(sortOf(s), room)
	}
	y = l.Lines(left, y, strong, lines) + 1.5
	// size and count in different words, so that neither is taken for the other
	l.Text(left, y, value, p.size(s)+"\u00a0"+p.say("unit.mm"))
	l.TextRight(size.W-left, y, value, p.count(s))
	y += plain.Leading() + 1.5
	l.Text(left, y, plain, p.say("pull.where")+" "+dashed(s.Parcel))
	if desk.Customers(s.Owner) {
		y += plain.Leading()
		for _, line := range strong.Wrap(p.with("pull.owner", "owner", s.Owner), room) {
			l.Text(left, y, strong, line)
			y += plain.Leading()
		}
	} else {
		y += plain.Leading()
	}
	if !s.Here {
		l.Text(left, y, strong, p.say("pull.nothere"))
	}
	return l
}

// count writes "7 stones + 1 spare".
func (p *printer) count(s *tree.BagStone) string {
	if s.Spares == 0 {
		return p.with("pull.pieces", "n", p.fig.Count(s.Count))
	}
	return p.with("pull.piecesspare", "n", p.fig.Count(s.Count), "spares", p.fig.Count(s.Spares))
}

func dashed(s string) string {
	if s == "" {
		return "-"
	}
	return s
}
