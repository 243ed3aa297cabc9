package document

import (
	"fmt"
	"regexp"
	"strings"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/transfer"
)

// Scope is the electrician's job sheet, two sides of a page for a house of usual size: the load and the panel, then equipment,
// wire, gas, checks and cautions.
func Scope(w Worked) Document {
	if w.Scope == nil {
		return nil
	}
	s := jobSheet{w.Scope}
	d := Document{
		Paragraph{Text: Name(w.home()) + ": job sheet for the transfer equipment."},
		Paragraph{Text: s.head(w.home())},
		Heading{Text: "SIDE 1"},
	}
	for _, part := range []Document{s.load(), s.rules(), s.refusals(), s.schedule(), {Heading{Text: "SIDE 2"}}, s.materials(), s.wire(), s.gas(), s.checks(), s.cautions(), s.foot()} {
		d = append(d, part...)
	}
	return d
}

// A jobSheet says the parts of a scope.
type jobSheet struct{ *transfer.Scope }

// edition finds the edition of a standard in a source.
var edition = regexp.MustCompile(`, (20\d\d) edition`)

// cited writes a text and its source in brackets, short: what all have in common is said once, at the foot of the sheet.
func (s jobSheet) cited(text, source string) string {
	if source = s.source(source); source != "" {
		text += " (" + source + ")"
	}
	return text
}

// source is a source as the sheet has it: short, and none where the foot says it once for all.
func (s jobSheet) source(source string) string {
	if !s.US {
		return ""
	}
	return shortSource(source)
}

func shortSource(source string) string {
	source = strings.ReplaceAll(source, ", from memory", "")
	source = strings.ReplaceAll(source, "US Consumer Product Safety Commission, generator safety releases", "US CPSC, generator safety")
	source = edition.ReplaceAllString(source, " ($1)")
	if strings.HasPrefix(source, "NEC") {
		source = strings.ReplaceAll(source, " (2020)", "")
	}
	return source
}

func (s jobSheet) foot() Document {
	if !s.US {
		return Document{Paragraph{Text: "What is said here is physics and common practice. Local wiring rules (IEC 60364 family) apply."}}
	}
	return Document{Paragraph{Text: "NEC means the 2020 edition. Clauses and tables are from memory unless the JSON says where they were read; check them in the code in force."}}
}

func (s jobSheet) head(house *home.Home) string {
	head := fmt.Sprintf("Service %s", house.House.Service)
	if house.House.ServiceAmps > 0 {
		head += ", " + units.Quantity(float64(house.House.ServiceAmps), "A")
	}
	head += fmt.Sprintf("; transfer %s", s.Mode)
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
	{"General load, after demand factors", "service.general_demand_va", ""},
	{"Cooking", "service.range_va", ""},
	{"Dryer", "service.dryer_va", ""},
	{"Fastened appliances", "service.fastened_va", ""},
	{"Heating or cooling", "service.hvac_va", ""},
	{"Motors", "service.motor_va", ""},
	{"Other", "service.other_va", ""},
	{"25 % of the largest motor", "service.largest_motor_va", ""},
	{"Standard method", "service.standard_va", "service.standard_a"},
	{"Its neutral", "service.neutral_va", "service.neutral_a"},
	{"Optional method", "service.optional_va", "service.optional_a"},
	{"Existing dwelling", "service.existing_va", "service.existing_a"},
	{"By measured demand", "service.measured_va", "service.measured_a"},
	{"Least rating of a new service", "", "service.minimum_a"},
	{"Connected, nothing left out", "service.connected_va", "service.connected_a"},
}

func (s jobSheet) load() Document {
	t := Table{Name: "load", Columns: []Column{{}, {Head: "VA", Kind: Number}, {Head: "A", Kind: Number}, {}}}
	for _, line := range loadLines {
		va, source := s.figure(line.va)
		amps, from := s.figure(line.amps)
		if source == "" {
			source = from
		}
		if (va.Text != "" && va.Text != "0") || amps.Text != "" {
			t.AddCells(Text(line.label), va, amps, Text(shortSource(source)))
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
	t := Table{Name: "rules", Columns: []Column{{Head: "option, way"}, {Head: "wanted VA", Kind: Number}, {Head: "gives VA", Kind: Number}, {}}}
	for _, r := range s.Rules {
		name, says := r.Source+", "+r.Mode, "enough"
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
	return under(s.cited("What the source must give, by way of transfer (* as asked for)", s.Rules[0].Clause), t)
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
func (s jobSheet) schedule() Document {
	t := Table{Name: "panel", Columns: []Column{{Head: "circuit"}, {Head: "A", Kind: Number}, {Head: "poles", Kind: Number}, {Head: "leg"}, {Head: "VA", Kind: Number}, {Head: "care"}, {Head: "shares"}}}
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
		d = append(d, t, Note(s.legs()))
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

func (s jobSheet) legs() string {
	va := func(v units.VoltAmps) string { return units.Quantity(float64(v), "VA") }
	neutral := units.Quantity(float64(s.Legs.Neutral), "A")
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
	if !s.US {
		return s.wireSI()
	}
	t := Table{Name: "conductors", Columns: []Column{{Head: "run"}, {}, {Head: "ft", Kind: Number}, {Head: "load", Kind: Number}, {Head: "least", Kind: Number}, {Head: "by", Kind: Number},
		{Head: "wire"}, {Head: "drop", Kind: Number}, {Head: "for 3 %"}, {Head: "ground"}}}
	notes := []Block{Note("A, %, AWG (250 up: kcmil); by: protection (NEC 310.16, 240.4, 250.122)")}
	for _, c := range s.Conductors {
		drop := Text("-")
		if c.LengthFt > 0 && c.Size != "" {
			drop = Exactly(c.DropPercent)
		}
		t.AddCells(Text(c.Name), Text(map[string]string{"copper": "Cu", "aluminium": "Al"}[c.Metal]), orDash(c.LengthFt), Exactly(c.LoadA), Exactly(c.RequiredA), Exactly(c.OvercurrentA),
			Text(dashed(c.Size)), drop, Text(dashed(c.SizeFor3)), Text(dashed(c.Ground)))
		if c.Bond != "" {
			notes = append(notes, Note(c.Name+": ahead of the service disconnect a supply-side bonding jumper, "+c.Bond+", takes the place of the grounding wire (NEC 250.102(C))"))
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
	tones := map[string]Tone{transfer.Fail: Bad, transfer.Needs: Warn}
	for _, result := range []string{transfer.Fail, transfer.Needs, transfer.Pass} {
		for _, c := range s.Checks {
			switch {
			case c.Result != result:
			case result == transfer.Pass && c.About != "" && (s.Source == nil || c.About != s.Source.Name): // another option's
			case result == transfer.Pass:
				well = append(well, c.Name)
			default:
				says = append(says, Entry{result, s.cited(c.Name+": "+c.Reason, c.Source), tones[result]})
			}
		}
	}
	if len(well) > 0 {
		says = append(says, Entry{transfer.Pass, strings.Join(well, "; "), Good})
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
