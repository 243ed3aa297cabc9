package sheet

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/derive"
	"holdover/planner/effort"
	"holdover/planner/outage"
	"holdover/planner/service"
	"holdover/planner/site"
	"holdover/planner/waiting"
)

// A Duty is what circuits ask of whatever carries them, in their house and through their outage.
type Duty struct {
	Home     *home.Home // as whatever carries it meets it: see [waiting.Carried]; circuits that are not asked for are shed
	Sorting  waiting.Sorting
	Demand   loads.Demand
	Rating   site.Rating
	Circuits []string // that are kept or take turns
	InOneGo  bool     // one circuit by itself, used in one go where that can be

	outages []outage.Outage
	want    *service.Want
	stress  []stressed // assignments of the circuits to legs, by the proportions of the limits
	once    sync.Once
	figures *derive.Figures
}

// NewDuty is the duty of all that is kept or takes turns in a home. It never fails on a [home.Home] that [home.Read] returned.
func NewDuty(house *home.Home) *Duty {
	house, sorting := waiting.Carried(house)
	d := dutyOf(house)
	d.Sorting = sorting
	return d
}

// Turns is the timetable of the circuits that take turns.
func (d *Duty) Turns(m *effort.Meter) waiting.Timetable {
	return waiting.Turns(m, d.Sorting, d.Home.Outage.Length, d.Demand.Start)
}

// AtBest is that duty but for what takes longest to work out: of the legs no more is asked than any split must. What cannot carry
// this cannot carry the whole duty.
func AtBest(house *home.Home) *Duty {
	house, _ = waiting.Carried(house)
	return dutyWith(house, loads.AtBest(house))
}

func dutyOf(house *home.Home) *Duty { return dutyWith(house, loads.Work(house)) }

func dutyWith(house *home.Home, demand loads.Demand) *Duty {
	d := &Duty{Home: house, Demand: demand, Rating: site.Rate(nil, house)}
	for i := range d.Demand.Loads {
		d.Circuits = append(d.Circuits, d.Demand.Loads[i].Name)
	}
	return d
}

// Alone is the duty of one circuit of a home by itself, found by its name or else by its profile's. The error says that there is
// none.
func Alone(house *home.Home, circuit string) (*Duty, error) {
	at := slices.IndexFunc(house.Circuits, func(c home.Circuit) bool { return strings.EqualFold(c.Name, circuit) })
	if at < 0 {
		at = slices.IndexFunc(house.Circuits, func(c home.Circuit) bool { return c.Like == circuit })
	}
	if at < 0 {
		return nil, fmt.Errorf("no circuit is called %q; there are %s", circuit, circuitNames(house))
	}
	d := dutyOf(Keeping(house, house.Circuits[at].Name))
	d.InOneGo = true
	return d, nil
}

// Keeping is a home of which only some circuits are kept, and the rest are shed.
func Keeping(house *home.Home, names ...string) *home.Home {
	changed := *house
	changed.Circuits = slices.Clone(house.Circuits)
	for i := range changed.Circuits {
		changed.Circuits[i].Care = home.Shed
		if slices.Contains(names, changed.Circuits[i].Name) {
			changed.Circuits[i].Care = home.Keep
		}
	}
	return &changed
}

func circuitNames(house *home.Home) string {
	var names []string
	for _, c := range house.Circuits {
		names = append(names, c.Name)
	}
	return derive.Names(names, 12)
}

// Outages are the outages that a design must carry: the one planned for, or, where it may begin at the worst hour, one from each
// clock hour, the hungriest first.
func (d *Duty) Outages() []outage.Outage {
	if d.outages == nil {
		d.outages = d.OutagesOf(d.Home.Outage.Length)
	}
	return d.outages
}

// OutagesOf are those outages at another length.
func (d *Duty) OutagesOf(length units.Hours) (all []outage.Outage) {
	if !d.Home.Outage.Start.Worst {
		return []outage.Outage{d.From(d.Demand.Start, length)}
	}
	for h := range 24 {
		all = append(all, d.From(units.Hours(h), length))
	}
	slices.SortStableFunc(all, func(a, b outage.Outage) int {
		if a.LoadKWh > b.LoadKWh {
			return -1
		}
		return 1
	})
	return all
}

// From is an outage of a length from a clock time.
func (d *Duty) From(start, length units.Hours) outage.Outage {
	return outage.New(d.Demand.Hourly, d.Home.Site.Sun.Hourly(), start, length, d.Home.Limits.Quiet)
}

// PowerFactor is that of the running total: what real kW an inverter's VA gives to these loads.
func (d *Duty) PowerFactor() float64 {
	if va := d.Demand.Running.VA(); va > 0 {
		return float64(d.Demand.Running.W()) / float64(va)
	}
	return 1
}

// SplitPhase says whether the service has two legs.
func (d *Duty) SplitPhase() bool { return d.Home.House.Service == home.SplitPhase }
