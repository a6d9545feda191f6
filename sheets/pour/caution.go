package pour

import (
	"castweek/sheets/page"
	"castweek/tree"
)

// Where the cautions are from. Water and metal: a safety executive's pages on
// molten metals and a foundry federation's alert (steam takes 1,700 times the
// room of its water); what is left over goes into a mould that is dry and
// preheated for the same reason. A flask that has cooled, cracked or taken up
// damp is not poured, two people are at a pour, and a kiln is not left alone
// without a cut-out of its own: common practice, no source. Dark shields for
// platinum and palladium: a platinum maker's sheet. Dust of investment: the
// limits for respirable crystalline silica of 29 CFR 1910.1053 and EH40, with
// wet cleaning and no dry sweeping as the executive's ceramics sheets have it.
// Sulphur dioxide from gypsum with carbon left in it, and ammonia from
// phosphate powder: from memory. No quench for stones that were cast in place:
// casters' forum.

// pourCautions stand straight before what they are about: the pour.
func (p *printer) pourCautions(f *page.Flow, t *tree.Tree) {
	f.Gap(2)
	p.caution(f, p.say("pour.warn.flask"), kilnHead, kilnWords, kilnShape)
	f.Gap(1.5)
	metal := p.say("pour.warn.metal")
	if t.Bright() {
		metal = p.say("pour.warn.bright")
	}
	p.caution(f, metal, kilnHead, kilnWords, kilnShape)
	f.Gap(2)
}

// warnHeight is what a caution of two lines takes at the bench with its gaps.
const warnHeight = benchShape + 3 + 3

// warn is a caution at the bench, straight before its step.
func (p *printer) warn(f *page.Flow, text string) {
	f.Gap(1.5)
	p.caution(f, text, benchHead, benchWords, benchShape)
	f.Gap(1.5)
}

// Sides of the hazard triangle at the kiln and at the bench, in millimetres.
const (
	kilnShape  = 20.0
	benchShape = 10.0
)

// caution is a framed warning: triangle, signal word, then hazard, what it
// does, and what to do.
func (p *printer) caution(f *page.Flow, text string, strong, plain page.Style, side float64) {
	const pad = 3.0
	signal := p.say("signal.warning")
	// bold is a little wider than the face the lines are broken in
	slack := strong.Width(signal) - plain.Width(signal)
	lines := plain.Wrap(signal+" "+text, f.Frame.Width()-side-3*pad-slack)
	h := max(side, float64(len(lines))*plain.Leading()) + pad
	f.Block(h, func(l *page.Leaf, x, y, w float64) {
		l.Rect(x, y, w, h, page.Heavy)
		l.Shape(page.Hazard, x+pad, y+(h-side)/2, side)
		at := y + (h-float64(len(lines))*plain.Leading())/2
		left := x + side + 2*pad
		for i, line := range lines {
			base := at + plain.Base() + float64(i)*plain.Leading()
			if i == 0 && len(line) >= len(signal) {
				end := l.Text(left, base, strong, signal)
				l.Text(end, base, plain, line[len(signal):])
				continue
			}
			l.Text(left, base, plain, line)
		}
	})
}
