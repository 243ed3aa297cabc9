package profiles

import (
	"fmt"

	"gopkg.in/yaml.v3"
)

// Chemistry is what a kind of battery can do. Shares are 0..1 unless said otherwise.
type Chemistry struct {
	Entry[ChemistryName] `yaml:",inline"`

	DepthOfDischarge    float64 `yaml:"depth_of_discharge"`           // share of nameplate that may be used
	CapacityAtEndOfLife float64 `yaml:"capacity_share_end_of_life"`   // share left when the battery is retired
	Peukert             float64 `yaml:"peukert"`                      // exponent, 1 for none
	RatedHours          float64 `yaml:"rated_hours"`                  // the discharge time at which nameplate capacity holds, h
	DischargeMinC       float64 `yaml:"discharge_min_c"`              // °C
	DischargeMaxC       float64 `yaml:"discharge_max_c"`              // °C
	ChargeMinC          float64 `yaml:"charge_min_c"`                 // °C
	ChargeMaxC          float64 `yaml:"charge_max_c"`                 // °C
	DischargePerHour    float64 `yaml:"discharge_nameplate_per_hour"` // greatest continuous W as a share of nameplate Wh
	ChargePerHour       float64 `yaml:"charge_nameplate_per_hour"`    // greatest continuous W as a share of nameplate Wh
	RoundTripEfficiency float64 `yaml:"round_trip_efficiency"`        // Wh out over Wh in, battery alone
	LifeYears           float64 `yaml:"life_years"`                   // at rest at 25 °C
	CycleLife           float64 `yaml:"cycle_life"`                   // cycles to DepthOfDischarge
	NominalCellV        float64 `yaml:"nominal_cell_v"`               // V

	// CellSizeFactors is IEEE 485's table for lead-acid, rising in temperature and falling in factor: the capacity share
	// is 1/factor. Empty for other chemistries.
	CellSizeFactors []PointF `yaml:"cell_size_factors_f"`
	// CapacityShares is the share of the 25 °C capacity against temperature, rising. Empty for lead-acid.
	CapacityShares []PointC `yaml:"capacity_shares_c"`

	Price BatteryPrice `yaml:"price"`
}

// A BatteryPrice is what a battery of one chemistry costs.
type BatteryPrice struct {
	PerKWh        Band   `yaml:"per_kwh"`         // a module, per kWh of nameplate
	Fixed         Band   `yaml:"fixed"`           // once an installation: mounting, disconnect, labour
	UpkeepPerYear Band   `yaml:"upkeep_per_year"` // once an installation
	Source        string `yaml:"source"`
}

// PointF is a point of a table that its standard gives in Fahrenheit; written [77, 1.0].
type PointF struct {
	Fahrenheit float64
	Factor     float64
}

// PointC is a point of a table in Celsius; written [25, 1.0].
type PointC struct {
	Celsius float64
	Share   float64
}

// UnmarshalYAML reads a pair.
func (p *PointF) UnmarshalYAML(node *yaml.Node) (err error) {
	p.Fahrenheit, p.Factor, err = pair(node)
	return err
}

// UnmarshalYAML reads a pair.
func (p *PointC) UnmarshalYAML(node *yaml.Node) (err error) {
	p.Celsius, p.Share, err = pair(node)
	return err
}

func pair(node *yaml.Node) (float64, float64, error) {
	var numbers []float64
	if err := node.Decode(&numbers); err != nil {
		return 0, 0, err
	}
	if len(numbers) != 2 {
		return 0, 0, fmt.Errorf("line %d: a pair of numbers is wanted", node.Line)
	}
	return numbers[0], numbers[1], nil
}

var chemistries = registry[Chemistry](table[[]Chemistry]("chemistries.yaml"))

// Chemistries lists the kinds of battery.
func Chemistries() []Chemistry { return chemistries.all() }

// FindChemistry gives the kind of battery of that name.
func FindChemistry(name ChemistryName) (Chemistry, bool) { return chemistries.find(string(name)) }
