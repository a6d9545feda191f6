package main

import (
	"fmt"
	"runtime/debug"

	"github.com/spf13/cobra"
)

const shortHelp = `castweek plans a workshop's weekly cast from a folder of job files.

  castweek check  FOLDER        read and judge the job files
  castweek plan   FOLDER        plan the next cast and print its sheets
  castweek accept FOLDER        make the planned cast final
  castweek print  FOLDER CAST   print an accepted cast again
  castweek size   "UK P½"       a finger size in every system
  castweek pattern FILE         what a pattern's mesh tells
  castweek charge               metal for a pattern, without a job folder
  castweek mix                  what to weigh of which lots for an alloy
  castweek weigh  FOLDER        add a movement to the metal's book
  castweek metal  FOLDER        metal on hand, and where it came from and went
  castweek words                the labels of all sheets, to be translated

Example:
  castweek plan samples/saltmarsh

castweek help VERB tells more about a verb.
`

// newRoot builds the tree of verbs.
func newRoot(s *streams) *cobra.Command {
	root := &cobra.Command{
		Use:           "castweek",
		Short:         "plan a workshop's weekly cast from a folder of job files",
		SilenceUsage:  true,
		SilenceErrors: true,
		Version:       version(),
		Args:          cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			_, err := fmt.Fprint(s.out, shortHelp)
			return err
		},
	}
	root.SetOut(s.out)
	root.SetErr(s.err)
	root.CompletionOptions.HiddenDefaultCmd = true
	root.AddCommand(verbs(s)...)
	root.SetHelpCommand(helpCmd(s, root))
	return root
}

// helpCmd tells about a verb, and says when there is none of that name.
func helpCmd(s *streams, root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use:   "help VERB",
		Short: "tell about a verb",
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return root.RunE(root, nil)
			}
			for _, c := range root.Commands() {
				if c.Name() == args[0] {
					return c.Help()
				}
			}
			return wrongUsage("there is no verb %q", args[0])
		},
	}
}

// version is the build's own, from its version control.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" && len(s.Value) >= 12 {
			return s.Value[:12]
		}
	}
	return info.Main.Version
}

// oneFolder takes exactly the job folder.
func oneFolder(_ *cobra.Command, args []string) error {
	if len(args) != 1 {
		return wrongUsage("one job folder is needed, such as samples/saltmarsh; %d were given", len(args))
	}
	return nil
}
