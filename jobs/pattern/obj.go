package pattern

func (r *reader) readOBJ() error {
	return r.fail("mesh-format", "export the pattern as STL", "OBJ is not read yet")
}
