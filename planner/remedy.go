package planner

import (
	"cmp"
	"fmt"
	"slices"
	"sort"

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

// A lift is one limit of a home taken away: whether the home has it, what then stands in its place, and what that asks of the
// household where the design that carries is known.
type lift struct {
	set  bool
	lift func(*home.Home)
	ask  func(choose.Outcome) string
}

func (a *adviser) liftedLimits() (out []Remedy) {
	for _, l := range slices.Concat(a.lifts(), a.placeLifts()) {
		if !l.set {
			continue
		}
		changed := *a.Home
		l.lift(&changed)
		if remedy, ok := a.try(&changed, ""); ok {
			remedy.Change = l.ask(remedy.Design)
			out = append(out, remedy)
		}
	}
	return out
}

// always is what a lift asks whatever the design.
func always(change string) func(choose.Outcome) string {
	return func(choose.Outcome) string { return change }
}

// lifts are those of money, fuel, hours and the way of transfer.
func (a *adviser) lifts() []lift {
	limits, house := a.Home.Limits, a.Home.House
	return []lift{
		{limits.Quiet.Any(), func(h *home.Home) { h.Limits.Quiet = home.QuietHours{} }, always("Let an engine run in the quiet hours (limits.quiet)")},
		{limits.FuelStore.Ends(), func(h *home.Home) { h.Limits.FuelStore = units.Limit{} }, always("Keep more fuel or have it delivered (limits.fuel_store)")},
		{limits.Budget.Ends(), func(h *home.Home) { h.Limits.Budget = units.Limit{} }, func(o choose.Outcome) string {
			return fmt.Sprintf("Raise the budget to %s (limits.budget)", Money(o.Cost.Purchase))
		}},
		{len(limits.Fuels) < len(profiles.Fuels()), everyFuel, always("Get one more fuel (limits.fuels)")},
		{a.Home.Site.Gas.Cylinders > 0, func(h *home.Home) { h.Site.Gas.Cylinders = mostCylinders }, a.askCylinders},
		{house.Transfer == home.Automatic, func(h *home.Home) { h.House.Transfer = home.Managed }, always("Let the transfer manage what is on (home.transfer: managed)")},
		{house.Transfer != home.Manual, func(h *home.Home) { h.House.Transfer = home.Manual }, always("Switch the house over by hand (home.transfer: manual)")},
	}
}

// placeLifts are those of where an engine and a battery stand.
func (a *adviser) placeLifts() []lift {
	limits, clearances, roomiest := a.Home.Limits, profiles.Transfers().Clearances, profiles.Places().Roomiest()
	far := units.Metres(units.Length.From(max(clearances.Of(true).Feet, clearances.Of(false).Feet), "ft"))
	place, known := profiles.Places().Find(limits.BatteryPlace)
	return []lift{
		{limits.Generator == home.NoGenerator, func(h *home.Home) { h.Limits.Generator = home.GeneratorAllowed }, always("Find a place for a generator (limits.generator)")},
		{a.Home.Given("site.generator_clearance") && a.Home.Site.Clearance < far, func(h *home.Home) { h.Site.Clearance = far }, func(o choose.Outcome) string {
			return fmt.Sprintf("Stand the engine at least %s from doors, windows and vents (site.generator_clearance)", sheet.Distance(clearances.Of(o.Machine != nil && o.Machine.Sheet.Stands == home.Fixed).Feet))
		}},
		{limits.BatteryPlace == home.NoPlace || known && place.LimitKWh < roomiest.LimitKWh, func(h *home.Home) { h.Limits.BatteryPlace = roomiest.Name }, always(fmt.Sprintf("Find a place for a battery that may hold %s kWh: %s (limits.battery_place)", units.Format(roomiest.LimitKWh), roomiest.Title))},
		{a.Home.Site.BatterySpace < a.Home.House.Indoors, func(h *home.Home) { h.Site.BatterySpace = h.House.Indoors }, always("Keep the battery as warm as the house (site.battery_space)")},
	}
}

func everyFuel(h *home.Home) {
	h.Limits.Fuels = nil
	for _, f := range profiles.Fuels() {
		h.Limits.Fuels = append(h.Limits.Fuels, f.Name)
	}
}

// mostCylinders is as many as a home file can have.
const mostCylinders = 50

// askCylinders asks for as many as the design that carries takes.
func (a *adviser) askCylinders(o choose.Outcome) string {
	takes := 0.0
	if m := o.Machine; m != nil {
		v, _ := sheet.VapourOf(a.Home, &a.Demand, m.Fuel, m.FullKW())
		takes = v.Takes
	}
	return fmt.Sprintf("Have %s cylinders side by side (site.gas.cylinders)", units.Format(takes))
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
