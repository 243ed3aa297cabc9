package planner

import (
	"cmp"
	"fmt"
	"slices"
	"sort"
	"strings"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/choose"
	"holdover/planner/derive"
	"holdover/planner/effort"
	"holdover/planner/sheet"
	"holdover/profiles"
)

// A Remedy is one change to a home that nothing carries, after which something does: it was planned again to see.
type Remedy struct {
	Change string // in plain words
	Kind   Kind   // what then carries it
	Design choose.Outcome
	Cost   float64 // of that design
}

// String says it in one sentence.
func (m Remedy) String() string {
	return fmt.Sprintf("%s, and a %s carries it, for %s over the planning years.", m.Change, m.Kind, Money(m.Cost))
}

// remediesShown and namesShown bound the advice.
const (
	remediesShown = 6
	namesShown    = 24
)

// movesTried bounds the work behind it: each move is a home planned again, so a very large home gets fewer.
func movesTried(house *home.Home) int { return max(4, min(12, 2000/max(1, len(house.Circuits)))) }

// remedies tries each limit lifted by itself, each large circuit moved by itself, and, where no single circuit is enough,
// circuits shed one after another; the cheapest first. all is false where work ran out before each of them was decided.
func remedies(r *Result, m *effort.Meter) (out []Remedy, all bool) {
	a := adviser{Result: r, meter: m, all: true}
	out = append(a.liftedLimits(), a.movedCircuits()...)
	slices.SortStableFunc(out, func(a, b Remedy) int { return cmp.Compare(a.Cost, b.Cost) })
	return out[:min(len(out), remediesShown)], a.all
}

// An adviser tries changes to a home that nothing carries.
type adviser struct {
	*Result
	meter *effort.Meter
	all   bool // every change tried was decided
}

// oneChange is the share of the work left that may go into one change.
const oneChange = 0.25

// decide plans a home only as far as the choice. Most changes tried are no help, which the demand at its best shows sooner.
func (a *adviser) decide(house *home.Home) (kind Kind, best choose.Outcome) {
	a.meter.Part(oneChange, func(m *effort.Meter) {
		if m.Spent() {
			kind, a.all = None, false
			return
		}
		m.Spend(demandSteps * len(house.Circuits))
		if kind, best = choose.NewCase(sheet.AtBest(house)).Within(m).ChosenKind(choose.Design{}); kind == None {
			a.all = a.all && best.Proven
			return
		}
		d := sheet.NewDuty(house)
		m.Spend(1 << min(legSplits, len(d.Demand.Loads)))
		c := choose.NewCase(d).Within(m)
		turns := d.Turns(m)
		c.NoTurns = !turns.Found
		kind, best = c.Choose()
		best.Proven = best.Proven && (turns.Found || turns.Proven)
		a.all = a.all && (kind != None || best.Proven)
	})
	return kind, best
}

// What the demand of a changed home takes to work out: so many steps of the meter for each circuit, and for the legs two to the
// power of the loads, or of so many at most.
const (
	demandSteps = 100
	legSplits   = 18
)

func (a *adviser) try(house *home.Home, change string) (Remedy, bool) {
	kind, best := a.decide(house)
	return Remedy{change, kind, best, best.Cost.Total()}, kind != None
}

func (a *adviser) liftedLimits() (out []Remedy) {
	limits := a.Home.Limits
	for _, lift := range []struct {
		set    bool
		change string // %s stands for what the design then costs to buy
		lift   func(*home.Limits)
	}{
		{limits.Generator == home.NoGenerator, "Find a place for a generator (limits.generator)", func(l *home.Limits) { l.Generator = home.GeneratorAllowed }},
		{limits.Quiet.Any(), "Let an engine run in the quiet hours (limits.quiet)", func(l *home.Limits) { l.Quiet = home.QuietHours{} }},
		{limits.FuelStore.Ends(), "Keep more fuel or have it delivered (limits.fuel_store)", func(l *home.Limits) { l.FuelStore = units.Limit{} }},
		{limits.BatteryPlace == home.NoPlace, "Find a place for a battery (limits.battery_place)", func(l *home.Limits) { l.BatteryPlace = profiles.Places().Places[0].Name }},
		{limits.Budget.Ends(), "Raise the budget to %s (limits.budget)", func(l *home.Limits) { l.Budget = units.Limit{} }},
		{len(limits.Fuels) < len(profiles.Fuels()), "Get one more fuel (limits.fuels)", func(l *home.Limits) {
			l.Fuels = nil
			for _, f := range profiles.Fuels() {
				l.Fuels = append(l.Fuels, f.Name)
			}
		}},
	} {
		if !lift.set {
			continue
		}
		changed := *a.Home
		lift.lift(&changed.Limits)
		if remedy, ok := a.try(&changed, lift.change); ok {
			remedy.Change = strings.Replace(remedy.Change, "%s", Money(remedy.Design.Cost.Purchase), 1)
			out = append(out, remedy)
		}
	}
	return out
}

// movable lists the circuits that may be asked to wait, the ones that weigh most first. What can never wait stays.
func movable(r *Result) []*loads.Load {
	var out []*loads.Load
	for i := range r.Demand.Loads {
		l := &r.Demand.Loads[i]
		if profiles.Medical(l.Like, l.Name) || loads.NeverWaits(r.Home, l.Index) {
			continue
		}
		out = append(out, l)
	}
	weight := func(l *loads.Load) float64 {
		return float64(l.Running.VA())/float64(r.Demand.Running.VA()) +
			float64(loads.EnergyOver(l.Hourly, r.Demand.Start, r.Home.Outage.Length))/max(1, float64(r.Demand.Energy))
	}
	slices.SortStableFunc(out, func(a, b *loads.Load) int { return cmp.Compare(weight(b), weight(a)) })
	return out
}

func (a *adviser) movedCircuits() (out []Remedy) {
	candidates := movable(a.Result)
	for _, l := range candidates[:min(len(candidates), movesTried(a.Home))] {
		for _, care := range []home.Care{home.Rotate, home.Shed} {
			if l.Care == care {
				continue
			}
			if remedy, ok := a.try(withCare(a.Home, care, l), fmt.Sprintf("Move %s to %s", l.Name, care)); ok {
				out = append(out, remedy)
				break
			}
		}
	}
	if len(out) > 0 {
		return out
	}
	return a.shedMany(candidates)
}

// shedMany sheds as few circuits as carry the rest, the weightiest first, then takes back those that need not have gone. To
// shed one more never asks more of a machine, so the fewest are found by halving. Something is left to carry.
func (a *adviser) shedMany(candidates []*loads.Load) []Remedy {
	most := min(len(candidates), len(a.Demand.Loads)-1)
	without := func(gone []*loads.Load) bool {
		kind, _ := a.decide(withCare(a.Home, home.Shed, gone...))
		return kind != None
	}
	n := 2 + sort.Search(max(0, most-1), func(more int) bool { return without(candidates[:2+more]) })
	if n > most {
		return nil
	}
	gone := slices.Clone(candidates[:n])
	for i, tries := n-1, movesTried(a.Home); i >= 0 && tries > 0; i, tries = i-1, tries-1 {
		if fewer := slices.Delete(slices.Clone(gone), i, i+1); without(fewer) {
			gone = fewer
		}
	}
	if remedy, ok := a.try(withCare(a.Home, home.Shed, gone...), shedText(a.Demand.Loads, gone)); ok {
		return []Remedy{remedy}
	}
	return nil
}

// shedText names the circuits to shed, or those left where they are the fewer.
func shedText(all []loads.Load, gone []*loads.Load) string {
	var shed, left []string
	for i := range all {
		if slices.ContainsFunc(gone, func(l *loads.Load) bool { return l.Index == all[i].Index }) {
			shed = append(shed, all[i].Name)
		} else {
			left = append(left, all[i].Name)
		}
	}
	if len(left) < len(shed) {
		return "Shed all but " + derive.Names(left, namesShown)
	}
	return "Shed " + derive.Names(shed, namesShown)
}

// withCare is the home with other care for some circuits.
func withCare(house *home.Home, care home.Care, of ...*loads.Load) *home.Home {
	changed := *house
	changed.Circuits = slices.Clone(house.Circuits)
	for _, l := range of {
		changed.Circuits[l.Index].Care = care
	}
	return &changed
}
