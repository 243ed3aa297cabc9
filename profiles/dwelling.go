package profiles

// Steps is a load counted in steps: so much of it at one share, the rest at the next. The last has no end.
type Steps []struct {
	Name   string  `yaml:"name"` // of the step's own figure
	UpToVA float64 `yaml:"up_to_va"`
	Share  float64 `yaml:"share"` // 0 to 1
}

// Parts gives what each step contributes of a load of so many VA.
func (s Steps) Parts(va float64) []float64 {
	parts := make([]float64, len(s))
	from := 0.0
	for i, step := range s {
		to := va
		if step.UpToVA > 0 {
			to = min(va, step.UpToVA)
		}
		parts[i] = max(0, to-from) * step.Share
		from = max(from, to)
	}
	return parts
}

// DryerDemand is what several clothes dryers count together.
type DryerDemand struct {
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

// CookingLoad is what household cooking appliances count together.
type CookingLoad struct {
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
