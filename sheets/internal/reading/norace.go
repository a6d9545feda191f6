//go:build !race

package reading

// UnderRace is true where the race detector watches.
const UnderRace = false
