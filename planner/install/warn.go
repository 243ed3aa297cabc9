package install

import (
	"slices"

	"holdover/loads"
	"holdover/planner/derive"
	"holdover/profiles"
)

// signalOrder is how the signal words of ANSI Z535 rank.
var signalOrder = []string{"DANGER", "WARNING", "CAUTION", "NOTICE"}

// warn writes the cautions: those that the checks raised, and those that belong to every transfer.
func (w *work) warn() {
	for i := range w.Sources {
		w.blameNeutral(&w.Sources[i])
	}
	raised := w.hazards
	raised["backfeed"] = len(w.Sources) > 0
	raised["legs-unbalanced"] = raised["legs-unbalanced"] || len(w.Legs.Moves) > 0
	raised["no-230-rules"] = !w.Code.Detailed
	raised["code-edition"] = w.Code.Detailed && !w.home.Given("home.code")
	raised["code-and-licence"] = true
	var ids []string
	for id, on := range raised {
		if on && id != "" {
			ids = append(ids, id)
		}
	}
	slices.Sort(ids)
	for _, id := range ids {
		c, ok := profiles.FindHazard(id)
		if !ok {
			panic("install: no caution " + id)
		}
		c = w.Code.Caution(c)
		if who := w.blamed[id]; len(who) > 0 {
			c.Text = derive.Names(who, 4) + ": " + c.Text
		}
		if !w.Code.Detailed {
			c.Source = "physics and common practice; " + w.Code.Unknown
		}
		w.Cautions = append(w.Cautions, c)
	}
	slices.SortStableFunc(w.Cautions, func(a, b profiles.Caution) int {
		return slices.Index(signalOrder, a.Word) - slices.Index(signalOrder, b.Word)
	})
}

// blameNeutral raises what a source's neutral may do: one that joins neutral and frame, where the house does so too, and
// one that floats where a burner proves its flame by a current to earth.
func (w *work) blameNeutral(s *Source) {
	burner := slices.ContainsFunc(w.demand.Loads, func(l loads.Load) bool { return l.Needs.EarthedNeutral })
	switch {
	case s.Neutral == bonded && w.Code.Detailed:
		w.blame("parallel-neutral", s)
	case s.Neutral == floating && burner:
		w.blame("flame-sensing-neutral", s)
	}
}
