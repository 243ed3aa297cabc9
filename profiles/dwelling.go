package profiles

// A DwellingLoad is how the calculated load of a dwelling is reckoned: NEC Article 220. Shares are 0..1.
type DwellingLoad struct {
	UnitLoad struct {
		Source   string  `yaml:"source"`
		VAPerFt2 float64 `yaml:"va_per_ft2"` // general lighting and receptacles
	} `yaml:"unit_load"`
	Circuits struct {
		Source string  `yaml:"source"`
		VAEach float64 `yaml:"va_each"` // small-appliance and laundry circuits
	} `yaml:"circuits"`
	General  DemandSteps `yaml:"general"`
	Fastened struct {
		Source      string  `yaml:"source"`
		LeastNumber int     `yaml:"least_number"`
		LeastVA     float64 `yaml:"least_va"`
		Share       float64 `yaml:"share"`
	} `yaml:"fastened"`
	Heating struct {
		Source string `yaml:"source"`
	} `yaml:"heating"`
	Motors struct {
		Source       string  `yaml:"source"`
		LargestShare float64 `yaml:"largest_share"`
	} `yaml:"motors"`
	Dryers  DryerDemand `yaml:"dryers"`
	Cooking CookingLoad `yaml:"cooking"`
	Neutral struct {
		Source       string  `yaml:"source"`
		CookingShare float64 `yaml:"cooking_share"`
		DryerShare   float64 `yaml:"dryer_share"`
		AboveA       float64 `yaml:"above_a"` // A; what is above counts by AboveShare
		AboveShare   float64 `yaml:"above_share"`
	} `yaml:"neutral"`
	Optional struct {
		DemandSteps       `yaml:",inline"`
		LeastServiceA     float64 `yaml:"least_service_a"`
		CoolingShare      float64 `yaml:"cooling_share"`
		HeatPumpShare     float64 `yaml:"heat_pump_share"`
		SupplementalShare float64 `yaml:"supplemental_share"`
		HeatFewShare      float64 `yaml:"heat_few_share"`
		HeatManyShare     float64 `yaml:"heat_many_share"`
		Many              int     `yaml:"many"` // separately controlled heaters from which they are many
	} `yaml:"optional"`
	Existing struct {
		DemandSteps `yaml:",inline"`
		Many        int `yaml:"many"`
	} `yaml:"existing"`
	Measured struct {
		Source string  `yaml:"source"`
		Share  float64 `yaml:"share"`
	} `yaml:"measured"`
	Rounding struct {
		Source string `yaml:"source"`
	} `yaml:"rounding"`
	Service struct {
		Source     string  `yaml:"source"`
		OneFamilyA float64 `yaml:"one_family_a"`
		OtherA     float64 `yaml:"other_a"`
	} `yaml:"service"`
}

// DemandSteps is a load counted in steps: so much of it at one share, the rest at the next. The last has no end.
type DemandSteps struct {
	Source string `yaml:"source"`
	Steps  []struct {
		UpToVA float64 `yaml:"up_to_va"`
		Share  float64 `yaml:"share"`
	} `yaml:"steps"`
}

// Parts gives what each step contributes of a load of so many VA.
func (s DemandSteps) Parts(va float64) []float64 {
	parts := make([]float64, len(s.Steps))
	from := 0.0
	for i, step := range s.Steps {
		to := va
		if step.UpToVA > 0 {
			to = min(va, step.UpToVA)
		}
		parts[i] = max(0, to-from) * step.Share
		from = max(from, to)
	}
	return parts
}

// DryerDemand is NEC Table 220.54.
type DryerDemand struct {
	Source  string    `yaml:"source"`
	LeastVA float64   `yaml:"least_va"` // each counts as much at least
	Shares  []float64 `yaml:"shares"`   // of 1, 2, …
	Bands   []struct {
		From     int     `yaml:"from"`
		To       int     `yaml:"to"` // 0: no end
		At       float64 `yaml:"at"`
		PerDryer float64 `yaml:"per_dryer"`
		Beyond   int     `yaml:"beyond"`
	} `yaml:"bands"`
}

// Share is the demand factor of so many dryers, 1 or more.
func (d DryerDemand) Share(number int) float64 {
	if number <= len(d.Shares) {
		return d.Shares[number-1]
	}
	for _, b := range d.Bands {
		if number >= b.From && (b.To == 0 || number <= b.To) {
			return b.At - b.PerDryer*float64(number-b.Beyond)
		}
	}
	return 1
}

// CookingLoad is NEC Table 220.55.
type CookingLoad struct {
	Source        string       `yaml:"source"`
	LeastKW       float64      `yaml:"least_kw"`
	ColumnBFromKW float64      `yaml:"column_b_from_kw"`
	ColumnBToKW   float64      `yaml:"column_b_to_kw"`
	ColumnCToKW   float64      `yaml:"column_c_to_kw"`
	MostKW        float64      `yaml:"most_kw"`
	PerKWShare    float64      `yaml:"per_kw_share"` // notes 1 and 2: more for each kW above ColumnCToKW
	Rows          []CookingRow `yaml:"rows"`
}

// A CookingRow is a row of it, for From to To appliances; To 0 has no end.
type CookingRow struct {
	From    int     `yaml:"from"`
	To      int     `yaml:"to"`
	A       float64 `yaml:"a"`
	B       float64 `yaml:"b"`
	CKW     float64 `yaml:"c_kw"`
	CKWEach float64 `yaml:"c_kw_each"`
}

// Row is the row for so many appliances, 1 or more.
func (c CookingLoad) Row(number int) CookingRow {
	row, ok := find(c.Rows, func(r CookingRow) bool { return number >= r.From && (r.To == 0 || number <= r.To) })
	if !ok {
		panic("profiles: no row of the cooking table for that number")
	}
	return row
}

// ColumnCKW is column C of the row: the demand of so many appliances of ColumnCToKW or less, kW.
func (r CookingRow) ColumnCKW(number int) float64 { return r.CKW + r.CKWEach*float64(number) }

var dwelling = table[DwellingLoad]("dwelling.yaml")

// DwellingLoads gives the rules of the calculated load.
func DwellingLoads() DwellingLoad { return dwelling() }
