package screens

import (
	"strings"

	"github.com/gdamore/tcell/v2"

	"holdover/planner"
	"holdover/ui/document"
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
	p.reader = newReader(a.look, p.run, p.onKey,
		keyHint(tcell.KeyLeft, "left", "option before"), keyHint(tcell.KeyRight, "right", "option after"), keyHint(tcell.KeyDown, "down", "scroll"),
		keyHint(tcell.KeyEscape, "Esc", "back"), letterHint('i', "outlook"), letterHint('?', "all keys"))
	p.reader.head = p.tabs
	return p
}

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
	if o, ok := r.Nearest(); ok {
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

// run is one option's run.
func (p *runPage) run() (any, func() document.Document) {
	r := p.app.draft.Result()
	p.begin(r)
	return [2]any{r, p.kind}, func() document.Document {
		if !hasRuns(r) {
			return choiceFirst(r, len(r.Demand.Loads) == 0, "picture of the run", func(document.Worked) document.Document { return nil })
		}
		o, _ := r.Option(p.kind)
		return document.RunOf(r, o)
	}
}

// hasRuns says whether there is a run to show by now.
func hasRuns(r *planner.Result) bool { return len(r.Demand.Loads) > 0 && r.Has.Run }

// tabs names the options, the one shown in reverse, the chosen one behind the pointer.
func (p *runPage) tabs() (line string, ok bool) {
	r := p.app.draft.Result()
	if !hasRuns(r) {
		return "", false
	}
	p.begin(r)
	var tabs []string
	for _, o := range r.Options {
		name := " " + string(o.Kind) + " "
		if o.Kind == r.Choice {
			name = " " + p.look.glyphs.pointer + name
		}
		if o.Kind == p.kind {
			tabs = append(tabs, p.look.chosen.on(shown(name)))
		} else {
			tabs = append(tabs, shown(name))
		}
	}
	return strings.Join(tabs, " "), true
}
