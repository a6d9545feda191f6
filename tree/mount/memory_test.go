package mount

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"testing"
)

// Searches that share a memory, even one that forgets all the time, give the same
// trees after the same steps as searches that have none.
func TestMemoryChangesNoAnswer(t *testing.T) {
	forgetful := NewMemory()
	forgetful.most = 5
	memories := map[string]*Memory{"kept": NewMemory(), "forgetful": forgetful}
	kinds := rings(10, 4)
	kinds = append(kinds, boxBody("box", 14, 10, 5))
	r := rand.New(rand.NewPCG(5, 5))
	for round := range 12 {
		f := testFlask
		f.Height = mm(80 + 10*(round%3))
		var bodies []Body
		for i := range 6 + r.IntN(18) {
			b := kinds[r.IntN(len(kinds))]
			b.ID = fmt.Sprint(i)
			bodies = append(bodies, b)
		}
		o := Options{Steps: 30_000, Thorough: round%4 == 0}
		want, said := Place(f, testGaps, bodies, o)
		for name, m := range memories {
			o.Memory = m
			got, v := Place(f, testGaps, bodies, o)
			if !reflect.DeepEqual(got.Placements, want.Placements) || !reflect.DeepEqual(v, said) {
				t.Errorf("round %d, memory %s: %+v instead of %+v", round, name, v, said)
			}
		}
	}
}
