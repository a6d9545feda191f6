package main

import (
	"bytes"
	"fmt"
	"math/rand"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"castweek/metal/book"
)

// The program is killed at random during weigh, 1,000 times, two of it at work
// at any time: no movement is half written, and none that was confirmed is lost
// or there twice.
func TestWeighKilled(t *testing.T) {
	kills := 1000
	if testing.Short() || underRace {
		kills = 50
	}
	dir := shopFolder(t)
	runs := 3 * kills // enough that the kills come together
	confirmed := make([]bool, runs)
	var dead atomic.Int32
	var wg sync.WaitGroup
	for w := range 2 {
		wg.Add(1)
		go func() {
			defer wg.Done()
			random := rand.New(rand.NewSource(int64(w)))
			var within time.Duration // about what a weighing takes: the first is left alone
			for k := w; k < runs && int(dead.Load()) < kills; k += 2 {
				var out bytes.Buffer
				// The test binary is the program when it is called by its name.
				c := exec.Cmd{Path: os.Args[0], Stdout: &out, Stderr: &out, Args: []string{"castweek", "weigh", dir, "--who", "AB", "--movement", "bought",
					"--lot", fmt.Sprint("W", k), "--alloy", "750 yellow", "--fineness", "750", "--from", "certificate", "--form", "grain", "--grams", "1"}}
				start := time.Now()
				if err := c.Start(); err != nil {
					t.Error(err)
					return
				}
				timer := time.NewTimer(time.Hour)
				if within > 0 {
					timer = time.AfterFunc(time.Duration(random.Int63n(int64(within))), func() { c.Process.Kill() })
				}
				err := c.Wait()
				timer.Stop()
				confirmed[k] = strings.Contains(out.String(), "booked as line")
				if err == nil {
					within = 5 * time.Since(start) / 4
					continue
				}
				dead.Add(1)
				within += within / 50 // the machine may have become slower
				if runtime.GOOS != "windows" && !strings.Contains(err.Error(), "killed") {
					t.Errorf("weighing %d: %v\n%s", k, err, out.String())
				}
			}
		}()
	}
	wg.Wait()
	file := filepath.Join(dir, bookFile)
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	b, problems := book.Read(file, data)
	if len(problems.Errors()) > 0 {
		t.Fatal(problems)
	}
	there, sure := map[string]int{}, 0
	for _, m := range b.Movements {
		there[m.Lot]++
	}
	for k := range runs {
		n := there[fmt.Sprint("W", k)]
		if n > 1 || confirmed[k] && n != 1 {
			t.Errorf("weighing %d, confirmed: %v, is in the book %d times", k, confirmed[k], n)
		}
		if confirmed[k] {
			sure++
		}
	}
	t.Logf("%d killed, %d confirmed, %d in the book, torn %q", dead.Load(), sure, len(b.Movements), b.Torn)
	if sure == 0 || int(dead.Load()) < kills {
		t.Error("the kills did not fall among the weighings")
	}
}
