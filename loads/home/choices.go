package home

import "holdover/profiles"

// The choices that a home file makes in words of our own. Those that it takes from a registry (a fuel, a chemistry, an engine, a
// place) have their types in [holdover/profiles].
type (
	Season         string // that an outage falls in
	TransferMode   string // how the circuits are moved over to their backup
	GeneratorLimit string // whether an engine may stand there at all
	Spot           string // where a water heater stands
	GearKind       string // what a unit is
	Wave           string // what a unit gives, and what a circuit needs
	Neutral        string // what a unit does with it
	Alternator     string // what makes a generator's wave
	Stand          string // how a unit stands
	Metal          string // of a wire
)

// Their words.
const (
	Winter Season = "winter"
	Summer Season = "summer"
	Mild   Season = "mild"

	Manual    TransferMode = "manual"
	Automatic TransferMode = "automatic"
	Managed   TransferMode = "managed" // by itself, with load management

	GeneratorAllowed GeneratorLimit     = "allowed"
	NoGenerator      GeneratorLimit     = "none"
	NoPlace          profiles.PlaceName = "none" // for a battery

	Indoors  Spot = "indoors"
	InGarage Spot = "garage"
	Outdoors Spot = "outdoors"

	UPS          GearKind = "ups"
	PowerStation GearKind = "power-station"
	Inverter     GearKind = "inverter"
	Battery      GearKind = "battery" // cells alone
	Set          GearKind = "set"     // an inverter with its battery
	Generator    GearKind = "generator"

	Sine    Wave = "sine"
	Stepped Wave = "stepped"
	Square  Wave = "square"
	AnyWave Wave = "any" // for a circuit that takes each of them

	Floating Neutral = "floating" // joined to nothing
	Bonded   Neutral = "bonded"   // joined to earth in the unit
	Passed   Neutral = "passed"   // the house's own passes through

	Wound      Alternator = "wound"
	Electronic Alternator = "inverter"

	Portable Stand = "portable"
	Fixed    Stand = "fixed" // built in

	Copper    Metal = "copper"
	Aluminium Metal = "aluminium"
	aluminum  Metal = "aluminum" // read as aluminium
)
