package setting

// wax writes the steps for a stone that is set in the wax and cast in place:
// before investing, and after the cast.
func (w *writer) wax() {
	w.step("wax.seat", "wax", some(w.under())...)
	w.warn(cautionWords["wax-hands"])
	w.step("wax.press", "practice")
	w.step("wax.windows", "wax", count("windows", 2))
	w.step("wax.tell", "practice", w.all())
	w.warn(cautionWords["no-quench"])
	w.step("wax.after", "wax-cool")
	w.step("wax.look", "front", w.all())
}
