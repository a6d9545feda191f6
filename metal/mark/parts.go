package mark

import (
	"strconv"
	"strings"
)

// Parts is a fineness or a share in parts per million by mass.
type Parts int64

// Whole is pure metal.
const Whole Parts = 1_000_000

// perMille is one thousandth.
const perMille Parts = 1000

// String writes thousandths: "585 ‰", "958.4 ‰".
func (p Parts) String() string { return p.Number() + " ‰" }

// Number writes thousandths without the sign, as they are struck: "585".
func (p Parts) Number() string {
	s := strconv.FormatInt(int64(p/perMille), 10)
	if f := p % perMille; f > 0 {
		s += "." + strings.TrimRight(strconv.FormatInt(int64(perMille+f), 10)[1:], "0")
	}
	return s
}

// An Element is named by its chemical symbol.
type Element string

// The precious metals of the hallmark laws.
const (
	Gold      Element = "Au"
	Silver    Element = "Ag"
	Platinum  Element = "Pt"
	Palladium Element = "Pd"
	Base      Element = "base" // any metal that hallmark law does not call precious: steel, brass, titanium
)

// precious are the four, in the order in which they are listed everywhere.
var precious = []Element{Gold, Silver, Platinum, Palladium}

// names of the elements that are spoken of here.
var names = map[Element]string{Gold: "gold", Silver: "silver", Platinum: "platinum", Palladium: "palladium",
	Base: "base metal", "Cu": "copper", "Ni": "nickel", "Cd": "cadmium", "Pb": "lead"}

// Name is the element's English name, or its symbol when it is none of those
// that are spoken of here.
func (e Element) Name() string {
	if n, ok := names[e]; ok {
		return n
	}
	return string(e)
}

// bases are the symbols by which a base metal may be named in an article. A
// name that is not read here must not pass for one: "gold" is no base metal.
var bases = []Element{Base, "Cu", "Zn", "Ni", "Fe", "Ti", "Al", "Sn", "W"}

// readable tells whether an article's metal is one that can be judged.
func (e Element) readable() bool {
	for _, b := range bases {
		if e == b {
			return true
		}
	}
	return e.Precious()
}

// Precious tells whether hallmark law speaks of the element.
func (e Element) Precious() bool {
	for _, p := range precious {
		if e == p {
			return true
		}
	}
	return false
}
