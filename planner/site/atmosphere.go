// Package site answers: what does this place take away from a machine's rating?
//
// Altitude thins the air and heat swells it, so an engine burns less fuel a stroke, and the alternator and the inverter
// cool worse. [Rate] gives all factors for a home; the functions beneath it are usable alone.
package site

import (
	"math"

	"holdover/loads/units"
	"holdover/planner/derive"
)

// earthRadiusM is the standard's nominal radius for turning geometric into geopotential altitude, m.
const earthRadiusM = 6356766

// PressureKPa is the pressure of the US Standard Atmosphere 1976 (ISO 2533 has the same) at a geometric elevation in m within the
// troposphere, -1 to 11 km, in kPa.
func PressureKPa(elevation derive.Term) derive.Term {
	h := elevation.As("H", earthRadiusM*elevation.Value/(earthRadiusM+elevation.Value))
	ratio := derive.One.Minus(derive.Number(0.0065).Times(h).Over(derive.Number(288.15)))
	return derive.Number(101.325).Times(ratio.To(derive.Number(5.25588))).With("at geopotential height H")
}

// SaturationKPa is the saturation vapour pressure of water at a temperature, kPa.
//
// Above 0.01 °C over water, by the auxiliary equation of IAPWS-95 (Wagner and Pruß, J. Phys. Chem. Ref. Data 31, 2002);
// below it over ice, by the sublimation-pressure equation of IAPWS R14 (Wagner and others, 2011), good to −223 °C. Both
// coefficient sets from memory, checked in the tests against steam-table values.
func SaturationKPa(t units.Celsius) float64 {
	kelvin := float64(t) + 273.15
	if kelvin < 273.16 {
		return overIceKPa(kelvin)
	}
	const critical = 647.096
	tau := 1 - kelvin/critical
	sum := -7.85951783*tau + 1.84408259*math.Pow(tau, 1.5) - 11.7866497*math.Pow(tau, 3) +
		22.6807411*math.Pow(tau, 3.5) - 15.9618719*math.Pow(tau, 4) + 1.80122502*math.Pow(tau, 7.5)
	return 22064 * math.Exp(critical/kelvin*sum)
}

func overIceKPa(kelvin float64) float64 {
	theta := kelvin / 273.16
	sum := -21.2144006*math.Pow(theta, 0.00333333333) + 27.3203819*math.Pow(theta, 1.20666667) -
		6.1059813*math.Pow(theta, 1.70333333)
	return 0.611657 * math.Exp(sum/theta)
}
