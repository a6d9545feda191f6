package jobs

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"maps"
	"slices"
	"sync"

	"castweek/jobs/pattern"
)

// methodVersion stands for how patterns are measured and kept.
const methodVersion = "1." + pattern.MethodVersion

// KeptReports is a [Cache] that goes through a file. Deleting the file costs
// time and nothing else.
type KeptReports struct {
	lock sync.Mutex
	old  map[string]pattern.Report // as read
	used map[string]pattern.Report // asked for or put in since
	grew bool
}

// ReadKept reads what [KeptReports.Bytes] wrote. Data that are damaged, of
// another version or missing give an empty cache.
func ReadKept(data []byte) *KeptReports {
	k := &KeptReports{old: map[string]pattern.Report{}, used: map[string]pattern.Report{}}
	first, body, _ := bytes.Cut(data, []byte("\n"))
	if string(first) != seal(body) {
		return k
	}
	if err := json.Unmarshal(body, &k.old); err != nil {
		k.old = map[string]pattern.Report{}
	}
	return k
}

// seal is the first line of the file: version and checksum of the rest.
func seal(body []byte) string {
	sum := sha256.Sum256(body)
	return "castweek patterns " + methodVersion + " " + hex.EncodeToString(sum[:])
}

// Get finds a report.
func (k *KeptReports) Get(key string) (pattern.Report, bool) {
	k.lock.Lock()
	defer k.lock.Unlock()
	r, ok := k.old[key]
	if !ok {
		r, ok = k.used[key]
	}
	if ok {
		k.used[key] = r
	}
	return r, ok
}

// Put keeps a report.
func (k *KeptReports) Put(key string, r pattern.Report) {
	k.lock.Lock()
	defer k.lock.Unlock()
	k.used[key], k.grew = r, true
}

// Bytes is what to write for the next run: the reports that this run used.
// changed is false when the file says so already. A report that can not be
// written is measured again.
func (k *KeptReports) Bytes() (data []byte, changed bool) {
	k.lock.Lock()
	defer k.lock.Unlock()
	keep := map[string]json.RawMessage{}
	for _, key := range slices.Sorted(maps.Keys(k.used)) {
		if one, err := json.Marshal(k.used[key]); err == nil {
			keep[key] = one
		}
	}
	body, err := json.Marshal(keep)
	if err != nil {
		return nil, false
	}
	return append([]byte(seal(body)+"\n"), body...), k.grew || len(k.used) < len(k.old)
}
