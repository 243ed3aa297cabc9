package report

import (
	"encoding/json"
	"strconv"
	"strings"

	"holdover/loads/home"
	"holdover/loads/visible"
	"holdover/planner"
	"holdover/planner/choose"
	"holdover/planner/working"
)

// The JSON of a plan is a promise to other programs: keys may be added, none is renamed or taken away, a list is never
// null, and figures stand by their ids. Nothing but fell_short_at_h is ever null, and no number is infinite.
type (
	planJSON struct {
		Version   int               `json:"holdover"`
		Home      string            `json:"home"`
		Choice    planner.Kind      `json:"choice"`
		Carried   bool              `json:"carried"`
		RunnerUp  planner.Kind      `json:"runner_up"` // none when there is none
		Reasons   []string          `json:"reasons"`
		Flips     []flipJSON        `json:"flips"`
		Unsettled []unsettledJSON   `json:"flips_unsettled"` // quantities in which the search for a flip ended at its budget of work
		Front     []frontJSON       `json:"front"`
		Risk      riskJSON          `json:"risk"`
		Remedies  []remedyJSON      `json:"remedies"`
		AllTried  bool              `json:"remedies_proven"` // false where work ran out before each change was decided
		Figures   *working.Sheet    `json:"figures"`
		Options   []optionJSON      `json:"options"`
		Cautions  []planner.Caution `json:"cautions"`
	}
	optionJSON struct {
		Kind    planner.Kind   `json:"kind"`
		Carried bool           `json:"carried"`
		ShortAt *float64       `json:"fell_short_at_h"` // hours after the start; null when it never did
		WhyNot  []string       `json:"why_not"`
		Proven  bool           `json:"proven"` // nothing of its kind is cheaper, or carries; false where the search ended at its budget of work
		Cost    float64        `json:"cost"`   // over the planning years, in the currency of the price bands
		Run     runJSON        `json:"run"`
		Trace   []stepJSON     `json:"trace"`
		Figures *working.Sheet `json:"figures"`
	}
	flipJSON struct {
		Quantity string      `json:"quantity"` // its path in the home file
		Unit     string      `json:"unit"`
		Now      float64     `json:"now"` // the value planned for
		At       float64     `json:"at"`  // where the answer changes
		From     choose.Kind `json:"from"`
		To       choose.Kind `json:"to"`
		Proven   bool        `json:"proven"` // false: it changes at this value or nearer to now
	}
	unsettledJSON struct {
		Quantity string  `json:"quantity"`
		Unit     string  `json:"unit"`
		Now      float64 `json:"now"`
		UpTo     float64 `json:"same_up_to"` // the answer is proven to stay the same up to here
	}
)

// planData gathers what the JSON of a plan holds.
func planData(r *planner.Result) planJSON {
	out := planJSON{Version: home.Version, Home: title(r.Home), Choice: r.Choice, Carried: r.Carried,
		RunnerUp: r.Outlook.RunnerUp, Flips: []flipJSON{}, Unsettled: []unsettledJSON{}, AllTried: r.Outlook.AllTried, Front: frontOf(r), Risk: riskOf(r), Remedies: remediesOf(r),
		Reasons: listed(r.Reasons), Figures: r.Sheet, Options: []optionJSON{}, Cautions: listed(r.Cautions)}
	for _, o := range r.Options {
		out.Options = append(out.Options, optionJSON{Kind: o.Kind, Carried: o.Carried, ShortAt: o.FellShortAt,
			WhyNot: listed(o.WhyNot), Proven: o.Outcome.Proven, Cost: o.Cost, Run: runOf(o), Trace: traceOf(o), Figures: o.Sheet})
	}
	for _, f := range r.Outlook.Flips {
		out.Flips = append(out.Flips, flipJSON(f))
	}
	for _, u := range r.Outlook.Unsettled {
		out.Unsettled = append(out.Unsettled, unsettledJSON(u))
	}
	return out
}

// JSON writes the plan for a machine, indented, ending in a newline.
func JSON(r *planner.Result) (string, error) { return indented(planData(r)) }

// indented writes a value as JSON. Hidden characters of names stand in it as in text, by their code points and not by JSON's
// escapes: whoever prints a string that was read from it prints what can be seen.
func indented(value any) (string, error) {
	text, err := json.MarshalIndent(value, "", "  ")
	if err != nil {
		return "", err
	}
	return visible.Lines(unescaped(string(text))) + "\n", nil
}

// unescaped is JSON in which the escapes that the encoder writes for hidden characters are their code points.
func unescaped(text string) string {
	var b strings.Builder
	for {
		before, rest, found := strings.Cut(text, `\`)
		b.WriteString(before)
		if !found {
			return b.String()
		}
		length, r := 1, map[byte]rune{'b': '\b', 'f': '\f', 'r': '\r'}[rest[0]]
		if rest[0] == 'u' {
			code, _ := strconv.ParseUint(rest[1:5], 16, 16)
			length, r = 5, rune(code)
		}
		if r != 0 && visible.Hidden(r) || rest[:length] == "u0000" {
			b.WriteString(visible.Code(r))
		} else {
			b.WriteString(`\` + rest[:length])
		}
		text = rest[length:]
	}
}

// listed is the list, never nil.
func listed[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}
