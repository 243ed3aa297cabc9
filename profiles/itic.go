package profiles

import (
	"slices"

	"gopkg.in/yaml.v3"
)

// ITIC is the voltage tolerance curve of electronic equipment, in steps from the shortest event to the steady state.
type ITIC struct {
	Source  string         `yaml:"source"`
	Lowest  []VoltageEvent `yaml:"lowest"`
	Highest []VoltageEvent `yaml:"highest"`
}

// A VoltageEvent is one step of the curve: for up to so many seconds the voltage may be at this share of nominal.
type VoltageEvent struct {
	Seconds float64 // +Inf for the steady state
	Share   float64 // of nominal
}

// UnmarshalYAML reads a pair.
func (e *VoltageEvent) UnmarshalYAML(node *yaml.Node) (err error) {
	e.Seconds, e.Share, err = pair(node)
	return err
}

var itic = table[ITIC]("itic.yaml")

// VoltageTolerance gives the curve.
func VoltageTolerance() ITIC {
	curve := itic()
	curve.Lowest, curve.Highest = slices.Clone(curve.Lowest), slices.Clone(curve.Highest)
	return curve
}

// Tolerates says whether a voltage, as a share of nominal, that lasts so many seconds lies within the curve. The edges are
// within it.
func (c ITIC) Tolerates(share, seconds float64) bool {
	return share >= c.at(c.Lowest, seconds) && share <= c.at(c.Highest, seconds)
}

// Ride is how long, in seconds, a voltage that low is ridden through; +Inf for one that may stay.
func (c ITIC) Ride(share float64) float64 {
	longest := 0.0
	for _, e := range c.Lowest {
		if share >= e.Share {
			longest = e.Seconds
		}
	}
	return longest
}

func (c ITIC) at(steps []VoltageEvent, seconds float64) float64 {
	for _, e := range steps {
		if seconds <= e.Seconds {
			return e.Share
		}
	}
	return steps[len(steps)-1].Share
}
