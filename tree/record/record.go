// Package record writes and reads accepted casts. A record is never planned
// over: it says which castings hang on which tree, and it keeps all that the
// cast's sheets print, so that they can be printed again byte for byte.
package record

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"
	"time"

	"go.yaml.in/yaml/v4"
)

// schema is the version of the file's form.
const schema = 1

// note opens every record.
const note = "# An accepted cast. Planning never changes it; do not edit it by hand.\n"

// A Record is one accepted cast. P is what the sheets print.
type Record[P any] struct {
	Schema   int
	Cast     string
	Pour     time.Time
	Accepted time.Time
	Trees    []Tree
	Paper    P
	Prints   []Print `yaml:",omitempty"` // as which the sheets are printed
	End      string  // the cast again: what was cut short has lost it
}

// A Tree is what of an accepted tree planning has to know.
type Tree struct {
	Name     string
	Alloy    string
	Owner    string
	Castings []string
}

var castName = regexp.MustCompile(`^\d{4}-W\d\d(-[1-7])?$`)

// ValidName tells whether name is that of a cast.
func ValidName(name string) bool { return castName.MatchString(name) }

// Encode writes a record as YAML.
func Encode[P any](r Record[P]) ([]byte, error) {
	r.Schema, r.End = schema, r.Cast
	if !ValidName(r.Cast) {
		return nil, fmt.Errorf("%q is not the name of a cast", r.Cast)
	}
	b, err := yaml.Marshal(r)
	if err != nil {
		return nil, err
	}
	return append([]byte(note), b...), nil
}

// Decode reads a record. A field that this build does not know, a missing name
// or two trees that hold the same casting are errors: half a record is none.
func Decode[P any](data []byte) (r Record[P], err error) {
	if err := DecodePlain(data, &r); err != nil {
		return r, err
	}
	if r.Schema != schema {
		return r, fmt.Errorf("the record has schema %d; this build reads schema %d", r.Schema, schema)
	}
	if !ValidName(r.Cast) {
		return r, fmt.Errorf("%q is not the name of a cast", r.Cast)
	}
	if r.End != r.Cast {
		return r, errors.New("the record is cut short: its end is missing")
	}
	on := map[string]string{}
	for _, t := range r.Trees {
		for _, c := range t.Castings {
			if other, twice := on[c]; twice {
				return r, fmt.Errorf("casting %s is on tree %s and on tree %s", c, other, t.Name)
			}
			on[c] = t.Name
		}
	}
	return r, nil
}

// EncodePlain writes any value of exported fields as YAML.
func EncodePlain(v any) ([]byte, error) { return yaml.Marshal(v) }

// DecodePlain reads what [EncodePlain] wrote; a field that v has not is an
// error.
func DecodePlain(data []byte, v any) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("the file can not be read: %v", p)
		}
	}()
	d := yaml.NewDecoder(bytes.NewReader(data))
	d.KnownFields(true)
	return inWords(d.Decode(v))
}

// inWords says what is wrong with a file in words of ours: the library speaks
// of types of this program.
func inWords(err error) error {
	var one *yaml.LoadError
	var many *yaml.LoadErrors
	switch {
	case err == nil:
		return nil
	case errors.Is(err, io.EOF):
		return errors.New("the file is empty")
	case errors.As(err, &many) && len(many.Errors) > 0:
		one = many.Errors[0]
	case !errors.As(err, &one):
		return errors.New("the file is damaged")
	}
	if strings.Contains(one.Error(), "not found in type") {
		return fmt.Errorf("line %d holds what this build does not know: another build wrote it, or it was changed by hand", one.Mark.Line)
	}
	return fmt.Errorf("the file is damaged on line %d", one.Mark.Line)
}
