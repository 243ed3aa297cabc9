package service

import (
	"fmt"
	"math"

	"holdover/profiles"
)

// This file is the table of household cooking appliances: not every plate and oven is hot at once.

// A cooker is one kind of cooking appliance and how many there are of it.
type cooker struct {
	kw     float64 // nameplate of one; kVA counts as kW
	number int
}

// cookingVA is the demand of household cooking appliances, and how it came about. Appliances the table does not reach
// count whole. Column C may always be used; note 3 allows columns A and B for small ones: the lower of the two counts.
func cookingVA(code *profiles.Code, all []cooker) (va float64, how string) {
	var small, large []cooker
	beyond, t := 0.0, code.Cooking()
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
	together, togetherHow := columnC(code, append(append([]cooker{}, small...), large...))
	smallKW, smallHow := note3(code, small)
	largeKW, largeHow := columnC(code, large)
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

// columnC takes every appliance as a range: column C of their number, raised for the larger ones by its notes.
func columnC(code *profiles.Code, all []cooker) (kw float64, how string) {
	t, rule := code.Cooking(), code.Rule("cooking")
	count, sum := total(all)
	if count == 0 {
		return 0, ""
	}
	average := 0.0
	for _, c := range all {
		average += math.Max(c.kw, t.ColumnCToKW) * float64(c.number) / float64(count)
	}
	kw = t.Row(count).ColumnCKW(count)
	how = fmt.Sprintf("%s for %d: %s kW", Say(rule), count, number(kw))
	// A major fraction of a kilowatt is a half or more.
	if steps := math.Floor(average - t.ColumnCToKW + 0.5 + 1e-9); steps > 0 {
		kw *= 1 + t.PerKWShare*steps
		how += Say(rule.Phrase("steps"), "more", t.PerKWShare*steps, "average", average, "above", average-t.ColumnCToKW, "to", t.ColumnCToKW, "kw", kw)
	}
	if kw > sum {
		return sum, fmt.Sprintf("the plates, %s kW, are less than %s", number(sum), Say(rule))
	}
	return kw, how
}

// note3 sums the plates of small appliances and takes the shares of columns A and B, each for its own number.
func note3(code *profiles.Code, small []cooker) (kw float64, how string) {
	t := code.Cooking()
	for _, column := range []struct {
		phrase string
		inside func(kw float64) bool
		share  func(profiles.CookingRow) float64
	}{
		{"a", func(kw float64) bool { return kw < t.ColumnBFromKW }, func(r profiles.CookingRow) float64 { return r.A }},
		{"b", func(kw float64) bool { return kw >= t.ColumnBFromKW }, func(r profiles.CookingRow) float64 { return r.B }},
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
		how += fmt.Sprintf("%s for %d: %s of %s kW", Say(code.Rule("cooking").Phrase(column.phrase)), count, percent(share), number(sum))
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
