//go:build race

package tree

// underRace leaves out judges that work in one goroutine: they are slow there.
const underRace = true
