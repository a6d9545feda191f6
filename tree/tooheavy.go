package tree

import (
	"fmt"

	"castweek/metal/measure"
	"castweek/tree/mount"
)

// tooHeavy says which limit a casting breaks that hangs alone on its tree, in
// every flask of the house; "" when some flask takes it, or when it hangs in
// none. Flasks that are used up are no reason of its own.
func (s *packing) tooHeavy(it *item) string {
	c, ok := largestCrucible(s.shop, it.alloy)
	if !ok {
		return ""
	}
	limit := c.Limit.RoundDown(1)
	var least, button, cavity measure.Milligram // of the flask that comes nearest
	found := false
	for _, f := range s.shop.Flasks {
		in := chargeInput(s.shop, it.alloy, f)
		t, v := hang(f, mountGaps(s.shop, s.group.resin), []mount.Body{s.traced.of(it)}, s.options())
		if v.Outcome != mount.Hangs {
			continue
		}
		metal := it.metal() + (t.FeederVolume + t.TrunkVolume).Times(in.Density).RoundUp(1)
		if holds(in, limit, metal) {
			return ""
		}
		total, b := in.TotalFor(metal)
		if !found || total < least {
			found, least, button, cavity = true, total, b, in.Cavity.Times(in.Density).RoundDown(1)
		}
	}
	switch {
	case !found:
		return ""
	case least > limit:
		return fmt.Sprintf("alone on a tree, with trunk and button, it needs %s of metal; the crucible %s takes %s", least, c.Name, limit)
	}
	return fmt.Sprintf("its button of %s, by the rule of the house, is more than the button cavity of the flask takes: %s", button, cavity)
}
