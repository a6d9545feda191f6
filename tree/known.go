package tree

import (
	"runtime"
	"sync"
	"sync/atomic"

	"castweek/jobs"
	"castweek/metal/measure"
	"castweek/tree/mount"
)

// known is what was measured and asked, for several goroutines at once. Shapes
// and needs do not depend on who measures them; what mounting said of a set is
// asked for by one goroutine only, for its key holds the castings' ids.
type known struct {
	gap    measure.MM // between castings
	body   once[*jobs.Part, mount.Body]
	shapes once[shape, mount.Body]
	needs  once[needKey, mount.Need]
	asked  once[string, asked]
}

func newKnown(gap measure.MM) *known {
	return &known{gap: gap, body: newOnce[*jobs.Part, mount.Body](), shapes: newOnce[shape, mount.Body](), needs: newOnce[needKey, mount.Need](), asked: newOnce[string, asked]()}
}

// once keeps values that are worked out when they are first asked for.
type once[K comparable, V any] struct {
	mu *sync.Mutex
	at map[K]V
}

func newOnce[K comparable, V any]() once[K, V] { return once[K, V]{new(sync.Mutex), map[K]V{}} }

func (o once[K, V]) get(k K) (V, bool) {
	o.mu.Lock()
	defer o.mu.Unlock()
	v, ok := o.at[k]
	return v, ok
}

func (o once[K, V]) put(k K, v V) {
	o.mu.Lock()
	defer o.mu.Unlock()
	o.at[k] = v
}

// of works a value out where it is not known. Two who ask at the same moment both
// do, and find the same.
func (o once[K, V]) of(k K, work func() V) V {
	v, ok := o.get(k)
	if !ok {
		v = work()
		o.put(k, v)
	}
	return v
}

// mostAtOnce is how many goroutines mount at once: each has a memory of its own.
const mostAtOnce = 8

// each does n pieces of work that ask about different castings, as many at once as
// there are processors. So the answers do not depend on which is done first.
func (t *traced) each(n int, do func(t *traced, k int)) {
	for len(t.helpers) < min(runtime.GOMAXPROCS(0), n, mostAtOnce) {
		t.helpers = append(t.helpers, &traced{known: t.known, memory: mount.NewMemory()})
	}
	if len(t.helpers) < 2 {
		for k := range n {
			do(t, k)
		}
		return
	}
	var next atomic.Int64
	var all sync.WaitGroup
	for _, h := range t.helpers {
		all.Go(func() {
			for k := int(next.Add(1)) - 1; k < n; k = int(next.Add(1)) - 1 {
				do(h, k)
			}
		})
	}
	all.Wait()
}
