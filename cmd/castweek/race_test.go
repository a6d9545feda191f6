//go:build race

package main

// underRace makes tests that start many programs shorter: each start is slow.
const underRace = true
