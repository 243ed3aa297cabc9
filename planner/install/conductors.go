package install

import (
	"cmp"
	"fmt"
	"math"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/service"
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

// The run that a hybrid has beside its own: from its generator to its inverter.
const generatorRun = "generator"

// addConductors sizes every run of the site; without any, the wire from the source, whose length is then asked for. The wires of a
// source that must not be built are left out.
func (w *work) addConductors() {
	runs, stopped := w.home.Site.Runs, len(w.DoNotBuild()) > 0
	if len(runs) == 0 {
		if w.Source == nil || stopped {
			return
		}
		w.check(nil, "wire", Needs, "site.runs is missing: without lengths no voltage drop can be worked out", w.rule("wire-advice"))
		runs = home.Runs{{Name: "Source to transfer"}}
		if w.Source.Inverter && w.Source.Engine {
			runs = append(runs, home.Run{Name: "Generator to inverter", Serves: generatorRun})
		}
	}
	for i, run := range runs {
		r, ok := w.newRun(run)
		switch {
		case stopped && (r.serves == "source" || r.serves == generatorRun):
		case !ok:
			w.check(nil, "wire: "+run.Name, Needs, "no current is known for this run; give amps", w.rule("wire-size"))
		case w.Code.Detailed:
			w.Conductors = append(w.Conductors, w.sized(i, r))
		default:
			w.Conductors = append(w.Conductors, w.metric(i, r))
		}
	}
}

// A sizedRun is a run with what the file leaves open filled in.
type sizedRun struct {
	home.Run
	serves    string
	loadA     float64
	requiredA float64 // least ampacity
	deviceA   float64 // its protection
	why       string
	source    string // of the least ampacity
	volts     float64

	dwelling bool // the rule for the wires of a whole dwelling holds
}

// newRun fills in what serves, current and volts are; ok is false where no current is known.
func (w *work) newRun(run home.Run) (r sizedRun, ok bool) {
	r = sizedRun{Run: run, serves: cmp.Or(run.Serves, "source"), volts: float64(run.Volts), loadA: float64(run.Amps), why: "the current it carries", source: w.rule("wire-size")}
	switch s := w.Source; {
	case r.serves == "service":
		r.loadA = cmp.Or(r.loadA, float64(w.home.House.ServiceAmps))
	case s == nil:
	case r.serves == generatorRun:
		r.loadA, r.volts = s.engineAmps(), s.EngineVolts
	case r.serves == "source":
		r.volts = cmp.Or(r.volts, s.Volts, service.SystemVolts(w.home))
		r.loadA = cmp.Or(r.loadA, 1000*s.RatedKVA/r.volts)
	}
	r.volts = cmp.Or(r.volts, service.SystemVolts(w.home))
	if w.Code.Detailed {
		w.require(&r)
	}
	return r, r.loadA > 0
}

// require says what a run must carry and what protects it.
func (w *work) require(r *sizedRun) {
	r.requiredA, r.deviceA = r.loadA, w.Code.NextRating(r.loadA)
	by := func(rule profiles.Rule, with ...any) {
		r.requiredA, r.why, r.source = rule.Value("share")*r.loadA, service.Say(rule, with...), rule.Source()
	}
	isSource, s := r.serves == "source" || r.serves == generatorRun, w.Source
	switch {
	case r.serves == "service" && w.isDwellingService(r.loadA):
		r.dwelling = true
		by(w.Code.Rule("dwelling-service"))
	case r.serves == "service":
		r.why = "the rating of the service"
	case r.serves == "source" && s != nil && s.Inverter:
		by(w.Code.Rule("inverter-wires").Phrase("share"))
		r.deviceA = w.Code.NextRating(r.requiredA)
	case isSource:
		wires := w.Code.Rule("generator-wires")
		by(wires.Phrase("share"))
		if s == nil {
			break
		}
		if inlet, ok := s.inlet(r.loadA); ok { // the machine's own breaker, of the inlet's rating, protects what follows
			r.requiredA, r.deviceA, r.why = inlet.Amps, inlet.Amps, service.Say(wires.Phrase("inlet"), "name", inlet.Name, "rating", inlet.Amps)
		}
	}
}

// isDwellingService says whether a service carries the whole dwelling in the sense of the code: one of 120/240 V that its table has.
func (w *work) isDwellingService(ratingA float64) bool {
	rows := w.Code.Wire().Services
	return w.split() && ratingA >= rows[0].RatingA && ratingA <= rows[len(rows)-1].RatingA
}

// sized sizes one run and writes its figures.
func (w *work) sized(i int, r sizedRun) Conductor {
	out := Conductor{Name: r.Name, Serves: r.serves, Metal: string(cmp.Or(r.Metal, home.Copper)), LengthFt: feet(r.Length), LoadA: r.loadA, RequiredA: r.requiredA, OvercurrentA: r.deviceA}
	aluminium := out.Metal == "aluminium"
	id := fmt.Sprintf("conductor.%d", i+1)
	want := wanted{code: w.Code, amps: out.RequiredA, protectA: out.OvercurrentA, aluminium: aluminium, terminalC: w.terminals(r), ambientC: r.ambient(w.Code)}
	want.insulationC = float64(r.Insulation)
	if want.insulationC == 0 {
		want.insulationC = want.terminalC
	}
	if r.dwelling {
		want.protectA = 0 // its rule is the protection rule of such wires
	}
	size, ratings := w.Code.Rule("wire-size"), w.Code.Rule("ratings")
	w.put(id+".required_a", out.RequiredA, "A", r.why, r.source)
	w.put(id+".overcurrent_a", out.OvercurrentA, "A", service.Say(ratings), ratings.Source())
	least, index, ok := want.size()
	if !ok {
		rule := w.Code.Rule("wire-parallel")
		if want.correction() == 0 {
			rule = w.Code.Rule("wire-ambient")
		}
		out.How = service.Say(rule, "ambient", want.ambientC, "insulation", want.insulationC)
		w.check(nil, "wire: "+r.Name, Needs, out.How, rule.Source())
		return out
	}
	out.Size, out.AmpacityA = least.Size, want.ampacity(least)
	out.How = fmt.Sprintf("%s: %s A at %s °C terminals, %s °C around it", r.why, number(out.RequiredA), number(want.terminalC), number(want.ambientC))
	w.put(id+".ampacity_a", out.AmpacityA, "A", fmt.Sprintf("%s %s, the smallest that carries %s A and that a %s A device protects", out.Size, out.Metal, number(out.RequiredA), number(out.OvercurrentA)), size.Source(), id+".required_a", id+".overcurrent_a")
	out.Ground = groundFor(w.Code.Wire(), out.OvercurrentA, aluminium, least.CircularMils, least.CircularMils)
	if r.serves == "service" {
		out.Bond = w.Code.Wire().SupplyBond(least.CircularMils, aluminium)
	}
	if r.Length > 0 {
		w.addDrop(id, r, want, index, &out)
	}
	return out
}

// addDrop works out the voltage drop, and the size that keeps it to what is advised.
func (w *work) addDrop(id string, r sizedRun, want wanted, index int, out *Conductor) {
	all, rule := w.Code.Wire().Conductors, w.Code.Rule("wire-drop")
	advised := rule.Value("percent")
	share := func(c profiles.Conductor) float64 {
		return 100 * dropVolts(r.loadA, c.Of(want.aluminium).OhmKft, out.LengthFt) / r.volts
	}
	out.DropPercent = w.put(id+".drop_percent", share(all[index]), "%",
		fmt.Sprintf("2 · %s A · %s Ω/kft · %s ft / 1000 / %s V", number(r.loadA), number(all[index].Of(want.aluminium).OhmKft), number(out.LengthFt), number(r.volts)), rule.Source())
	reason := fmt.Sprintf("%s %s over %s ft loses %s %% at %s A; %s", out.Size, out.Metal, number(out.LengthFt), number(out.DropPercent), number(r.loadA), service.Say(rule))
	ok, step := out.DropPercent <= advised+1e-9, ""
	if !ok {
		for j := index + 1; j < len(all) && out.SizeFor3 == ""; j++ {
			if share(all[j]) <= advised {
				out.SizeFor3 = all[j].Size
				step = fmt.Sprintf("%s keeps it to %s %%, with %s for the grounding wire", out.SizeFor3, number(share(all[j])),
					groundFor(w.Code.Wire(), out.OvercurrentA, want.aluminium, all[index].CircularMils, all[j].CircularMils))
			}
		}
		reason += "; " + cmp.Or(step, fmt.Sprintf("no single wire up to %s kcmil keeps it there", all[len(all)-1].Size))
	}
	w.verdict(nil, ok, "voltage drop: "+r.Name, reason, rule.Source(), "long-wire", step)
}

// terminals is what the terminals are marked for: as given, or by the rating of the device. The table of a dwelling's service is of
// the hotter ones throughout.
func (w *work) terminals(r sizedRun) float64 {
	rule := w.Code.Rule("wire-terminals")
	switch {
	case r.Terminals > 0:
		return float64(r.Terminals)
	case r.deviceA <= rule.Value("up_to_a") && !r.dwelling:
		return rule.Value("to_c")
	}
	return rule.Value("above_c")
}

func (r sizedRun) ambient(code *profiles.Code) float64 {
	if r.Ambient == 0 {
		return code.Rule("wire-ambient").Value("base_c")
	}
	return float64(r.Ambient)
}

// metric is for a code without a table of sizes: the least cross-section for the drop alone, which is physics.
func (w *work) metric(i int, r sizedRun) Conductor {
	rule := w.Code.Rule("wire-drop")
	metal := string(cmp.Or(r.Metal, home.Copper))
	rho, advised := rule.Value(metal+"_ohm_mm2_per_m"), rule.Value("percent")
	out := Conductor{Name: r.Name, Serves: r.serves, Metal: metal, LengthFt: feet(r.Length), LoadA: r.loadA, How: "size, protection and earthing: " + w.Code.Unknown}
	if r.Length == 0 {
		return out
	}
	allowed := advised / 100 * r.volts
	out.LeastMM2 = w.put(fmt.Sprintf("conductor.%d.least_mm2", i+1), 2*rho*float64(r.Length)*r.loadA/allowed, "mm²",
		fmt.Sprintf("2 · ρ · %s m · %s A / %s V, for a drop of %s %%; what the wire may carry is another matter", number(float64(r.Length)), number(r.loadA), number(allowed), number(advised)), rule.Source())
	w.check(nil, "voltage drop: "+r.Name, Pass, fmt.Sprintf("%s mm² of %s or more keeps it to %s %%", number(math.Ceil(10*out.LeastMM2)/10), metal, number(advised)), "")
	return out
}

func feet(length units.Metres) float64 { return units.Length.In(float64(length), "ft") }
