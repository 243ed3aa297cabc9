package profiles

import "slices"

// Pipes are the gas pipe tables.
type Pipes struct {
	Sizes  []string    `yaml:"sizes"` // in, as the columns of every table
	Tables []PipeTable `yaml:"tables"`
	Source string      `yaml:"source"` // of what is asked of gas piping beside the tables
}

// A PipeTable is what pipe of one material carries of one gas. It holds for a supply pressure of FromInWC up to below
// BelowInWC, in inches of water column.
type PipeTable struct {
	Entry[string] `yaml:",inline"`

	Material  string      `yaml:"material"`
	Unit      string      `yaml:"unit"` // of the capacities: ft3/h or kBtu/h
	DropInWC  float64     `yaml:"drop_in_wc"`
	FromInWC  float64     `yaml:"from_in_wc"`
	BelowInWC float64     `yaml:"below_in_wc"`
	Rows      [][]float64 `yaml:"rows"` // length ft, then the capacity of each size
}

// Row is the row for a length, ft: the first that is not shorter. ok is false beyond the last.
func (t PipeTable) Row(lengthFt float64) (row []float64, ok bool) {
	return find(t.Rows, func(row []float64) bool { return row[0] >= lengthFt-1e-9 })
}

// Find gives the table of a gas for a material and a supply pressure, in of water.
func (p Pipes) Find(gas Fuel, material string, inWC float64) (PipeTable, bool) {
	return find(p.Tables, func(t PipeTable) bool {
		return slices.Contains(gas.Pipes, t.Name) && t.Material == material && inWC >= t.FromInWC && inWC < t.BelowInWC
	})
}

// A Cylinder is what a cylinder of gas gives as vapour, Btu/h, by what is left in it and the outdoor temperature.
type Cylinder struct {
	Left          float64     `yaml:"left"` // share that is left when it matters, where nobody says
	Title         string      `yaml:"title"`
	FullLb        float64     `yaml:"full_lb"`
	Source        string      `yaml:"source"`
	TemperaturesF []float64   `yaml:"temperatures_f"` // rising
	Rows          [][]float64 `yaml:"rows"`           // lb left, falling, then Btu/h at each temperature
}

// DrawBtuH is the draw it keeps up: of the row that is not fuller, between the temperatures of the table by straight
// lines. ok is false below the coldest of them and for less than the last row, where the table says nothing.
func (c Cylinder) DrawBtuH(leftLb, atF float64) (btuH float64, ok bool) {
	row, found := find(c.Rows, func(row []float64) bool { return row[0] <= leftLb+1e-9 })
	if !found || atF < c.TemperaturesF[0] {
		return 0, false
	}
	draws := row[1:]
	i, exact := slices.BinarySearch(c.TemperaturesF, atF)
	switch {
	case exact:
		return draws[i], true
	case i == len(c.TemperaturesF):
		return draws[i-1], true
	}
	share := (atF - c.TemperaturesF[i-1]) / (c.TemperaturesF[i] - c.TemperaturesF[i-1])
	return draws[i-1] + share*(draws[i]-draws[i-1]), true
}

var pipes = table[Pipes]("pipes.yaml")

// PipeTables gives the gas pipe tables.
func PipeTables() Pipes { return pipes() }
