package derive

import (
	"cmp"

	"holdover/loads/home"
)

// Inputs puts down every value that a home or a default gives, with the line or default that it came from.
func (s *Figures) Inputs(house *home.Home) {
	for _, in := range house.Inputs() {
		s.input(house, in)
	}
}

// Input puts down one value, which the home need not give: what nobody gave counts as none.
func (s *Figures) Input(house *home.Home, path string) Term { return s.input(house, house.Input(path)) }

func (s *Figures) input(house *home.Home, in home.Input) Term {
	how, source := "given: "+in.Doc, house.Source(in.Path)
	switch {
	case source == "":
		how = "not given, so none is counted: " + in.Doc
	case in.Origin.Line == 0:
		how = "assumed: " + in.Doc
	}
	if in.Origin.Says != "" {
		how += "; understood as " + in.Origin.Says
	}
	return s.Add(Figure{ID: in.Path, Value: in.Value, Word: in.Word, Unit: in.Unit, How: how, Source: cmp.Or(source, "our own default")})
}
