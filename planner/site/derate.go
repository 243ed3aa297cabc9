package site

import (
	"math"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/profiles"
)

// Reference conditions of ISO 3046-1.
const (
	referenceKPa      = 100.0
	referenceK        = 298.15
	referenceHumidity = 0.3
)

// least keeps a derating factor above zero, so that what is divided by it stays finite. An engine this weak has no size
// made for any house.
const least = 0.01

// Conditions are what an engine breathes.
type Conditions struct {
	PressureKPa   float64
	Air           units.Celsius
	Humidity      float64       // relative, 0..1
	ChargeCoolant units.Celsius // only for engines with a charge-air cooler
}

// PowerAdjustment is α of ISO 3046-1, the power an engine has here over its power at reference conditions, before any cap,
// and the k it comes from. mechanicalEfficiency is η_m, 0.5..1.
//
//	α = k − 0.7·(1 − k)·(1/η_m − 1)
//	k = ((p_x − a·φ_x·p_sx)/(p_r − a·φ_r·p_sr))^m · (T_r/T_x)^n · (T_cr/T_cx)^q
func PowerAdjustment(e profiles.Engine, c Conditions, mechanicalEfficiency float64) (alpha, k float64) {
	dryHere := c.PressureKPa - e.A*c.Humidity*SaturationKPa(c.Air)
	dryReference := referenceKPa - e.A*referenceHumidity*SaturationKPa(referenceK-273.15)
	k = math.Pow(dryHere/dryReference, e.M) *
		math.Pow(referenceK/(float64(c.Air)+273.15), e.N) *
		math.Pow(referenceK/(float64(c.ChargeCoolant)+273.15), e.Q)
	return k - 0.7*(1-k)*(1/mechanicalEfficiency-1), k
}

// RuleOfThumb is the usual one for small engines: 3.5 % for each 1000 ft, and 1 % for each 10 °F above 77 °F, the two
// factors multiplied. Common practice, no source.
func RuleOfThumb(elevation units.Metres, air units.Celsius) float64 {
	thousandFeet := max(0, units.Length.In(float64(elevation), "ft")/1000)
	tensF := max(0, (units.Temperature.In(float64(air), "F")-77)/10)
	return max(least, (1-0.035*thousandFeet)*(1-0.01*tensF))
}

// Alternator is 1 % for each 100 m above 1000 m and 1 % for each K above 40 °C, the two factors multiplied. Common
// practice among makers, no source.
func Alternator(elevation units.Metres, air units.Celsius) float64 {
	high := max(0, (float64(elevation)-1000)/100)
	hot := max(0, float64(air)-40)
	return max(least, (1-0.01*high)*(1-0.01*hot))
}

// Inverter is full output up to the knee, then falling by a share for each K. Common practice, no source; the maker's
// curve goes first.
func Inverter(air, knee units.Celsius, lostPerK float64) float64 {
	return max(least, 1-lostPerK*max(0, float64(air-knee)))
}

// A Rating is what a home's site does to the machines on it.
type Rating struct {
	Air         units.Celsius // air temperature machines outdoors are derated for
	PressureKPa float64
	VapourKPa   float64 // saturation pressure at Air
	K           float64 // of ISO 3046-1
	ISO         float64 // α, capped at 1
	Thumb       float64 // the rule of thumb
	Engine      float64 // the one in force
	Alternator  float64
	Inverter    float64
}

// Rate works out the deratings of a home. More power than rated is never claimed.
func Rate(house *home.Home) Rating {
	s, a := house.Site, house.Assume
	r := Rating{Air: loads.DesignHigh(s, house.Outage.Season), PressureKPa: PressureKPa(s.Elevation)}
	r.VapourKPa = SaturationKPa(r.Air)
	coolant := r.Air
	if _, given := house.Origin("assume.charge_coolant"); given {
		coolant = a.ChargeCoolant
	}
	engine, _ := profiles.FindEngine(a.Engine)
	conditions := Conditions{r.PressureKPa, r.Air, s.Humidity, coolant}
	r.ISO, r.K = PowerAdjustment(engine, conditions, a.MechanicalEfficiency)
	r.ISO = min(1, max(least, r.ISO))
	r.Thumb = RuleOfThumb(s.Elevation, r.Air)
	switch a.EngineDerate.Method {
	case home.RuleOfThumb:
		r.Engine = r.Thumb
	case home.Stated:
		r.Engine = a.EngineDerate.Factor
	default:
		r.Engine = r.ISO
	}
	r.Alternator = Alternator(s.Elevation, r.Air)
	r.Inverter = Inverter(s.InverterSpace, a.InverterKnee, a.InverterDerate)
	return r
}
