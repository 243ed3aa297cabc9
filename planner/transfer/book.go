package transfer

import (
	"fmt"
	"strings"

	"holdover/loads/units"
	"holdover/planner/working"
)

// A book writes figures on a sheet.
type book struct{ *working.Sheet }

// put writes a figure and returns its value.
func (b book) put(id string, value float64, unit, how, source string, from ...string) float64 {
	return b.Add(working.Figure{ID: id, Value: value, Unit: unit, How: how, Source: source, From: from})
}

// va is put for an apparent power.
func (b book) va(id string, value float64, how, source string, from ...string) float64 {
	return b.put(id, value, "VA", how, source, from...)
}

func number(value float64) string { return units.Format(value) }

func percent(share float64) string { return fmt.Sprintf("%.4g %%", 100*share) }

// names lists the names of circuits, at most so many.
func names(all []string, most int) string {
	if len(all) <= most {
		return strings.Join(all, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(all[:most], ", "), len(all)-most)
}
