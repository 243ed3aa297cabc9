package outage

// CarriesAtBest says whether a design would carry the outage if its engine were on whenever it may be, and its fuel and its
// starts had no end. No start policy ever has more charge, so a design that is short even so is short under every policy. It
// is not the run of an engine that starts whenever it may: quiet hours that end within a short outage may want a start more
// than such a run has.
//
// With the engine's rule fixed, every flow of a span is constant until the battery is full, where it stays: one line a
// span, and no events. The day repeats, and more charge in the evening never means less the next: once a day ends with no
// less than the day before, every later day goes no worse.
func (o *Outage) CarriesAtBest(d *Design) bool {
	limit := d.inverterLimit() * (1 + 1e-9)
	soc, evening, day, short := d.UsableKWh, -1.0, 0, 0.0
	for i := range o.Spans {
		if day < len(o.days) && i == o.days[day] {
			if soc >= evening && evening >= 0 && short == 0 {
				return true
			}
			evening = soc
			day++
		}
		s := &o.Spans[i]
		hours := s.To - s.From
		want, spare := max(0, s.DrawKW-s.SunKW), max(0, s.SunKW-s.DrawKW)
		charge := min(d.ChargeKW, spare)
		if !s.Quiet {
			engine := min(want, d.SiteKW)
			charge += max(0, min(d.ChargeKW-charge, d.ChargerKW, d.SiteKW-engine))
			want -= engine
		}
		if want > limit {
			short += (want - limit) * hours
			want = limit
		}
		dc := charge*d.ChargeEfficiency - want/d.Efficiency - d.IdleKW
		soc = min(d.UsableKWh, soc+dc*hours)
		if soc < 0 {
			short += want * soc / dc
			soc = 0
		}
		if short > forgivenKWh {
			return false
		}
	}
	return true
}
