package report

import (
	"fmt"
	"strings"

	"holdover/loads/units"
	"holdover/planner/install"
	"holdover/planner/service"
)

// This file is the rest of the job sheet: equipment, wire, gas, checks and cautions.

func (j *jobSheet) addMaterials() {
	s := j.scope
	if len(s.Equipment) == 0 {
		return
	}
	j.heading("Bill of materials (no make is meant)")
	for _, item := range s.Equipment {
		text := item.Item
		if item.Detail != "" {
			text += ": " + item.Detail
		}
		j.paragraph(j.cited(text, item.Source), fmt.Sprintf("%3d  ", item.Quantity))
	}
}

func (j *jobSheet) addWire() {
	s := j.scope
	if len(s.Conductors) == 0 {
		return
	}
	j.heading("Conductors")
	t := table{heads: []string{"run", "", "ft", "load", "least", "by", "wire", "drop", "for 3 %", "ground"},
		right: []bool{false, false, true, true, true, true, false, true, false, false}}
	metric := table{heads: []string{"run", "metal", "m", "load A", "least mm2 for 3 %"}, right: []bool{false, false, true, true, true}}
	for _, c := range s.Conductors {
		if !s.Code.Detailed {
			metric.add(c.Name, c.Metal, orDash(units.Length.From(c.LengthFt, "ft")), units.Format(c.LoadA), orDash(c.LeastMM2))
			continue
		}
		drop := "-"
		if c.LengthFt > 0 && c.Size != "" {
			drop = units.Format(c.DropPercent)
		}
		t.add(c.Name, map[string]string{"copper": "Cu", "aluminium": "Al"}[c.Metal], orDash(c.LengthFt), units.Format(c.LoadA), units.Format(c.RequiredA), units.Format(c.OvercurrentA), gauge(c.Size), drop, gauge(c.SizeFor3), gauge(c.Ground))
	}
	if !s.Code.Detailed {
		metric.write(&j.page)
		j.paragraph(s.Conductors[0].How, tableIndent)
		return
	}
	t.write(&j.page)
	j.paragraph("A, %, AWG (250 up: kcmil); by: protection; sizes "+s.Code.Rule("wire-size").Phrase("tables").Words, tableIndent)
	for _, c := range s.Conductors {
		if c.Bond != "" {
			bond := s.Code.Rule("supply-bond")
			j.paragraph(j.cited(c.Name+": "+service.Say(bond, "size", c.Bond), bond.Source()), tableIndent)
		}
	}
}

func gauge(size string) string {
	if size == "" {
		return "-"
	}
	return size
}

func (j *jobSheet) addGas() {
	s := j.scope
	if len(s.Gas) == 0 {
		return
	}
	j.heading("Gas")
	t := table{heads: []string{"supply", "wanted", "given", "unit", ""}, right: []bool{false, true, true, false, false}}
	for _, l := range s.Gas {
		t.add(l.What+" for "+l.Source, units.Format(l.Demand), units.Format(l.Capacity), l.Unit, map[bool]string{true: "enough", false: "too small"}[l.OK])
	}
	t.write(&j.page)
}

// addChecks lists what fails and what is missing with the reason, and what is well by its name alone: the JSON has its
// figures.
func (j *jobSheet) addChecks() {
	j.heading("Checks")
	var well []string
	for _, result := range []string{install.Fail, install.Needs, install.Pass} {
		for _, c := range j.scope.Checks {
			switch {
			case c.Result != result:
			case result == install.Pass && c.About != "" && (j.scope.Source == nil || c.About != j.scope.Source.Name): // another option's
			case result == install.Pass:
				well = append(well, c.Name)
			default:
				text := c.Name + ": " + c.Reason
				if !strings.Contains(c.Reason, c.Step) {
					text += "; to do: " + c.Step
				}
				j.paragraph(j.cited(text, c.Source), fmt.Sprintf("  %-6s", result))
			}
		}
	}
	if len(well) > 0 {
		j.paragraph(strings.Join(well, "; "), fmt.Sprintf("  %-6s", install.Pass))
	}
}

func (j *jobSheet) addCautions() {
	j.heading("Cautions")
	for _, c := range j.scope.Cautions {
		j.item(j.cited(c.Word+": "+leading(c.Text), c.Source))
	}
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
