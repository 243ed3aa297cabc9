package profiles

import "slices"

// Conductor is one size of wire. A zero means that the table has no value.
type Conductor struct {
	Size            string  `yaml:"size"`           // "14", "1/0", "250" (kcmil from 250 up)
	CircularMils    float64 `yaml:"circular_mils"`  // NEC Chapter 9 Table 8
	Copper60A       float64 `yaml:"copper_60_a"`    // NEC Table 310.16, A at 30 °C, three current-carrying conductors
	Copper75A       float64 `yaml:"copper_75_a"`    //
	Copper90A       float64 `yaml:"copper_90_a"`    //
	Aluminium60A    float64 `yaml:"aluminium_60_a"` //
	Aluminium75A    float64 `yaml:"aluminium_75_a"` //
	Aluminium90A    float64 `yaml:"aluminium_90_a"` //
	CopperOhmKft    float64 `yaml:"copper_ohm_kft"` // NEC Chapter 9 Table 8: DC Ω per 1000 ft at 75 °C, stranded, uncoated
	AluminiumOhmKft float64 `yaml:"aluminium_ohm_kft"`
	CopperLimitA    float64 `yaml:"copper_limit_a"`    // NEC 240.4(D): greatest breaker for small wire
	AluminiumLimitA float64 `yaml:"aluminium_limit_a"` //
}

// AmbientCorrection is a row of NEC Table 310.15(B)(1)(1), base 30 °C: factors on the ampacity for insulation of 60, 75
// and 90 °C where the surroundings are above FromC and up to ToC. A zero forbids.
type AmbientCorrection struct {
	FromC    float64 `yaml:"from_c"`
	ToC      float64 `yaml:"to_c"`
	Factor60 float64 `yaml:"factor_60"`
	Factor75 float64 `yaml:"factor_75"`
	Factor90 float64 `yaml:"factor_90"`
}

// DwellingService is a row of NEC Table 310.12: the least wire of a service or main feeder that carries a dwelling's
// whole load.
type DwellingService struct {
	RatingA   float64 `yaml:"rating_a"`
	Copper    string  `yaml:"copper"`
	Aluminium string  `yaml:"aluminium"`
}

// Ground is a row of NEC Table 250.122: the least equipment grounding wire behind a breaker of up to DeviceA.
type Ground struct {
	DeviceA   float64 `yaml:"device_a"`
	Copper    string  `yaml:"copper"`
	Aluminium string  `yaml:"aluminium"`
}

// supplyBondRow is a row of NEC Table 250.102(C)(1).
type supplyBondRow struct {
	CopperMils    float64 `yaml:"copper_mils"`
	AluminiumMils float64 `yaml:"aluminium_mils"`
	Copper        string  `yaml:"copper"`
	Aluminium     string  `yaml:"aluminium"`
}

type conductorTables struct {
	Source     string                     `yaml:"source"`
	Conductors []Conductor                `yaml:"conductors"`
	Ambient    sourced[AmbientCorrection] `yaml:"ambient"`
	Services   sourced[DwellingService]   `yaml:"dwelling_services"`
	Grounds    sourced[Ground]            `yaml:"grounds"`
	Bonds      sourced[supplyBondRow]     `yaml:"supply_bonds"`
}

// sourced is a table with its source.
type sourced[T any] struct {
	Source string `yaml:"source"`
	Rows   []T    `yaml:"rows"`
}

var conductors = table[conductorTables]("conductors.yaml")

// Conductors lists wire sizes from the smallest up.
func Conductors() []Conductor { return slices.Clone(conductors().Conductors) }

// FindConductor gives the wire of that size.
func FindConductor(size string) (Conductor, bool) {
	return find(conductors().Conductors, func(c Conductor) bool { return c.Size == size })
}

// AmbientCorrections lists the correction factors from cold to hot. The first row holds for anything colder, too.
func AmbientCorrections() []AmbientCorrection { return slices.Clone(conductors().Ambient.Rows) }

// DwellingServices lists the wires of dwelling services by rising rating.
func DwellingServices() []DwellingService { return slices.Clone(conductors().Services.Rows) }

// Grounds lists the equipment grounding wires by rising rating.
func Grounds() []Ground { return slices.Clone(conductors().Grounds.Rows) }

// SupplyBond gives the supply-side bonding jumper of a service, of the same metal as its phase wires of so many circular
// mils: NEC Table 250.102(C)(1). Empty beyond the table.
func SupplyBond(circularMils float64, aluminium bool) string {
	for _, row := range conductors().Bonds.Rows {
		switch {
		case aluminium && circularMils <= row.AluminiumMils:
			return row.Aluminium
		case !aluminium && circularMils <= row.CopperMils:
			return row.Copper
		}
	}
	return ""
}
