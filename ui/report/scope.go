package report

import (
	"fmt"
	"regexp"
	"strings"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner"
	"holdover/planner/install"
)

// Scope writes the electrician's job sheet, two sides of a page for a house of usual size: the load, the panel and the
// wire, then equipment, gas, checks and cautions. width is in columns; less than [MinWidth] counts as MinWidth.
func Scope(r *planner.Result, s *install.Scope, width int) string {
	j := &jobSheet{page: page{width: max(width, MinWidth)}, home: r.Home, scope: s}
	j.paragraph(title(r.Home)+": job sheet for the transfer equipment.", "")
	j.paragraph(j.head(), "")
	j.addDoNotBuild()
	j.line("")
	j.line("SIDE 1")
	j.addLoad()
	j.addRules()
	j.addRefusals()
	j.addSchedule()
	j.addWire()
	j.line("")
	j.line("SIDE 2")
	j.addMaterials()
	j.addGas()
	j.addChecks()
	j.addCautions()
	j.addFoot()
	return j.String()
}

// A jobSheet is the page being written.
type jobSheet struct {
	page
	home  *home.Home
	scope *install.Scope
}

// edition finds the edition of a standard in a source.
var edition = regexp.MustCompile(`, (20\d\d) edition`)

// cited writes a text and its source in brackets, short: the edition of the code followed is said once, at the head of the sheet.
func (j *jobSheet) cited(text, source string) string {
	if source = j.short(source); source == "" {
		return text
	}
	return text + " (" + source + ")"
}

// short is a source as the sheet has room for it; empty where its foot says it once for all.
func (j *jobSheet) short(source string) string {
	if !j.scope.Code.Detailed {
		return ""
	}
	if own := j.scope.Code.Edition; own != "" {
		source = strings.ReplaceAll(source, ", "+own, "")
	}
	source = strings.ReplaceAll(source, "US Consumer Product Safety Commission, generator safety releases", "US CPSC, generator safety")
	return edition.ReplaceAllString(source, " ($1)")
}

// addDoNotBuild says on top what nobody may build, and why.
func (j *jobSheet) addDoNotBuild() {
	failed := j.scope.DoNotBuild()
	if len(failed) == 0 {
		return
	}
	j.line("")
	j.paragraph("DO NOT BUILD with the "+j.scope.Source.Name+". No materials are listed for it:", "")
	for _, c := range failed {
		j.item(j.cited(c.Name+": "+c.Reason, c.Source))
	}
}

func (j *jobSheet) addFoot() {
	j.line("")
	j.paragraph(j.scope.Code.Foot, "")
}

func (j *jobSheet) head() string {
	s := j.scope
	head := fmt.Sprintf("Service %s", j.home.House.Service)
	if j.home.House.ServiceAmps > 0 {
		head += ", " + amount(float64(j.home.House.ServiceAmps), "A")
	}
	head += fmt.Sprintf("; code %s; transfer %s", s.Code.Title, s.Mode)
	if s.Source == nil {
		return head + "; no source is chosen."
	}
	return fmt.Sprintf("%s; source: %s, %s rated, %s here, %s V, neutral %s.", head, s.Source.Name, amount(s.Source.RatedKVA, "kVA"),
		amount(s.Source.SiteKVA, "kVA"), units.Format(s.Source.Volts), neutralWord(s.Source.Neutral))
}

func neutralWord(neutral string) string {
	switch neutral {
	case "":
		return "not known"
	case "passed":
		return "passed through"
	}
	return neutral
}

// loadLines are the lines of the calculated load on the sheet; the rest are in the JSON.
var loadLines = []struct{ label, va, amps string }{
	{"General, after its factors", "service.general_demand_va", ""},
	{"Cooking", "service.range_va", ""},
	{"Dryer", "service.dryer_va", ""},
	{"Fastened appliances", "service.fastened_va", ""},
	{"Heating or cooling", "service.hvac_va", ""},
	{"Motors", "service.motor_va", ""},
	{"Other", "service.other_va", ""},
	{"Share of the largest motor", "service.largest_motor_va", ""},
	{"Standard method", "service.standard_va", "service.standard_a"},
	{"Its neutral", "service.neutral_va", "service.neutral_a"},
	{"Optional method", "service.optional_va", "service.optional_a"},
	{"Existing dwelling", "service.existing_va", "service.existing_a"},
	{"By measured demand", "service.measured_va", "service.measured_a"},
	{"Least for a new service", "", "service.minimum_a"},
	{"Connected, all plates", "service.connected_va", "service.connected_a"},
}

func (j *jobSheet) addLoad() {
	t := table{heads: []string{"", "VA", "A", ""}, right: []bool{false, true, true, false}}
	for _, line := range loadLines {
		va, source := j.figure(line.va)
		amps, from := j.figure(line.amps)
		if source == "" {
			source = from
		}
		if (va != "" && va != "0") || amps != "" {
			t.add(line.label, va, amps, j.short(source))
		}
	}
	if len(t.rows) > 0 {
		j.heading("Calculated load")
		t.write(&j.page)
	}
}

// figure is a figure's value and its source, empty where it is not on the sheet.
func (j *jobSheet) figure(id string) (value, source string) {
	if f, ok := j.scope.Sheet.Get(id); ok {
		return units.Format(f.Value), f.Source
	}
	return "", ""
}

// addRules says what each option must give under each way of transfer.
func (j *jobSheet) addRules() {
	if len(j.scope.Rules) == 0 {
		return
	}
	j.heading("What the source must give, by way of transfer (* as asked for)")
	t := table{heads: []string{"option, way", "wanted VA", "gives VA", j.short(j.scope.Rules[0].Clause)}, right: []bool{false, true, true, false}}
	for _, r := range j.scope.Rules {
		name, says := r.Source+", "+r.Mode, "enough"
		if r.Applies {
			name += " *"
		}
		switch {
		case !r.OK && r.MadeKVA > 0:
			says = fmt.Sprintf("too small: take %s rated", amount(r.MadeKVA, "kVA"))
		case !r.OK:
			says = "too small, and none is made so large"
		}
		t.add(name, units.Format(r.NeededVA), units.Format(r.HasVA), says)
	}
	t.write(&j.page)
}

func (j *jobSheet) addRefusals() {
	if len(j.scope.Refusals) == 0 {
		return
	}
	j.heading("Refused")
	for _, r := range j.scope.Refusals {
		j.item(j.cited(r.Source+": "+r.Reason, r.Rule))
	}
}

// addSchedule is the panel schedule: what is carried, line by line, then what stays on the main panel.
func (j *jobSheet) addSchedule() {
	s := j.scope
	t := table{heads: []string{"circuit", "A", "poles", "leg", "VA", "care", "shares"}, right: []bool{false, true, true, false, true, false, false}}
	hasLegs := j.home.House.Service == home.SplitPhase
	if !hasLegs {
		t.heads[3] = ""
	}
	row := map[string]int{}
	var left []string
	for i, line := range s.Panel {
		row[line.Circuit] = i + 1
	}
	for i, line := range s.Panel {
		if !line.Backed {
			left = append(left, line.Circuit)
			continue
		}
		name := fmt.Sprintf("%d %s", i+1, line.Circuit)
		if line.Count > 1 {
			name += fmt.Sprintf(" (%d)", line.Count)
		}
		if line.Instruction != "" && strings.HasPrefix(line.Instruction, "move") {
			name += ": " + line.Instruction
		}
		shares := ""
		if line.SharesWith != "" {
			shares = fmt.Sprintf("with %d", row[line.SharesWith])
		}
		t.add(name, orDash(line.BreakerA), fmt.Sprint(line.Poles), line.Leg, units.Format(line.RunningVA), line.Care, shares)
	}
	j.heading("Panel schedule")
	if len(t.rows) > 0 {
		t.write(&j.page)
		j.paragraph(legLine(s, hasLegs), tableIndent)
	}
	if len(left) > 0 {
		j.paragraph("Stay on the main panel: "+strings.Join(left, "; ")+".", tableIndent)
	}
}

func orDash(value float64) string {
	if value == 0 {
		return "-"
	}
	return units.Format(value)
}

func legLine(s *install.Scope, hasLegs bool) string {
	if !hasLegs {
		return fmt.Sprintf("Together %s, %s.", amount(float64(s.Legs.A.VA()), "VA"), amount(float64(s.Legs.Neutral), "A"))
	}
	if s.Legs.B == 0 {
		return fmt.Sprintf("All on one leg: %s, %s.", amount(float64(s.Legs.A.VA()), "VA"), amount(float64(s.Legs.Neutral), "A"))
	}
	text := fmt.Sprintf("Leg A %s, leg B %s; neutral %s", amount(float64(s.Legs.A.VA()), "VA"), amount(float64(s.Legs.B.VA()), "VA"), amount(float64(s.Legs.Neutral), "A"))
	if f, ok := s.Sheet.Get("transfer.neutral_most_a"); ok {
		text += ", at most " + amount(f.Value, "A")
	}
	if len(s.Legs.Moves) > 0 {
		text += fmt.Sprintf("; after the moves the heavier leg carries %s", amount(float64(s.Legs.Better), "VA"))
	}
	return text + "."
}
