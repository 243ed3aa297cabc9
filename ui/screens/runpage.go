package screens

import (
	"strings"

	"github.com/gdamore/tcell/v2"

	"holdover/planner"
	"holdover/ui/report"
)

// A runPage is the picture of one option's run, with what it shows in words. The arrows switch the option.
type runPage struct {
	*reader
	app  *app
	kind planner.Kind // empty until there is an option to show
}

// newRunPage begins with the option that matters most.
func newRunPage(a *app) *runPage {
	p := &runPage{app: a}
	p.reader = newReader(func(width int) []string {
		r := a.draft.Result()
		p.begin(r)
		return runLines(a.look, r, p.kind, width, max(5, p.height-runWordsHeight))
	}, p.onKey,
		keyHint(tcell.KeyLeft, "left", "option before"), keyHint(tcell.KeyRight, "right", "option after"), keyHint(tcell.KeyDown, "down", "scroll"),
		keyHint(tcell.KeyEscape, "Esc", "back"), letterHint('i', "outlook"), letterHint('?', "all keys"))
	return p
}

// runWordsHeight is the room kept under the curve for its rows, its axis and the words.
const runWordsHeight = 16

func (p *runPage) onKey(event *tcell.EventKey) bool {
	switch event.Key() {
	case tcell.KeyLeft:
		p.turn(-1)
	case tcell.KeyRight:
		p.turn(1)
	default:
		return p.app.common(event)
	}
	return true
}

// begin chooses the option to show first, once there are some.
func (p *runPage) begin(r *planner.Result) {
	if p.kind != "" || !r.Has.Choice {
		return
	}
	p.kind = planner.Battery
	if o, ok := report.Nearest(r); ok {
		p.kind = o.Kind
	}
}

// turn goes to another option, round the end.
func (p *runPage) turn(by int) {
	options := p.app.draft.Result().Options
	for i, o := range options {
		if o.Kind == p.kind {
			p.kind, p.offset = options[(i+by+len(options))%len(options)].Kind, 0
			return
		}
	}
}

// runLines is one option's run: which option, the picture, the same in sentences, and the events.
func runLines(l look, r *planner.Result, kind planner.Kind, width, height int) []string {
	if len(r.Demand.Loads) == 0 {
		return []string{l.choiceMark(r).on(shown(choiceWords(r)))}
	}
	if !r.Has.Run {
		return []string{l.choiceMark(r).on(shown(choiceWords(r))), "", l.isToCome("picture of the run")}
	}
	lines := []string{optionTabs(l, r, kind)}
	o, _ := r.Option(kind)
	if !o.Outcome.Real() {
		lines = append(lines, "", shown("There is no design of this kind, so there is no run to show."))
		for _, why := range o.WhyNot {
			lines = append(lines, bulleted(why, width)...)
		}
		return lines
	}
	lines = append(lines, l.heading.on(shown(report.RunLead(r, o))))
	for _, line := range report.RunPlot(r.Home, o).Draw(width, height, l.plot) {
		lines = append(lines, l.plotLine(line))
	}
	for _, words := range report.RunWords(r.Home, o) {
		lines = append(lines, bulleted(words, width)...)
	}
	for _, line := range report.RunEvents(o, width) {
		lines = append(lines, shown(line))
	}
	return lines
}

// optionTabs names the options, the one shown in reverse, the chosen one behind the pointer.
func optionTabs(l look, r *planner.Result, kind planner.Kind) string {
	var tabs []string
	for _, o := range r.Options {
		name := " " + string(o.Kind) + " "
		if o.Kind == r.Choice {
			name = " " + l.glyphs.pointer + name
		}
		if o.Kind == kind {
			tabs = append(tabs, l.chosen.on(shown(name)))
		} else {
			tabs = append(tabs, shown(name))
		}
	}
	return strings.Join(tabs, " ")
}

// plotLine makes a row that tells of a shortfall stand out.
func (l look) plotLine(line string) string {
	if strings.HasPrefix(strings.TrimSpace(line), "short") && strings.ContainsAny(line, l.plot.Whole+l.plot.Some) {
		return l.bad.on(shown(line))
	}
	return shown(line)
}
