package home

import (
	"cmp"
	"fmt"
	"strings"

	"gopkg.in/yaml.v3"

	"holdover/loads/units"
	"holdover/profiles"
)

// Runs are the lengths of wire that a transfer needs.
type Runs []Run

// A Run is one of them. Zero amps, volts or temperatures are filled in where the run is sized.
type Run struct {
	Name       string        `key:"name" required:"true" doc:"from where to where"`
	Length     units.Metres  `key:"length" range:"0.3,3000" required:"true" doc:"one way"`
	Metal      Metal         `key:"metal" one:"copper,aluminium,aluminum" doc:"copper (unless given) or aluminium"`
	Serves     string        `key:"serves" one:"source,service,feeder,branch" doc:"source (unless given): from the generator or inverter; service: the whole dwelling; feeder; branch"`
	Amps       units.Amps    `key:"amps" range:"0.5,1200" doc:"current it carries; of a source, what its nameplate says"`
	Volts      units.Volts   `key:"volts" range:"100,250" doc:"between its two conductors"`
	Ambient    units.Celsius `key:"ambient" range:"-60,85" doc:"hottest along the run, 30 C unless given"`
	Terminals  units.Celsius `key:"terminals" range:"60,90" doc:"what its terminals are marked for: 60 C, 75 C or 90 C"`
	Insulation units.Celsius `key:"insulation" range:"60,90" doc:"what its insulation is marked for: 60 C, 75 C or 90 C"`
}

// String names the runs, for the list of inputs.
func (r Runs) String() string {
	names := make([]string, len(r))
	for i, run := range r {
		names[i] = fmt.Sprintf("%s, %s m", run.Name, units.Format(float64(run.Length)))
	}
	return strings.Join(names, "; ")
}

// Gas is the piping, or the cylinders, that a generator on gas would hang on.
type Gas struct {
	Kind       profiles.FuelName        `key:"kind" from:"gases" doc:"kind of gas; unless given, what comes in cylinders where there are some, else what comes by pipe"`
	Material   string                   `key:"material" one:"iron,polyethylene" doc:"iron (unless given) or polyethylene"`
	Pipe       Pipe                     `key:"pipe" doc:"pipe size: 1/2 in, 3/4 in, 1 in or 1-1/4 in"`
	Length     units.Metres             `key:"length" range:"0.3,1000" doc:"from the meter or regulator to the farthest appliance"`
	Pressure   units.Kilopascals        `key:"pressure" range:"0.5,700" doc:"where the pipe begins; the usual pressure of its gas unless given"`
	Meter      units.CubicMetresPerHour `key:"meter" range:"0.5,1000" doc:"what the meter can give"`
	Appliances units.Watts              `key:"appliances" range:"0,1000000" doc:"gas burnt by everything else on this pipe"`
	Cylinders  int                      `key:"cylinders" range:"0,50" doc:"cylinders of 100 lb side by side"`
	Left       float64                  `key:"left" range:"0.1,1" doc:"how full they still are when it matters, a half unless given"`
}

// Burns is the kind of gas, given or not.
func (g Gas) Burns() profiles.FuelName { return cmp.Or(g.Kind, profiles.UsualGas(g.Cylinders > 0)) }

// String says the pipe, for the list of inputs.
func (g Gas) String() string {
	if g == (Gas{}) {
		return ""
	}
	return strings.TrimSpace(fmt.Sprintf("%s %s in, %s m", g.Kind, g.Pipe, units.Format(float64(g.Length))))
}

// A Pipe is a pipe size in inches, as the trade writes it.
type Pipe string

func (p *Pipe) readText(text string) (says string, err error) {
	plain := strings.TrimSuffix(strings.ReplaceAll(strings.ReplaceAll(text, " in", ""), " ", "-"), "\"")
	for _, size := range profiles.PipeTables().Sizes {
		if plain == size {
			*p = Pipe(size)
			return text, nil
		}
	}
	return "", fmt.Errorf("%q found; %s in is accepted", text, oneOf(profiles.PipeTables().Sizes))
}

// checkWiring holds the runs and the pipe to what a single field cannot know.
func (r *reader) checkWiring(root *yaml.Node, house *Home) {
	site := child(root, "site")
	nodes := child(site, "runs")
	for i := range house.Site.Runs {
		if nodes.Kind != yaml.SequenceNode || nodes.Content[i].Kind != yaml.MappingNode {
			continue
		}
		r.checkRun(nodes.Content[i], house, &house.Site.Runs[i], fmt.Sprintf("site.runs[%d]", i))
	}
	gas := house.Site.Gas
	if fuel, _ := profiles.FindFuel(gas.Burns()); gas.Cylinders > 0 && !fuel.InCylinders() {
		r.fault(child(child(site, "gas"), "cylinders"), "site.gas.cylinders", "%s does not come in cylinders; %s is accepted", gas.Kind, profiles.UsualGas(true))
	}
	if house.Given("site.gas") && gas.Pipe != "" && gas.Length == 0 {
		r.fault(child(site, "gas"), "site.gas.length", "the length is missing; a pipe is sized by it, like {pipe: 3/4 in, length: 40 ft}")
	}
}

func (r *reader) checkRun(n *yaml.Node, house *Home, run *Run, path string) {
	if run.Name == "" && len(givenKeys(n, "name")) == 0 { // one that is given but not accepted was faulted where it was read
		r.fault(n, join(path, "name"), "the name is missing; say from where to where")
	}
	if _, ok := house.Origin(join(path, "length")); !ok {
		r.fault(n, join(path, "length"), "the length is missing; give it one way, like 60 ft")
	}
	for key, at := range map[string]units.Celsius{"terminals": run.Terminals, "insulation": run.Insulation} {
		if at != 0 && at != 60 && at != 75 && at != 90 {
			r.fault(child(n, key), join(path, key), "%s °C found; 60 C, 75 C or 90 C is accepted", units.Format(float64(at)))
		}
	}
	if run.Metal == aluminum {
		run.Metal = Aluminium
	}
}
