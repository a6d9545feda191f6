package main

import (
	"castweek/tree"

	"github.com/spf13/cobra"
)

// bagForms say for one print how the bags are laid; what is not given is as the
// house has it.
type bagForms struct {
	twoUp, short bool
	given        func(name string) bool
}

func (b *bagForms) flags(c *cobra.Command) {
	c.Flags().BoolVar(&b.twoUp, "two-up", false, "two job bags on a full sheet with cut marks, or with =false one on its own; the house's paper setting when left out")
	c.Flags().BoolVar(&b.short, "short-bags", false, "the short form of the job bags too, four on a sheet, in bags-short.pdf; the house's paper setting when left out")
	b.given = c.Flags().Changed
}

// on gives the cast with its bags laid so.
func (b bagForms) on(c *tree.Cast) *tree.Cast {
	laid := *c
	if b.given != nil && b.given("two-up") {
		laid.House.TwoUp = b.twoUp
	}
	if b.given != nil && b.given("short-bags") {
		laid.House.Short = b.short
	}
	return &laid
}
