package save

import (
	"errors"
	"os"
	"os/signal"
	"syscall"
)

// ErrInterrupted says that a person stopped the program while it wrote; the
// files are whole.
var ErrInterrupted = errors.New("interrupted; what was being written is whole")

// uninterrupted lets an interrupt wait, so that no temporary file is left
// behind. What it gives is to be called when the writing is over.
func uninterrupted() func(err *error) {
	c := make(chan os.Signal, 1)
	signal.Notify(c, os.Interrupt, syscall.SIGTERM)
	return func(err *error) {
		signal.Stop(c)
		select {
		case <-c:
			*err = errors.Join(*err, ErrInterrupted)
		default:
		}
	}
}
