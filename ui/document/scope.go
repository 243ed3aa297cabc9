package document

import (
	"fmt"
	"regexp"
	"strings"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/install"
	"holdover/planner/service"
)

// Scope is the electrician's job sheet, two sides of a page for a house of usual size: the load, the panel and the wire, then
// equipment, gas, checks and cautions.
func Scope(w Worked) Document {
	if w.Scope == nil {
		return nil
	}
	s := jobSheet{w.Scope}
	d := Document{
		Paragraph{Text: Name(w.home()) + ": job sheet for the transfer equipment."},
		Paragraph{Text: s.head(w.home())},
	}
	for _, part := range []Document{s.doNotBuild(), {Heading{Text: "SIDE 1"}}, s.load(), s.rules(), s.refusals(), s.schedule(w.home()), s.wire(), {Heading{Text: "SIDE 2"}}, s.materials(), s.gas(), s.checks(), s.cautions(), s.foot()} {
		d = append(d, part...)
	}
	return d
}

// A jobSheet says the parts of a scope.
type jobSheet struct{ *install.Scope }

// edition finds the edition of a standard in a source.
var edition = regexp.MustCompile(`, (20\d\d) edition`)

// cited writes a text and its source in brackets, short: the edition of the code followed is said once, at the head of the sheet.
func (s jobSheet) cited(text, source string) string {
	if source = s.source(source); source != "" {
		text += " (" + source + ")"
	}
	return text
}

// source is a source as the sheet has room for it; empty where its foot says it once for all.
func (s jobSheet) source(source string) string {
	if !s.Code.Detailed {
		return ""
	}
	if own := s.Code.Edition; own != "" {
		source = strings.ReplaceAll(source, ", "+own, "")
	}
	source = strings.ReplaceAll(source, "US Consumer Product Safety Commission, generator safety releases", "US CPSC, generator safety")
	return edition.ReplaceAllString(source, " ($1)")
}

// doNotBuild says on top what nobody may build, and why.
func (s jobSheet) doNotBuild() Document {
	failed := s.DoNotBuild()
	if len(failed) == 0 {
		return nil
	}
	var why List
	for _, c := range failed {
		why = append(why, s.cited(c.Name+": "+c.Reason, c.Source))
	}
	return Document{Paragraph{Text: "DO NOT BUILD with the " + s.Source.Name + ". No materials are listed for it:"}, why}
}

func (s jobSheet) foot() Document { return Document{Paragraph{Text: s.Code.Foot}} }

func (s jobSheet) head(house *home.Home) string {
	head := fmt.Sprintf("Service %s", house.House.Service)
	if house.House.ServiceAmps > 0 {
		head += ", " + units.Quantity(float64(house.House.ServiceAmps), "A")
	}
	head += fmt.Sprintf("; code %s; transfer %s", s.Code.Title, s.Mode)
	if s.Source == nil {
		return head + "; no source is chosen."
	}
	return fmt.Sprintf("%s; source: %s, %s rated, %s here, %s, neutral %s.", head, s.Source.Name, units.Quantity(s.Source.RatedKVA, "kVA"),
		units.Quantity(s.Source.SiteKVA, "kVA"), units.Quantity(s.Source.Volts, "V"), neutralWord(s.Source.Neutral))
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

func (s jobSheet) load() Document {
	t := Table{Name: "load", Columns: []Column{{}, {Head: "VA", Kind: Number}, {Head: "A", Kind: Number}, {Kind: Prose}}}
	for _, line := range loadLines {
		va, source := s.figure(line.va)
		amps, from := s.figure(line.amps)
		if source == "" {
			source = from
		}
		if (va.Text != "" && va.Text != "0") || amps.Text != "" {
			t.AddCells(Text(line.label), va, amps, Text(s.source(source)))
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return under("Calculated load", t)
}

// figure is a figure's value and its source, empty where it is not on the sheet.
func (s jobSheet) figure(id string) (value Cell, source string) {
	if f, ok := s.Sheet.Get(id); ok {
		return Exactly(f.Value), f.Source
	}
	return Cell{}, ""
}

// rules say what each option must give under each way of transfer.
func (s jobSheet) rules() Document {
	if len(s.Rules) == 0 {
		return nil
	}
	t := Table{Name: "rules", Columns: []Column{{Head: "option, way"}, {Head: "wanted VA", Kind: Number}, {Head: "gives VA", Kind: Number}, {Head: s.source(s.Rules[0].Clause)}}}
	for _, r := range s.Rules {
		name, says := r.Source+", "+string(r.Mode), "enough"
		if r.Applies {
			name += " *"
		}
		switch {
		case !r.OK && r.MadeKVA > 0:
			says = fmt.Sprintf("too small: take %s rated", units.Quantity(r.MadeKVA, "kVA"))
		case !r.OK:
			says = "too small, and none is made so large"
		}
		t.AddCells(Text(name), Exactly(r.NeededVA), Exactly(r.HasVA), Text(says))
	}
	return under("What the source must give, by way of transfer (* as asked for)", t)
}

func (s jobSheet) refusals() Document {
	var says List
	for _, r := range s.Refusals {
		says = append(says, s.cited(r.Source+": "+r.Reason, r.Rule))
	}
	if says == nil {
		return nil
	}
	return under("Refused", says)
}

// schedule is the panel schedule: what is carried, line by line, then what stays on the main panel.
func (s jobSheet) schedule(house *home.Home) Document {
	hasLegs := house.House.Service == home.SplitPhase
	t := Table{Name: "panel", Columns: []Column{{Head: "circuit"}, {Head: "A", Kind: Number}, {Head: "poles", Kind: Number}, {Head: "leg"}, {Head: "VA", Kind: Number}, {Head: "care"}, {Head: "shares"}}}
	if !hasLegs {
		t.Columns[3].Head = ""
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
		if strings.HasPrefix(line.Instruction, "move") {
			name += ": " + line.Instruction
		}
		shares := ""
		if line.SharesWith != "" {
			shares = fmt.Sprintf("with %d", row[line.SharesWith])
		}
		t.AddCells(Text(name), orDash(line.BreakerA), Text(fmt.Sprint(line.Poles)), Text(line.Leg), Exactly(line.RunningVA), Text(line.Care), Text(shares))
	}
	d := Document{Heading{Text: "Panel schedule"}}
	if len(t.Rows) > 0 {
		d = append(d, t, Note(s.legs(hasLegs)))
	}
	if len(left) > 0 {
		d = append(d, Note("Stay on the main panel: "+strings.Join(left, "; ")+"."))
	}
	return d
}

// orDash is a number, or a dash where it is 0: not known.
func orDash(value float64) Cell {
	if value == 0 {
		return Text("-")
	}
	return Exactly(value)
}

func (s jobSheet) legs(hasLegs bool) string {
	va := func(v units.VoltAmps) string { return units.Quantity(float64(v), "VA") }
	neutral := units.Quantity(float64(s.Legs.Neutral), "A")
	if !hasLegs {
		return fmt.Sprintf("Together %s, %s.", va(s.Legs.A.VA()), neutral)
	}
	if s.Legs.B == 0 {
		return fmt.Sprintf("All on one leg: %s, %s.", va(s.Legs.A.VA()), neutral)
	}
	text := fmt.Sprintf("Leg A %s, leg B %s; neutral %s", va(s.Legs.A.VA()), va(s.Legs.B.VA()), neutral)
	if f, ok := s.Sheet.Get("transfer.neutral_most_a"); ok {
		text += ", at most " + units.Quantity(f.Value, "A")
	}
	if len(s.Legs.Moves) > 0 {
		text += "; after the moves the heavier leg carries " + va(s.Legs.Better)
	}
	return text + "."
}

func (s jobSheet) materials() Document {
	if len(s.Equipment) == 0 {
		return nil
	}
	t := Table{Name: "materials", Columns: []Column{{Kind: Number}, {Kind: Prose}}}
	for _, item := range s.Equipment {
		text := item.Item
		if item.Detail != "" {
			text += ": " + item.Detail
		}
		t.Add(fmt.Sprint(item.Quantity), s.cited(text, item.Source))
	}
	return under("Bill of materials (no make is meant)", t)
}

func (s jobSheet) wire() Document {
	if len(s.Conductors) == 0 {
		return nil
	}
	if !s.Code.Detailed {
		return s.wireSI()
	}
	t := Table{Name: "conductors", Columns: []Column{{Head: "run"}, {}, {Head: "ft", Kind: Number}, {Head: "load", Kind: Number}, {Head: "least", Kind: Number}, {Head: "by", Kind: Number},
		{Head: "wire"}, {Head: "drop", Kind: Number}, {Head: "for 3 %"}, {Head: "ground"}}}
	notes := []Block{Note("A, %, AWG (250 up: kcmil); by: protection; sizes " + s.Code.Rule("wire-size").Phrase("tables").Words)}
	for _, c := range s.Conductors {
		drop := Text("-")
		if c.LengthFt > 0 && c.Size != "" {
			drop = Exactly(c.DropPercent)
		}
		t.AddCells(Text(c.Name), Text(map[string]string{"copper": "Cu", "aluminium": "Al"}[c.Metal]), orDash(c.LengthFt), Exactly(c.LoadA), Exactly(c.RequiredA), Exactly(c.OvercurrentA),
			Text(dashed(c.Size)), drop, Text(dashed(c.SizeFor3)), Text(dashed(c.Ground)))
		if c.Bond != "" {
			bond := s.Code.Rule("supply-bond")
			notes = append(notes, Note(s.cited(c.Name+": "+service.Say(bond, "size", c.Bond), bond.Source())))
		}
	}
	return append(under("Conductors", t), notes...)
}

func (s jobSheet) wireSI() Document {
	t := Table{Name: "conductors", Columns: []Column{{Head: "run"}, {Head: "metal"}, {Head: "m", Kind: Number}, {Head: "load A", Kind: Number}, {Head: "least mm2 for 3 %", Kind: Number}}}
	for _, c := range s.Conductors {
		t.AddCells(Text(c.Name), Text(c.Metal), orDash(units.Length.From(c.LengthFt, "ft")), Exactly(c.LoadA), orDash(c.LeastMM2))
	}
	return under("Conductors", t, Note(s.Conductors[0].How))
}

func (s jobSheet) gas() Document {
	if len(s.Gas) == 0 {
		return nil
	}
	t := Table{Name: "gas", Columns: []Column{{Head: "supply"}, {Head: "wanted", Kind: Number}, {Head: "given", Kind: Number}, {Head: "unit"}, {}}}
	for _, l := range s.Gas {
		t.AddCells(Text(l.What+" for "+l.Source), Exactly(l.Demand), Exactly(l.Capacity), Text(l.Unit), Text(map[bool]string{true: "enough", false: "too small"}[l.OK]))
	}
	return under("Gas", t)
}

// checks lists what fails and what is missing with the reason, and what is well by its name alone: the JSON has its figures.
func (s jobSheet) checks() Document {
	var says Entries
	var well []string
	tones := map[string]Tone{install.Fail: Bad, install.Needs: Warn}
	for _, result := range []string{install.Fail, install.Needs, install.Pass} {
		for _, c := range s.Checks {
			switch {
			case c.Result != result:
			case result == install.Pass && c.About != "" && (s.Source == nil || c.About != s.Source.Name): // another option's
			case result == install.Pass:
				well = append(well, c.Name)
			default:
				text := c.Name + ": " + c.Reason
				if !strings.Contains(c.Reason, c.Step) {
					text += "; to do: " + c.Step
				}
				says = append(says, Entry{result, s.cited(text, c.Source), tones[result]})
			}
		}
	}
	if len(well) > 0 {
		says = append(says, Entry{install.Pass, strings.Join(well, "; "), Good})
	}
	return under("Checks", says)
}

func (s jobSheet) cautions() Document {
	d := Document{Heading{Text: "Cautions"}}
	for _, c := range s.Cautions {
		d = append(d, Caution{c.Word, leading(c.Text), s.source(c.Source)})
	}
	return d
}

// leading is as many whole sentences as a line on a job sheet has room for, the first at least. The JSON has the text
// whole.
func leading(text string) string {
	const room = 310 // characters, four lines: the longest that says both what is wrong and what to do
	sentences := strings.SplitAfter(text, ". ")
	out := sentences[0]
	for _, sentence := range sentences[1:] {
		if len(out)+len(sentence) > room {
			break
		}
		out += sentence
	}
	return strings.TrimSpace(out)
}
