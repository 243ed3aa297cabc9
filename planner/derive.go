package planner

// derive writes the figures of all that is worked out on fresh sheets.
func (r *Result) derive() {
	s, home, d := r.Sheet, r.Home, &r.Demand
	addInputs(s, home)
	addLoad(s, home, d)
	addSite(s, home, r.Rating)
	if !r.Has.Choice {
		return
	}
	addInverter(s, home, d, r.sizes.inverter)
	addBattery(s, home, d, r.sizes)
	addGenerator(s, home, d, r.Rating, r.sizes.generator)
	for i := range r.Options {
		r.addOption(&r.Options[i])
	}
	if r.Has.Chance {
		r.addChance()
	}
	r.addFlips()
}
