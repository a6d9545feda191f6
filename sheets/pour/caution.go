package pour

import (
	"castweek/sheets/page"
	"castweek/tree"
)

// Where the cautions are from. Water and metal: a safety executive's pages on
// molten metals and a foundry federation's alert (steam takes 1,700 times the
// room of its water). A flask that has cooled, cracked or taken up damp is not
// poured: common practice, no source. Dark shields for platinum and palladium:
// a platinum maker's sheet. Dust of investment: the limits for respirable
// crystalline silica of 29 CFR 1910.1053 and EH40, with wet cleaning and no dry
// sweeping as the executive's ceramics sheets have it. No quench for stones
// that were cast in place: common practice, no source.

// pourCautions stand straight before what they are about: the pour.
func (p *printer) pourCautions(f *page.Flow, t *tree.Tree) {
	f.Gap(2)
	p.caution(f, "pour.warn.flask", kilnHead, kilnWords, kilnShape)
	f.Gap(1.5)
	key := "pour.warn.metal"
	if t.Bright() {
		key = "pour.warn.bright"
	}
	p.caution(f, key, kilnHead, kilnWords, kilnShape)
	f.Gap(2)
}

// Sides of the hazard triangle at the kiln and at the bench, in millimetres.
const (
	kilnShape  = 20.0
	benchShape = 10.0
)

// caution is a framed warning: triangle, signal word, then hazard, what it
// does, and what to do.
func (p *printer) caution(f *page.Flow, key string, strong, plain page.Style, side float64) {
	const pad = 3.0
	signal := p.say("signal.warning")
	// bold is a little wider than the face the lines are broken in
	slack := strong.Width(signal) - plain.Width(signal)
	lines := plain.Wrap(signal+" "+p.say(key), f.Frame.Width()-side-3*pad-slack)
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
