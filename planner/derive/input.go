package derive

import (
	"cmp"

	"holdover/loads/home"
)

// Input writes a value of the home that need not be given on a sheet, with the line it stands on, and returns its id. What
// nobody gave counts as none.
func Input(s *Figures, house *home.Home, path string, value float64, unit string) string {
	source := house.Source(path)
	how := "given"
	if source == "" {
		how = "not given; none is counted"
	}
	s.Add(Figure{ID: path, Value: value, Unit: unit, How: how, Source: cmp.Or(source, "our own default")})
	return path
}
