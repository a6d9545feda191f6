package workbook

import (
	"testing"

	"castweek/sheets/internal/trial"
)

// BenchmarkInputs reads a workbook back, as every plan does before it writes.
func BenchmarkInputs(b *testing.B) {
	data, _, err := Write(trial.Cast())
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := Inputs(data); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkWrite writes the workbook of the invented week.
func BenchmarkWrite(b *testing.B) {
	c := trial.Cast()
	for b.Loop() {
		if _, _, err := Write(c); err != nil {
			b.Fatal(err)
		}
	}
}
