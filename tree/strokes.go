package tree

import (
	"fmt"
	"strconv"
	"strings"
)

// Strokes are lines of a drawing: each a run of points in millimetres. They
// are written as text, so that a record stays readable beside them.
type Strokes [][][2]float64

// MarshalText writes "x,y x,y;x,y x,y", coordinates in full precision.
func (s Strokes) MarshalText() ([]byte, error) {
	var b []byte
	for i, line := range s {
		if i > 0 {
			b = append(b, ';')
		}
		for k, p := range line {
			if k > 0 {
				b = append(b, ' ')
			}
			b = strconv.AppendFloat(b, p[0], 'f', -1, 64)
			b = append(b, ',')
			b = strconv.AppendFloat(b, p[1], 'f', -1, 64)
		}
	}
	return b, nil
}

// UnmarshalText reads what MarshalText writes.
func (s *Strokes) UnmarshalText(text []byte) error {
	*s = nil
	if len(text) == 0 {
		return nil
	}
	for _, line := range strings.Split(string(text), ";") {
		var run [][2]float64
		for _, point := range strings.Fields(line) {
			x, y, _ := strings.Cut(point, ",")
			fx, errX := strconv.ParseFloat(x, 64)
			fy, errY := strconv.ParseFloat(y, 64)
			if errX != nil || errY != nil {
				return fmt.Errorf("%q is not a point", point)
			}
			run = append(run, [2]float64{fx, fy})
		}
		*s = append(*s, run)
	}
	return nil
}
