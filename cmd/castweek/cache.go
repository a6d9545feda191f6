package main

import (
	"io/fs"
	"path/filepath"

	"castweek/cmd/castweek/save"
	"castweek/jobs"
)

// Measured patterns are kept in the job folder from run to run. Deleting the
// folder of the cache is harmless.
const (
	cacheDir  = ".castweek"
	cacheFile = "patterns"
)

// readCache reads what an earlier run kept; anything unreadable is an empty
// cache.
func readCache(fsys fs.FS) *jobs.KeptReports {
	data, _ := fs.ReadFile(fsys, cacheDir+"/"+cacheFile)
	return jobs.ReadKept(data)
}

// keep writes the cache when it has changed. That it can not be written costs
// time at the next run and nothing else, so it is no failure.
func (o *opened) keep() {
	if data, changed := o.cache.Bytes(); changed {
		_ = save.Files(filepath.Join(o.dir, cacheDir), map[string][]byte{cacheFile: data})
	}
}
