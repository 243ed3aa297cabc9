package install

import (
	"cmp"
	"fmt"
	"strings"

	"holdover/loads/home"
	"holdover/planner/derive"
	"holdover/planner/service"
	"holdover/planner/sheet"
	"holdover/profiles"
)

// An Item is one line of the bill of materials, in trade terms.
type Item struct {
	Quantity int    `json:"quantity"`
	Item     string `json:"item"`
	Detail   string `json:"detail"`
	Source   string `json:"source"`
}

// How a source's neutral stands.
const (
	floating = "floating"
	bonded   = "bonded"
)

// ask puts what a rule of the code asks for on the bill, with what its words leave open; nothing where this edition has no such rule.
func (w *work) ask(quantity int, id string, with ...any) { w.list(quantity, w.Code.Rule(id), with...) }

// add puts a thing on the bill that the job needs whatever the code says.
func (w *work) add(id string, with ...any) {
	item, ok := profiles.Transfers().FindItem(id)
	if !ok {
		panic("install: no item " + id)
	}
	w.list(1, item, with...)
}

func (w *work) list(quantity int, r profiles.Rule, with ...any) {
	if !r.None {
		w.Equipment = append(w.Equipment, Item{quantity, service.SayItem(r, with...), service.Say(r, with...), w.cite(r.Source())})
	}
}

// addEquipment writes the bill of materials for the source that the job is for, unless it must not be built.
func (w *work) addEquipment() {
	s := w.Source
	if s == nil || len(w.demand.Loads) == 0 {
		return
	}
	move := switchgear{}
	if w.Code.Detailed {
		w.checkNeutral(s)
		move = w.switchgear(s)
	}
	if len(w.DoNotBuild()) > 0 {
		return
	}
	if !w.Code.Detailed {
		w.ask(1, "transfer-equipment")
		w.ask(1, "bonding")
		w.addSafety(s)
		return
	}
	w.addSwitch(s, move)
	if s.EngineKVA > 0 {
		w.addInlet(s)
	}
	w.addBonding(s)
	w.addSigns(s)
	w.addSafety(s)
}

// switched says whether the transfer equipment must open the neutral: a source that joins neutral and frame is then a
// separately derived system, and the house keeps a single bond on each side.
func (s Source) switched() bool { return s.Neutral == bonded }

func (s Source) neutralWords() string {
	if s.switched() {
		return "neutral switched"
	}
	return "neutral solid"
}

// poles counts what the switch opens.
func (w *work) poles(s *Source) int {
	poles := 1
	if w.split() {
		poles = 2
	}
	if s.switched() {
		poles++
	}
	return poles
}

// amps is the current of what meets the house; engineAmps that of its generator, which may stand behind an inverter.
func (s Source) amps() float64       { return 1000 * s.RatedKVA / s.Volts }
func (s Source) engineAmps() float64 { return 1000 * s.EngineKVA / s.EngineVolts }

// inlet is what a generator of so many amperes is plugged into the house through; ok is false where it is wired.
func (s Source) inlet(amps float64) (inlet profiles.Inlet, ok bool) {
	if s.EngineKVA == 0 || s.Fixed {
		return profiles.Inlet{}, false
	}
	return profiles.Transfers().FindInlet(s.EngineVolts, amps)
}

// breakerA is the rating that protects its wires in the panel: for an inverter above its continuous output by the rule's share, behind
// an inlet the inlet's.
func (w *work) breakerA(s *Source) float64 {
	if s.Inverter {
		return w.Code.NextRating(w.Code.Rule("inverter-wires").Value("share") * s.amps())
	}
	if inlet, ok := s.inlet(s.engineAmps()); ok {
		return inlet.Amps
	}
	return w.Code.NextRating(s.amps())
}

// A switchgear is what moves the circuits over by hand.
type switchgear struct {
	spaces int    // single-pole spaces of the circuits carried
	size   int    // the transfer panel that takes them, circuits; 0 where none does
	why    string // where none does
	hot    string // what an interlocked main would put 120 V on that bears none; empty where it may be used
}

// switchgear chooses it. A source of one leg in an interlocked panel is a source for every circuit of that panel, whatever their care:
// where no transfer panel takes the carried ones, it must not be built.
func (w *work) switchgear(s *Source) (move switchgear) {
	if w.Mode != home.Manual {
		return move
	}
	largest := Row{}
	for _, row := range w.Panel {
		if row.Backed {
			move.spaces += row.Poles
			if row.BreakerA > largest.BreakerA {
				largest = row
			}
		}
	}
	made := profiles.Transfers().Panels
	for _, size := range made.Circuits {
		if move.size == 0 && size >= move.spaces {
			move.size = size
		}
	}
	if behind := w.breakerA(s); largest.BreakerA > max(behind, made.BranchA) {
		move.size, move.why = 0, fmt.Sprintf("a branch of %s A, %s, is more than a transfer panel behind %s A takes", number(largest.BreakerA), largest.Circuit, number(behind))
	} else if move.size == 0 {
		move.why = fmt.Sprintf("%d single-pole spaces are more than a transfer panel takes", move.spaces)
	}
	tall, pairs := w.bothLegs(true)
	if names := append(tall, pairs...); s.singleLeg() && len(names) > 0 {
		rule := w.Code.Rule("single-supply")
		move.hot = service.Say(rule.Phrase("interlock"), "names", derive.Names(names, 4))
		if move.size == 0 {
			w.check(s, "transfer panel", Fail, move.why+"; and "+move.hot, rule.Source())
		}
	}
	return move
}

// addSwitch names what moves the circuits over.
func (w *work) addSwitch(s *Source, move switchgear) {
	rating := float64(w.home.House.ServiceAmps)
	neutral, poles, breaker := s.neutralWords(), w.poles(s), w.breakerA(s)
	switch {
	case w.Mode != home.Manual:
		w.addAutomatic(s, rating)
	case move.size > 0:
		w.ask(1, "transfer-panel", "size", move.size, "spaces", move.spaces, "breaker", breaker, "neutral", neutral, "poles", poles)
		switch {
		case s.switched():
		case move.hot != "":
			w.Equipment[len(w.Equipment)-1].Detail += "; " + move.hot
		default:
			w.ask(1, "interlock-instead")
		}
	case s.switched():
		w.ask(1, "manual-switch", "rating", asRated(rating), "poles", poles, "why", move.why)
		w.ask(1, "emergency-disconnect")
	default:
		w.ask(1, "interlock", "breaker", breaker, "why", move.why, "neutral", neutral)
	}
}

func (w *work) addAutomatic(s *Source, rating float64) {
	size := 0.0
	for _, amps := range profiles.Transfers().Switches.Amps {
		if size == 0 && rating > 0 && amps >= rating {
			size = amps
		}
	}
	w.ask(1, "automatic-switch", "rating", asRated(size), "poles", w.poles(s), "neutral", s.neutralWords())
	w.ask(1, "emergency-disconnect")
	if w.Mode != home.Managed {
		return
	}
	var managed []string // the rule counts on each of them being off, whatever its volts
	for _, row := range w.Panel {
		if !row.Backed || row.Care == string(home.Rotate) {
			managed = append(managed, row.Circuit)
		}
	}
	w.ask(max(1, len(managed)), "management", "names", cmp.Or(strings.Join(managed, ", "), "nothing of this file"))
}

// asRated is a rating in A, or that of the service where none is known.
func asRated(amps float64) string {
	if amps == 0 {
		return "rated as the service"
	}
	return number(amps) + " A"
}

// addInlet names the inlet of a generator that is plugged in, or says that it is wired.
func (w *work) addInlet(s *Source) {
	amps := s.engineAmps()
	if inlet, ok := s.inlet(amps); ok {
		w.add("inlet", "name", inlet.Name, "amps", inlet.Amps)
		w.add("cord", "name", inlet.Name, "wires", inlet.Wires)
		return
	}
	wires := w.Code.Rule("generator-wires")
	if !s.Fixed {
		wires = wires.Phrase("beyond")
	}
	w.list(1, wires, "amps", amps, "volts", s.EngineVolts)
}

func (w *work) addBonding(s *Source) {
	switch {
	case s.switched() && s.Fixed:
		w.ask(1, "bonding-derived")
	case s.switched():
		w.ask(1, "bonding-portable")
	default:
		w.ask(1, "bonding")
	}
}

func (w *work) addSigns(s *Source) {
	w.ask(1, "sign-service")
	if s.EngineKVA > 0 && !s.Fixed {
		if s.switched() {
			w.ask(1, "sign-bonded-inlet")
		} else {
			w.ask(1, "sign-floating-inlet")
		}
	}
	if s.singleLeg() {
		w.ask(1, "sign-single-supply")
	}
}

func (w *work) addSafety(s *Source) {
	if s.Engine {
		w.add("co-alarms")
		if s.Fixed {
			w.ask(1, "engine-shutdown")
		}
	}
	if s.GasKW > 0 {
		w.add("gas-connection")
	}
	if s.StoredKWh > 0 {
		w.add("battery-room", "distance", sheet.Distance(profiles.Transfers().Clearances.StorageFt))
		w.ask(1, "storage-disconnect")
		w.add("battery-alarm")
	}
}

// checkNeutral says how the neutral is kept to a single bond, and what that means for burners that prove their flame to
// earth.
func (w *work) checkNeutral(s *Source) {
	result, phrase := Pass, "floating"
	switch s.Neutral {
	case bonded:
		phrase = "bonded"
	case "":
		result, phrase = Needs, "unknown"
	}
	rule := w.Code.Rule("bonding").Phrase(phrase)
	w.check(s, "neutral", result, service.Say(rule, "name", s.Name), rule.Source())
}
