package main

import (
	"errors"
	"fmt"
	"io/fs"
	"syscall"
)

// Exit codes. 2 is left to the Go runtime.
const (
	exitDone       = 0
	exitFailed     = 1  // the machine failed: a file could not be written, a fault of ours
	exitRefused    = 3  // unreadable, workshop wrong, nothing planned
	exitIncomplete = 4  // something is held, left over or late, or a tree can not be poured
	exitUsage      = 64 // wrong usage, or a size that is not understood
)

// An exitError ends the program with a code. A nil err says that everything
// was told already.
type exitError struct {
	code int
	err  error
}

func (e *exitError) Error() string {
	if e.err == nil {
		return fmt.Sprintf("exit code %d", e.code)
	}
	return e.err.Error()
}

func (e *exitError) Unwrap() error { return e.err }

func failed(err error) error  { return &exitError{exitFailed, err} }
func refused(err error) error { return &exitError{exitRefused, err} }
func wrongUsage(format string, args ...any) error {
	return &exitError{exitUsage, fmt.Errorf(format, args...)}
}

// told ends with a code when everything has been said.
func told(code int) error {
	if code == exitDone {
		return nil
	}
	return &exitError{code, nil}
}

// report says what is left to say and gives the code. An error that is none of
// ours comes from reading the command line.
func report(s *streams, err error) int {
	if err == nil {
		return exitDone
	}
	var e *exitError
	if !errors.As(err, &e) {
		e = &exitError{exitUsage, err}
	}
	if e.err != nil {
		fmt.Fprintf(s.err, "castweek: %v\n", e.err)
		if remedy := remedyOf(e.err); remedy != "" {
			fmt.Fprintln(s.err, remedy)
		}
		if e.code == exitUsage {
			fmt.Fprintln(s.err, "run castweek --help for the verbs and an example")
		}
	}
	return e.code
}

// remedyOf tells what to do about the machine's own complaints.
func remedyOf(err error) string {
	switch {
	case errors.Is(err, syscall.ENOSPC):
		return "make room on the disk and run it again"
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return "check the right to write there, or print into another folder with --out"
	}
	return ""
}
