package document

import "holdover/planner"

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

// Decisive shows the figures that decide, each with the id that the why verb takes.
func Decisive(w Worked) Document {
	if !w.needs() {
		return nil
	}
	t := Table{Name: "figures", Columns: []Column{{}, {Kind: Number}, {}}}
	for _, d := range decisive {
		if f, ok := w.Plan.Sheet.Get(d.id); ok {
			t.Add(d.label, Quantity(w.home(), f), d.id)
		}
	}
	return under("Figures that decide (the why verb shows the working of each)", t)
}

// Figures lists every figure by its id with its value, in the order in which they were worked out.
func Figures(r *planner.Result) Document {
	t := Table{Name: "figures", Columns: columns("", "")}
	for _, f := range r.Sheet.All() {
		t.Add(f.ID, InBoth(r.Home, f))
	}
	return Document{t}
}
