package screens

import (
	"strings"

	"github.com/gdamore/tcell/v2"

	"holdover/planner"
	"holdover/ui/report"
)

func newOptionsPage(a *app) page {
	return newReader(func(width int) []string { return optionLines(a.look, a.draft.Result(), width) }, a.common,
		keyHint(tcell.KeyEscape, "Esc", "back"), keyHint(tcell.KeyDown, "arrows", "scroll"), letterHint('p', "run"), letterHint('i', "outlook"), letterHint('f', "figures"), letterHint('?', "all keys"))
}

// optionLines shows the options side by side, then why this choice, and what else rules options out.
func optionLines(l look, r *planner.Result, width int) []string {
	lines := []string{l.choiceMark(r).on(shown(choiceWords(r))), ""}
	if !r.Has.Choice {
		return append(lines, l.isToCome("options side by side, and why"))
	}
	lines = append(lines, optionTable(l, r, width)...)
	lines = append(lines, "", l.heading.on("why"))
	for _, reason := range report.Reasons(r) {
		lines = append(lines, bulleted(reason, width)...)
	}
	whyNots := report.WhyNots(r)
	if len(whyNots) > 0 {
		lines = append(lines, "", l.heading.on(lower(report.WhyNotHeading)))
	}
	for _, why := range whyNots {
		lines = append(lines, bulleted(why, width)...)
	}
	return lines
}

// lower is a heading as the screens write them.
func lower(text string) string { return strings.ToLower(text[:1]) + text[1:] }

func bulleted(text string, width int) []string {
	lines := wrap(text, width, "  ")
	if len(lines) > 0 {
		lines[0] = "- " + lines[0][2:]
	}
	return lines
}

// optionTable is one column an option. What an option has not is a dash.
func optionTable(l look, r *planner.Result, width int) []string {
	g := l.glyphs
	const label = 22
	each := max(10, (width-label)/max(1, len(r.Options))-1)
	head := g.fit("", label)
	for _, o := range r.Options {
		name := string(o.Kind)
		if o.Kind == r.Choice {
			name = g.pointer + " " + name
		}
		head += " " + g.right(name, each)
	}
	lines := []string{l.heading.on(head)}
	for _, row := range report.OptionRows(r) {
		line := g.fit(row[0], label)
		for _, cell := range row[1:] {
			if cell == "" {
				cell = g.dash
			}
			line += " " + g.right(cell, each)
		}
		lines = append(lines, line)
	}
	return lines
}
