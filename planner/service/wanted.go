package service

import (
	"slices"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/derive"
	"holdover/profiles"
)

// Ways lists the ways of transfer.
func Ways() []home.TransferMode {
	return []home.TransferMode{home.Manual, home.Automatic, home.Managed}
}

// A Want is what a source must give here, continuously, under one way of transfer.
type Want struct {
	Way   home.TransferMode
	Known bool // false where the code or the home file does not say; then nothing else but Why and Rule holds
	VA    units.VoltAmps
	W     units.Watts // a calculated load counts a kVA as a kW
	Why   string
	Rule  profiles.Rule
	From  []string // the figures of the plan and of the calculated load that it follows from
}

// Wanted says what a source must give by the code for a way of transfer, before there is any. Where a person chooses what is on, that
// is what the chosen circuits draw. A switch that moves over by itself puts the whole calculated load on, and no more, whatever the
// plates add up to. Load management leaves the calculated load without what it keeps off: every circuit that is left off, and all
// that take turns but the one that leaves the most; lighting and receptacles it cannot keep off.
func Wanted(house *home.Home, code *profiles.Code, d *loads.Demand, way home.TransferMode) Want {
	rule := code.Rule("transfer-capacity").Phrase(string(way))
	out := Want{Way: way, Rule: rule, Why: Say(rule)}
	if way == home.Manual {
		out.Known, out.VA, out.W, out.From = true, d.Running.VA(), d.RunningW, []string{"load.running_va"}
		return out
	}
	if !code.Detailed || house.House.FloorArea == 0 {
		return out
	}
	all := plates(house, code)
	whole := newCalculation(house, code, &derive.Figures{}, all).work().LeastVA
	out.Known, out.VA, out.From = true, units.VoltAmps(whole), []string{"service.least_va"}
	if managed, on := leastManaged(house, code, all); way == home.Managed && managed < whole {
		out.VA, out.From = units.VoltAmps(managed), []string{"home.floor_area"}
		for _, p := range on {
			if p.counts() {
				out.From = append(out.From, p.id)
			}
		}
	}
	out.W = units.Watts(out.VA)
	return out
}

// leastManaged is the calculated load of what load management leaves on, at the worst of the turns.
func leastManaged(house *home.Home, code *profiles.Code, all []plate) (va float64, on []plate) {
	always := slices.DeleteFunc(slices.Clone(all), func(p plate) bool { return p.Care != home.Keep })
	for _, turn := range append(largestTurns(all), plate{}) {
		these := slices.Clone(always)
		if turn.Circuit != nil {
			these = append(these, turn)
		}
		if least := newCalculation(house, code, &derive.Figures{}, these).work().LeastVA; least > va {
			va, on = least, these
		}
	}
	return va, on
}

// largestTurns are the circuits that take turns of which one may leave the most: the largest of each class.
func largestTurns(all []plate) (out []plate) {
	for _, p := range all {
		if p.Care != home.Rotate {
			continue
		}
		at := slices.IndexFunc(out, func(q plate) bool { return q.class == p.class })
		switch {
		case at < 0:
			out = append(out, p)
		case out[at].va() < p.va():
			out[at] = p
		}
	}
	return out
}

// Met says whether a source that gives so many kVA and kW here gives what is wanted. Of a calculated load it must have both.
func (w Want) Met(kVA, kW float64) bool {
	const hair = 1 + 1e-9
	if w.Way != home.Manual {
		kVA = min(kVA, kW)
	}
	return float64(w.VA) <= 1000*kVA*hair && float64(w.W) <= 1000*kW*hair
}
