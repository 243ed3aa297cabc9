// Package derive answers: where does this number come from?
//
// A [Figure] is one number that a person reads, with its unit, how it was worked out, from which other figures and by which source.
// [Figures] collect those of one plan, in the packages that work them out: a [Term] is a value with its formula, and what is put
// down of it is made from the one expression. The screens, the documents, the JSON and the why verb all read the same figures, so
// they cannot disagree.
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

// Figures holds figures by id, in the order in which they were worked out. The zero Figures is empty and ready. Nil figures are for
// what nobody reads: nothing is put on them, and their terms are quiet.
type Figures struct {
	figures []Figure
	index   map[string]int
	base    *Figures
}

// Over are fresh figures that build on others: of those they hold what they come from, and no more.
func Over(base *Figures) *Figures { return &Figures{base: base} }

// Add puts a figure down and returns it as a term. A second one of the same id replaces the first. A value that is not finite is a
// programmer's error: a planner that divides by zero must say so in words instead.
func (s *Figures) Add(f Figure) Term {
	if s == nil {
		return silent(f.Value)
	}
	if math.IsNaN(f.Value) || math.IsInf(f.Value, 0) {
		panic("derive: " + f.ID + " is not finite")
	}
	s.Take(f.From...)
	if s.index == nil {
		s.index = map[string]int{}
	}
	if i, ok := s.index[f.ID]; ok {
		s.figures[i] = f
	} else {
		s.index[f.ID] = len(s.figures)
		s.figures = append(s.figures, f)
	}
	return Called(wordsOf(f.ID), f.Value, f.ID)
}

// Note puts down a value that no expression gives, with how it came about in words, and returns its id.
func (s *Figures) Note(id string, value float64, unit, how, source string, from ...string) string {
	s.Add(Figure{ID: id, Value: value, Unit: unit, How: how, Source: source, From: from})
	return id
}

// Put makes a figure of a term, and gives it back under the words of its id. A quiet term where somebody reads is a programmer's
// error.
func (s *Figures) Put(id, unit string, t Term, source string) Term {
	if s == nil {
		return silent(t.Value)
	}
	if t.form == quiet {
		panic("derive: " + id + " has no formula")
	}
	return s.Add(Figure{ID: id, Value: t.Value, Unit: unit, How: t.text(sum), From: t.from, Source: source})
}

// Take sees to it that figures are here which the base has, with all that they come from.
func (s *Figures) Take(ids ...string) {
	if s == nil || s.base == nil {
		return
	}
	for _, id := range ids {
		if _, here := s.Get(id); here {
			continue
		}
		if f, ok := s.base.Get(id); ok {
			s.Add(f)
		}
	}
}

// Term is a figure that must be there, or on the base, as a term; a missing one is a programmer's error.
func (s *Figures) Term(id string) Term {
	s.Take(id)
	return Called(wordsOf(id), s.Value(id), id)
}

// At is that figure, and on nil figures the value that it would have.
func (s *Figures) At(id string, value float64) Term {
	if s == nil {
		return silent(value)
	}
	return s.Term(id)
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
func (s *Figures) All() []Figure {
	if s == nil {
		return nil
	}
	return s.figures
}

// MarshalJSON writes the figures as an object by id.
func (s *Figures) MarshalJSON() ([]byte, error) {
	byID := make(map[string]Figure, len(s.figures))
	for _, f := range s.figures {
		byID[f.ID] = f
	}
	return json.Marshal(byID)
}
