package profiles

// Demo gives the built-in home file: an invented household to look at first and to copy from.
func Demo() []byte {
	content := text("demo.yaml")
	return append([]byte(nil), content...)
}
