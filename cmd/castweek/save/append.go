package save

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/rogpeppe/go-internal/lockedfile"
)

// TornSuffix is added to a file's name for what was set aside of it.
const TornSuffix = ".torn"

// writeTo is a file's way to the disk; a test slows it down.
var writeTo = func(f *os.File, data []byte) error {
	_, err := f.Write(data)
	return err
}

// Append adds whole lines to the end of a file, or nothing, and returns only
// when they are on the disk. The file is locked meanwhile, so that of two
// writers one waits. An unfinished last line, which was never confirmed to
// anybody, is first moved into a file beside it and returned.
//
// next is given what the file holds and says what to add; its error stops the
// append, leaves the file as it was, and is returned as it is. A file that is
// missing is made.
func Append(path string, next func(old []byte) ([]byte, error)) (torn []byte, err error) {
	_, missing := os.Stat(path)
	f, err := lockedfile.Edit(path)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	if missing != nil {
		syncDir(filepath.Dir(path))
	}
	old, err := io.ReadAll(f)
	if err != nil {
		return nil, err
	}
	end := bytes.LastIndexByte(old, '\n') + 1
	add, err := next(old[:end:end])
	if err != nil || len(add) == 0 {
		return nil, err
	}
	if add[len(add)-1] != '\n' {
		return nil, fmt.Errorf("%s: the line to add is unfinished", path)
	}
	if torn = old[end:]; len(torn) > 0 {
		if err := setAside(path+TornSuffix, torn); err != nil {
			return nil, err
		}
		if err := f.Truncate(int64(end)); err != nil {
			return torn, err
		}
	}
	if _, err := f.Seek(int64(end), io.SeekStart); err != nil {
		return torn, err
	}
	if err = writeTo(f.File, add); err == nil {
		err = f.Sync()
	}
	if err != nil { // a full disk must not leave half a line
		err = errors.Join(err, f.Truncate(int64(end)))
	}
	return torn, err
}

// setAside keeps what was torn off, synced, before it is cut from its file.
func setAside(path string, torn []byte) (err error) {
	f, err := os.OpenFile(path, os.O_CREATE|os.O_WRONLY|os.O_APPEND, 0o644)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	if _, err := f.Write(append(bytes.Clone(torn), '\n')); err != nil {
		return err
	}
	return f.Sync()
}

// syncDir makes a new name last; where directories can not be synced, the file
// system has its own way.
func syncDir(dir string) {
	if d, err := os.Open(dir); err == nil {
		d.Sync()
		d.Close()
	}
}

// Read reads a file that others may be appending to, after they are done.
func Read(path string) ([]byte, error) { return lockedfile.Read(path) }
