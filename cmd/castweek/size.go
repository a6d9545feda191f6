package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"castweek/jobs/ringsize"

	"github.com/spf13/cobra"
)

// sizeAnswer is the JSON answer of the verb.
type sizeAnswer struct {
	Schema        int               `json:"schema"`
	Asked         string            `json:"asked"`
	Inside        float64           `json:"inside_diameter_mm"`
	Circumference float64           `json:"circumference_mm"`
	Labels        map[string]string `json:"labels"`
}

func sizeCmd(s *streams) *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "size SIZE",
		Short: "say a finger size in every system, with millimetres",
		Example: `  castweek size "UK P½"
  castweek size "US 7" --json`,
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return wrongUsage(`a size is needed, such as: castweek size "UK P½"`)
			}
			// unquoted words are one size: castweek size US 7
			asked := strings.Join(args, " ")
			size, err := ringsize.Parse(asked)
			if err != nil {
				return wrongUsage("%v", explained(err))
			}
			if asJSON {
				return writeJSON(s.out, sizeJSON(asked, size))
			}
			return printSize(s, size)
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "answer as JSON")
	return c
}

// minusIsNoFlag keeps "-3 mm" from being read as a flag of size, so that the
// answer speaks of the size.
func minusIsNoFlag(args []string) []string {
	minus := func(a string) bool {
		return len(a) > 1 && a[0] == '-' && strings.ContainsRune(".0123456789", rune(a[1]))
	}
	if len(args) == 0 || args[0] != "size" || !slices.ContainsFunc(args, minus) {
		return args
	}
	var flags, words []string
	for _, a := range args[1:] {
		if strings.HasPrefix(a, "-") && !minus(a) {
			flags = append(flags, a)
		} else {
			words = append(words, a)
		}
	}
	return slices.Concat([]string{"size"}, flags, []string{"--"}, words)
}

func sizeJSON(asked string, size ringsize.Size) sizeAnswer {
	a := sizeAnswer{schemaVersion, asked, decimals(float64(size.Inside), 3), decimals(float64(size.Circumference), 2), map[string]string{}}
	for _, l := range size.Labels() {
		if l.Reached() {
			a.Labels[string(l.System)] = l.Text
		}
	}
	return a
}

func printSize(s *streams, size ringsize.Size) error {
	fmt.Fprintf(s.out, "%s is %.2f mm inside, %.2f mm round\n", size.AsTyped, float64(size.Inside), float64(size.Circumference))
	for _, l := range size.Labels() {
		if !l.Reached() {
			fmt.Fprintf(s.out, "  %-12s no label reaches it\n", l.System.Name())
			continue
		}
		off := ""
		if d := float64(l.Off); math.Abs(d) >= 0.05 {
			off = fmt.Sprintf("   (%+.2f mm round)", d)
		}
		fmt.Fprintf(s.out, "  %-12s %-5s %.2f mm%s\n", l.System.Name(), l.Text, float64(l.Inside), off)
	}
	return nil
}

// decimals rounds a number for JSON.
func decimals(v float64, n int) float64 {
	p := math.Pow(10, float64(n))
	return math.Round(v*p) / p
}
