package home

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"holdover/loads/units"
	"holdover/loads/visible"
	"holdover/profiles"
)

// This file does what no single field can: it lays a circuit over its profile, takes what depends on the battery's
// chemistry, and checks fields against one another.

// readNode lays the circuit's own keys over those of the profile it is like.
func (c *Circuit) readNode(r *reader, n *yaml.Node, path string) {
	*c = Circuit{Care: Keep, Count: 1, PowerFactor: 1, Leg: "auto", Start: Start{Kind: NoStart}, Needs: Needs{Wave: AnyWave}}
	if n.Kind != yaml.MappingNode {
		r.fault(n, path, "%s found; a circuit is a mapping that begins with its name", describe(n))
		return
	}
	c.readProfile(r, n, path)
	profileAmps, profileVolts := c.RunningAmps, c.Volts
	r.mapping(n, reflect.ValueOf(c).Elem(), path)
	given := givenKeys(n, "running", "running_amps")
	if len(given) == 2 {
		r.fault(n, path, "both running and running_amps are given; keep one")
	}
	switch {
	case len(given) == 1 && given[0] == "running":
		c.RunningAmps = 0
	case len(given) == 0 && profileAmps > 0 && profileVolts > 0:
		// What a motor draws does not change when it is wired for another voltage, so the profile's amps count at the
		// profile's volts.
		c.Running = units.Watts(float64(profileAmps) * float64(profileVolts) * c.PowerFactor)
		c.RunningAmps = 0
	}
	if c.Start.Kind == StartAmps && len(givenKeys(n, "start")) == 0 {
		c.Start.Volts = profileVolts
	}
}

func (c *Circuit) readProfile(r *reader, n *yaml.Node, path string) {
	like := child(n, "like").Value // of the mapping itself, where there is none, it is empty
	if like == "" {
		return
	}
	p, ok := profiles.FindCircuit(like)
	if !ok {
		r.fault(n, join(path, "like"), "no profile is called %q%s", like, suggestProfile(like))
		return
	}
	outer, wasQuiet := r.source, r.quiet
	r.source, r.quiet = "profile "+p.Name+": "+p.Source, true
	r.mapping(&p.Fields, reflect.ValueOf(c).Elem(), path)
	r.source, r.quiet = outer, wasQuiet
}

func suggestProfile(like string) string {
	for _, word := range profiles.EverydayWord(strings.ToLower(like)) {
		for _, name := range profiles.Names("circuits") {
			if strings.Contains(name, strings.ReplaceAll(word, " ", "-")) {
				return "; did you mean " + name + "?"
			}
		}
	}
	if best := nearest(like, profiles.Names("circuits")); best != "" {
		return "; did you mean " + best + "?"
	}
	return "; holdover profiles lists them"
}

// finish fills what depends on other fields, and checks fields against one another.
func (r *reader) finish(root *yaml.Node, house *Home) {
	r.finishCode(root, house)
	r.fillChemistry(root, house)
	if len(house.Limits.Fuels) == 0 {
		r.fault(child(child(root, "limits"), "fuels"), "limits.fuels", "no fuel found; list at least one, or say generator: none")
	}
	if !house.Given("circuits") || (len(house.Circuits) == 0 && len(r.faults) == 0) {
		r.fault(child(root, "circuits"), "circuits", "no circuits found; list at least one")
	}
	if house.Site.Coldest > house.Site.Hottest {
		site := child(root, "site")
		r.fault(child(site, "coldest"), "site.coldest", "the low, %s, is above the high, %s (site.hottest)",
			typed(site, "coldest", house.Site.Coldest), typed(site, "hottest", house.Site.Hottest))
	}
	r.checkLasts(root, house)
	r.checkWiring(root, house)
	nodes := child(root, "circuits")
	lines := map[string]int{}
	for i := range house.Circuits {
		r.finishCircuit(nodes.Content[i], house, &house.Circuits[i], fmt.Sprintf("circuits[%d]", i), lines)
	}
	r.checkPairs(nodes, house)
	if house.Given("gear") {
		r.checkGear(child(root, "gear"), house.Gear)
	}
}

// checkLasts wants both figures or neither, the second the longer.
func (r *reader) checkLasts(root *yaml.Node, house *Home) {
	if !house.Given("outage.lasts") {
		return
	}
	lasts, at := house.Outage.Lasts, child(child(root, "outage"), "lasts")
	if lasts.Half == 0 || lasts.NineInTen <= lasts.Half {
		r.fault(at, "outage.lasts", "half and nine_in_ten are both wanted, the second the longer, like {half: 2 h, nine_in_ten: 10 h}")
	}
}

// finishCode takes the usual wiring code of the service where none is named. One for another kind of supply is a fault: its load
// and its wire are reckoned for that supply alone, and a sheet without them would look as if nothing were missing.
func (r *reader) finishCode(root *yaml.Node, house *Home) {
	service := string(house.House.Service)
	if house.House.Code == "" {
		house.House.Code = house.Code().Name
		house.origins["home.code"] = Origin{Source: "followed on " + service + " where none is named"}
		return
	}
	code := house.Code()
	if slices.Contains(code.Supplies, service) {
		return
	}
	fitting := slices.DeleteFunc(profiles.Codes(), func(name string) bool {
		c, _ := profiles.FindCode(name)
		return !slices.Contains(c.Supplies, service)
	})
	r.fault(child(child(root, "home"), "code"), "home.code", "%q is for %s, and this home has %s; %s is accepted", code.Name, oneOf(code.Supplies), service, oneOf(fitting))
}

func (r *reader) fillChemistry(root *yaml.Node, house *Home) {
	a := &house.Assume
	chemistry, ok := profiles.FindChemistry(a.Chemistry)
	if !ok {
		return // the word itself was faulted
	}
	source := Origin{Source: "chemistry " + string(chemistry.Name) + ": " + chemistry.Source}
	for _, d := range []struct {
		key   string
		into  *float64
		value float64
	}{
		{"depth_of_discharge", &a.DepthOfDischarge, chemistry.DepthOfDischarge},
		{"capacity_at_end_of_life", &a.EndOfLife, chemistry.CapacityAtEndOfLife},
		{"peukert", &a.Peukert, chemistry.Peukert},
	} {
		if path := "assume." + d.key; !house.Given(path) {
			*d.into = d.value
			house.origins[path] = source
		}
	}
}

// finishCircuit fills volts, running watts and heater figures, and checks the circuit against its house.
func (r *reader) finishCircuit(n *yaml.Node, house *Home, c *Circuit, path string, lines map[string]int) {
	if n.Kind != yaml.MappingNode {
		return
	}
	r.checkName(n, c.Name, path, "circuit", lines)
	r.finishVolts(n, house, c, path)
	if c.Heater != nil {
		c.Heater.fill(house.Assume, func(key string) bool { return house.origins[join(path, "heater."+key)] != (Origin{}) })
		r.finishHeater(n, c, path)
	}
	r.finishMotor(n, house, c, path)
	if c.RunningAmps > 0 {
		c.Running = units.Watts(float64(c.RunningAmps) * float64(c.Volts) * c.PowerFactor)
	}
	r.finishRunning(n, house, c, path)
	if (c.Use.Kind == UseHeating || c.Use.Kind == UseCooling) && c.Output == 0 && house.House.HeatLoss > 0 {
		r.fault(n, join(path, "output"), "use: %s needs the output of heat at full running, like {output: 18 kW}", c.Use.Kind)
	}
}

// checkName wants a name of every entry, and each once; lines has those before it. One that is given but empty was faulted where it
// was read.
func (r *reader) checkName(n *yaml.Node, name, path, what string, lines map[string]int) {
	switch line, again := lines[name]; {
	case name == "" && len(givenKeys(n, "name")) == 0:
		r.fault(n, join(path, "name"), "the name is missing; every %s needs one", what)
	case name != "" && again:
		r.fault(child(n, "name"), join(path, "name"), "%q is the name of the %s on line %d too; each needs its own", name, what, line)
	}
	lines[name] = n.Line
}

// finishRunning takes a circuit without a running draw to draw its nameplate, the most that it can; without that either,
// it is faulted.
func (r *reader) finishRunning(n *yaml.Node, house *Home, c *Circuit, path string) {
	_, given := house.origins[join(path, "running")]
	if given || c.Running > 0 || c.Heater != nil {
		return
	}
	if c.Like != "" {
		if _, known := profiles.FindCircuit(c.Like); !known {
			return // faulted already
		}
	}
	if c.Nameplate == 0 {
		r.fault(n, join(path, "running"), "the running power is missing; give running (like 150 W), running_amps, nameplate, or like with a profile's name")
		return
	}
	c.Running = units.Watts(float64(c.Nameplate) * c.PowerFactor)
}

func (r *reader) finishVolts(n *yaml.Node, house *Home, c *Circuit, path string) {
	leg := house.House.Service.LegVolts()
	at := child(n, "volts")
	switch {
	case house.House.Service == Only230 && (c.Volts == 0 || !house.Given(join(path, "volts"))):
		c.Volts = leg
	case c.Volts == 0:
		c.Volts = leg
	case house.House.Service == Only230 && c.Volts < 200:
		r.fault(at, join(path, "volts"), "%s V on a 230 V service; 200 to 250 V is accepted", units.Format(float64(c.Volts)))
	case house.House.Service == Only120 && c.Volts > 130:
		r.fault(at, join(path, "volts"), "%s V on a 120 V service; 100 to 130 V is accepted", units.Format(float64(c.Volts)))
	case c.Volts > 130 && c.Volts < 200:
		r.fault(at, join(path, "volts"), "%s V found; 100 to 130 V or 200 to 250 V is accepted", units.Format(float64(c.Volts)))
	}
	if c.Leg != "auto" && (house.House.Service != SplitPhase || c.Volts > 130) {
		r.fault(child(n, "leg"), join(path, "leg"), "leg %s found; only a 120 V circuit on a 120/240 V service has one leg", c.Leg)
	}
}

func (r *reader) finishHeater(n *yaml.Node, c *Circuit, path string) {
	if c.Heater.GuardFull >= c.Heater.GuardFrom {
		r.fault(child(n, "heater"), join(path, "heater.guard_full"), "%s °C is not below the cut-in, %s °C",
			units.Format(float64(c.Heater.GuardFull)), units.Format(float64(c.Heater.GuardFrom)))
	}
}

// checkPairs holds multiwire partners to their rules: both there, both 120 V, not on one leg, no third.
func (r *reader) checkPairs(nodes *yaml.Node, house *Home) {
	index := map[string]int{}
	for i, c := range house.Circuits {
		index[c.Name] = i
	}
	partner := map[int]int{} // by place: a name may be refused, or stand twice
	for i, c := range house.Circuits {
		if c.SharesWith == "" {
			continue
		}
		path := fmt.Sprintf("circuits[%d].shares_neutral_with", i)
		at := child(nodes.Content[i], "shares_neutral_with")
		j, ok := index[c.SharesWith]
		switch {
		case !ok:
			r.fault(at, path, "no circuit is called %q", c.SharesWith)
			continue
		case i == j:
			r.fault(at, path, "a circuit cannot share a neutral with itself")
			continue
		case house.House.Service == SplitPhase && (c.Volts > 130 || house.Circuits[j].Volts > 130):
			r.fault(at, path, "only two 120 V circuits share a neutral")
		case c.Leg != "auto" && c.Leg == house.Circuits[j].Leg:
			r.fault(at, path, "both are on leg %s, which would overload their neutral; put them on opposite legs", c.Leg)
		}
		for _, pair := range [][2]int{{i, j}, {j, i}} {
			if old, taken := partner[pair[0]]; taken && old != pair[1] {
				r.fault(at, path, "%s shares its neutral with %s already; a third cannot join", called(house, pair[0]), called(house, old))
			}
			partner[pair[0]] = pair[1]
		}
	}
}

// called is the name of circuit i in quotes, or its path where the name was refused.
func called(house *Home, i int) string {
	if name := house.Circuits[i].Name; name != "" {
		return strconv.Quote(name)
	}
	return fmt.Sprintf("circuits[%d]", i)
}

// typed is a temperature as the file has it, or the one assumed.
func typed(section *yaml.Node, key string, assumed units.Celsius) string {
	if n := child(section, key); n != nil && n != section {
		return visible.Cut(n.Value, visible.Width)
	}
	return units.Format(float64(assumed)) + " C assumed"
}

// child finds the value of a key, or n itself when the key is not there, so that a fault still has a line.
func child(n *yaml.Node, key string) *yaml.Node {
	if n == nil {
		return nil
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Kind == yaml.MappingNode && n.Content[i].Value == key {
			return n.Content[i+1]
		}
	}
	return n
}

// fill takes the cut-in and the rated low from the assumptions where neither file nor profile gives them.
func (h *Heater) fill(a Assume, has func(key string) bool) {
	if !has("guard_from") {
		h.GuardFrom = a.FreezeCutIn
	}
	if !has("guard_full") {
		h.GuardFull = a.FreezeFull
	}
}
