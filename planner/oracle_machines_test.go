package planner_test

import (
	"math"
	"math/cmplx"

	"holdover/profiles"
)

// The oracle of the site and the machines: method.md, "Site" to "Generator", by the plainest code.

// pressure of the US Standard Atmosphere 1976, kPa, at a geometric height.
func pressure(metres float64) float64 {
	geopotential := 6356766 * metres / (6356766 + metres)
	return 101.325 * math.Pow(1-0.0065*geopotential/288.15, 5.25588)
}

// vapour is the saturation pressure, kPa: IAPWS-95's auxiliary equation over water, IAPWS R14 over ice, coefficients from
// memory.
func vapour(celsius float64) float64 {
	kelvin := celsius + 273.15
	if celsius < 0.01 {
		x := kelvin / 273.16
		return 0.611657 * math.Exp((-21.2144006*math.Pow(x, 0.00333333333)+27.3203819*math.Pow(x, 1.20666667)-6.1059813*math.Pow(x, 1.70333333))/x)
	}
	x := 1 - kelvin/647.096
	return 22064 * math.Exp(647.096/kelvin*(-7.85951783*x+1.84408259*math.Pow(x, 1.5)-11.7866497*x*x*x+22.6807411*math.Pow(x, 3.5)-
		15.9618719*x*x*x*x+1.80122502*math.Pow(x, 7.5)))
}

// isoDerate is α of ISO 3046-1, not held at 1.
func (h *plainHome) isoDerate() float64 {
	e, _ := profiles.FindEngine(profiles.EngineName(h.engine))
	air := h.designHigh()
	coolant := air
	if h.chargeCoolantGiven {
		coolant = h.chargeCoolantC
	}
	dry := (pressure(h.elevationM) - e.A*h.humidity*vapour(air)) / (100 - e.A*0.3*vapour(25))
	k := math.Pow(dry, e.M) * math.Pow(298.15/(air+273.15), e.N) * math.Pow(298.15/(coolant+273.15), e.Q)
	return k - 0.7*(1-k)*(1/h.assume["mechanical_efficiency"]-1)
}

func (h *plainHome) thumbDerate() float64 {
	feet, above77F := h.elevationM/0.3048, h.designHigh()*9/5+32-77
	return math.Min(1, 1-0.035*feet/1000) * math.Min(1, 1-0.01*above77F/10)
}

func (h *plainHome) engineFactor() float64 {
	switch h.engineDerate {
	case "iso3046":
		return math.Min(1, h.isoDerate())
	case "rule-of-thumb":
		return h.thumbDerate()
	}
	return h.engineStated
}

func (h *plainHome) alternatorFactor() float64 {
	height := math.Max(0, h.elevationM-1000) / 100
	heat := math.Max(0, h.designHigh()-40)
	return (1 - 0.01*height) * (1 - 0.01*heat)
}

func (h *plainHome) inverterFactor() float64 {
	return 1 - h.assume["inverter_derate_per_k"]*math.Max(0, h.inverterC-h.assume["inverter_knee"])
}

// batteryFactor is the share of the 25 °C capacity: straight lines between the points of the chemistry's table. IEEE 485's
// rises beyond its cold end along its first line; everything else holds its end value.
func (h *plainHome) batteryFactor(chem profiles.Chemistry) float64 {
	if h.temperatureGivenShare > 0 {
		return h.temperatureGivenShare
	}
	var x, y []float64
	at := h.batteryC
	lead := len(chem.CellSizeFactors) > 0
	for _, p := range chem.CellSizeFactors {
		x, y = append(x, p.Fahrenheit), append(y, p.Factor)
	}
	for _, p := range chem.CapacityShares {
		x, y = append(x, p.Celsius), append(y, p.Share)
	}
	if lead {
		at = at*9/5 + 32
	}
	i := 0
	for i < len(x)-2 && at > x[i+1] {
		i++
	}
	share := (at - x[i]) / (x[i+1] - x[i])
	if !lead || share > 1 {
		share = clamp01(share)
	}
	value := y[i] + share*(y[i+1]-y[i])
	if lead {
		return 1 / value
	}
	return value
}

// oracle gives every promised figure that is a number, and of the two legs the heavier one.
func (h *plainHome) oracle() (figures map[string]float64, wave string) {
	d := h.demand()
	f := map[string]float64{
		"load.running_w": d.runningW, "load.running_va": cmplx.Abs(d.running),
		"load.worst_moment_va": d.worstVA, "load.worst_moment_w": d.worstW, "load.cold_return_va": d.coldVA,
		"load.energy_wh": d.energyWh, "load.average_w": d.energyWh / h.lengthH,
		"load.heavier_leg_va": d.heaviestVA,
		"site.pressure_kpa":   pressure(h.elevationM), "site.engine_derate": h.engineFactor(),
		"site.alternator_derate": h.alternatorFactor(), "site.inverter_derate": h.inverterFactor(),
	}
	f["inverter.continuous_va"] = f["load.running_va"] * (1 + h.assume["power_margin"]) / f["site.inverter_derate"]
	f["inverter.surge_va"] = d.worstVA / f["site.inverter_derate"]
	h.batteryFigures(f, &d)
	h.generatorFigures(f)
	if d.sine {
		return f, "sine"
	}
	return f, "any"
}

func (h *plainHome) batteryFigures(f map[string]float64, d *plainDemand) {
	chem, _ := profiles.FindChemistry(profiles.ChemistryName(h.chemistry))
	depth, end, k := chem.DepthOfDischarge, chem.CapacityAtEndOfLife, chem.Peukert
	if h.depthGiven {
		depth = h.assume["depth_of_discharge"]
	}
	if h.eolGiven {
		end = h.assume["capacity_at_end_of_life"]
	}
	if h.peukertGiven {
		k = h.assume["peukert"]
	}
	efficiency, idle := h.assume["inverter_efficiency"], h.assume["inverter_idle"]
	dc := d.energyWh/efficiency + idle*h.lengthH
	temperature := h.batteryFactor(chem)
	rate := func(nameplate float64) float64 {
		if dc == 0 {
			return 1 // nothing is drawn, and 0/0 is no rate
		}
		return math.Min(1, math.Pow(nameplate/(dc/h.lengthH*chem.RatedHours), k-1))
	}
	base := dc * (1 + h.assume["energy_margin"]) / (depth * end * temperature)
	nameplate := base
	for range 2000 { // the rate factor depends on the nameplate: step by step until it stands still
		nameplate = base / rate(nameplate)
	}
	module := h.assume["module"]
	peak := d.runningW/efficiency + idle
	modules := math.Max(math.Ceil(nameplate/module-1e-9), math.Ceil(peak/(chem.DischargePerHour*module)-1e-9))
	modules = math.Max(modules, 1) // a battery has one at least
	f["battery.dc_wh"], f["battery.temperature_factor"] = dc, temperature
	f["battery.nameplate_wh"], f["battery.modules"] = nameplate, modules
	left := modules * module * depth * end * temperature * rate(modules*module)
	at := d.startH
	for left > 0 && at < d.startH+8760 { // held at a year
		next := math.Floor(at+1e-12) + 1
		drain := d.hourly[int(math.Floor(at+1e-12))%24]/efficiency + idle
		if drain > 0 && drain*(next-at) >= left {
			at += left / drain
			break
		}
		left -= drain * (next - at)
		at = next
	}
	f["battery.runtime_h"] = math.Min(8760, at-d.startH)
}

// bearsOnLegs tries every way to put the circuits on the legs of a wound generator: half of its rating on each, running with the
// margin, starting within its surge and its dip. Below 3.5 kW it gives 120 V alone.
func (h *plainHome) bearsOnLegs(kW float64, f map[string]float64) bool {
	if h.service != "120/240 V" {
		return true
	}
	var free []int
	for i, c := range h.circuits {
		carried := h.care(&c) != "shed"
		switch {
		case kW < 3.5 && carried && (c.volts > 200 || c.partner >= 0):
			return false
		case carried && c.volts <= 200:
			free = append(free, i)
		}
	}
	if kW < 3.5 {
		return true
	}
	const hair = 1 + 1e-9
	w, va := kW*1000*f["site.engine_derate"]/2*hair, kW*1000/h.assume["generator_power_factor"]*f["site.alternator_derate"]/2*hair
	dip := h.assume["allowed_dip"] / (h.assume["reactance"] * (1 - h.assume["allowed_dip"]))
	margin, surge := 1+h.assume["power_margin"], math.Max(1, h.assume["generator_surge"])
	bears := func(side map[int]int) bool {
		for _, turn := range h.turns() {
			for leg := range 2 {
				part := func(i int) complex128 {
					if s, one := side[i]; one {
						return complex(float64(1-(s^leg)), 0)
					}
					return 0.5
				}
				var on complex128
				for _, i := range turn {
					on += part(i) * h.all(i)
				}
				if real(on)*margin > w || cmplx.Abs(on)*margin > va {
					return false
				}
				for _, i := range turn {
					if start, ok := h.starting(&h.circuits[i]); ok && part(i) != 0 {
						moment := on + part(i)*(start-h.running(&h.circuits[i]))
						if real(moment) > w*surge || cmplx.Abs(moment) > va*dip {
							return false
						}
					}
				}
			}
		}
		return true
	}
	for bits := range 1 << len(free) {
		side := map[int]int{}
		for k, i := range free {
			side[i] = bits >> k & 1
		}
		if h.permits(side) && bears(side) {
			return true
		}
	}
	return false
}

func (h *plainHome) generatorFigures(f map[string]float64) {
	margin, dip, x := 1+h.assume["power_margin"], h.assume["allowed_dip"], h.assume["reactance"]
	factor := h.assume["generator_power_factor"]
	siteKW := math.Max(f["load.running_w"]*margin, f["load.worst_moment_w"]/h.assume["generator_surge"]) / 1000
	startKVA := f["load.worst_moment_va"] * x * (1 - dip) / dip / 1000
	siteKVA := math.Max(f["load.running_va"]*margin/1000, startKVA)
	ratedKW := siteKW / f["site.engine_derate"]
	ratedKVA := math.Max(siteKVA/f["site.alternator_derate"], ratedKW/factor)
	f["generator.site_kw"], f["generator.site_kva"], f["generator.starting_kva"] = siteKW, siteKVA, startKVA
	f["generator.rated_kw"], f["generator.rated_kva"] = ratedKW, ratedKVA
	const hair = 1 - 1e-9 // rounding errors do not ask for the next size
	var size float64
	for _, g := range profiles.Generators() {
		if g.KW >= ratedKW*hair && g.KW/factor >= ratedKVA*hair && h.bearsOnLegs(g.KW, f) {
			size = g.KW
			break
		}
	}
	f["generator.size_kw"] = size
	if size == 0 {
		return
	}
	f["generator.load_fraction"] = f["load.average_w"] / 1000 / (size * f["site.engine_derate"])
	fuel, _ := profiles.FindFuel(profiles.FuelName(h.fuels[0]))
	for _, w := range fuel.Willans {
		if size >= w.FromKW && size < w.ToKW {
			f["generator.fuel"] = w.IdleUnitsPerHourPerKW*size*h.lengthH + w.UnitsPerKWh*f["load.energy_wh"]/1000
		}
	}
	f["generator.fuel_per_day"] = f["generator.fuel"] * 24 / h.lengthH
}
