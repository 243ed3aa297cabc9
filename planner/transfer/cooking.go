package transfer

import (
	"fmt"
	"math"

	"holdover/profiles"
)

// This file is NEC Table 220.55: not every plate and oven is hot at once.

// A cooker is one kind of cooking appliance and how many there are of it.
type cooker struct {
	kw     float64 // nameplate of one; kVA counts as kW (220.55)
	number int
}

// cookingVA is the demand of household cooking appliances, and how it came about. Appliances the table does not reach
// count whole. Column C may always be used; note 3 allows columns A and B for small ones: the lower of the two counts.
func cookingVA(t profiles.CookingLoad, all []cooker) (va float64, how string) {
	var small, large []cooker
	beyond := 0.0
	for _, c := range all {
		switch {
		case c.kw > t.MostKW:
			beyond += c.kw * float64(c.number)
		case c.kw <= t.ColumnBToKW:
			small = append(small, c)
		default:
			large = append(large, c)
		}
	}
	together, togetherHow := columnC(t, append(append([]cooker{}, small...), large...))
	smallKW, smallHow := note3(t, small)
	largeKW, largeHow := columnC(t, large)
	kw, how := together, togetherHow
	if apart := smallKW + largeKW; len(small) > 0 && apart < together {
		kw, how = apart, smallHow
		if len(large) > 0 {
			how += "; and of the larger ones " + largeHow
		}
	}
	if beyond > 0 {
		how += fmt.Sprintf("; and %s kW whole, above the %s kW that the table reaches", number(beyond), number(t.MostKW))
	}
	return 1000 * (kw + beyond), how
}

// columnC takes every appliance as a range: column C of their number, raised for those above 12 kW by notes 1 and 2.
func columnC(t profiles.CookingLoad, all []cooker) (kw float64, how string) {
	count, sum := total(all)
	if count == 0 {
		return 0, ""
	}
	average := 0.0
	for _, c := range all {
		average += math.Max(c.kw, t.ColumnCToKW) * float64(c.number) / float64(count)
	}
	kw = t.Row(count).ColumnCKW(count)
	how = fmt.Sprintf("column C for %d: %s kW", count, number(kw))
	// A major fraction of a kilowatt is a half or more.
	if steps := math.Floor(average - t.ColumnCToKW + 0.5 + 1e-9); steps > 0 {
		kw *= 1 + t.PerKWShare*steps
		how += fmt.Sprintf(", and %s more since they average %s kW, %s above 12: %s kW", percent(t.PerKWShare*steps), number(average), number(average-t.ColumnCToKW), number(kw))
	}
	if kw > sum {
		return sum, fmt.Sprintf("the plates, %s kW, are less than column C", number(sum))
	}
	return kw, how
}

// note3 sums the plates of small appliances and takes the shares of columns A and B, each for its own number.
func note3(t profiles.CookingLoad, small []cooker) (kw float64, how string) {
	for _, column := range []struct {
		name   string
		inside func(kw float64) bool
		share  func(profiles.CookingRow) float64
	}{
		{"A", func(kw float64) bool { return kw < t.ColumnBFromKW }, func(r profiles.CookingRow) float64 { return r.A }},
		{"B", func(kw float64) bool { return kw >= t.ColumnBFromKW }, func(r profiles.CookingRow) float64 { return r.B }},
	} {
		var in []cooker
		for _, c := range small {
			if column.inside(c.kw) {
				in = append(in, c)
			}
		}
		count, sum := total(in)
		if count == 0 {
			continue
		}
		share := column.share(t.Row(count))
		kw += share * sum
		if how != "" {
			how += "; "
		}
		how += fmt.Sprintf("note 3, column %s for %d: %s of %s kW", column.name, count, percent(share), number(sum))
	}
	return kw, how
}

func total(all []cooker) (count int, kw float64) {
	for _, c := range all {
		count += c.number
		kw += c.kw * float64(c.number)
	}
	return count, kw
}
