package profiles

// A Conductor is one size of wire.
type Conductor struct {
	Size         string  `yaml:"size"` // "14", "1/0", "250" (kcmil from 250 up)
	CircularMils float64 `yaml:"circular_mils"`
	Copper       Metal   `yaml:"copper"`
	Aluminium    Metal   `yaml:"aluminium"`
}

// A Metal is what a wire of one metal carries. A zero means that the table has no value.
type Metal struct {
	Amps   map[float64]float64 `yaml:"amps"`    // A at 30 °C, three current-carrying conductors, by the temperature in °C: 60, 75 or 90
	OhmKft float64             `yaml:"ohm_kft"` // DC Ω per 1000 ft at 75 °C, stranded, uncoated
	LimitA float64             `yaml:"limit_a"` // greatest breaker for small wire
}

// Of is the wire of copper or of aluminium.
func (c Conductor) Of(aluminium bool) Metal {
	if aluminium {
		return c.Aluminium
	}
	return c.Copper
}

// AmbientCorrection is a row of the factors on the ampacity where the surroundings are above FromC and up to ToC, by the temperature
// of the insulation, 60, 75 or 90 °C. A zero forbids.
type AmbientCorrection struct {
	FromC   float64             `yaml:"from_c"`
	ToC     float64             `yaml:"to_c"`
	Factors map[float64]float64 `yaml:"factors"`
}

// DwellingService is the least wire of a service or main feeder that carries a dwelling's whole load.
type DwellingService struct {
	RatingA   float64 `yaml:"rating_a"`
	Copper    string  `yaml:"copper"`
	Aluminium string  `yaml:"aluminium"`
}

// Ground is the least equipment grounding wire behind a breaker of up to DeviceA.
type Ground struct {
	DeviceA   float64 `yaml:"device_a"`
	Copper    string  `yaml:"copper"`
	Aluminium string  `yaml:"aluminium"`
}

// A SupplyBond is the supply-side bonding jumper of a service with phase wires of up to so many circular mils.
type SupplyBond struct {
	CopperMils    float64 `yaml:"copper_mils"`
	AluminiumMils float64 `yaml:"aluminium_mils"`
	Copper        string  `yaml:"copper"`
	Aluminium     string  `yaml:"aluminium"`
}

// Wire is the tables of wire sizes of a code.
type Wire struct {
	Conductors []Conductor         `yaml:"conductors"`        // from the smallest up
	Ambient    []AmbientCorrection `yaml:"ambient"`           // from cold to hot; the first row holds for anything colder, too
	Services   []DwellingService   `yaml:"dwelling_services"` // by rising rating
	Bonds      []SupplyBond        `yaml:"supply_bonds"`
	Grounds    []Ground            `yaml:"grounds"` // by rising rating
}

// Find gives the wire of a size.
func (w Wire) Find(size string) (Conductor, bool) {
	return find(w.Conductors, func(c Conductor) bool { return c.Size == size })
}

// SupplyBond gives the supply-side bonding jumper of a service, of the same metal as its phase wires of so many circular mils. Empty
// beyond the table.
func (w Wire) SupplyBond(circularMils float64, aluminium bool) string {
	for _, row := range w.Bonds {
		switch {
		case aluminium && circularMils <= row.AluminiumMils:
			return row.Aluminium
		case !aluminium && circularMils <= row.CopperMils:
			return row.Copper
		}
	}
	return ""
}
