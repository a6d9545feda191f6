//go:build race

package reading

// UnderRace is true where the race detector watches: what prints every sheet
// in one goroutine, to read it back, has nothing to show there and is slow.
const UnderRace = true
