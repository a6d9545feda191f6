//go:build race

package pattern

import "testing"

// skipUnderRace leaves out what looks at numbers only: the race detector makes
// it many times slower, and TestMadeFiles and TestSameOnAnyNumberOfCores run
// every parallel part under it.
func skipUnderRace(t *testing.T) { t.Skip("numbers are checked without the race detector") }
