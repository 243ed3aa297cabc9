package screens

import (
	"fmt"
	"slices"
	"strings"

	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"

	"holdover/loads/units"
	"holdover/planner"
)

func newOptionsPage(a *app) page {
	return newReader(func(width int) []string { return optionLines(a.look, a.draft.Result(), width) }, a.common,
		keyHint(tcell.KeyEscape, "Esc", "back"), keyHint(tcell.KeyDown, "arrows", "scroll"), letterHint('f', "figures"), letterHint('?', "all keys"))
}

// optionLines shows the options side by side, then why this choice, and why not each of the others.
func optionLines(l look, r *planner.Result, width int) []string {
	lines := []string{l.choiceMark(r).on(shown(choiceWords(r))), ""}
	lines = append(lines, optionTable(l, r, width)...)
	lines = append(lines, "", l.heading.on("why"))
	for _, reason := range r.Reasons {
		lines = append(lines, bulleted(l, reason, width)...)
	}
	for _, o := range r.Options {
		if len(o.WhyNot) == 0 {
			continue
		}
		lines = append(lines, "", l.heading.on(tview.Escape("why not "+string(o.Kind))))
		for _, why := range o.WhyNot {
			lines = append(lines, bulleted(l, why, width)...)
		}
	}
	return lines
}

func bulleted(l look, text string, width int) []string {
	lines := wrap(text, width, "  ")
	if len(lines) > 0 {
		lines[0] = "- " + lines[0][2:]
	}
	return lines
}

// optionTable is one column an option, one row a figure. A figure that an option has not stays empty.
func optionTable(l look, r *planner.Result, width int) []string {
	g := l.glyphs
	const label = 30
	each := max(10, (width-label)/max(1, len(r.Options))-1)
	row := func(name string, cell func(planner.Option) string) string {
		line := g.fit(name, label)
		for _, o := range r.Options {
			line += " " + g.right(cell(o), each)
		}
		return line
	}
	lines := []string{l.heading.on(row("", func(o planner.Option) string {
		if o.Kind == r.Choice {
			return g.pointer + " " + string(o.Kind)
		}
		return string(o.Kind)
	}))}
	lines = append(lines,
		row("carried", func(o planner.Option) string { return carriedText(r, o) }),
		row("reasons against it", func(o planner.Option) string { return fmt.Sprint(len(o.WhyNot)) }))
	for _, name := range optionFigures(r) {
		lines = append(lines, row(strings.ReplaceAll(name, "_", " "), func(o planner.Option) string {
			if f, ok := o.Sheet.Get(string(o.Kind) + "." + name); ok {
				return figureText(f)
			}
			return l.glyphs.dash
		}))
	}
	return lines
}

func carriedText(r *planner.Result, o planner.Option) string {
	if o.Carried {
		return "yes"
	}
	if o.FellShortAt == nil {
		return "no"
	}
	return "short after " + units.Format(*o.FellShortAt) + " h"
}

// optionFigures lists the figures that any option has, each once and without the option's own prefix.
func optionFigures(r *planner.Result) []string {
	var names []string
	for _, o := range r.Options {
		for _, f := range o.Sheet.Figures() {
			name := strings.TrimPrefix(f.ID, string(o.Kind)+".")
			if !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	return names
}
