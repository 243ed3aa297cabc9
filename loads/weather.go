package loads

import (
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/profiles"
)

// DesignHigh is the warmest of the design day, which is also the air temperature machines are derated for: the hottest
// in summer, the coldest plus the daily range in winter, the mean of those two in mild seasons.
func DesignHigh(s home.Site, season home.Season) units.Celsius {
	winterHigh := s.Coldest + units.Celsius(s.DailyRange)
	switch season {
	case home.Summer:
		return s.Hottest
	case home.Winter:
		return winterHigh
	}
	return (s.Hottest + winterHigh) / 2
}

// Outdoors is the outdoor temperature in each clock hour of the design day: its high less ASHRAE's hourly fraction of the
// daily range.
func Outdoors(s home.Site, season home.Season) [24]units.Celsius {
	high := DesignHigh(s, season)
	var day [24]units.Celsius
	for h, fraction := range profiles.HourlyRangeFractions() {
		day[h] = high - units.Celsius(fraction*float64(s.DailyRange))
	}
	return day
}

// GuardDuty is the share of the time a heater's frost heaters are on at a temperature: 0 at the cut-in and above, rising
// linearly to 1 at the rated low.
func GuardDuty(h *home.Heater, at units.Celsius) float64 {
	return clamp01(float64((h.GuardFrom - at) / (h.GuardFrom - h.GuardFull)))
}

// surroundings is the temperature where a heater stands in each clock hour. A place given as cold counts so in winter,
// the season it was given for; a garage of unknown temperature is taken to be as cold as outdoors.
func surroundings(h *home.Heater, house *home.Home, tempGiven bool, outdoors [24]units.Celsius) [24]units.Celsius {
	switch {
	case tempGiven && house.Outage.Season == home.Winter:
		return everyHour(h.GarageTemp)
	case h.StandsIn == home.InGarage || h.StandsIn == home.Outdoors:
		return outdoors
	}
	return everyHour(house.House.Indoors)
}

func everyHour(t units.Celsius) (day [24]units.Celsius) {
	for h := range day {
		day[h] = t
	}
	return day
}

func clamp01(x float64) float64 { return max(0, min(1, x)) }
