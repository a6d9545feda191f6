package save

import (
	"os"
	"path/filepath"

	"github.com/rogpeppe/go-internal/lockedfile"
)

// Lock waits until nobody else holds the lock of a path, and holds it until done
// is called or the program ends. Its file is made where it is missing, and stays.
func Lock(path string) (done func(), err error) {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return nil, err
	}
	return lockedfile.MutexAt(path).Lock()
}
