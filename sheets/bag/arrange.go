package bag

import (
	"castweek/sheets/page"
	"castweek/tree"
)

// An arrangement is how the sections of a bag share its leaves. What they say
// is the same in each.
type arrangement struct {
	hands  int  // the fewest lines for hands at the end
	finish bool // how the piece shall look stands before its pictures
	apart  apart
}

// Apart is which weights begin a leaf, so that the hands are not alone on one.
type apart int

const (
	nowhere apart = iota
	beforeEach
	beforeAll
)

// usual is the arrangement of a bag whose last leaf is no small rest.
var usual = arrangement{hands: 2}

// bag lays one bag. Where the lines for hands would be alone on the last leaf,
// the first arrangement that saves that leaf is taken, or else one that gives
// the hands company. It is chosen as if nothing had changed since an earlier
// print, so that bars and what they say do not turn sections around.
func (p *printer) bag(b *tree.Bag) []*page.Leaf {
	if p.arranged != b {
		p.arranged, p.arrangement = b, usual
		if !p.Marked() {
			before := p.doc.Bookmark()
			leaves, alone := p.arrange(b, usual)
			if !alone {
				return leaves
			}
			p.doc.Rewind(before)
		}
		p.Unmarked(func() { p.arrangement = p.choose(b) })
	}
	leaves, _ := p.arrange(b, p.arrangement)
	return leaves
}

// choose tries the arrangements of a bag.
func (p *printer) choose(b *tree.Bag) arrangement {
	leaves, alone := p.arrange(b, usual)
	if !alone {
		return usual
	}
	tries := []arrangement{{hands: 1}}
	if len(b.Stones)+len(b.Assembly) == 0 { // else it comes after the work
		tries = []arrangement{{hands: 2, finish: true}, {hands: 1}, {hands: 1, finish: true}}
	}
	for _, a := range tries {
		if fewer, _ := p.arrange(b, a); len(fewer) < len(leaves) {
			return a
		}
	}
	for _, from := range []apart{beforeAll, beforeEach} {
		a := arrangement{hands: usual.hands, apart: from}
		if same, alone := p.arrange(b, a); len(same) == len(leaves) && !alone {
			return a
		}
	}
	return usual
}

// arrange lays a bag in one arrangement, and tells whether the lines for hands
// are alone on the last leaf.
func (p *printer) arrange(b *tree.Bag, a arrangement) (leaves []*page.Leaf, alone bool) {
	p.doc.About(b.Job, "")
	s := &sheet{printer: p, b: b, arrangement: a}
	s.begin(page.Half(p.cast.House.Series))
	s.facts()
	s.cautions(b.Cautions)
	s.contents()
	s.notes()
	if a.finish {
		s.finish()
	}
	s.pictures()
	s.assembly()
	s.stones()
	s.setting()
	s.countOut()
	if !a.finish {
		s.finish()
	}
	s.weights()
	alone = s.handOver()
	s.larger()
	return s.f.End(), alone
}
