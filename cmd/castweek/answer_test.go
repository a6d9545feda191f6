package main

import (
	"bytes"
	"errors"
	"os"
	"strings"
	"syscall"
	"testing"
	"time"
)

// full is a disk without room.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, syscall.ENOSPC }

// An answer that is cut off must not end as if it had been given: another
// program would go on with half of it.
func TestAnAnswerThatCanNotBeWrittenFails(t *testing.T) {
	for _, line := range []string{"", "size|UK P½", "size|UK P½|--json", "check|../../samples/saltmarsh", "metal|../../samples/saltmarsh",
		"plan|../../samples/saltmarsh|--dry-run", "help|plan", "pattern|../../samples/saltmarsh/patterns/stud.stl"} {
		var told bytes.Buffer
		var args []string
		if line != "" {
			args = strings.Split(line, "|")
		}
		code := run(args, &streams{in: strings.NewReader(""), out: full{}, err: &told, now: time.Now})
		if code != exitFailed || !strings.Contains(told.String(), "the answer can not be written") || !strings.Contains(told.String(), "make room") {
			t.Errorf("%q ends with %d: %s", line, code, told.String())
		}
	}
}

func TestRemedyOfTheMachine(t *testing.T) {
	if remedyOf(errors.New("any")) != "" {
		t.Error("a remedy for what is not known")
	}
}

func TestNobodySitsAtTheNullDevice(t *testing.T) {
	f, err := os.Open(os.DevNull)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if isTerminal(f) {
		t.Error("the null device is asked questions")
	}
}
