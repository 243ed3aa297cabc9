package report

import (
	"holdover/planner"
	"holdover/planner/working"
)

// decisive are the figures that decide, in the order of the reasoning. The rest are listed by [Figures].
var decisive = []struct{ label, id string }{
	{"Running draw, all together", "load.running_w"},
	{"Running draw, apparent", "load.running_va"},
	{"Demand exceeded 1 % of the time", "load.one_percent_w"},
	{"Worst moment, the hardest start", "load.worst_moment_va"},
	{"Cold return, all kept starting", "load.cold_return_va"},
	{"Energy over the outage", "load.energy_wh"},
	{"Average draw", "load.average_w"},
	{"Wave wanted", "load.wave"},
	{"Height above sea level", "site.elevation"},
	{"Air that machines breathe", "site.air_c"},
	{"Engine gives here, share of rating", "site.engine_derate"},
	{"Inverter gives here, share of rating", "site.inverter_derate"},
	{"Inverter, continuous", "inverter.continuous_va"},
	{"Inverter, short-time", "inverter.surge_va"},
	{"Inverter, next size made", "inverter.size_va"},
	{"Battery alone, nameplate", "battery.nameplate_wh"},
	{"Battery alone, modules", "battery.modules"},
	{"Battery alone, these last", "battery.runtime_h"},
	{"Generator alone, rated", "generator.rated_kw"},
	{"Generator alone, rated apparent", "generator.rated_kva"},
	{"Generator alone, least size made", "generator.size_kw"},
	{"Generator alone, share of it in use", "generator.load_fraction"},
	{"Generator alone, fuel for a day", "generator.fuel_per_day"},
}

// addFigures shows the decisive figures, each with the id that the why verb takes.
func addFigures(p *page, r *planner.Result) {
	p.heading("Figures that decide (the why verb shows the working of each)")
	t := table{right: []bool{false, true, false}}
	for _, d := range decisive {
		if f, ok := r.Sheet.Get(d.id); ok {
			t.add(d.label, Quantity(r.Home, f), d.id)
		}
	}
	t.write(p)
}

// Figures lists every figure by its id with its value, in the order in which they were worked out.
func Figures(r *planner.Result, width int) string {
	p := &page{width: max(width, MinWidth)}
	t := table{right: []bool{false, false}}
	for _, f := range r.Sheet.Figures() {
		t.add(f.ID, BothSystems(r.Home, f))
	}
	t.write(p)
	return p.String()
}

// find looks for a figure on the plan's sheet, then on those of its options.
func find(r *planner.Result, id string) (working.Figure, bool) {
	if f, ok := r.Sheet.Get(id); ok {
		return f, true
	}
	for _, o := range r.Options {
		if f, ok := o.Sheet.Get(id); ok {
			return f, true
		}
	}
	return planner.Aside(r, id)
}
