package waiting

import (
	"fmt"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/derive"
	"holdover/profiles"
)

// A Plan is all that a home's waiting comes to.
type Plan struct {
	Limits  []Limit
	House   House
	Missing []string // what the home file must give before the house's cooling can be worked out
	Levels  []Level  // falling; empty while something is missing
	Turns   Timetable
	Sheet   *derive.Figures
}

// A Level is when the house, unheated, falls to a temperature that matters.
type Level struct {
	At     units.Celsius
	Means  string
	After  units.Hours
	Falls  bool // it does so at all
	Source string
}

// Work works the waiting of a home out, with the timetable of its turns.
func Work(house *home.Home, d *loads.Demand, turns Timetable) Plan {
	p := Plan{Limits: Limits(house, d.Start), Turns: turns, Sheet: &derive.Figures{}}
	p.House, p.Missing = HouseOf(house)
	p.addHouse(house, d)
	p.addLimits(house)
	p.addTurns(house)
	return p
}

const lumped = "the house as one lump of heat, Newton's law of cooling, exact in each hour"

func (p *Plan) addHouse(house *home.Home, d *loads.Demand) {
	if len(p.Missing) > 0 {
		return
	}
	outdoors := loads.Outdoors(house.Site, house.Outage.Season)
	from := []string{"waiting.time_constant_h", "home.heat_loss", "home.gains", "home.indoors"}
	loss, capacity := p.Sheet.Input(house, "home.heat_loss"), p.Sheet.Input(house, "home.heat_capacity")
	p.Sheet.Input(house, "home.gains")
	p.Sheet.Input(house, "home.indoors")
	p.Sheet.Put("waiting.time_constant_h", "h", capacity.Over(loss), lumped)
	for _, l := range profiles.WarmthLevels() {
		level := Level{At: units.Celsius(l.C), Means: l.Means, Source: l.Source}
		level.After, level.Falls = p.House.HoursTo(level.At, outdoors, d.Start)
		p.Levels = append(p.Levels, level)
		f := derive.Figure{ID: fmt.Sprintf("waiting.house_to_%gc_h", l.C), Value: float64(level.After), Unit: "h", From: from, Source: lumped,
			How: fmt.Sprintf("time for the unheated house to fall to %g °C, %s: T runs to outdoors + gains/loss as e^(−t/τ), hour by hour of the design day", l.C, l.Means)}
		if !level.Falls {
			f.Word = "never"
		}
		p.Sheet.Add(f)
	}
}

func (p *Plan) addLimits(house *home.Home) {
	for _, l := range p.Limits {
		f := derive.Figure{ID: fmt.Sprintf("waiting.circuit_%d_h", l.Index+1), Value: float64(l.Hours), Unit: "h", How: l.Circuit + ": " + l.Why, Source: l.Source}
		if !l.Known() {
			f.Value, f.Word = 0, "not known"
		}
		p.Sheet.Add(f)
	}
}

func (p *Plan) addTurns(house *home.Home) {
	t := p.Turns
	if len(t.Rounds) == 0 || !t.Found {
		return
	}
	var from []string
	for _, r := range t.Rounds {
		from = append(from, fmt.Sprintf("waiting.circuit_%d_h", r.Index+1))
	}
	p.Sheet.Note("turns.energy_wh", float64(t.Energy), "Wh", fmt.Sprintf("running W of each circuit over its turns, one at a time, in slots of %s min", t.slotText()), searchSource, from...)
	p.Sheet.Note("turns.least_wh", float64(t.Bound), "Wh", "no timetable in such slots takes less: each circuit on as late and as little as its own wait allows", searchSource, from...)
	taken := p.Sheet.Term("turns.energy_wh").Over(p.Sheet.Input(house, "assume.inverter_efficiency"))
	p.Sheet.Put("turns.battery_wh", "Wh", taken.With("which is what they take from the battery"), "")
}

const searchSource = "rules of thumb, then a search of every timetable in slots of 5 min"
