// Command castweek plans a small workshop's weekly lost-wax cast: job files in;
// trees, metal charges and printed sheets out.
package main

import (
	"fmt"
	"io"
	"os"
	"time"
)

// streams are the program's ways to the world, so that a test can take their
// place.
type streams struct {
	in       io.Reader
	out, err io.Writer
	now      func() time.Time
	terminal bool // err is a terminal: progress may be shown there
}

func main() {
	os.Exit(run(os.Args[1:], &streams{os.Stdin, os.Stdout, os.Stderr, time.Now, isTerminal(os.Stderr)}))
}

// run carries out a command line and gives its exit code.
func run(args []string, s *streams) int {
	answer := &kept{to: s.out}
	s.out = answer
	root := newRoot(s)
	root.SetArgs(minusIsNoFlag(args))
	err := root.Execute()
	if answer.err != nil { // an answer that was cut off is none
		err = failed(fmt.Errorf("the answer can not be written: %w", answer.err))
	}
	return report(s, err)
}

// kept remembers the first error of a writer, since printing goes on after it.
type kept struct {
	to  io.Writer
	err error
}

func (k *kept) Write(b []byte) (int, error) {
	n, err := k.to.Write(b)
	if k.err == nil {
		k.err = err
	}
	return n, err
}

// isTerminal tells whether a person sits there. The null device is of the same
// mode and nobody's.
func isTerminal(f *os.File) bool {
	info, err := f.Stat()
	if err != nil || info.Mode()&os.ModeCharDevice == 0 || os.Getenv("TERM") == "dumb" {
		return false
	}
	null, err := os.Stat(os.DevNull)
	return err != nil || !os.SameFile(info, null)
}
