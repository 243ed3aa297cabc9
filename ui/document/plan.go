package document

import (
	"strings"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner"
	"holdover/planner/derive"
	"holdover/planner/heat"
	"holdover/planner/install"
	"holdover/planner/sheet"
	"holdover/planner/waiting"
)

// Worked is what is worked out of one home. Nothing is said of what is nil.
type Worked struct {
	Plan   *planner.Result
	Wait   *waiting.Plan
	Warmth *heat.Loss  // what heat the house loses
	Water  []heat.Need // what each water heater needs
	Units  *sheet.Report
	Owned  *planner.Inventory
	Scope  *install.Scope
}

// home is the home of which all of it is.
func (w Worked) home() *home.Home { return w.Plan.Home }

// needs says whether anything is to be carried, without which there is little to say.
func (w Worked) needs() bool { return len(w.Plan.Demand.Loads) > 0 }

// A Subject is one part of a plan, by a name to ask for it. Where it has nothing to say of a home its document is empty.
type Subject struct {
	Name string
	Of   func(Worked) Document
}

// Subjects are the parts of a plan in the order in which they matter. A new one is a function and a line here.
var Subjects = []Subject{
	{"verdict", Verdict},
	{"figures", Decisive},
	{"options", Options},
	{"run", Run},
	{"remedies", Remedies},
	{"changes", Changes},
	{"lengths", Lengths},
	{"chance", Chance},
	{"circuits", Circuits},
	{"legs", Legs},
	{"waiting", Waiting},
	{"warmth", Warmth},
	{"water", Water},
	{"turns", Turns},
	{"card", Card},
	{"units", Units},
	{"owned", Owned},
	{"left-off", LeftOff},
	{"cautions", Cautions},
}

// Plan says all that there is to say.
func Plan(w Worked) (d Document) {
	for _, s := range Subjects {
		d = append(d, s.Of(w)...)
	}
	return d
}

// Name is what the home is called, or else its file.
func Name(house *home.Home) string {
	if name := strings.TrimSpace(house.House.Name); name != "" {
		return name
	}
	return house.FileName()
}

// Quantity writes a figure in the units of the home.
func Quantity(house *home.Home, f derive.Figure) string {
	if f.Word != "" {
		return f.Word
	}
	return units.InSystem(f.Value, f.Unit, house.House.Units)
}

// InBoth writes a figure in the units of the home, and in those of its formula where these differ.
func InBoth(house *home.Home, f derive.Figure) string {
	if f.Word != "" {
		return f.Word
	}
	return units.InBoth(f.Value, f.Unit, house.House.Units)
}

func capital(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToUpper(text[:1]) + text[1:]
}
