package planner

// derive writes the figures of all that is worked out on fresh sheets.
func (r *Result) derive() {
	s, house, d := r.Sheet, r.Home, &r.Demand
	addInputs(s, house)
	addLoad(s, house, d)
	addSite(s, house, r.Rating)
	if !r.Has.Choice {
		return
	}
	addInverter(s, house, d, r.sizes)
	addBattery(s, house, d, r.sizes)
	addGenerator(s, house, d, r.Rating, r.sizes.generator)
	for i := range r.Options {
		r.addOption(&r.Options[i])
	}
	if r.Has.Chance {
		r.addChance()
	}
	r.addFlips()
}
