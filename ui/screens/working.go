package screens

import (
	"github.com/rivo/tview"

	"holdover/loads/home"
	"holdover/planner/working"
	"holdover/ui/report"
)

// workingTree writes how a figure came about: its value, its formula and source, and indented under it each figure it was
// worked out from, down to the inputs. A figure met a second time is not opened again.
func workingTree(l look, house *home.Home, find func(id string) (working.Figure, bool), id string, width int) []string {
	t := tree{look: l, home: house, find: find, width: width, open: map[string]bool{}}
	t.add(id, "", "")
	return t.lines
}

type tree struct {
	look  look
	home  *home.Home
	find  func(string) (working.Figure, bool)
	width int
	open  map[string]bool
	lines []string
}

// add writes one figure behind a lead, and all that belongs to it behind the trunk.
func (t *tree) add(id, lead, trunk string) {
	f, ok := t.find(id)
	if !ok {
		t.lines = append(t.lines, lead+shown(id))
		return
	}
	head := t.look.strong.on(shown(id)) + tview.Escape(" = ") + shown(report.BothSystems(t.home, f))
	if t.open[id] {
		t.lines = append(t.lines, lead+head+t.look.quiet.on(" (see above)"))
		return
	}
	t.open[id] = true
	t.lines = append(t.lines, lead+head)
	under := trunk + "   "
	if len(f.From) > 0 {
		under = trunk + t.look.glyphs.trunk
	}
	if f.How != "" {
		t.lines = append(t.lines, wrap(f.How, t.width, under)...)
	}
	if f.Source != "" {
		t.lines = append(t.lines, quietLines(t.look, wrap("source: "+f.Source, t.width, under))...)
	}
	for i, from := range f.From {
		if i == len(f.From)-1 {
			t.add(from, trunk+t.look.glyphs.corner, trunk+"   ")
		} else {
			t.add(from, trunk+t.look.glyphs.tee, trunk+t.look.glyphs.trunk)
		}
	}
}
