package profiles

import "slices"

// Warmth is how warm a house must stay and how long houses do.
type Warmth struct {
	Levels        []WarmthLevel `yaml:"levels"` // falling
	FrostWait     FrostWaiting  `yaml:"frost_wait"`
	HoursOfSafety struct {
		Source string        `yaml:"source"`
		Houses []SafetyHours `yaml:"houses"`
	} `yaml:"hours_of_safety"`
}

// A WarmthLevel is an indoor temperature at which something changes.
type WarmthLevel struct {
	C      float64 `yaml:"c"` // °C
	Means  string  `yaml:"means"`
	Source string  `yaml:"source"`
}

// FrostWaiting is how long a water heater may be without supply in frost, h.
type FrostWaiting struct {
	H      float64 `yaml:"h"`
	Source string  `yaml:"source"`
}

// SafetyHours is how long a kind of house takes to fall to 40 F, h.
type SafetyHours struct {
	Title string  `yaml:"title"`
	Hours float64 `yaml:"h"`
}

var warmth = table[Warmth]("warmth.yaml")

// WarmthLevels lists the indoor temperatures that matter, falling.
func WarmthLevels() []WarmthLevel { return slices.Clone(warmth().Levels) }

// FrostWait gives it.
func FrostWait() FrostWaiting { return warmth().FrostWait }

// HoursOfSafety lists how long kinds of house stay above 40 F, and the source.
func HoursOfSafety() ([]SafetyHours, string) {
	table := warmth().HoursOfSafety
	return slices.Clone(table.Houses), table.Source
}
