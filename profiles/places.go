package profiles

import (
	"cmp"
	"slices"
)

// StoragePlaces is how much stored energy a dwelling may usually have, by place.
type StoragePlaces struct {
	Source       string         `yaml:"source"`
	UnitLimitKWh float64        `yaml:"unit_limit_kwh"` // for one unit
	Places       []StoragePlace `yaml:"places"`
}

// A StoragePlace is one place with its limit.
type StoragePlace struct {
	Entry[PlaceName] `yaml:",inline"` // its source is that of the whole table

	LimitKWh float64 `yaml:"limit_kwh"`
}

var places = table[StoragePlaces]("places.yaml")

// Places gives the limits on stored energy.
func Places() StoragePlaces { return places() }

// Find gives the limit of a place by name.
func (p StoragePlaces) Find(name PlaceName) (StoragePlace, bool) {
	return find(p.Places, func(s StoragePlace) bool { return s.Name == name })
}

// Roomiest is the first of the places that may hold most.
func (p StoragePlaces) Roomiest() StoragePlace {
	return slices.MaxFunc(p.Places, func(a, b StoragePlace) int { return cmp.Compare(a.LimitKWh, b.LimitKWh) })
}
