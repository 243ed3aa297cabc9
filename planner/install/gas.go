package install

import (
	"cmp"
	"fmt"
	"slices"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/sheet"
	"holdover/profiles"
)

// A GasLine is one supply of gas held to what hangs on it.
type GasLine struct {
	Source   string  `json:"source"` // of power, that burns it
	What     string  `json:"what"`   // pipe, meter or cylinders
	Demand   float64 `json:"demand"`
	Capacity float64 `json:"capacity"` // 0 where no table has it
	Unit     string  `json:"unit"`     // ft3/h or Btu/h
	OK       bool    `json:"ok"`
	How      string  `json:"how"`
}

// addGas holds pipe, meter and cylinders to what the generator and the house's burners take together.
func (w *work) addGas() {
	for i := range w.Sources {
		s := &w.Sources[i]
		if s.GasKW == 0 || !w.isHeld(s) {
			continue
		}
		gas := w.home.Site.Gas
		fuel, _ := profiles.FindFuel(s.Fuel)
		if gas == (home.Gas{}) || gas.Burns() != s.Fuel {
			w.check(s, "gas for "+s.Name, Needs, fmt.Sprintf("it burns %s kBtu/h of %s; site.gas does not say what pipe, meter or cylinders there are for that", number(kBtuH(s.GasKW)), s.Fuel), profiles.PipeTables().Source)
			continue
		}
		w.addGasOf(s, gas, &fuel)
	}
}

// kBtuH is a power in thousands of Btu/h.
func kBtuH(kw float64) float64 { return units.Power.In(1000*kw, "kBtu/h") }

func (w *work) addGasOf(s *Source, gas home.Gas, fuel *profiles.Fuel) {
	others := sheet.AppliancesBtuH(w.home)
	id := "gas." + s.Name
	demand := w.put(id+".demand_btuh", 1000*kBtuH(s.GasKW)+others, "Btu/h", fmt.Sprintf("generator at full load %s kBtu/h + gas water heaters and site.gas.appliances %s kBtu/h", number(kBtuH(s.GasKW)), number(others/1000)),
		"Willans line of the generator at its rating, higher heating value; nameplates")
	switch {
	case !w.Code.Detailed && gas.Pipe != "":
		w.check(s, "gas pipe for "+s.Name, Needs, "the built-in tables are those of US pipe; have it sized", "")
	case gas.Pipe != "":
		w.addPipe(s, gas, fuel, demand)
	case gas.Cylinders == 0:
		w.check(s, "gas pipe for "+s.Name, Needs, "site.gas.pipe is missing", profiles.PipeTables().Source)
	}
	if gas.Meter > 0 && !fuel.Stored {
		capacity := cubicFeetOf(float64(gas.Meter))
		w.gasLine(s, GasLine{s.Name, "meter", cubicFeet(fuel, demand), capacity, "ft3/h", true, "what the meter can give"}, "the utility's meter rating, as given", gasStarved, "a larger meter, which the utility sets")
	}
	w.addCylinders(s, fuel)
}

// cubicFeet is a flow of a gas that is measured by volume of so much heat, ft³/h.
func cubicFeet(fuel *profiles.Fuel, btuH float64) float64 {
	return cubicFeetOf(units.Energy.From(btuH, "Btu") / 1000 / fuel.KWhPerUnit)
}

// cubicFeetOf turns m³ into ft³.
func cubicFeetOf(m3 float64) float64 { return units.Volume.In(1000*m3, "ft3") }

const gasStarved = "gas-starved"

// gasLine notes a supply and checks it; hazard is what it raises where it gives too little, and step mends that.
func (w *work) gasLine(s *Source, l GasLine, source, hazard, step string) {
	l.OK = l.Demand <= l.Capacity*(1+1e-9)
	w.Gas = append(w.Gas, l)
	w.verdict(s, l.OK, fmt.Sprintf("gas %s for %s", l.What, l.Source), fmt.Sprintf("%s %s wanted, %s given: %s", number(l.Demand), l.Unit, number(l.Capacity), l.How), source, hazard, step)
}

// addPipe looks the pipe up in the table of its gas, material and pressure.
func (w *work) addPipe(s *Source, gas home.Gas, fuel *profiles.Fuel, demandBtuH float64) {
	material := cmp.Or(gas.Material, "iron")
	inWC := units.Pressure.In(float64(gas.Pressure), "in w.c.")
	if inWC == 0 {
		inWC = fuel.SupplyInWC
	}
	t, ok := profiles.PipeTables().Find(*fuel, material, inWC)
	if !ok {
		w.check(s, "gas pipe for "+s.Name, Needs, fmt.Sprintf("no built-in table has %s pipe for %s at %s in of water; have it sized", material, s.Fuel, number(inWC)), profiles.PipeTables().Source)
		return
	}
	lengthFt := feet(gas.Length)
	row, ok := t.Row(lengthFt)
	if !ok {
		w.check(s, "gas pipe for "+s.Name, Needs, fmt.Sprintf("%s ft is longer than the table goes; have it sized", number(lengthFt)), t.Source)
		return
	}
	sizes := profiles.PipeTables().Sizes
	column := slices.Index(sizes, string(gas.Pipe))
	demand := demandBtuH / 1000
	if t.Unit == "ft3/h" {
		demand = cubicFeet(fuel, demandBtuH)
	}
	how, step := fmt.Sprintf("%s in, row of %s ft; %s", gas.Pipe, number(row[0]), t.Title), ""
	if demand > row[1+column] {
		step = nextPipe(sizes, row, demand)
		how += "; " + step
	}
	w.put("gas."+s.Name+".pipe", row[1+column], t.Unit, how, t.Source, "site.gas")
	w.gasLine(s, GasLine{s.Name, "pipe", demand, row[1+column], t.Unit, true, how}, t.Source, gasStarved, step)
}

// nextPipe names the size that would do, or says that the table has none: larger pipe is made.
func nextPipe(sizes []string, row []float64, demand float64) string {
	for i, size := range sizes {
		if row[1+i] >= demand {
			return fmt.Sprintf("%s in would carry it", size)
		}
	}
	return fmt.Sprintf("a pipe larger than the %s in at which the built-in table ends: have it sized", sizes[len(sizes)-1])
}

// addCylinders says what the cylinders give at the coldest of the outage, as empty as they may be.
func (w *work) addCylinders(s *Source, fuel *profiles.Fuel) {
	v, ok := sheet.VapourOf(w.home, w.demand, fuel, s.GasKW)
	if !ok {
		return
	}
	step := number(v.Takes) + " of them side by side"
	if !v.Known {
		step = "ask the supplier for a larger tank, and never heat one with a flame"
	}
	w.put("gas."+s.Name+".cylinders_btuh", v.GivesBtuH, "Btu/h", v.How, v.Source, "site.gas")
	w.gasLine(s, GasLine{s.Name, "cylinders", v.WantedBtuH, v.GivesBtuH, "Btu/h", true, v.How}, v.Source, fuel.Raises(profiles.InFrost), step)
}
