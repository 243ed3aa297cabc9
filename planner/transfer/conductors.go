package transfer

import (
	"cmp"
	"fmt"
	"math"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/profiles"
)

// A Conductor is one line of the conductor table.
type Conductor struct {
	Name         string  `json:"name"`
	Serves       string  `json:"serves"` // source, service, feeder or branch
	Metal        string  `json:"metal"`
	LengthFt     float64 `json:"length_ft"` // one way, 0 when not given
	LoadA        float64 `json:"load_a"`
	RequiredA    float64 `json:"required_a"`    // least ampacity
	OvercurrentA float64 `json:"overcurrent_a"` // its protection
	Size         string  `json:"size"`          // AWG, or kcmil from 250 up; empty where one wire is not enough
	AmpacityA    float64 `json:"ampacity_a"`    // in its surroundings, at its terminals
	DropPercent  float64 `json:"drop_percent"`
	SizeFor3     string  `json:"size_for_3_percent"` // that keeps the drop to 3 %, where Size does not
	Ground       string  `json:"ground"`             // equipment grounding wire
	Bond         string  `json:"supply_bond"`        // of a service: the jumper in place of Ground ahead of its disconnect
	LeastMM2     float64 `json:"least_mm2"`          // on a 230 V home: least cross-section for a drop of 3 %
	How          string  `json:"how"`
}

// advisedDrop is the voltage drop that the code's notes advise for a branch or a feeder.
const advisedDrop = 3 // %

// dwellingShare is what the wires of a dwelling's service must carry of its rating: NEC 310.12, 2020 edition, as a trade
// forum quotes it.
const dwellingShare = 0.83

// The run that a hybrid has beside its own: from its generator to its inverter.
const generatorRun = "generator"

const (
	sizeSource = "NEC Table 310.16, 110.14(C), 240.4 and 240.6(A), 2020 edition, from memory"
	dropSource = "NEC Chapter 9 Table 8, as reprinted; 210.19(A) and 215.2(A), informational notes, advise 3 %, 2020 edition, from memory"
)

// addConductors sizes every run of the site; without any, the wire from the source, whose length is then asked for.
func (w *work) addConductors() {
	runs := w.home.Site.Runs
	if len(runs) == 0 {
		if w.Source == nil {
			return
		}
		w.check("wire", Needs, "site.runs is missing: without lengths no voltage drop can be worked out", "NEC 210.19(A), informational note, 2020 edition, from memory")
		runs = home.Runs{{Name: "Source to transfer"}}
		if w.Source.Inverter && w.Source.Engine {
			runs = append(runs, home.Run{Name: "Generator to inverter", Serves: generatorRun})
		}
	}
	for i, run := range runs {
		r, ok := w.newRun(run)
		if !ok {
			w.check("wire: "+run.Name, Needs, "no current is known for this run; give amps", sizeSource)
			continue
		}
		if !w.US {
			w.Conductors = append(w.Conductors, w.metric(i, r))
			continue
		}
		w.Conductors = append(w.Conductors, w.sized(i, r))
	}
}

// A sizedRun is a run with what the file leaves open filled in.
type sizedRun struct {
	home.Run
	serves string
	loadA  float64
	share  float64 // of the load that the wire must carry
	why    string
	volts  float64

	dwelling bool // 310.12 holds
}

// newRun fills in what serves, current and volts are; ok is false where no current is known.
func (w *work) newRun(run home.Run) (r sizedRun, ok bool) {
	r = sizedRun{Run: run, serves: run.Serves, share: 1, volts: float64(run.Volts), loadA: float64(run.Amps), why: "the current it carries"}
	if r.serves == "" {
		r.serves = "source"
	}
	if r.volts == 0 {
		r.volts = w.systemVolts()
	}
	switch r.serves {
	case "service":
		if r.loadA == 0 {
			r.loadA = float64(w.home.House.ServiceAmps)
		}
		r.why = "the rating of the service"
		if w.dwellingService(r.loadA) {
			r.dwelling, r.share, r.why = true, dwellingShare, "83 % of the rating, since it carries the whole dwelling (310.12)"
		}
	case generatorRun:
		r.loadA, r.volts, r.share, r.why = w.Source.engineAmps(), w.Source.EngineVolts, generatorShare, generatorWhy
	case "source":
		if w.Source != nil && run.Volts == 0 && w.Source.Volts > 0 {
			r.volts = w.Source.Volts
		}
		r.sourceCurrent(w.Source)
	}
	return r, r.loadA > 0
}

// dwellingService says whether 310.12 holds: a 120/240 V service of 100 to 400 A that carries the whole dwelling.
func (w *work) dwellingService(ratingA float64) bool {
	rows := profiles.DwellingServices()
	return w.home.House.Service == home.SplitPhase && ratingA >= rows[0].RatingA && ratingA <= rows[len(rows)-1].RatingA
}

// What a generator's wires must carry.
const (
	generatorShare = 1.15
	generatorWhy   = "115 % of the generator's nameplate (445.13)"
)

// sourceCurrent takes the source's own current where none is given. A generator's wires carry 115 % of its nameplate
// (445.13), an inverter's 125 % of its continuous output.
func (r *sizedRun) sourceCurrent(s *Source) {
	kva := 0.0
	r.share, r.why = generatorShare, generatorWhy
	if s != nil {
		kva = s.RatedKVA
		if s.Inverter {
			r.share, r.why = 1.25, "125 % of the inverter's continuous output (705.28)"
		}
	}
	if r.loadA == 0 {
		r.loadA = 1000 * kva / r.volts
	}
}

// systemVolts is the voltage of a run that does not say.
func (w *work) systemVolts() float64 {
	if w.home.House.Service == home.SplitPhase {
		return 240
	}
	return float64(w.home.House.Service.LegVolts())
}

// sized sizes one run and writes its figures.
func (w *work) sized(i int, r sizedRun) Conductor {
	out := Conductor{Name: r.Name, Serves: r.serves, Metal: string(cmp.Or(r.Metal, home.Copper)), LengthFt: feet(r.Length), LoadA: r.loadA, RequiredA: r.share * r.loadA}
	aluminium := out.Metal == "aluminium"
	id := fmt.Sprintf("conductor.%d", i+1)
	out.OvercurrentA = nextStandard(r.loadA)
	if r.serves == "source" && r.share == 1.25 {
		out.OvercurrentA = nextStandard(out.RequiredA)
	}
	want := wanted{amps: out.RequiredA, protectA: out.OvercurrentA, aluminium: aluminium, terminalC: r.terminals(out.OvercurrentA), ambientC: r.ambient()}
	want.insulationC = float64(r.Insulation)
	if want.insulationC == 0 {
		want.insulationC = want.terminalC
	}
	if r.dwelling {
		want.protectA = 0 // 310.12 is the protection rule of such wires
	}
	w.put(id+".required_a", out.RequiredA, "A", r.why, sizeSource)
	w.put(id+".overcurrent_a", out.OvercurrentA, "A", "the next standard rating", "NEC 240.6(A), as reprinted")
	least, index, ok := want.size(0)
	if !ok {
		out.How = "one wire a line is not enough; parallel sets are for the electrician to lay out"
		source := "NEC 310.10(G), 2020 edition, from memory"
		if want.correction() == 0 {
			out.How = fmt.Sprintf("%s °C is too hot for insulation of %s °C", number(want.ambientC), number(want.insulationC))
			source = "NEC Table 310.15(B)(1)(1), 2020 edition, from memory"
		}
		w.check("wire: "+r.Name, Needs, out.How, source)
		return out
	}
	out.Size, out.AmpacityA = least.Size, want.ampacity(least)
	out.How = fmt.Sprintf("%s: %s A at %s °C terminals, %s °C around it", r.why, number(out.RequiredA), number(want.terminalC), number(want.ambientC))
	w.put(id+".ampacity_a", out.AmpacityA, "A", fmt.Sprintf("%s %s, the smallest that carries %s A and that a %s A device protects", out.Size, out.Metal, number(out.RequiredA), number(out.OvercurrentA)), sizeSource, id+".required_a", id+".overcurrent_a")
	out.Ground = groundFor(out.OvercurrentA, aluminium, least.CircularMils, least.CircularMils)
	if r.serves == "service" {
		out.Bond = profiles.SupplyBond(least.CircularMils, aluminium)
	}
	if r.Length > 0 {
		w.addDrop(id, r, want, index, &out)
	}
	return out
}

// addDrop works out the voltage drop, and the size that keeps it to what is advised.
func (w *work) addDrop(id string, r sizedRun, want wanted, index int, out *Conductor) {
	all := profiles.Conductors()
	share := func(c profiles.Conductor) float64 {
		return 100 * dropVolts(r.loadA, ohmKft(c, want.aluminium), out.LengthFt) / r.volts
	}
	out.DropPercent = w.put(id+".drop_percent", share(all[index]), "%",
		fmt.Sprintf("2 · %s A · %s Ω/kft · %s ft / 1000 / %s V", number(r.loadA), number(ohmKft(all[index], want.aluminium)), number(out.LengthFt), number(r.volts)), dropSource)
	ok := out.DropPercent <= advisedDrop+1e-9
	reason := fmt.Sprintf("%s %s over %s ft loses %s %% at %s A; %d %% is advised", out.Size, out.Metal, number(out.LengthFt), number(out.DropPercent), number(r.loadA), advisedDrop)
	if !ok {
		for j := index + 1; j < len(all) && out.SizeFor3 == ""; j++ {
			if share(all[j]) <= advisedDrop {
				out.SizeFor3 = all[j].Size
				reason += fmt.Sprintf("; %s keeps it to %s %%, with %s for the grounding wire", out.SizeFor3, number(share(all[j])),
					groundFor(out.OvercurrentA, want.aluminium, all[index].CircularMils, all[j].CircularMils))
			}
		}
		if out.SizeFor3 == "" {
			reason += fmt.Sprintf("; no single wire up to %s kcmil keeps it there", all[len(all)-1].Size)
		}
	}
	w.verdict(ok, "voltage drop: "+r.Name, reason, dropSource, "long-wire")
}

// terminals is what the terminals are marked for: as given, or 60 °C up to 100 A and 75 °C above (110.14(C)(1)). Table 310.12
// is one of 75 °C throughout.
func (r sizedRun) terminals(overcurrentA float64) float64 {
	switch {
	case r.Terminals > 0:
		return float64(r.Terminals)
	case overcurrentA <= 100 && !r.dwelling:
		return 60
	}
	return 75
}

func (r sizedRun) ambient() float64 {
	if r.Ambient == 0 {
		return 30 // °C, the base of the table
	}
	return float64(r.Ambient)
}

// metric is for homes on other rules: the least cross-section for the drop alone, which is physics.
func (w *work) metric(i int, r sizedRun) Conductor {
	rule := profiles.Transfers().Conductors
	metal, rho := string(cmp.Or(r.Metal, home.Copper)), rule.CopperOhmMM2PerM
	if metal == "aluminium" {
		rho = rule.AluminiumOhmMM2PerM
	}
	out := Conductor{Name: r.Name, Serves: r.serves, Metal: metal, LengthFt: feet(r.Length), LoadA: r.loadA, How: "size, protection and earthing: " + localRules}
	if r.Length == 0 {
		return out
	}
	allowed := advisedDrop / 100.0 * r.volts
	out.LeastMM2 = w.put(fmt.Sprintf("conductor.%d.least_mm2", i+1), 2*rho*float64(r.Length)*r.loadA/allowed, "mm²",
		fmt.Sprintf("2 · ρ · %s m · %s A / %s V, for a drop of %d %%; what the wire may carry is another matter", number(float64(r.Length)), number(r.loadA), number(allowed), advisedDrop), rule.Source)
	w.check("voltage drop: "+r.Name, Pass, fmt.Sprintf("%s mm² of %s or more keeps it to %d %%", number(math.Ceil(10*out.LeastMM2)/10), metal, advisedDrop), localRules)
	return out
}

func feet(length units.Metres) float64 { return units.Length.In(float64(length), "ft") }

func orWord(word, otherwise string) string {
	if word == "" {
		return otherwise
	}
	return word
}
