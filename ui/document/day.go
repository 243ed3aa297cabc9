package document

import (
	"cmp"
	"fmt"
	"slices"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
)

// Day is the mean draw in each clock hour of a day, and what makes up one hour, 0 to 23, that is pointed at.
func Day(w Worked, hour int) Document {
	d := w.Plan.Demand
	bars, sum := Bars{At: hour}, 0.0
	for h, draw := range d.Hourly {
		bars.Values, bars.Labels = append(bars.Values, float64(draw)), append(bars.Labels, fmt.Sprintf("%02d", h))
		sum += float64(draw)
	}
	return append(under("Mean draw of kept and rotated circuits in each clock hour, W", bars),
		Paragraph{Text: fmt.Sprintf("least %s, most %s, mean %s, %s a day; the outage begins at %s",
			units.Quantity(slices.Min(bars.Values), "W"), units.Quantity(slices.Max(bars.Values), "W"), units.Quantity(sum/24, "W"), units.Quantity(sum/1000, "kWh"), home.Clock(d.Start))},
		Heading{Text: fmt.Sprintf("%02d:00 to %02d:00: %s on average, outdoors %s", hour, hour+1, units.Quantity(bars.Values[hour], "W"), units.InSystem(float64(d.Outdoors[hour]), "°C", w.home().House.Units)), Tone: Strong},
		largestIn(d, hour))
}

// largestIn names the circuits that draw most in an hour.
func largestIn(d loads.Demand, hour int) Table {
	const most = 5
	all := slices.Clone(d.Loads)
	slices.SortStableFunc(all, func(a, b loads.Load) int { return cmp.Compare(b.Hourly[hour], a.Hourly[hour]) })
	t := Table{Name: "hour", Columns: []Column{{Kind: Number}, {Kind: Prose}}}
	for _, load := range all[:min(most, len(all))] {
		if load.Hourly[hour] > 0 {
			t.Add(units.Quantity(float64(load.Hourly[hour]), "W"), load.Name)
		}
	}
	return t
}

// DrawChart is one circuit's mean draw through a day.
func DrawChart(l *loads.Load) Chart {
	c := Chart{Length: 24, Unit: "W", Top: 1e-3}
	for h, draw := range l.Hourly {
		c.Curve = append(c.Curve, Segment{float64(h), float64(h + 1), float64(draw), float64(draw)})
		c.Top = max(c.Top, float64(draw))
	}
	return c
}
