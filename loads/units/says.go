package units

import (
	"slices"
	"strconv"
	"strings"
)

// Says writes a reading for the person who typed it: in the unit that was understood, and where the systems differ, in that of
// the other too: "10 gal (37.9 L)".
func (d Dimension) Says(r Reading) string {
	if r.Unit == "kUSD" {
		r.Unit = d.Base
	}
	text := amount(d.In(r.Value, r.Unit), r.Unit)
	if d.us == "" {
		return text
	}
	other := d.us
	if ofUS(r.Unit) {
		other = d.Base
	}
	return text + " (" + Format(d.In(r.Value, other)) + " " + Sign(other) + ")"
}

// ofUS says whether a unit is one of the US customary system.
func ofUS(name string) bool {
	return slices.Contains([]string{"ft", "in", "ft2", "ft²", "gal", "imp gal", "ft3", "ft³", "F", "°F"}, name)
}

// amount writes a number with up to six figures, for it stands for what somebody typed.
func amount(value float64, name string) string {
	text := strconv.FormatFloat(value, 'g', 6, 64)
	if strings.ContainsRune(text, 'e') {
		text = strconv.FormatFloat(value, 'f', -1, 64)
	}
	switch text = groupThousands(text); {
	case name == "USD":
		return strings.Replace("$"+text, "$-", "-$", 1)
	case (name == "week" || name == "d") && value != 1:
		return text + map[string]string{"week": " weeks", "d": " days"}[name]
	}
	return text + " " + Sign(name)
}

// Sign is how people are shown a unit.
func Sign(name string) string {
	switch name {
	case "C", "F":
		return "°" + name
	case "m2", "ft2", "m3", "ft3":
		return name[:len(name)-1] + map[string]string{"2": "²", "3": "³"}[name[len(name)-1:]]
	}
	return name
}
