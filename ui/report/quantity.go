package report

import (
	"strings"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/working"
)

// A shownUnit is how one unit of the figures is written, and its US customary partner where people expect one. The
// factors are those of loads/units.
type shownUnit struct {
	si        string
	us        string
	dimension *units.Dimension
	usName    string
}

var shownUnits = map[string]shownUnit{
	"C":    {"°C", "°F", &units.Temperature, "F"},
	"°C":   {"°C", "°F", &units.Temperature, "F"},
	"K":    {"K", "°F difference", &units.Difference, "F"},
	"m":    {"m", "ft", &units.Length, "ft"},
	"m2":   {"m²", "ft²", &units.Area, "ft2"},
	"L":    {"L", "gal", &units.Volume, "gal"},
	"W/K":  {"W/K", "Btu/(h·°F)", &units.HeatLoss, "Btu/h/F"},
	"Wh/K": {"Wh/K", "Btu/°F", &units.HeatCapacity, "Btu/F"},
}

// cubicFeet is a cubic metre in cubic feet; it stands apart because the volumes of a home file are in litres.
const cubicFeet = 1 / 0.028316846592

// Quantity writes a figure for people in the units of the home.
func Quantity(house *home.Home, f working.Figure) string {
	if f.Word != "" {
		return f.Word
	}
	if house.House.Units == "us" {
		if text, ok := inUS(f); ok {
			return text
		}
	}
	return inSI(f)
}

// BothSystems writes a figure in the units of the home, and in those of its formula where these differ.
func BothSystems(house *home.Home, f working.Figure) string {
	text := Quantity(house, f)
	if si := inSI(f); f.Word == "" && si != text {
		text += " (" + si + ")"
	}
	return text
}

func inSI(f working.Figure) string {
	unit := f.Unit
	if shown, ok := shownUnits[unit]; ok {
		unit = shown.si
	}
	if unit == "m3" {
		unit = "m³"
	}
	return amount(f.Value, unit)
}

func inUS(f working.Figure) (string, bool) {
	if f.Unit == "m3" {
		return amount(f.Value*cubicFeet, "ft³"), true
	}
	shown, ok := shownUnits[f.Unit]
	if !ok {
		return "", false
	}
	return amount(shown.dimension.In(f.Value, shown.usName), shown.us), true
}

func amount(value float64, unit string) string {
	if unit == "modules" && value == 1 {
		unit = "module"
	}
	return strings.TrimSpace(units.Format(value) + " " + unit)
}
