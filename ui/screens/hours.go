package screens

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner"
	"holdover/planner/working"
	"holdover/ui/report"
)

// An hoursPage draws a day's mean draw as 24 bars, and says in words what makes up the hour that is pointed at.
type hoursPage struct {
	*tview.Box
	app  *app
	hour int // clock hour pointed at
}

// newHoursPage points at the hour that draws most.
func newHoursPage(a *app) *hoursPage {
	p := &hoursPage{Box: tview.NewBox(), app: a}
	hourly := a.draft.Result().Demand.Hourly
	for h, w := range hourly {
		if w > hourly[p.hour] {
			p.hour = h
		}
	}
	return p
}

func (p *hoursPage) keys() []hint {
	return []hint{keyHint(tcell.KeyLeft, "left", "hour before"), keyHint(tcell.KeyRight, "right", "hour after"), keyHint(tcell.KeyEscape, "Esc", "back"), letterHint('?', "all keys")}
}

// Draw implements [tview.Primitive].
func (p *hoursPage) Draw(screen tcell.Screen) {
	p.DrawForSubclass(screen, p)
	x, y, width, height := p.GetInnerRect()
	for row, line := range hourLines(p.app.look, p.app.draft.Result(), p.hour, width, height) {
		if row < height {
			printLine(screen, line, x, y+row, width)
		}
	}
}

// hoursMargin is the room for the scale at the left of the bars.
const hoursMargin = 8

func hourLines(l look, r *planner.Result, hour, width, height int) []string {
	d := r.Demand
	values, least, most, sum := make([]float64, 24), d.Hourly[0], d.Hourly[0], 0.0
	for h, w := range d.Hourly {
		values[h] = float64(w)
		least, most, sum = min(least, w), max(most, w), sum+float64(w)
	}
	barWidth := max(1, min(6, (width-hoursMargin)/24-1))
	barHeight := max(3, height-12)
	lines := []string{l.heading.on("mean draw of kept and rotated circuits in each clock hour, W"), ""}
	for row, line := range bars(values, barWidth, barHeight, l.glyphs) {
		scale := ""
		if row == 0 {
			scale = units.Format(float64(most))
		}
		if row == barHeight-1 {
			scale = "0"
		}
		lines = append(lines, l.glyphs.right(scale, hoursMargin-1)+" "+line)
	}
	lines = append(lines, hourScale(l, barWidth, hour), "")
	lines = append(lines, shown(fmt.Sprintf("least %s W, most %s W, mean %s W, %s kWh a day; the outage begins at %s",
		units.Format(float64(least)), units.Format(float64(most)), units.Format(sum/24), units.Format(sum/1000), home.Clock(d.Start))))
	lines = append(lines, "", l.strong.on(shown(fmt.Sprintf("%02d:00 to %02d:00: %s W on average, outdoors %s", hour, hour+1,
		units.Format(values[hour]), report.Quantity(r.Home, working.Figure{Value: float64(d.Outdoors[hour]), Unit: "°C"})))))
	return append(lines, largestIn(l, d, hour)...)
}

// hourScale numbers the bars, the hour pointed at in brackets or reverse.
func hourScale(l look, barWidth, hour int) string {
	var b strings.Builder
	b.WriteString(strings.Repeat(" ", hoursMargin))
	for h := range 24 {
		label := l.glyphs.fit(fmt.Sprintf("%02d", h), barWidth)
		if barWidth < 2 {
			label = string("0123456789"[h%10])
		}
		if h == hour {
			label = l.chosen.on(label)
		}
		b.WriteString(label + " ")
	}
	return b.String()
}

// largestIn names the circuits that draw most in an hour.
func largestIn(l look, d loads.Demand, hour int) []string {
	most := slices.Clone(d.Loads)
	slices.SortStableFunc(most, func(a, b loads.Load) int { return cmp.Compare(b.Hourly[hour], a.Hourly[hour]) })
	var lines []string
	for i, load := range most {
		if i == 5 || load.Hourly[hour] == 0 {
			break
		}
		lines = append(lines, "  "+l.glyphs.right(units.Format(float64(load.Hourly[hour]))+" W", 9)+"  "+shown(load.Name))
	}
	return lines
}

// InputHandler implements [tview.Primitive].
func (p *hoursPage) InputHandler() func(*tcell.EventKey, func(tview.Primitive)) {
	return p.WrapInputHandler(func(event *tcell.EventKey, _ func(tview.Primitive)) {
		switch event.Key() {
		case tcell.KeyLeft:
			p.hour = (p.hour + 23) % 24
		case tcell.KeyRight:
			p.hour = (p.hour + 1) % 24
		default:
			p.app.common(event)
		}
	})
}

// MouseHandler implements [tview.Primitive]. A click on a bar points at its hour.
func (p *hoursPage) MouseHandler() func(tview.MouseAction, *tcell.EventMouse, func(tview.Primitive)) (bool, tview.Primitive) {
	return p.WrapMouseHandler(func(action tview.MouseAction, event *tcell.EventMouse, _ func(tview.Primitive)) (bool, tview.Primitive) {
		x, _ := event.Position()
		left, _, width, _ := p.GetInnerRect()
		barWidth := max(1, min(6, (width-hoursMargin)/24-1))
		if h := (x - left - hoursMargin) / (barWidth + 1); action == tview.MouseLeftClick && x >= left+hoursMargin && h < 24 {
			p.hour = h
		}
		return p.InRect(event.Position()), nil
	})
}
