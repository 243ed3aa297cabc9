// Package json answers: how does a verdict read for another program?
//
// The JSON is a promise: keys may be added, none is renamed or taken away, a list is never null, and no number is infinite.
package json

import (
	"holdover/loads/home"
	"holdover/planner"
	"holdover/planner/choose"
	"holdover/planner/derive"
	"holdover/ui/document"
)

// In the JSON of a plan figures stand by their ids. Nothing but fell_short_at_h is ever null.
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
		Figures   *derive.Figures   `json:"figures"`
		Options   []optionJSON      `json:"options"`
		Cautions  []planner.Caution `json:"cautions"`
	}
	optionJSON struct {
		Kind    planner.Kind    `json:"kind"`
		Carried bool            `json:"carried"`
		ShortAt *float64        `json:"fell_short_at_h"` // hours after the start; null when it never did
		WhyNot  []string        `json:"why_not"`
		Proven  bool            `json:"proven"` // nothing of its kind is cheaper, or carries; false where the search ended at its budget of work
		Cost    float64         `json:"cost"`   // over the planning years, in the currency of the price bands
		Design  sheetsJSON      `json:"design"`
		Checks  []amountsJSON   `json:"checks"` // of each of its sheets, held to its part
		Run     runJSON         `json:"run"`
		Trace   []stepJSON      `json:"trace"`
		Figures *derive.Figures `json:"figures"`
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
	return planJSON{Version: home.Version, Home: document.Name(r.Home), Choice: r.Choice, Carried: r.Carried,
		RunnerUp: r.Outlook.RunnerUp, Reasons: listed(r.Reasons), AllTried: r.Outlook.AllTried, Figures: r.Sheet, Cautions: listed(r.Cautions), Risk: riskOf(r),
		Flips:     each(r.Outlook.Flips, func(f choose.Flip) flipJSON { return flipJSON(f) }),
		Unsettled: each(r.Outlook.Unsettled, func(u choose.Unsettled) unsettledJSON { return unsettledJSON(u) }),
		Front: each(r.Outlook.Front, func(p choose.FrontPoint) frontJSON {
			return frontJSON{p.LengthH, p.Kind, p.Outcome.Proven, p.Outcome.Cost.Total(), designOf(r.Home, p.Outcome.Design)}
		}),
		Remedies: each(r.Outlook.Remedies, func(m planner.Remedy) remedyJSON {
			return remedyJSON{m.Change, m.Kind, m.Cost, designOf(r.Home, m.Design.Design)}
		}),
		Options: each(r.Options, func(o planner.Option) optionJSON {
			return optionJSON{Kind: o.Kind, Carried: o.Carried, ShortAt: o.FellShortAt, WhyNot: listed(o.WhyNot), Proven: o.Outcome.Proven, Cost: o.Cost, Design: sheetsOf(r, o), Checks: checksOf(r, o),
				Run: runOf(o), Trace: each(o.Trace, stepOf), Figures: o.Sheet}
		})}
}

// Plan writes a plan, indented, ending in a newline.
func Plan(r *planner.Result) (string, error) { return indented(planData(r)) }
