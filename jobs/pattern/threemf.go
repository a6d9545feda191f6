package pattern

func (r *reader) read3MF() error {
	return r.fail("mesh-format", "export the pattern as STL", "3MF is not read yet")
}
