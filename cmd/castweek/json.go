package main

import (
	"encoding/json"
	"io"
)

// schemaVersion is the version of every JSON answer: keys are only added.
const schemaVersion = 1

// writeJSON writes one answer, indented, with characters as they are.
func writeJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		return failed(err)
	}
	return nil
}
