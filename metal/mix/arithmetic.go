package mix

import (
	"errors"
	"math/big"
	"sort"
)

// Errors of the bench arithmetic below.
var (
	ErrNotFineEnough = errors.New("not fine enough: no alloy raises a fineness, only finer metal does")
	ErrTooFine       = errors.New("too fine: no finer metal lowers a fineness, only alloy does")
	ErrBadNumber     = errors.New("weights must be positive, and finenesses from 0 to the fine metal's")
)

// Raise is the weight F of metal of fineness f that brings a weight S of
// fineness s up to t: F = S(t−s)/(f−t). Any one unit of weight, and any one of
// fineness (‰ or carats of 24).
func Raise(S, s, t, f *big.Rat) (*big.Rat, error) {
	switch {
	case S.Sign() <= 0 || s.Sign() < 0:
		return nil, ErrBadNumber
	case t.Cmp(s) < 0:
		return nil, ErrTooFine
	case f.Cmp(t) <= 0:
		return nil, ErrNotFineEnough
	}
	return new(big.Rat).Quo(mul(S, sub(t, s)), sub(f, t)), nil
}

// Lower is the weight A of alloy of fineness a (0 when it holds none of the
// metal) that brings a weight S of fineness s down to t: A = S(s−t)/(t−a).
func Lower(S, s, t, a *big.Rat) (*big.Rat, error) {
	switch {
	case S.Sign() <= 0 || a.Sign() < 0:
		return nil, ErrBadNumber
	case t.Cmp(s) > 0:
		return nil, ErrNotFineEnough
	case t.Cmp(a) <= 0:
		return nil, ErrTooFine
	}
	return new(big.Rat).Quo(mul(S, sub(s, t)), sub(t, a)), nil
}

// Equivalent is the weight at fineness t that holds as much fine metal as S at
// s: S·s/t. It is also the whole alloy that fine metal makes.
func Equivalent(S, s, t *big.Rat) (*big.Rat, error) {
	if S.Sign() < 0 || s.Sign() < 0 || t.Sign() <= 0 {
		return nil, ErrBadNumber
	}
	return new(big.Rat).Quo(mul(S, s), t), nil
}

// Melted is a weight of one fineness that goes into a melt.
type Melted struct{ Weight, Fineness *big.Rat }

// Medial is the fineness of several weights melted together: t = Σmf/Σm.
func Medial(in ...Melted) (*big.Rat, error) {
	fine, mass := new(big.Rat), new(big.Rat)
	for _, m := range in {
		if m.Weight.Sign() < 0 || m.Fineness.Sign() < 0 {
			return nil, ErrBadNumber
		}
		fine.Add(fine, mul(m.Weight, m.Fineness))
		mass.Add(mass, m.Weight)
	}
	if mass.Sign() == 0 {
		return nil, ErrBadNumber
	}
	return fine.Quo(fine, mass), nil
}

// Alligate gives shares in which metals of the finenesses have make the
// fineness t: the old rule of alligation. The poorest is linked to the finest,
// the next poorest to the next finest, and so on; each of a linked pair takes
// as its share the other's distance from t. What is left over on one side is
// linked to the last of the other. A fineness equal to t takes the share 1.
func Alligate(have []*big.Rat, t *big.Rat) ([]*big.Rat, error) {
	var low, high []int
	share := zeros(len(have))
	for i, h := range have {
		switch h.Cmp(t) {
		case -1:
			low = append(low, i)
		case 1:
			high = append(high, i)
		default:
			share[i].SetInt64(1)
		}
	}
	if len(high) == 0 && len(low) > 0 {
		return nil, ErrNotFineEnough
	}
	if len(low) == 0 && len(high) > 0 {
		return nil, ErrTooFine
	}
	sort.SliceStable(low, func(a, b int) bool { return have[low[a]].Cmp(have[low[b]]) < 0 })
	sort.SliceStable(high, func(a, b int) bool { return have[high[a]].Cmp(have[high[b]]) > 0 })
	for k := 0; k < max(len(low), len(high)); k++ {
		l, h := low[min(k, len(low)-1)], high[min(k, len(high)-1)]
		share[l].Add(share[l], sub(have[h], t))
		share[h].Add(share[h], sub(t, have[l]))
	}
	return share, nil
}

// Mark is the highest of the legal finenesses that a metal of this fineness
// reaches. There is no minus tolerance: 584 ‰ is not 585.
func Mark(fineness *big.Rat, legal []*big.Rat) (*big.Rat, bool) {
	var best *big.Rat
	for _, l := range legal {
		if l.Cmp(fineness) <= 0 && (best == nil || l.Cmp(best) > 0) {
			best = l
		}
	}
	return best, best != nil
}

func mul(a, b *big.Rat) *big.Rat { return new(big.Rat).Mul(a, b) }
func sub(a, b *big.Rat) *big.Rat { return new(big.Rat).Sub(a, b) }
