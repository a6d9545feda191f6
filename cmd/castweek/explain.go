package main

import (
	"errors"
	"fmt"

	"castweek/metal/measure"
)

// explained joins what is wrong with a typed quantity and what to do about it.
func explained(err error) error {
	var s *measure.SyntaxError
	if errors.As(err, &s) && s.Remedy != "" {
		return fmt.Errorf("%s; %s", s.Message, s.Remedy)
	}
	return err
}
