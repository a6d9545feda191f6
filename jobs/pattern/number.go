package pattern

import "strconv"

var powerOfTen = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22}

// parseNumber reads a decimal number: sign, digits with at most one point,
// exponent. No NaN, infinity, hexadecimal or comma. The common case, at most
// 15 digits and a small exponent, is one exact multiplication or division
// (both factors are exact in float64); everything else goes to strconv.
func parseNumber(b []byte) (float64, bool) {
	i, neg := 0, false
	if i < len(b) && (b[i] == '-' || b[i] == '+') {
		neg = b[i] == '-'
		i++
	}
	mantissa, digits, significant, scale := uint64(0), 0, 0, 0
	point := false
	for ; i < len(b); i++ {
		c := b[i]
		if c == '.' && !point {
			point = true
			continue
		}
		if c < '0' || c > '9' {
			break
		}
		digits++
		if significant > 0 || c != '0' {
			significant++
		}
		if significant <= 18 {
			mantissa = mantissa*10 + uint64(c-'0')
			if point {
				scale--
			}
		}
	}
	if digits == 0 {
		return 0, false
	}
	if i < len(b) {
		e, ok := parseExponent(b[i:])
		if !ok {
			return 0, false
		}
		scale += e
	}
	if significant > 15 || scale < -22 || scale > 22 {
		v, err := strconv.ParseFloat(string(b), 64)
		return v, err == nil
	}
	v := float64(mantissa)
	if scale < 0 {
		v /= powerOfTen[-scale]
	} else {
		v *= powerOfTen[scale]
	}
	if neg {
		v = -v
	}
	return v, true
}

func parseExponent(b []byte) (int, bool) {
	if b[0] != 'e' && b[0] != 'E' {
		return 0, false
	}
	b = b[1:]
	neg := false
	if len(b) > 0 && (b[0] == '-' || b[0] == '+') {
		neg = b[0] == '-'
		b = b[1:]
	}
	if len(b) == 0 || len(b) > 6 {
		return 0, false
	}
	e := 0
	for _, c := range b {
		if c < '0' || c > '9' {
			return 0, false
		}
		e = e*10 + int(c-'0')
	}
	if neg {
		e = -e
	}
	return e, true
}
