package pack

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
	"testing"
)

// readLine reads the one-dimensional format: count, capacity, sizes.
func readLine(text []byte) (Question, error) {
	nums, err := numbers(strings.Fields(string(text)))
	if err != nil {
		return Question{}, err
	}
	if len(nums) < 2 || nums[0] != int64(len(nums)-2) {
		return Question{}, fmt.Errorf("%d numbers do not hold a count, a capacity and so many sizes", len(nums))
	}
	return line(nums[1], nums[2:]...), nil
}

// readVector reads the vector format: dimensions, capacities, rows, and rows
// of sizes with a demand.
func readVector(text []byte) (Question, error) {
	nums, err := numbers(strings.Fields(string(text)))
	if err != nil {
		return Question{}, err
	}
	if len(nums) < 1 || nums[0] < 1 || nums[0] > 100 || int64(len(nums)) < nums[0]+2 {
		return Question{}, fmt.Errorf("no dimensions")
	}
	d := int(nums[0])
	q := Question{Bins: []Bin{{Name: "standard", Capacity: nums[1 : d+1]}}}
	rows := nums[d+2:]
	if nums[d+1] < 0 || nums[d+1] > 1e6 || int64(len(rows)) != nums[d+1]*int64(d+1) {
		return Question{}, fmt.Errorf("%d numbers are not %d rows", len(rows), nums[d+1])
	}
	for ; len(rows) > 0; rows = rows[d+1:] {
		if rows[d] < 0 || rows[d] > 1e6 {
			return Question{}, fmt.Errorf("demand %d", rows[d])
		}
		for range rows[d] {
			q.Items = append(q.Items, Item{ID: strconv.Itoa(len(q.Items)), Size: rows[:d]})
		}
	}
	return q, nil
}

func numbers(words []string) ([]int64, error) {
	out := make([]int64, len(words))
	for k, w := range words {
		n, err := strconv.ParseInt(w, 10, 64)
		if err != nil {
			return nil, err
		}
		out[k] = n
	}
	return out, nil
}

// A week is as much of a week file as the grouping wants.
type week struct {
	Height int64 `json:"usable_trunk_height_um"`
	Most   int64 `json:"max_patterns_per_tree"`
	Alloys []struct {
		ID  string
		Net int64 `json:"net_charge_mg"`
	}
	Patterns []struct {
		ID, Job, Alloy, Section, Due string
		Material                     string `json:"pattern_material"`
		Metal                        int64  `json:"metal_mg"`
		Share                        int64  `json:"height_share_um"`
	}
}

func readWeek(text []byte) (w week, err error) {
	err = json.Unmarshal(text, &w)
	return w, err
}

// groups splits a week by rule (a alloy, m material, s section, d due) into
// questions, in the order of their keys.
func (w *week) groups(rule string) []Question {
	net := map[string]int64{}
	for _, a := range w.Alloys {
		net[a.ID] = a.Net
	}
	byKey := map[string]*Question{}
	for _, p := range w.Patterns {
		key := ""
		for _, r := range rule {
			key += "/" + map[rune]string{'a': p.Alloy, 'm': p.Material, 's': p.Section, 'd': p.Due}[r]
		}
		if byKey[key] == nil {
			byKey[key] = &Question{Bins: []Bin{{Name: key, Capacity: []int64{net[p.Alloy], w.Height, w.Most}}}}
		}
		q := byKey[key]
		q.Items = append(q.Items, Item{ID: p.ID, Job: p.Job, Size: []int64{p.Metal, p.Share, 1}})
	}
	var keys []string
	for k := range byKey {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	var out []Question
	for _, k := range keys {
		out = append(out, *byKey[k])
	}
	return out
}

// optima reads the second or third column of a table of known optima; rows
// without a number, or with -1, are unknown and left out.
func optima(t testing.TB, dir string) map[string]int {
	text, err := os.ReadFile(filepath.Join(dir, "OPTIMA.tsv"))
	if err != nil {
		t.Fatal(err)
	}
	best := map[string]int{}
	col := 1
	for n, row := range bytes.Split(text, []byte("\n")) {
		cells := strings.Split(strings.TrimRight(string(row), "\r"), "\t")
		if n == 0 {
			for c, name := range cells {
				if strings.HasPrefix(name, "published_OPT") || name == "best_known" {
					col = c
				}
			}
			continue
		}
		if len(cells) > col {
			if v, err := strconv.Atoi(cells[col]); err == nil && v >= 0 {
				best[cells[0]] = v
			}
		}
	}
	return best
}

// files of a folder that hold instances, by name.
func files(t testing.TB, dir string) []string {
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, e := range entries {
		switch filepath.Ext(e.Name()) {
		case ".txt", ".vbp", ".json":
			out = append(out, e.Name())
		}
	}
	return out
}

func read(t testing.TB, path string) Question {
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	from := readLine
	if filepath.Ext(path) == ".vbp" {
		from = readVector
	}
	q, err := from(text)
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	return q
}
