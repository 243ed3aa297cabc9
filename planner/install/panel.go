package install

import (
	"fmt"
	"math"
	"slices"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/planner/derive"
	"holdover/planner/service"
)

// A Row is one line of the panel schedule.
type Row struct {
	Circuit     string  `json:"circuit"`
	Count       int     `json:"count"`
	BreakerA    float64 `json:"breaker_a"` // 0 when not given
	Poles       int     `json:"poles"`
	Leg         string  `json:"leg"` // A, B or both; of a circuit left off, what the file gives; empty where the service has no two legs
	RunningVA   float64 `json:"running_va"`
	Care        string  `json:"care"`
	Backed      bool    `json:"backed"` // moves to the transfer equipment
	SharesWith  string  `json:"shares_neutral_with"`
	Instruction string  `json:"instruction"` // what to do about it
}

// addPanel writes the schedule: what is carried first, then what stays where it is.
func (w *work) addPanel() {
	legs, running := map[string]string{}, map[string]float64{}
	for i := range w.demand.Loads {
		l := &w.demand.Loads[i]
		legs[l.Name], running[l.Name] = w.demand.Legs.Of[i], float64(l.Running.VA())
	}
	partner := w.home.Partners()
	for i := range w.home.Circuits {
		c := &w.home.Circuits[i]
		row := Row{Circuit: c.Name, Count: c.Count, BreakerA: float64(c.Breaker), Poles: 1, Care: string(c.Care), Backed: c.Care != home.Shed,
			SharesWith: partner[c.Name], RunningVA: float64(loads.RunningPower(c).VA()) * float64(c.Count), Leg: c.Leg}
		if c.Volts > 130 && w.split() {
			row.Poles, row.Leg = 2, "both"
		}
		if leg, ok := legs[c.Name]; ok {
			row.Leg, row.RunningVA = leg, running[c.Name] // with its frost heaters, where the cold brings them on
		}
		if !w.split() {
			row.Leg = ""
		}
		if slices.Contains(w.demand.Legs.Moves, c.Name) {
			row.Instruction = "move to the other leg"
		}
		w.Panel = append(w.Panel, row)
	}
	slices.SortStableFunc(w.Panel, func(a, b Row) int {
		switch {
		case a.Backed == b.Backed:
			return 0
		case a.Backed:
			return -1
		}
		return 1
	})
	w.checkPairs(partner, legs)
	w.checkBreakers()
	w.addNeutralCurrent()
}

// checkPairs wants the halves of a pair on opposite legs, and moved together under one handle.
func (w *work) checkPairs(partner, legs map[string]string) {
	for i := range w.Panel {
		row := &w.Panel[i]
		other := partner[row.Circuit]
		if other == "" || !w.Code.Detailed {
			continue
		}
		if row.Instruction == "" {
			row.Instruction = "common handle with " + other
		}
		if a, b := legs[row.Circuit], legs[other]; a != "" && row.Circuit < other {
			w.verdict(nil, b == "" || a != b, "shared neutral of "+row.Circuit+" and "+other, fmt.Sprintf("legs %s and %s", a, orLeftOff(b)), w.rule("multiwire"), "shared-neutral-120", "")
		}
		if carried := legs[row.Circuit] != ""; carried && legs[other] == "" {
			rule := w.Code.Rule("multiwire-handle")
			w.check(nil, "halves of "+row.Circuit+" and "+other, Fail, service.Say(rule, "name", other), rule.Source())
		}
	}
}

func orLeftOff(leg string) string {
	if leg == "" {
		return "none (left off)"
	}
	return leg
}

// checkBreakers asks for the breakers that nobody gave.
func (w *work) checkBreakers() {
	var missing []string
	for _, row := range w.Panel {
		if row.Backed && row.BreakerA == 0 {
			missing = append(missing, row.Circuit)
		}
	}
	if len(missing) > 0 {
		w.check(nil, "breakers", Needs, "no breaker is given for "+derive.Names(missing, 6), w.rule("panel-marking"))
	}
}

// addNeutralCurrent writes what the neutral of the transfer equipment carries: everything running, and at the worst, the
// heavier leg alone.
func (w *work) addNeutralCurrent() {
	if len(w.demand.Loads) == 0 {
		return
	}
	if !w.split() {
		w.put("transfer.neutral_a", float64(w.demand.Legs.Neutral), "A", "everything of the running total on / volts", "physics", "load.neutral_a")
		return
	}
	volts := float64(w.home.House.Service.LegVolts())
	w.put("transfer.neutral_a", float64(w.demand.Legs.Neutral), "A", "difference of the two legs with everything of the running total on / volts of a leg", "physics", "load.neutral_a")
	w.put("transfer.neutral_most_a", w.mostNeutral()/volts, "A", "the worst that switching can do: every 120 V circuit of one leg on and none of the other", "physics", "load.running_va")
}

// mostNeutral is the most VA of 120 V circuits on one leg.
func (w *work) mostNeutral() float64 {
	onLeg := map[string]loads.Power{}
	for i := range w.demand.Loads {
		if leg := w.demand.Legs.Of[i]; leg != "both" {
			onLeg[leg] += w.demand.Loads[i].Running
		}
	}
	return math.Max(float64(onLeg["A"].VA()), float64(onLeg["B"].VA()))
}
