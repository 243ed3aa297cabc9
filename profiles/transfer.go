package profiles

// Transfer is what stands between a house and its backup: sizes made, distances, things.
type Transfer struct {
	Inlets struct {
		Source string  `yaml:"source"`
		Rows   []Inlet `yaml:"rows"` // rising amps within a voltage
	} `yaml:"inlets"`
	Panels struct {
		Source   string  `yaml:"source"`
		Circuits []int   `yaml:"circuits"`
		BranchA  float64 `yaml:"branch_a"` // the largest branch that any takes; a larger one only up to the breaker of the source
	} `yaml:"panels"`
	Switches struct {
		Source string    `yaml:"source"`
		Amps   []float64 `yaml:"amps"`
	} `yaml:"switches"`
	SingleLeg struct {
		Source  string  `yaml:"source"`
		BelowKW float64 `yaml:"below_kw"`
	} `yaml:"single_leg"`
	Clearances Clearances `yaml:"clearances"`
	Items      []Rule     `yaml:"items"`
}

// Clearances are the distances to keep, ft.
type Clearances struct {
	ExhaustFt     float64 `yaml:"exhaust_ft"`
	ExhaustSource string  `yaml:"exhaust_source"`
	FixedFt       float64 `yaml:"fixed_ft"`
	FixedSource   string  `yaml:"fixed_source"`
	StorageFt     float64 `yaml:"storage_ft"`
	StorageSource string  `yaml:"storage_source"`
}

// A Clearance is one distance to keep.
type Clearance struct {
	Feet        float64
	Why, Source string
}

// Of is the distance of an engine from every opening: a fixed one from what burns, a portable one for its exhaust.
func (c Clearances) Of(fixed bool) Clearance {
	if fixed {
		return Clearance{c.FixedFt, "for a fixed machine; 20 ft, as advised for portable ones, is better", c.FixedSource}
	}
	return Clearance{c.ExhaustFt, "for its exhaust", c.ExhaustSource}
}

// An Inlet is a plug configuration that a house can be fed through.
type Inlet struct {
	Name  string  `yaml:"name"`
	Volts float64 `yaml:"volts"` // 240 stands for 120/240 V
	Amps  float64 `yaml:"amps"`
	Wires int     `yaml:"wires"`
}

var transfer = table[Transfer]("transfer.yaml")

// Transfers gives what stands between a house and its backup.
func Transfers() Transfer { return transfer() }

// FindInlet gives the smallest inlet of 120 V or of 120/240 V that carries a current.
func (t Transfer) FindInlet(volts, amps float64) (Inlet, bool) {
	return find(t.Inlets.Rows, func(i Inlet) bool { return i.Volts == volts && i.Amps >= amps-1e-9 })
}

// FindItem gives a thing that a job may need whatever the wiring code says.
func (t Transfer) FindItem(id string) (Rule, bool) {
	return find(t.Items, func(r Rule) bool { return r.ID == id })
}
