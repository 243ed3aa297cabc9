package profiles

import "slices"

// Food is how long food keeps without supply, in hours, the doors kept shut.
type Food struct {
	Source           string   `yaml:"source"`
	RefrigeratorH    float64  `yaml:"refrigerator_h"`
	FreezerHalfFullH float64  `yaml:"freezer_half_full_h"`
	FreezerFullH     float64  `yaml:"freezer_full_h"`
	Refrigerators    []string `yaml:"refrigerators"` // names of circuit profiles
	Freezers         []string `yaml:"freezers"`      // names of circuit profiles
}

var food = table[Food]("food.yaml")

// FoodTimes gives them. The slices inside are shared and must be read only.
func FoodTimes() Food { return food() }

// Refrigerates says whether a circuit profile is a refrigerator's.
func (f Food) Refrigerates(profile string) bool { return slices.Contains(f.Refrigerators, profile) }

// Freezes says whether a circuit profile is a freezer's.
func (f Food) Freezes(profile string) bool { return slices.Contains(f.Freezers, profile) }
