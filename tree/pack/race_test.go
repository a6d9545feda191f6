//go:build race

package pack

// slowdown divides the number of random cases: the race detector makes the
// arithmetic here some fifteen times slower.
const slowdown = 6
