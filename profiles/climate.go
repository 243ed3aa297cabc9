package profiles

type climate struct {
	HourlyRange struct {
		Source    string      `yaml:"source"`
		Fractions [24]float64 `yaml:"fractions"`
	} `yaml:"hourly_range"`
	SunHours struct {
		Source    string      `yaml:"source"`
		Fractions [24]float64 `yaml:"fractions"`
	} `yaml:"sun_hours"`
}

var climateTables = table[climate]("climate.yaml")

// HourlyRangeFractions gives, for each clock hour 0 to 23, how far the outdoor temperature of a design day stands below
// its maximum, as a share (0..1) of the daily range: ASHRAE Handbook, Fundamentals. Hour 0 is the table's hour 24.
func HourlyRangeFractions() [24]float64 { return climateTables().HourlyRange.Fractions }

// SunHourFractions gives the share of a day's solar energy in each clock hour, where a home does not say.
func SunHourFractions() [24]float64 { return climateTables().SunHours.Fractions }
