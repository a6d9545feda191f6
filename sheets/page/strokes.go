package page

// Strokes draws lines given in millimetres with y upwards, their lower left
// corner at x, y (y of the leaf, downwards). Scale 1 is the true size.
func (l *Leaf) Strokes(lines [][][2]float64, x, y, scale, weight float64) {
	for _, line := range lines {
		at := make([][2]float64, len(line))
		for i, p := range line {
			at[i] = [2]float64{x + p[0]*scale, y - p[1]*scale}
		}
		l.Path(at, false, weight)
	}
}

// Bounds are the least and greatest coordinates of lines.
func Bounds(lines [][][2]float64) (minX, minY, maxX, maxY float64) {
	first := true
	for _, line := range lines {
		for _, p := range line {
			if first {
				minX, minY, maxX, maxY, first = p[0], p[1], p[0], p[1], false
			}
			minX, maxX = min(minX, p[0]), max(maxX, p[0])
			minY, maxY = min(minY, p[1]), max(maxY, p[1])
		}
	}
	return minX, minY, maxX, maxY
}
