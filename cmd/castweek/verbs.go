package main

import "github.com/spf13/cobra"

// verbs lists what the program can do, one file each.
func verbs(s *streams) []*cobra.Command {
	return []*cobra.Command{checkCmd(s), planCmd(s), acceptCmd(s), printCmd(s), sizeCmd(s), patternCmd(s),
		mixCmd(s), chargeCmd(s), weighCmd(s), metalCmd(s), wordsCmd(s)}
}
