//go:build unix

package save

import (
	"errors"
	"os"
	"os/signal"
	"syscall"
	"testing"
)

// Without the guard the signal would end this test, and leave what it wrote.
func TestAnInterruptWaits(t *testing.T) {
	seen := make(chan os.Signal, 1)
	signal.Notify(seen, os.Interrupt)
	defer signal.Stop(seen)
	var err error
	done := uninterrupted()
	if err := syscall.Kill(os.Getpid(), syscall.SIGINT); err != nil {
		t.Fatal(err)
	}
	<-seen
	done(&err)
	if !errors.Is(err, ErrInterrupted) {
		t.Errorf("the interrupt was lost: %v", err)
	}
	err = nil
	uninterrupted()(&err)
	if err != nil {
		t.Errorf("no interrupt, and yet %v", err)
	}
}
