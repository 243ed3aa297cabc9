package transfer

import (
	"slices"
	"strings"

	"holdover/profiles"
)

// signalOrder is how the signal words of ANSI Z535 rank.
var signalOrder = []string{"DANGER", "WARNING", "CAUTION", "NOTICE"}

// warn writes the cautions: those that the checks raised, and those that belong to every transfer.
func (w *work) warn() {
	raised := w.hazards
	raised["backfeed"] = len(w.Sources) > 0
	raised["flame-sensing-neutral"] = w.floatingUnderABurner()
	raised["parallel-neutral"] = slices.ContainsFunc(w.Sources, func(s Source) bool { return w.US && s.Neutral == bonded })
	raised["legs-unbalanced"] = raised["legs-unbalanced"] || len(w.Legs.Moves) > 0
	raised["local-rules"] = !w.US
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
			panic("transfer: no caution " + id)
		}
		c.Text = strings.TrimSpace(c.Text)
		if !w.US {
			c.Source = "physics and common practice; " + localRules
		}
		w.Cautions = append(w.Cautions, c)
	}
	slices.SortStableFunc(w.Cautions, func(a, b profiles.Caution) int {
		return slices.Index(signalOrder, a.Word) - slices.Index(signalOrder, b.Word)
	})
}

// floatingUnderABurner holds where a burner proves its flame by a current to earth and a source's neutral floats.
func (w *work) floatingUnderABurner() bool {
	burner := false
	for i := range w.demand.Loads {
		burner = burner || w.demand.Loads[i].Needs.EarthedNeutral
	}
	return burner && slices.ContainsFunc(w.Sources, func(s Source) bool { return s.Neutral == floating })
}
