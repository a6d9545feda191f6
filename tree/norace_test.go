//go:build !race

package tree

const underRace = false
