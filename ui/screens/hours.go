package screens

import (
	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"

	"holdover/ui/document"
	"holdover/ui/text"
)

// An hoursPage shows a day's mean draw as 24 bars, and in words what makes up the hour that is pointed at.
type hoursPage struct {
	*reader
	app  *app
	hour int // clock hour pointed at
}

// newHoursPage points at the hour that draws most.
func newHoursPage(a *app) *hoursPage {
	p := &hoursPage{app: a}
	hourly := a.draft.Result().Demand.Hourly
	for h, w := range hourly {
		if w > hourly[p.hour] {
			p.hour = h
		}
	}
	p.reader = newReader(a.look, p.day, p.onKey,
		keyHint(tcell.KeyLeft, "left", "hour before"), keyHint(tcell.KeyRight, "right", "hour after"), keyHint(tcell.KeyEscape, "Esc", "back"), letterHint('?', "all keys"))
	p.reader.below = belowBars
	return p
}

// belowBars is the room that is kept for the words above and below the bars.
const belowBars = 12

func (p *hoursPage) day() (any, func() document.Document) {
	r := p.app.draft.Result()
	return [2]any{r, p.hour}, func() document.Document { return document.Day(document.Worked{Plan: r}, p.hour) }
}

func (p *hoursPage) onKey(event *tcell.EventKey) bool {
	switch event.Key() {
	case tcell.KeyLeft:
		p.hour = (p.hour + 23) % 24
	case tcell.KeyRight:
		p.hour = (p.hour + 1) % 24
	default:
		return p.app.common(event)
	}
	return true
}

// MouseHandler implements [tview.Primitive]. A click on a bar points at its hour.
func (p *hoursPage) MouseHandler() func(tview.MouseAction, *tcell.EventMouse, func(tview.Primitive)) (bool, tview.Primitive) {
	return func(action tview.MouseAction, event *tcell.EventMouse, setFocus func(tview.Primitive)) (bool, tview.Primitive) {
		x, _ := event.Position()
		left, _, width, _ := p.GetInnerRect()
		if hour, ok := text.BarAt(x-left, width, 24); ok && action == tview.MouseLeftClick && p.InRect(event.Position()) {
			p.hour = hour
		}
		return p.reader.MouseHandler()(action, event, setFocus)
	}
}
