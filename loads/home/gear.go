package home

import (
	"fmt"
	"iter"
	"reflect"
	"slices"

	"gopkg.in/yaml.v3"

	"holdover/loads/units"
	"holdover/profiles"
)

// Gear is one unit's spec sheet, as its maker prints it. A zero figure is one the sheet does not give.
type Gear struct {
	Name       string                 `key:"name" required:"true" doc:"what you call the unit"`
	Kind       GearKind               `key:"kind" one:"ups,power-station,inverter,battery,set,generator" required:"true" doc:"ups, power-station, inverter, battery, set (an inverter with its battery) or generator"`
	Wave       Wave                   `key:"wave" one:"sine,stepped,square" doc:"sine, stepped or square"`
	Distortion float64                `key:"distortion" range:"0,1" doc:"total harmonic distortion of the voltage, 0 to 1"`
	DeadTime   float64                `key:"dead_time" range:"0,0.95" doc:"share of each half cycle that a stepped wave stands at zero"`
	Volts      units.Volts            `key:"volts" range:"12,250" doc:"output voltage"`
	Legs       int                    `key:"legs" range:"1,2" doc:"2 when it gives 120 V on each of two legs, else 1"`
	LegShare   float64                `key:"leg_share" range:"0.5,1" doc:"share of its rating that one leg may give, a half unless the sheet says more"`
	Frequency  units.Hertz            `key:"hertz" range:"45,65" doc:"output frequency"`
	HertzSwing units.Hertz            `key:"hertz_swing" range:"0,10" doc:"how far its frequency strays either way"`
	Watts      units.Watts            `key:"watts" range:"0,500000" doc:"continuous output"`
	VA         units.VoltAmps         `key:"va" range:"0,500000" doc:"continuous apparent output"`
	Surge      units.Watts            `key:"surge" range:"0,1000000" doc:"short-time output"`
	SurgeTime  units.Seconds          `key:"surge_seconds" range:"0,3600" doc:"how long the surge holds"`
	Alternator Alternator             `key:"alternator" one:"wound,inverter" doc:"of a generator: wound, or inverter where electronics make its wave"`
	Stands     Stand                  `key:"place" one:"portable,fixed" doc:"portable, or fixed where it is built in"`
	Energy     units.WattHours        `key:"energy" range:"0,1000000" doc:"stored energy"`
	Runtimes   []Runtime              `key:"runtimes" doc:"published runtimes: [[50%, 11 min], [100%, 2.5 min]]"`
	Gap        units.Seconds          `key:"gap" range:"0,3600" bare_from:"1" doc:"transfer time"`
	Neutral    Neutral                `key:"neutral" one:"floating,bonded,passed" doc:"floating, bonded or passed through"`
	Efficiency float64                `key:"efficiency" range:"0.3,1" doc:"from its battery to its outlet"`
	Idle       units.Watts            `key:"idle" range:"0,2000" doc:"its own draw while it is on"`
	Left       float64                `key:"capacity_left" range:"0.05,1" doc:"share of its new capacity left; leave it out for one bought new"`
	Recharge   units.Hours            `key:"recharge" range:"0.05,240" doc:"time from empty to full"`
	Accepts    float64                `key:"accepts_distortion" range:"0,1" doc:"distortion that a ups accepts at its input, 0 to 1"`
	AcceptsHz  units.Hertz            `key:"accepts_hertz" range:"0,10" doc:"frequency that a ups accepts at its input, either way of its own"`
	Chemistry  profiles.ChemistryName `key:"chemistry" from:"chemistries" doc:"kind of battery in it"`
	Fuel       profiles.FuelName      `key:"fuel" from:"fuels" doc:"fuel of a generator"`
	FuelTank   units.Litres           `key:"fuel_tank" range:"0.1,10000" doc:"fuel in its own tank"`
	Owned      bool                   `key:"owned" doc:"already in the house"`
	Price      float64                `key:"price" unit:"USD" range:"0,10000000" doc:"asking price"`

	given []string     // keys that the sheet has
	bare  []BareNumber // those of them whose number has no unit where one decides what it means
}

// Has says whether the sheet gives a figure, by its key: a transfer time of 0 ms is a figure too.
func (g Gear) Has(key string) bool { return slices.Contains(g.given, key) }

// Stating is the sheet with these of its figures given, by their keys.
func (g Gear) Stating(keys ...string) Gear {
	g.given = keys
	return g
}

// Figures are those that the sheet has, with their fields in the usual order, each in its base unit.
func (g Gear) Figures() iter.Seq2[Field, any] {
	return func(yield func(Field, any) bool) {
		for _, f := range FieldsOf("gear") {
			if g.Has(f.Key) && !yield(f, f.in(reflect.ValueOf(g)).Interface()) {
				return
			}
		}
	}
}

func (g *Gear) readNode(r *reader, n *yaml.Node, path string) {
	r.mapping(n, reflect.ValueOf(g).Elem(), path)
	if n.Kind != yaml.MappingNode {
		return
	}
	g.given = givenKeys(n, fieldKeys(fieldsOf(reflect.TypeFor[Gear]()))...)
	for _, key := range g.given {
		if at := join(path, key); r.origins[at].Bare {
			g.bare = append(g.bare, r.origins[at].bareNumber(at))
		}
	}
}

// A Runtime is one published point: how long the unit lasts at a share of its rated watts.
type Runtime struct {
	Load float64       // share of rated W, 0..1
	Time units.Minutes // how long it lasts
}

func (p *Runtime) readNode(r *reader, n *yaml.Node, path string) {
	if n.Kind != yaml.SequenceNode || len(n.Content) != 2 {
		r.fault(n, path, "%s found; a pair of load and time is wanted, like [50%%, 11 min]", describe(n))
		return
	}
	load := Field{Low: 0.001, High: 2, Bounded: true}
	minutes := Field{Dimension: &units.MiddlingTime, Low: 0.01, High: 100000, Bounded: true}
	for i, into := range []struct {
		field Field
		set   func(float64)
	}{{load, func(v float64) { p.Load = v }}, {minutes, func(v float64) { p.Time = units.Minutes(v) }}} {
		at := fmt.Sprintf("%s[%d]", path, i)
		text, ok := r.scalar(n.Content[i], at)
		if !ok {
			continue
		}
		if value, ok := r.number(n.Content[i], text, into.field, at); ok {
			into.set(value)
		}
	}
}
