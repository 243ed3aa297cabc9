package service

import (
	"fmt"
	"regexp"
	"strings"

	"holdover/loads/units"
	"holdover/planner/derive"
	"holdover/profiles"
)

// A book writes figures on a sheet as a code has them.
type book struct {
	*derive.Figures
	code *profiles.Code
}

// va writes an apparent power and returns it.
func (b book) va(r profiles.Rule, id string, value float64, how string, from ...string) float64 {
	return b.put(r, id, value, "VA", how, from...)
}

// put writes a figure that a rule asks for and returns its value.
func (b book) put(r profiles.Rule, id string, value float64, unit, how string, from ...string) float64 {
	return b.Add(derive.Figure{ID: id, Value: value, Unit: unit, How: how, Source: r.Source(), From: from}).Value
}

var blank = regexp.MustCompile(`\{([a-z_0-9]+)( %)?\}`)

// Say gives a rule's words with what stands in braces filled in: {name} by its value or by what follows name in with, {name %} by
// the same as a percentage. A name that neither has stays, so that a test can see it.
func Say(r profiles.Rule, with ...any) string { return fill(r.Words, r, with) }

// SayItem does the same for the thing that a rule asks for.
func SayItem(r profiles.Rule, with ...any) string { return fill(r.Item, r, with) }

func fill(words string, r profiles.Rule, with []any) string {
	return blank.ReplaceAllStringFunc(words, func(found string) string {
		m := blank.FindStringSubmatch(found)
		value, known := r.Values[m[1]]
		for i := 0; i+1 < len(with); i += 2 {
			if with[i] != m[1] {
				continue
			}
			number, isNumber := with[i+1].(float64)
			if !isNumber {
				return fmt.Sprint(with[i+1])
			}
			value, known = number, true
		}
		switch {
		case !known:
			return found
		case m[2] != "":
			return percent(value)
		}
		return number(value)
	})
}

func number(value float64) string { return units.Format(value) }

func percent(share float64) string { return fmt.Sprintf("%.4g %%", 100*share) }

// stepWords says one step of a load that is counted in steps, as the table has it.
func stepWords(steps profiles.Steps, i int) string {
	where := "the rest"
	if upTo := steps[i].UpToVA; upTo > 0 && i == 0 {
		where = "first " + number(upTo) + " VA"
	} else if upTo > 0 {
		where = "to " + number(upTo) + " VA"
	}
	if steps[i].Share == 1 {
		return where + " whole"
	}
	return where + " at " + percent(steps[i].Share)
}

// inSteps writes what each step of a rule contributes of a load, the figure of, and gives their sum, their ids and their words.
func (b book) inSteps(r profiles.Rule, prefix, of string) (va float64, ids []string, words string) {
	var all []string
	for i, part := range r.Steps.Parts(b.Value(of)) {
		id := prefix + r.Steps[i].Name + "_va"
		va += b.va(r, id, part, stepWords(r.Steps, i), of)
		ids, all = append(ids, id), append(all, stepWords(r.Steps, i))
	}
	return va, ids, strings.Join(all, ", ")
}
