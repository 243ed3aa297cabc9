package planner

// Nearest is the option to look at when one is to be shown: the chosen one, or where none is, the one that comes nearest to
// carrying the house; one that carries it and breaks a limit before one that falls short. ok is false when no option has a
// design.
func (r *Result) Nearest() (nearest Option, ok bool) {
	for _, o := range r.Options {
		switch {
		case !o.Outcome.Real():
		case o.Kind == r.Choice:
			return o, true
		case !ok || nearer(o, nearest):
			nearest, ok = o, true
		}
	}
	return nearest, ok
}

func nearer(a, b Option) bool {
	switch {
	case a.Carried != b.Carried:
		return a.Carried
	case a.Carried:
		return a.Cost < b.Cost
	}
	return a.Outcome.Run.ShortKWh < b.Outcome.Run.ShortKWh
}
