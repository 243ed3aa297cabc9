// Package derive answers: where does this number come from?
//
// A [Figure] is one number that a person reads, with its unit, how it was worked out, from which other figures and by
// which source. [Figures] collect the figures of one plan. The screens, the documents, the JSON and the why verb all read
// the same sheet, so they cannot disagree.
package derive

import (
	"encoding/json"
	"math"
)

// A Figure is one worked value.
type Figure struct {
	ID     string   // such as "load.running_w"
	Value  float64  // in Unit; unused when Word is set
	Word   string   // for a figure that is a word, such as "sine"
	Unit   string   // "W", "VA", "Wh", "h", "°C", "" for a plain ratio
	How    string   // the formula in words and symbols
	From   []string // ids of the figures it was worked out from
	Source string   // the standard, table or line of the home file behind it
}

// MarshalJSON writes {"value": …, "unit": …, "how": …, "from": […], "source": …}.
func (f Figure) MarshalJSON() ([]byte, error) {
	from := f.From
	if from == nil {
		from = []string{}
	}
	var value any = f.Value
	if f.Word != "" {
		value = f.Word
	}
	return json.Marshal(struct {
		Value  any      `json:"value"`
		Unit   string   `json:"unit"`
		How    string   `json:"how"`
		From   []string `json:"from"`
		Source string   `json:"source"`
	}{value, f.Unit, f.How, from, f.Source})
}

// Figures holds figures by id, in the order in which they were worked out. The zero Figures is empty and ready.
type Figures struct {
	figures []Figure
	index   map[string]int
}

// Add puts a figure on the sheet and returns its value, so that a formula can be written as it is worked out. A second
// figure with the same id replaces the first. A value that is not finite is a programmer's error: a planner that divides
// by zero must say so in words instead.
func (s *Figures) Add(f Figure) float64 {
	if math.IsNaN(f.Value) || math.IsInf(f.Value, 0) {
		panic("derive: " + f.ID + " is not finite")
	}
	if s.index == nil {
		s.index = map[string]int{}
	}
	if i, ok := s.index[f.ID]; ok {
		s.figures[i] = f
		return f.Value
	}
	s.index[f.ID] = len(s.figures)
	s.figures = append(s.figures, f)
	return f.Value
}

// Get finds a figure by its id.
func (s *Figures) Get(id string) (Figure, bool) {
	if i, ok := s.index[id]; ok {
		return s.figures[i], true
	}
	return Figure{}, false
}

// Value is the value of a figure that must be there; a missing one is a programmer's error.
func (s *Figures) Value(id string) float64 {
	f, ok := s.Get(id)
	if !ok {
		panic("derive: no figure " + id)
	}
	return f.Value
}

// All lists all figures in the order in which they were worked out.
func (s *Figures) All() []Figure { return s.figures }

// MarshalJSON writes the figures as an object by id.
func (s *Figures) MarshalJSON() ([]byte, error) {
	byID := make(map[string]Figure, len(s.figures))
	for _, f := range s.figures {
		byID[f.ID] = f
	}
	return json.Marshal(byID)
}
