package planner

import (
	"fmt"
	"slices"
	"strings"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/planner/battery"
	"holdover/planner/choose"
	"holdover/planner/derive"
	"holdover/profiles"
)

// circumstances are what the rules look at. The machines that count are those of the option chosen, or, where nothing is, of
// every option there is a design for.
type circumstances struct {
	*Result
	designs []choose.Outcome
	battery bool // one of them has a battery
	engine  bool // one of them has a generator
}

// rules say when each caution applies. Its words and its place among the others stand in profiles/cautions.yaml; those that go with a
// fuel stand with the fuel.
var rules = map[string]func(*circumstances) bool{
	"backfeed":           func(c *circumstances) bool { return true },
	"carbon-monoxide":    func(c *circumstances) bool { return c.engine },
	"shared-neutral-120": (*circumstances).sharedNeutral,
	"medical":            (*circumstances).medical,
	"cannot-wait":        (*circumstances).leftWaiting,
	"fuel-storage":       (*circumstances).storesFuel,
	"battery-placement":  func(c *circumstances) bool { return c.battery },
	"cold-charging": func(c *circumstances) bool {
		return c.battery && !c.c.Battery.MayCharge && c.Home.Site.BatterySpace < 10
	},
	"cold-discharge":           func(c *circumstances) bool { return c.battery && !c.c.Battery.MayDischarge },
	"store-too-large":          (*circumstances).storeTooLarge,
	"flame-sensing-neutral":    func(c *circumstances) bool { return c.any(func(l *loads.Load) bool { return l.Needs.EarthedNeutral }) },
	"stepped-wave":             func(c *circumstances) bool { return len(c.Demand.SineFor) > 0 },
	"freezing":                 (*circumstances).freezing,
	"frost-heaters":            (*circumstances).guarded,
	"cannot-heat":              (*circumstances).cannotHeat,
	"engine-cold":              func(c *circumstances) bool { return c.engine && c.coldestOut() < engineColdC },
	"temperature-table":        (*circumstances).outsideTable,
	"defaults-used":            (*circumstances).siteAssumed,
	"bare-numbers":             func(c *circumstances) bool { return len(c.Home.BareNumbers()) > 0 },
	"large-start":              func(c *circumstances) bool { return float64(c.Demand.WorstVA) > 3*float64(c.Demand.Running.VA()) },
	"electric-heat-on-battery": (*circumstances).electricHeat,
	"noise":                    func(c *circumstances) bool { return c.engine },
	"code-edition":             func(c *circumstances) bool { return c.Home.Code().Detailed && !c.Home.Given("home.code") },
	"no-230-rules":             func(c *circumstances) bool { return !c.Home.Code().Detailed },
	"legs-unbalanced":          func(c *circumstances) bool { return len(c.Demand.Legs.Moves) > 0 },
	"altitude":                 func(c *circumstances) bool { return c.engine && c.Home.Site.Elevation > highSiteM },
	"estimate-prices":          func(c *circumstances) bool { return true },
	"code-and-licence":         func(c *circumstances) bool { return true },
}

// highSiteM is the height above which engine makers commonly ask for an altitude kit, m (common practice, no source).
const highSiteM = 1500

// engineColdC is the outdoor temperature below which an engine commonly needs help to start, °C (common practice, no source).
const engineColdC = -15

// cautions lists every caution that applies, the gravest first.
func cautions(r *Result) []Caution {
	at := &circumstances{Result: r}
	for _, o := range r.Options {
		if r.Choice == None || o.Kind == r.Choice {
			at.designs = append(at.designs, o.Outcome)
			at.battery = at.battery || o.Outcome.Modules > 0
			at.engine = at.engine || o.Outcome.Machine != nil
		}
	}
	var out []Caution
	for _, entry := range profiles.Cautions() {
		if when := rules[entry.ID]; (when != nil && when(at)) || at.fuelRaises(entry.ID) {
			out = append(out, caution(entry, r.Home))
		}
	}
	return out
}

// caution is a caution said of a house.
func caution(entry profiles.Caution, house *home.Home) Caution {
	entry = house.Code().Caution(entry)
	text := strings.ReplaceAll(strings.TrimSpace(entry.Text), "{numbers}", bareNumbers(house))
	return Caution{entry.ID, entry.Word, text, entry.Source}
}

// BareNumbers is the notice on numbers without a unit, those of the units on offer included, which may come from a file that no plan
// is made of; ok is false where every number has its unit.
func BareNumbers(house *home.Home) (notice Caution, ok bool) {
	if len(house.BareNumbers()) == 0 {
		return Caution{}, false
	}
	entry, _ := profiles.FindCaution("bare-numbers")
	return caution(entry, house), true
}

// bareNumbers lists the numbers without a unit, each with its key and what was understood, up to a dozen.
func bareNumbers(house *home.Home) string {
	var names []string
	for _, b := range house.BareNumbers() {
		names = append(names, fmt.Sprintf("%s %s is %s", b.Path, b.Text, b.Says))
	}
	return derive.Names(names, 12)
}

func (c *circumstances) any(is func(*loads.Load) bool) bool {
	for i := range c.Demand.Loads {
		if is(&c.Demand.Loads[i]) {
			return true
		}
	}
	return false
}

func (c *circumstances) sharedNeutral() bool {
	partners := c.Home.Partners()
	return c.Home.House.Service != home.Only230 && c.any(func(l *loads.Load) bool { return partners[l.Name] != "" })
}

// medical holds for circuits that keep someone well.
func (c *circumstances) medical() bool {
	return c.any(func(l *loads.Load) bool { return profiles.Medical(l.Like, l.Name) })
}

// engineIs says whether a design has a generator of which something holds.
func (c *circumstances) engineIs(is func(choose.Outcome) bool) bool {
	return slices.ContainsFunc(c.designs, func(o choose.Outcome) bool { return o.Machine != nil && is(o) })
}

// leftWaiting holds where a circuit that can never wait, by its profile or its own can_wait, is set to take turns or left off.
func (c *circumstances) leftWaiting() bool {
	for i := range c.Home.Circuits {
		if c.Home.Circuits[i].Care != home.Keep && loads.NeverWaits(c.Home, i) {
			return true
		}
	}
	return false
}

// fuelRaises says whether a caution goes with the fuel that a design burns, as it burns it.
func (c *circumstances) fuelRaises(id string) bool {
	return c.engineIs(func(o choose.Outcome) bool {
		return slices.ContainsFunc(o.Machine.Fuel.Cautions, func(r profiles.Raised) bool {
			return r.ID == id && (r.When == profiles.Burnt || (r.When == profiles.InFrost && c.freezing()) || (r.When == profiles.LightLoad && loadedLightly(o)))
		})
	})
}

func (c *circumstances) storesFuel() bool {
	return c.engineIs(func(o choose.Outcome) bool { return o.Machine.Fuel.Stored })
}

func (c *circumstances) storeTooLarge() bool {
	return c.engineIs(func(o choose.Outcome) bool {
		return o.Machine.Fuel.Stored && o.Run.Fuel > o.Machine.Fuel.StoreLimitL
	})
}

// coldestOut is the coldest outdoor hour of the outage's design day, °C.
func (c *circumstances) coldestOut() float64 { return float64(slices.Min(c.Demand.Outdoors[:])) }

// freezing holds where the design day has frost: whatever the plan, it may end before the cold does.
func (c *circumstances) freezing() bool { return c.coldestOut() < 0 }

// guarded holds where a water heater has frost heaters, which stop with the supply.
func (c *circumstances) guarded() bool {
	return c.freezing() && slices.ContainsFunc(c.Home.Circuits, func(l home.Circuit) bool { return l.Heater != nil && l.Heater.FreezeGuard > 0 })
}

// cannotHeat holds where what is kept for heating gives less, all on, than the house loses in its coldest hour.
func (c *circumstances) cannotHeat() bool {
	output := 0.0
	for i := range c.Demand.Loads {
		if l := &c.Demand.Loads[i]; l.Use.Kind == home.UseHeating {
			output += float64(l.Output) * float64(l.Count)
		}
	}
	lost := float64(c.Home.House.HeatLoss) * (float64(c.Home.House.Indoors) - c.coldestOut())
	return output > 0 && lost > output
}

// loadedLightly says whether a design's generator runs below its least load on the mean.
func loadedLightly(o choose.Outcome) bool {
	return o.Run.GeneratorKWh < o.Machine.LeastKW*o.Run.RunHours
}

func (c *circumstances) outsideTable() bool {
	chemistry, _ := profiles.FindChemistry(c.Home.Assume.Chemistry)
	_, outside := battery.TemperatureFactor(chemistry, c.Home.Site.BatterySpace)
	return outside && !c.Home.Given("assume.battery_temperature_factor")
}

func (c *circumstances) siteAssumed() bool {
	for _, path := range []string{"site.elevation", "site.hottest", "site.coldest", "site.battery_space", "site.inverter_space", "outage.length", "outage.season", "limits.fuels"} {
		if !c.Home.Given(path) {
			return true
		}
	}
	return false
}

// electricHeat holds for large resistive loads: more than 3 kW a unit without a start.
func (c *circumstances) electricHeat() bool {
	const largeW = 3000
	return c.battery && c.any(func(l *loads.Load) bool {
		return !l.Starts && float64(l.Running.W())/float64(l.Count) >= largeW
	})
}
