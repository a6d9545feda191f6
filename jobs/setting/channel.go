package setting

import "castweek/metal/measure"

// channel writes the steps for a row of stones between two walls.
func (w *writer) channel() {
	w.step("channel.match", "channel-match", length("fits", w.in.House.Fits))
	low, high, source := ChannelWidth(w.s.Width)
	w.step("channel.width", source, span("channel", low, high))
	if w.s.Count > 1 {
		if w.in.Ring {
			w.step("channel.curve", "channel-gap", span("gap", 0.2, 0.4))
		} else {
			w.step("channel.flat", "channel-gap", length("gap", 0.1))
		}
	}
	// Depths of 0.75 to 2 and of 0.75 to 1 times the stone are printed; what both
	// allow is told.
	w.step("channel.deep", "channel-depth", span("deep", share(w.s.Depth, 75), w.s.Depth).assumed(w.s.DepthAssumed))
	w.step("channel.line", "channel-line", length("line", about(w.h.Crown)))
	// Each wall is undercut by half of what the channel is narrower.
	cut := length("undercut", about(max(share(w.s.Width, 10)/2, cent)))
	if bur, ok := upTo(w.in.House.Burs, w.s.Width/2); ok {
		w.step("channel.undercut", "channel-bur", length("bur", bur), cut)
	} else {
		w.step("channel.undercut.graver", "channel-bur", cut)
	}
	w.place()
	w.step("channel.drop", "channel")
	w.step("channel.level", "channel")
	if w.fragile() {
		w.warn(cautionWords["push"])
		w.step("channel.push", "practice")
	} else {
		w.step("channel.hammer", "channel")
	}
	w.step("channel.cover", "channel-cover", w.cover())
	w.step("channel.bright", "channel")
}

// cover is how much of the stone one wall covers: 10 to 15 % of the width for
// both together.
func (w *writer) cover() Number {
	each := func(p measure.Percent) measure.MM { return share(w.s.Width, p) / 2 }
	return span("cover", each(10), each(15))
}
