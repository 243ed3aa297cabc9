package transfer

import (
	"fmt"
	"strings"

	"holdover/loads/home"
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
	floating = string(home.Floating)
	bonded   = string(home.Bonded)
)

const (
	listedTransfer = "NEC 702.5, 2020 edition, from memory"
	bonding        = "NEC 250.30 and 250.34, 2020 edition, from memory"
)

func (w *work) item(quantity int, item, detail, source string) {
	if !w.US {
		source = localRules
	}
	w.Equipment = append(w.Equipment, Item{quantity, item, detail, source})
}

// addEquipment writes the bill of materials for the source that the job is for.
func (w *work) addEquipment() {
	s := w.Source
	if s == nil || len(w.demand.Loads) == 0 {
		return
	}
	if !w.US {
		w.item(1, "Transfer equipment", "both supplies interlocked, so that they can never be joined; conductors switched as the local rules say", "")
		w.item(1, "Earthing of the stand-alone source", "neutral joined to earth at one point while it stands alone, so that protection works; where, the local rules say", "")
		w.addSafety(s)
		return
	}
	w.checkNeutral(s)
	w.addSwitch(s)
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
	if w.home.House.Service == home.SplitPhase {
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

// breakerA is the standard rating that protects its wires: for an inverter above 125 % of its continuous output.
func (s Source) breakerA() float64 {
	if s.Inverter {
		return nextStandard(1.25 * s.amps())
	}
	return nextStandard(s.amps())
}

// addSwitch names what moves the circuits over.
func (w *work) addSwitch(s *Source) {
	rating := float64(w.home.House.ServiceAmps)
	if w.Mode != Manual {
		w.addAutomatic(s, rating)
		return
	}
	spaces := 0
	for _, row := range w.Panel {
		if row.Backed {
			spaces += row.Poles
		}
	}
	panels := profiles.Transfers().Panels
	for _, size := range panels.Circuits {
		if size < spaces {
			continue
		}
		w.item(1, fmt.Sprintf("Manual transfer panel, %d circuits", size), fmt.Sprintf("for %d single-pole spaces; source breaker %s A; %s (%d-pole)", spaces, number(s.breakerA()), s.neutralWords(), w.poles(s)), listedTransfer)
		if !s.switched() {
			w.item(1, "Or: interlocked main", "a kit listed for this very panel; any circuit can then be chosen by hand", listedTransfer)
		}
		return
	}
	if s.switched() {
		w.item(1, fmt.Sprintf("Manual transfer switch, %s, %d-pole", asRated(rating), w.poles(s)), "service-rated, neutral switched; too many circuits for a transfer panel, and an interlocked main cannot switch the neutral", listedTransfer)
		return
	}
	w.item(1, "Interlocked main", fmt.Sprintf("a listed kit for this very panel, source breaker %s A; %d single-pole spaces are more than a transfer panel takes; %s", number(s.breakerA()), spaces, s.neutralWords()), listedTransfer)
}

func (w *work) addAutomatic(s *Source, rating float64) {
	made := profiles.Transfers().Switches
	size := 0.0
	for _, amps := range made.Amps {
		if size == 0 && rating > 0 && amps >= rating {
			size = amps
		}
	}
	w.item(1, fmt.Sprintf("Automatic transfer switch, %s, %d-pole", asRated(size), w.poles(s)), "service-rated, "+s.neutralWords(), "NEC 702.5 and 230.82, 2020 edition, from memory")
	if w.Mode != Managed {
		return
	}
	var managed []string // the rule counts on each of them being off, whatever its volts
	for _, row := range w.Panel {
		if !row.Backed || row.Care == string(home.Rotate) {
			managed = append(managed, row.Circuit)
		}
	}
	w.item(max(1, len(managed)), "Load management relay or controlled breaker", "keeps off what the source cannot carry: "+orWord(strings.Join(managed, ", "), "nothing of this file")+
		"; and any circuit of the panel that this file does not list", "NEC 702.4 and 750.30, 2020 edition, from memory")
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
	t := profiles.Transfers()
	amps := s.engineAmps()
	if s.Fixed {
		w.item(1, "Fixed wiring to the generator", fmt.Sprintf("%s A at %.0f V; see the conductor table", number(amps), s.EngineVolts), "NEC 445.13, 2020 edition, from memory")
		return
	}
	inlet, ok := t.FindInlet(s.EngineVolts, amps)
	if !ok {
		w.item(1, "Fixed wiring to the generator", fmt.Sprintf("%s A are more than an inlet takes", number(amps)), t.Inlets.Source)
		return
	}
	w.item(1, fmt.Sprintf("Power inlet, %s, %s A", inlet.Name, number(inlet.Amps)), "weatherproof, outside, in sight of the generator", t.Inlets.Source)
	w.item(1, fmt.Sprintf("Cord set, %s, %d-wire", inlet.Name, inlet.Wires), "outdoor, hard service", t.Inlets.Source)
}

func (w *work) addBonding(s *Source) {
	switch {
	case s.switched() && s.Fixed:
		w.item(1, "Bond and grounding electrode at the source", "it is a separately derived system: neutral joined to ground there, and nowhere else on its side", bonding)
	case s.switched():
		w.item(1, "Bond at the source, as delivered", "plugged in and with its grounding wire to the frame it needs no electrode of its own", bonding)
	default:
		w.item(1, "No bond at the source", "neutral and ground are joined at the service alone", bonding)
	}
}

func (w *work) addSigns(s *Source) {
	signs := profiles.Transfers()
	places := []string{"service"}
	if s.EngineKVA > 0 && !s.Fixed {
		places = append(places, map[bool]string{true: "bonded-inlet", false: "floating-inlet"}[s.switched()])
	}
	if s.singleLeg() {
		places = append(places, "single-120")
	}
	for _, place := range places {
		if sign, ok := signs.FindSign(place); ok {
			w.item(1, "Sign", sign.Text, sign.Source)
		}
	}
}

func (w *work) addSafety(s *Source) {
	if s.Engine {
		w.item(1, "Carbon monoxide alarms", "battery backup, each floor and sleeping area", profiles.Transfers().Clearances.ExhaustSource)
		if s.Fixed {
			w.item(1, "Emergency shutdown outside", "for the engine, within sight or marked", "NEC 445.18 and 445.19, 2020 edition, from memory")
		}
	}
	if s.GasKW > 0 {
		w.item(1, "Gas connection", "shut-off valve, union, sediment trap, regulator and flexible connector", "NFPA 54, 2021 edition, from memory")
	}
	if s.StoredKWh > 0 {
		c := profiles.Transfers().Clearances
		w.item(1, "Room around the battery", fmt.Sprintf("%s between units, outside %s from doors and windows, unless its listing allows less", distance(c.StorageFt), distance(c.StorageFt)), c.StorageSource)
		w.item(1, "Disconnect of stored energy", "in sight, shutdown outside", "NEC 706.15, 2020 edition, UL 9540, from memory")
		w.item(1, "Smoke or heat alarm by the battery", "joined with the others", profiles.Transfers().Clearances.StorageSource)
	}
}

// checkNeutral says how the neutral is kept to a single bond, and what that means for burners that prove their flame to
// earth.
func (w *work) checkNeutral(s *Source) {
	switch s.Neutral {
	case bonded:
		w.check("neutral", Pass, s.Name+" joins neutral and frame: its neutral is switched, so that no current returns beside it", bonding)
	case "":
		w.check("neutral", Needs, "it is not known whether "+s.Name+" joins neutral and frame; its maker's papers say", bonding)
	default:
		w.check("neutral", Pass, s.Name+" leaves the neutral floating or passes it through: it stays solid, joined to ground at the service alone, which burners' flame sensing needs too", bonding)
	}
}
