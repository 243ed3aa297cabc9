// Package home answers: what stands in a home file, and what is wrong with it?
//
// Start with [ReadFile] (or [Read]), which turns a home file into a [Home] or into every [Fault] it has at once; [ReadGear]
// does so for a file of spec sheets. [FieldsOf] and [Schema] say what may stand there, from the same struct tags. The neighbours
// are [holdover/loads/units] (quantities), [holdover/loads/home/edit] (changing the text of a home file without disturbing the
// rest), [holdover/profiles] (what is known about appliances) and [holdover/loads], which works out what the house draws.
//
// Everything here is pure but for file.go, the one place that touches a disk.
package home

import (
	"cmp"
	"slices"
	"strings"

	"holdover/loads/units"
	"holdover/profiles"
)

// Version is the home file format this program reads and writes.
const Version = 1

// A Home is one household as its home file describes it, with profiles and defaults filled in.
//
// In every struct of a home file the tag `key` is the name in the file, `range` the accepted range in the type's base
// unit, `one` the accepted words, `from` the table of profiles whose names are accepted, and `doc` one line for people (form
// labels, the schema, messages).
type Home struct {
	Version  int       `key:"holdover" range:"1,1" doc:"format version of this file"`
	House    House     `key:"home" doc:"the building and its service"`
	Site     Site      `key:"site" doc:"where it stands and how hot and cold it gets"`
	Outage   Outage    `key:"outage" doc:"the outage to plan for"`
	Circuits []Circuit `key:"circuits" doc:"what draws power, one entry a circuit or appliance"`
	Assume   Assume    `key:"assume" doc:"defaults you may overrule"`
	Limits   Limits    `key:"limits" doc:"what may not be exceeded"`
	Prices   Prices    `key:"prices" doc:"your own prices in place of the generic ones"`
	Gear     []Gear    `key:"gear" doc:"units on offer or already owned, from their spec sheets"`

	file    string
	origins map[string]Origin
}

// FileName is what messages call the file the home was read from.
func (h *Home) FileName() string { return h.file }

// A House is the `home` section.
type House struct {
	Name         string                   `key:"name" doc:"what you call it"`
	Service      Service                  `key:"service" doc:"120/240 V (split phase), 120 V or 230 V"`
	ServiceAmps  units.Amps               `key:"service_amps" range:"10,1200" doc:"rating of the service"`
	FloorArea    units.SquareMetres       `key:"floor_area" range:"1,10000" doc:"living area"`
	HeatLoss     units.WattsPerKelvin     `key:"heat_loss" range:"1,20000" doc:"heat lost per degree between inside and outside"`
	HeatCapacity units.WattHoursPerKelvin `key:"heat_capacity" range:"100,1000000" doc:"heat the building holds per degree"`
	Indoors      units.Celsius            `key:"indoors" range:"-10,40" doc:"temperature kept inside in winter"`
	CooledTo     units.Celsius            `key:"cooled_to" range:"10,40" doc:"temperature that cooling keeps"`
	Gains        units.Watts              `key:"gains" range:"0,20000" doc:"heat from people, animals and sun while nothing else heats"`
	Units        units.System             `key:"units" one:"us,si" doc:"units shown: us or si"` // in which bare lengths, areas, volumes and temperatures are

	SmallAppliances int             `key:"small_appliance_circuits" range:"0,40" doc:"20 A circuits for small appliances in kitchen and dining rooms"`
	Laundry         int             `key:"laundry_circuits" range:"0,20" doc:"20 A circuits for laundry"`
	Code            string          `key:"code" from:"codes" doc:"wiring code in force, by its edition"`
	Transfer        TransferMode    `key:"transfer" one:"manual,automatic,managed" doc:"manual, automatic, or automatic with load management"`
	MeasuredDemand  units.Nameplate `key:"measured_demand" range:"1,1000000" doc:"highest 15-minute demand measured, W or VA"`
	MeasuredOver    string          `key:"measured_over" one:"year,30-days" doc:"how long it was measured: year or 30-days"`
}

// A Site is the `site` section.
type Site struct {
	Elevation     units.Metres  `key:"elevation" range:"-430,5500" doc:"height above sea level"`
	Hottest       units.Celsius `key:"hottest" range:"-40,60" doc:"design day high"`
	Coldest       units.Celsius `key:"coldest" range:"-60,50" doc:"design day low"`
	DailyRange    units.Kelvins `key:"daily_range" range:"0,40" doc:"from the day's low to its high"`
	Humidity      float64       `key:"humidity" range:"0,1" doc:"relative humidity, 0 to 1"`
	BatterySpace  units.Celsius `key:"battery_space" range:"-50,60" doc:"coldest the battery gets"`
	InverterSpace units.Celsius `key:"inverter_space" range:"-50,80" doc:"hottest the inverter gets"`
	Runs          Runs          `key:"runs" doc:"wire to be run for the transfer: [{name: Generator to inlet, length: 60 ft, metal: copper}]"`
	Gas           Gas           `key:"gas" doc:"pipe to a generator: {pipe: 3/4 in, length: 40 ft, pressure: 7 in w.c.}"`
	Clearance     units.Metres  `key:"generator_clearance" range:"0,1000" doc:"from the generator to the nearest door, window or vent"`
	Sun           Sun           `key:"sun" doc:"solar energy that helps: {kwh_per_day: 12}, with {hours: [24 shares]} if known"`
}

// An Outage is the `outage` section.
type Outage struct {
	Length  units.Hours `key:"length" range:"1 min,2160" doc:"how long to hold out"`
	Start   StartHour   `key:"start" doc:"clock time it begins, or worst"`
	Season  Season      `key:"season" one:"winter,summer,mild" doc:"winter, summer or mild"`
	PerYear float64     `key:"per_year" unit:"1/year" range:"0,365" doc:"outages expected in a year"`
	Apart   units.Hours `key:"apart" range:"0,8760" doc:"the next outage may come so soon after the last"`
	Lasts   Lasts       `key:"lasts" doc:"how long outages last here: {half: 2 h, nine_in_ten: 10 h}"`
}

// Lasts is how long outages last, by two shares of them. Both zero: national figures.
type Lasts struct {
	Half      units.Hours `key:"half" range:"0.01,8760" required:"true" doc:"half of all outages end within"`
	NineInTen units.Hours `key:"nine_in_ten" range:"0.01,8760" required:"true" doc:"nine in ten end within"`
}

// An Origin says where a value came from: a line of the home file, or a named default.
type Origin struct {
	Line   int    // line in the home file, 0 when the value is not from there
	Source string // "home file", or the source of the default or profile
	Says   string // what was understood, where that is not plain from the text: "10 gal (37.9 L)"
	Bare   bool   // a number without a unit, in the units of the home
	Typed  string // the text of a bare number
}

// A BareNumber is a value of the home file without a unit where a unit decides what it means.
type BareNumber struct {
	Path string // "limits.fuel_store"
	Line int
	Text string // as it stands in the file: "10"
	Says string // what was understood: "10 gal (37.9 L)"
}

// bareNumber is what the origin of the value at path says of it as a number without a unit.
func (o Origin) bareNumber(path string) BareNumber { return BareNumber{path, o.Line, o.Typed, o.Says} }

// BareNumbers lists the lengths, areas, volumes and temperatures of the home that have no unit, in the order of the lines of its
// file; those of the units come last, as these may be from another. A length, area or volume of 0 is the same in every unit.
func (h *Home) BareNumbers() []BareNumber {
	var out []BareNumber
	for path, o := range h.origins {
		if o.Bare && !strings.HasPrefix(path, "gear[") {
			out = append(out, o.bareNumber(path))
		}
	}
	slices.SortFunc(out, func(a, b BareNumber) int { return cmp.Or(a.Line-b.Line, strings.Compare(a.Path, b.Path)) })
	for _, g := range h.Gear {
		out = append(out, g.bare...)
	}
	return out
}

// Understood is what a value of the home file was understood as, where that is not plain from its text; else empty.
func (h *Home) Understood(path string) string { return h.origins[path].Says }

// Origin tells where the value at a field path such as "site.elevation" or "circuits[2].running" came from; ok is false
// when nobody gave one.
func (h *Home) Origin(path string) (o Origin, ok bool) {
	o, ok = h.origins[path]
	return o, ok
}

// Source says in words where the first of some fields that anybody gave came from; empty where nobody gave any.
func (h *Home) Source(paths ...string) string {
	for _, path := range paths {
		if o, ok := h.origins[path]; ok {
			return o.Text(h.file)
		}
	}
	return ""
}

// Partners names the other half of each multiwire pair, whichever of the two names the other.
func (h *Home) Partners() map[string]string {
	out := map[string]string{}
	for i := range h.Circuits {
		if c := &h.Circuits[i]; c.SharesWith != "" {
			out[c.Name], out[c.SharesWith] = c.SharesWith, c.Name
		}
	}
	return out
}

// Code is the wiring code that the home follows.
func (h *Home) Code() *profiles.Code {
	if code, ok := profiles.FindCode(h.House.Code); ok {
		return code
	}
	return profiles.UsualCode(string(cmp.Or(h.House.Service, SplitPhase)))
}

// Given says whether the home file itself has the field.
func (h *Home) Given(path string) bool { return h.origins[path].Line > 0 }
