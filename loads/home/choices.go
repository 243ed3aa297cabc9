package home

import "holdover/profiles"

// This file holds the choices that a home file makes in words of our own. Those that it takes from a registry (a fuel, a chemistry, an
// engine, a place) have their types in [holdover/profiles].

// A Season is the one that an outage falls in.
type Season string

// The seasons.
const (
	Winter Season = "winter"
	Summer Season = "summer"
	Mild   Season = "mild"
)

// A TransferMode is how the circuits are moved over to their backup.
type TransferMode string

// The ways.
const (
	Manual    TransferMode = "manual"
	Automatic TransferMode = "automatic"
	Managed   TransferMode = "managed" // by itself, with load management
)

// A GeneratorLimit says whether an engine may stand there at all.
type GeneratorLimit string

// Both answers.
const (
	GeneratorAllowed GeneratorLimit = "allowed"
	NoGenerator      GeneratorLimit = "none"
)

// NoPlace is where no battery may stand.
const NoPlace profiles.PlaceName = "none"

// A Spot is where a water heater stands.
type Spot string

// The spots.
const (
	Indoors  Spot = "indoors"
	InGarage Spot = "garage"
	Outdoors Spot = "outdoors"
)

// A GearKind is what a unit is.
type GearKind string

// The kinds.
const (
	UPS          GearKind = "ups"
	PowerStation GearKind = "power-station"
	Inverter     GearKind = "inverter"
	Battery      GearKind = "battery" // cells alone
	Set          GearKind = "set"     // an inverter with its battery
	Generator    GearKind = "generator"
)

// A Wave is the shape of a voltage: what a unit gives, and what a circuit needs.
type Wave string

// The waves, and AnyWave for a circuit that takes each of them.
const (
	Sine    Wave = "sine"
	Stepped Wave = "stepped"
	Square  Wave = "square"
	AnyWave Wave = "any"
)

// A Neutral is what a unit does with it.
type Neutral string

// What it does.
const (
	Floating Neutral = "floating" // joined to nothing
	Bonded   Neutral = "bonded"   // joined to earth in the unit
	Passed   Neutral = "passed"   // the house's own passes through
)

// An Alternator is what makes a generator's wave.
type Alternator string

// The kinds of it.
const (
	Wound      Alternator = "wound"
	Electronic Alternator = "inverter"
)

// A Stand is how a unit stands.
type Stand string

// The ways to stand.
const (
	Portable Stand = "portable"
	Fixed    Stand = "fixed" // built in
)

// A Metal is that of a wire.
type Metal string

// The metals.
const (
	Copper    Metal = "copper"
	Aluminium Metal = "aluminium"
	aluminum  Metal = "aluminum" // read as aluminium
)
