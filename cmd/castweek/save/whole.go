// Package save puts files on the disk whole or not at all.
package save

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sort"
)

// A Kept error names files that could not be replaced, often because another
// program holds them open; the old ones stand as they were.
type Kept struct {
	Files []string
	Cause error
}

func (k *Kept) Error() string {
	if errors.Is(k.Cause, errFolder) {
		return fmt.Sprintf("%s could not be written: %v; move it away and run again", k.Files[0], k.Cause)
	}
	return fmt.Sprintf("%s could not be replaced and is still the old one (%v); close it in other programs and run again", k.Files[0], k.Cause)
}

// errFolder says why a file can not have its name.
var errFolder = errors.New("a folder stands in its place")

func (k *Kept) Unwrap() error { return k.Cause }

// Files writes each file of the set below dir, which is made when it is
// missing. All are written under temporary names and synced before the first is
// renamed, so that a failure in between leaves no half written file. What could
// not be renamed is named in a *[Kept]. A file whose content is nil is removed.
//
// An interrupt waits until the files are whole, and is then returned.
func Files(dir string, files map[string][]byte) (err error) {
	defer uninterrupted()(&err)
	if err := folder(dir); err != nil {
		return err
	}
	var names []string
	for name := range files {
		if !filepath.IsLocal(name) {
			return fmt.Errorf("%q is not a file name below %s", name, dir)
		}
		names = append(names, name)
	}
	sort.Strings(names)
	temps := map[string]string{}
	defer func() {
		for _, t := range temps {
			os.Remove(t)
		}
	}()
	for _, name := range names {
		if files[name] == nil {
			continue
		}
		t, err := temporary(dir, files[name])
		if err != nil {
			return notWritten(filepath.Join(dir, name), err)
		}
		temps[name] = t
	}
	kept := &Kept{}
	for _, name := range names {
		if err := settle(temps[name], filepath.Join(dir, name)); err != nil {
			kept.Files, kept.Cause = append(kept.Files, filepath.Join(dir, name)), err
			continue
		}
		delete(temps, name)
	}
	if kept.Cause != nil {
		return kept
	}
	return nil
}

// settle gives a temporary file its name, or removes what has that name when
// there is none.
func settle(temp, path string) error {
	if temp != "" {
		err := os.Rename(temp, path)
		if info, there := os.Lstat(path); err != nil && there == nil && info.IsDir() {
			return errFolder
		}
		var link *os.LinkError
		if errors.As(err, &link) {
			return link.Err // the temporary name is nobody's business
		}
		return err
	}
	if err := os.Remove(path); err != nil && !errors.Is(err, os.ErrNotExist) {
		return err
	}
	return nil
}

// New writes one file that must not exist yet: whatever stands there stays.
func New(path string, data []byte) (err error) {
	defer uninterrupted()(&err)
	if err := folder(filepath.Dir(path)); err != nil {
		return err
	}
	t, err := temporary(filepath.Dir(path), data)
	if err != nil {
		return notWritten(path, err)
	}
	defer os.Remove(t)
	// a hard link fails when the name is taken, which a rename would not
	if err := os.Link(t, path); err == nil || errors.Is(err, os.ErrExist) {
		return err
	}
	// some file systems know no links: check, then rename
	if _, err := os.Lstat(path); err == nil {
		return &os.PathError{Op: "create", Path: path, Err: os.ErrExist}
	}
	return os.Rename(t, path)
}

// folder makes a folder that may be there.
func folder(dir string) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		if info, there := os.Stat(dir); there == nil && !info.IsDir() {
			return fmt.Errorf("%s is a file; a folder is needed in its place", dir)
		}
		return fmt.Errorf("the folder %s can not be made: %w", dir, plain(err))
	}
	return nil
}

// notWritten names the file that a person knows, not the temporary one.
func notWritten(path string, err error) error {
	return fmt.Errorf("%s can not be written: %w", path, plain(err))
}

func plain(err error) error {
	var p *os.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

// temporary writes and syncs data under a name that no reader looks for.
func temporary(dir string, data []byte) (name string, err error) {
	f, err := os.CreateTemp(dir, ".castweek-*.tmp")
	if err != nil {
		return "", err
	}
	defer func() {
		if err != nil {
			f.Close()
			os.Remove(f.Name())
		}
	}()
	if _, err = f.Write(data); err != nil {
		return "", err
	}
	if err = f.Chmod(0o644); err != nil && !errors.Is(err, errors.ErrUnsupported) {
		return "", err
	}
	if err = f.Sync(); err != nil {
		return "", err
	}
	return f.Name(), f.Close()
}
