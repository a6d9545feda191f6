package mount

import "math/rand/v2"

const (
	thoroughSeed  = 1  // of the shuffles, so that every run is the same
	shuffleRounds = 60 // rounds of shuffles over the styles; the step limit mostly ends them earlier
)

// thoroughPolicies open levels in more ways than the quick search.
var thoroughPolicies = []policy{{8, 0}, {3, 0}, {20, 0}, {40, 0}, {8, WeightBand}, {3, WeightBand}, {20, WeightBand}, {40, WeightBand}}

// thorough goes on from the best tree of the quick search and replaces it only by
// one with fewer castings left, or as many and less trunk. First it tries all
// styles and policies, then it shuffles castings of about one weight.
func (s *search) thorough() {
	order := s.promising
	if order == nil {
		for k := range styles {
			order = append(order, k)
		}
	}
	for _, p := range thoroughPolicies {
		for _, k := range order {
			for _, choices := range [][]choice{s.inStyle(k), s.mixed(k)} {
				if s.steps >= s.limit {
					return
				}
				s.attempt(choices, p, fineRise)
			}
		}
	}
	r := rand.New(rand.NewPCG(thoroughSeed, 0))
	for range shuffleRounds {
		for _, k := range order {
			if s.steps >= s.limit {
				return
			}
			p := thoroughPolicies[r.IntN(len(thoroughPolicies))]
			choices := s.mixed(k)
			shuffleBands(choices, r)
			s.attempt(choices, p, fineRise)
		}
	}
}

// shuffleBands changes the order within bands of weight, the heaviest band first.
// Two castings of one band may then hang on any levels, and castings of two bands
// still keep to the rule of the levels, so that WeightBand holds throughout.
func shuffleBands(order []choice, r *rand.Rand) {
	for from := 0; from < len(order); {
		to := from + 1
		for to < len(order) && float64(order[to].body.Weight) >= (1-WeightBand)*float64(order[from].body.Weight) {
			to++
		}
		band := order[from:to]
		r.Shuffle(len(band), func(i, j int) { band[i], band[j] = band[j], band[i] })
		from = to
	}
}
