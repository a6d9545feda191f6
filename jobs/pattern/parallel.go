package pattern

import (
	"runtime"
	"sync"
)

// workers is how many shares work is cut into.
func workers() int { return min(8, max(1, runtime.GOMAXPROCS(0))) }

// inParallel cuts 0..n into shares and does them at once. The shares must not
// write to the same place.
func inParallel(n int, do func(from, to int)) {
	w := workers()
	if w == 1 || n < 4096 {
		do(0, n)
		return
	}
	var wait sync.WaitGroup
	for i := range w {
		wait.Go(func() { do(n*i/w, n*(i+1)/w) })
	}
	wait.Wait()
}

// inParallelAlways is for few but long pieces of work.
func inParallelAlways(n int, do func(from, to int)) {
	w := min(workers(), n)
	var wait sync.WaitGroup
	for i := range w {
		wait.Go(func() { do(n*i/w, n*(i+1)/w) })
	}
	wait.Wait()
}
