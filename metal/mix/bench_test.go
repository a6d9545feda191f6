package mix

import (
	"fmt"
	"math/big"
	"math/rand"
	"testing"

	"castweek/metal/measure"
)

// BenchmarkMake mixes from as many limited lots as a box of scrap may hold, for
// a mix that can be made and for one that can not.
func BenchmarkMake(b *testing.B) {
	for _, n := range []int{6, 30} {
		random := rand.New(rand.NewSource(1))
		lots := []Lot{fineGold, master750y}
		for i := range n - 2 {
			au := 333 + random.Intn(500)
			ag := random.Intn(1000 - au)
			lots = append(lots, Lot{Name: fmt.Sprint(i), Limited: true, Limit: measure.Milligram(random.Intn(20_000)), Comp: []Content{
				{"Au", big.NewRat(int64(au), 1)}, {"Ag", big.NewRat(int64(ag), 1)}, {"Cu", big.NewRat(int64(1000-au-ag), 1)}}})
		}
		w := want750()
		w.Grams = 200_000
		w.Bands = []Band{{"Ag", r("100"), r("150")}, {"Cu", r("100"), r("150")}}
		poor := append([]Lot(nil), lots...)
		poor[0] = limited(poor[0], 20_000)
		for name, l := range map[string][]Lot{"made": lots, "refused": poor} {
			b.Run(fmt.Sprintf("%d lots %s", n, name), func(b *testing.B) {
				for b.Loop() {
					if a := Make(w, l); a.OK() != (name == "made") {
						b.Fatal(a.Problems)
					}
				}
			})
		}
		small := w
		small.Grams = 500
		b.Run(fmt.Sprintf("%d lots small", n), func(b *testing.B) {
			for b.Loop() {
				Make(small, lots)
			}
		})
	}
}
