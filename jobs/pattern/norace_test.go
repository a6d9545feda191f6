//go:build !race

package pattern

import "testing"

func skipUnderRace(*testing.T) {}
