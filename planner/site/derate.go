package site

import (
	"fmt"
	"math"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/derive"
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

// PowerAdjustment is α of ISO 3046-1, the power an engine has here over its power at reference conditions, before any cap, and the k
// it comes from: the powers m, n and q of dry pressure, air and charge coolant, each over its reference. The mechanical efficiency
// is 0.5..1.
func PowerAdjustment(e profiles.Engine, c Conditions, mechanical derive.Term) (alpha, k derive.Term) {
	dryHere := c.PressureKPa - e.A*c.Humidity*SaturationKPa(c.Air)
	dryReference := referenceKPa - e.A*referenceHumidity*SaturationKPa(referenceK-273.15)
	k = derive.Called("k", math.Pow(dryHere/dryReference, e.M)*
		math.Pow(referenceK/(float64(c.Air)+273.15), e.N)*
		math.Pow(referenceK/(float64(c.ChargeCoolant)+273.15), e.Q),
		"site.pressure_kpa", "site.vapour_kpa", "site.humidity", "site.air_c", "assume.engine")
	friction := derive.Number(0.7).Times(derive.One.Minus(k)).Times(derive.One.Over(mechanical).Minus(derive.One))
	return k.Minus(friction), k
}

// RuleOfThumb is the usual one for small engines. Common practice, no source.
func RuleOfThumb(elevation, air derive.Term) derive.Term {
	high := elevation.As("height in 1000 ft", max(0, units.Length.In(elevation.Value, "ft")/1000))
	hot := air.As("each 10 °F above 77 °F", max(0, (units.Temperature.In(air.Value, "F")-77)/10))
	return held(lost(0.035, high).Times(lost(0.01, hot)))
}

// Alternator is what its air leaves of one. Common practice among makers, no source.
func Alternator(elevation, air derive.Term) derive.Term {
	high := elevation.As("each 100 m above 1000 m", max(0, (elevation.Value-1000)/100))
	hot := air.As("each K above 40 °C", max(0, air.Value-40))
	return held(lost(0.01, high).Times(lost(0.01, hot)))
}

// Inverter is full output up to the knee, then less for each K. Common practice, no source; the maker's curve goes first.
func Inverter(air, knee, lostPerK derive.Term) derive.Term {
	return held(derive.One.Minus(lostPerK.Times(derive.Max(derive.Number(0), air.Minus(knee)))))
}

func lost(share float64, each derive.Term) derive.Term {
	return derive.One.Minus(derive.Number(share).Times(each))
}

func held(factor derive.Term) derive.Term { return derive.Max(derive.Number(least), factor) }

// A Rating is what a home's site leaves of the machines on it, as shares of their ratings.
type Rating struct{ Engine, Alternator, Inverter float64 }

// Rate works out the deratings of a home and puts them down. More power than rated is never claimed.
func Rate(f *derive.Figures, house *home.Home) Rating {
	s, a := house.Site, house.Assume
	elevation, knee := f.At("site.elevation", float64(s.Elevation)), f.At("assume.inverter_knee", float64(a.InverterKnee))
	pressure := f.Put("site.pressure_kpa", "kPa", PressureKPa(elevation), "US Standard Atmosphere 1976, ISO 2533")
	air := f.Add(derive.Figure{ID: "site.air_c", Value: float64(loads.DesignHigh(s, house.Outage.Season)), Unit: "°C", From: []string{"outage.season", "site.hottest", "site.coldest", "site.daily_range"},
		How: "air temperature machines are derated for: the hottest in summer, coldest + daily range in winter, the mean of the two in mild seasons"})
	at := Conditions{pressure.Value, units.Celsius(air.Value), s.Humidity, units.Celsius(air.Value)}
	if _, given := house.Origin("assume.charge_coolant"); given {
		at.ChargeCoolant = a.ChargeCoolant
	}
	f.Note("site.vapour_kpa", SaturationKPa(at.Air), "kPa", "saturation vapour pressure at the air temperature", "IAPWS-95 auxiliary equation; below 0 °C IAPWS R14 over ice", "site.air_c")
	engine, _ := profiles.FindEngine(a.Engine)
	alpha, k := PowerAdjustment(engine, at, f.At("assume.mechanical_efficiency", a.MechanicalEfficiency))
	iso := derive.Min(derive.One, held(alpha)).With(fmt.Sprintf("with k = %.4f", k.Value))
	iso = f.Put("site.engine_derate_iso", "", iso, "ISO 3046-1 power adjustment")
	thumb := f.Put("site.engine_derate_thumb", "", RuleOfThumb(elevation, air), "common practice, no source")
	return Rating{
		Engine:     f.Add(engineInForce(a.EngineDerate, iso.Value, thumb.Value)).Value,
		Alternator: f.Put("site.alternator_derate", "", Alternator(elevation, air), "common practice among makers, no source").Value,
		Inverter: f.Put("site.inverter_derate", "", Inverter(f.At("site.inverter_space", float64(s.InverterSpace)), knee, f.At("assume.inverter_derate_per_k", a.InverterDerate)),
			"common practice, no source; the maker's curve goes first").Value,
	}
}

// engineInForce is the figure of the method that the home asks for, which says what the others would have given.
func engineInForce(asked home.EngineDerate, iso, thumb float64) derive.Figure {
	f := derive.Figure{ID: "site.engine_derate", Value: iso, How: fmt.Sprintf("by ISO 3046-1; the rule of thumb gives %.3f", thumb), From: []string{"site.engine_derate_iso", "assume.engine_derate"}, Source: "ISO 3046-1"}
	switch asked.Method {
	case home.RuleOfThumb:
		f.Value, f.How, f.From[0], f.Source = thumb, fmt.Sprintf("by the rule of thumb, as asked; ISO 3046-1 gives %.3f", iso), "site.engine_derate_thumb", "common practice, no source"
	case home.Stated:
		f.Value, f.How, f.From, f.Source = asked.Factor, fmt.Sprintf("the maker's own figure, as given; ISO 3046-1 gives %.3f, the rule of thumb gives %.3f", iso, thumb), f.From[1:], "the maker's documents"
	}
	return f
}
