package fit

import (
	"fmt"
	"math"
	"strings"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/battery"
	"holdover/profiles"
)

// This file works out how long what a unit has stored will last. Where something is not known, both ends of what it may be are
// carried along, and the unit passes only where the worse end does.

// bounds are the runtimes of a unit.
type bounds struct {
	sure    units.Hours // as far as the maker vouches
	runtime units.Hours // the same, the power law carried on beyond its points
	best    units.Hours // the kindest way to read use and sheet
}

// alone says whether one circuit is to be served.
func (s *subject) alone() bool { return len(s.demand.Loads) == 1 }

// spell says whether the one circuit may be used in one go, as hot water is, and does not come and go of itself, as a
// refrigerator does.
func (s *subject) spell() bool {
	if !s.alone() {
		return false
	}
	l := &s.demand.Loads[0]
	return l.Use.Spell || l.Use.Kind == home.UseHours || (l.Heater != nil && l.Use.Kind == home.UseAlways)
}

// stretches are the circuits' draw from the start of the outage, for one day that repeats: the hours of the plan. One circuit
// that may be used in one go is on from the start until its hours of the day are used up.
func (s *subject) stretches() (day []Stretch) {
	low, high := units.Watts(0), s.demand.RunningW
	budgetH := 0.0
	for i := range s.demand.Loads {
		l := &s.demand.Loads[i]
		low += standby(l)
		for _, duty := range l.Duty {
			budgetH += duty
		}
	}
	at, end := float64(s.demand.Start), float64(s.demand.Start)+24
	for at < end-1e-9 {
		next := min(math.Floor(at+1e-9)+1, end)
		day = append(day, Stretch{units.Hours(next - at), low, high, s.demand.Hourly[int(at+1e-9)%24]})
		at = next
	}
	if s.spell() {
		return s.inOneGo(day, budgetH)
	}
	return day
}

// inOneGo moves the hours that one circuit is on to the start of the day. Frost heaters stay where they are.
func (s *subject) inOneGo(even []Stretch, budgetH float64) (day []Stretch) {
	l := &s.demand.Loads[0]
	guard := units.Watts(0)
	on := loads.RunningPower(l.Circuit).W() * units.Watts(l.Count)
	if s.demand.RunningW > on {
		guard = s.demand.RunningW - on
	}
	idle := standby(l)
	at := float64(s.demand.Start)
	for _, e := range even {
		hour := int(at+1e-9) % 24
		duty := units.Watts(l.Duty[hour])
		frost := e.Mean - duty*on - (1-duty)*idle // the mean of the frost heaters in this hour
		first := min(budgetH, float64(e.Hours))
		if first > 1e-9 {
			day = append(day, Stretch{units.Hours(first), on, on + guard, on + frost})
		}
		if rest := float64(e.Hours) - first; rest > 1e-9 {
			day = append(day, Stretch{units.Hours(rest), idle, idle + guard, idle + frost})
		}
		budgetH -= first
		at += float64(e.Hours)
	}
	return day
}

// standby is what a load draws when it is idle, all its units.
func standby(l *loads.Load) units.Watts {
	one := l.Standby
	if l.Heater != nil && l.Heater.Standby > 0 {
		one = l.Heater.Standby
	}
	return one * units.Watts(l.Count)
}

// chemistries are what the unit's battery may be: the one on its sheet, or all there are.
func (s *subject) chemistries() []profiles.Chemistry {
	if c, ok := profiles.FindChemistry(s.Chemistry); ok {
		return []profiles.Chemistry{c}
	}
	return profiles.Chemistries()
}

// left is the share of its new capacity that the battery has: what the sheet says of its age, or else what is left when it is
// retired, times the share that the cold leaves.
func (s *subject) left(c profiles.Chemistry) float64 {
	age := c.CapacityAtEndOfLife
	if s.Has("capacity_left") {
		age = s.Left
	}
	cold, _ := battery.TemperatureFactor(c, s.home.Site.BatterySpace)
	return age * cold
}

// reserveOf makes the reserve for one chemistry: the law through two published runtimes or more, else the Wh, else one runtime.
// problem names what the sheet lacks.
func (s *subject) reserveOf(c profiles.Chemistry) (r Reserve, problem string) {
	left := s.left(c)
	law, ok := FitLaw(s.Runtimes, s.Watts)
	switch {
	case ok && s.Has("energy"):
		efficiency, idle := s.conversion()
		return newLaw(law, left, s.demand.RunningW).atMostEnergy(s.Energy, efficiency, idle), ""
	case ok:
		return newLaw(law, left, s.demand.RunningW), ""
	case s.Has("energy") && s.Energy > 0:
		efficiency, idle := s.conversion()
		return newStore(s.Energy, c, left, efficiency, idle), ""
	case len(s.Runtimes) > 0 && s.Watts > 0:
		return newPoint(s.Runtimes[0], s.Watts, left), ""
	case len(s.Runtimes) > 0:
		return Reserve{}, "its continuous watts, of which the loads of its published runtimes are shares"
	}
	return Reserve{}, "its stored energy in Wh, or its runtimes at two loads or more"
}

// conversion is from the battery to the outlet: the unit's own figures, or what the plan assumes.
func (s *subject) conversion() (efficiency float64, idle units.Watts) {
	efficiency, idle = s.home.Assume.InverterEfficiency, s.home.Assume.InverterIdle
	if s.Has("efficiency") {
		efficiency = s.Efficiency
	}
	if s.Has("idle") {
		idle = s.Idle
	}
	return efficiency, idle
}

// runtimes works the bounds out over what the battery may be.
func (s *subject) runtimes() (b bounds, r Reserve, problem string) {
	b = bounds{sure: longest, runtime: longest}
	day := s.stretches()
	kindest := Stretch.atLeast
	if s.alone() {
		kindest = Stretch.atMost // one circuit is on or idle and nothing between, so this is exact
	}
	for _, c := range s.chemistries() {
		one, problem := s.reserveOf(c)
		if problem != "" {
			return b, r, problem
		}
		b.sure = min(b.sure, lasts(day, func(x Stretch) float64 { return x.atMost(one.Sure) }))
		at := lasts(day, func(x Stretch) float64 { return x.atMost(one.Use) })
		if at <= b.runtime {
			b.runtime, r = at, one
		}
		b.best = max(b.best, lasts(day, func(x Stretch) float64 { return kindest(x, one.Use) }))
	}
	return b, r, ""
}

func (s *subject) checkRuntime() {
	b, r, problem := s.runtimes()
	length := s.home.Outage.Length
	if problem != "" {
		s.ask("runtime", problem, fmt.Sprintf("%s are wanted.", span(length)))
		return
	}
	s.reserve = &b
	figures := s.addRuntime(b, r)
	margin := units.Hours(1 + s.home.Assume.EnergyMargin)
	says := fmt.Sprintf("It lasts %s%s with the battery at %s of its new capacity; %s are wanted.", span(b.runtime), s.throughout(b, r), percent(r.Left), span(length))
	switch {
	case b.sure >= length*margin, b.sure >= longest:
		s.say("runtime", Passed, figures, "%s", says)
	case b.sure >= length:
		s.say("runtime", Conditional, figures, "You accept less than %s of head-room: it lasts %s, and %s are wanted.", percent(s.home.Assume.EnergyMargin), span(b.sure), span(length))
	case b.runtime >= length:
		s.say("runtime", Conditional, figures, "The maker confirms the runtime at %s: %s, it lasts %s%s; %s are wanted.", watts(s.demand.RunningW), r.beyond(s.demand.RunningW), span(b.runtime), s.throughout(b, r), span(length))
	case b.best >= length:
		s.say("runtime", Conditional, figures, "%s", s.kindly(b, length))
	default:
		s.say("runtime", Failed, figures, "%s", says)
	}
}

// throughout adds how long the unit lasts with everything on, where that is another figure.
func (s *subject) throughout(b bounds, r Reserve) string {
	if on := r.Hours(s.demand.RunningW); math.Abs(float64(on/b.runtime)-1) > 0.01 {
		return fmt.Sprintf(" (%s with everything on throughout)", span(on))
	}
	return ""
}

// beyond says how a runtime was carried past what the maker published, by load or by the law's own misses.
func (r Reserve) beyond(at units.Watts) string {
	if r.ByLaw && r.Law.Within(at) && r.Law.Flatters > 0 {
		return fmt.Sprintf("by the law through its published runtimes, which is up to %s above them", percent(r.Law.Flatters))
	}
	if r.ByLaw {
		return fmt.Sprintf("by its published runtimes, carried on beyond the loads they are for (%s to %s)", number(float64(r.Law.From)), watts(r.Law.To))
	}
	return fmt.Sprintf("by the energy of its one published runtime, which is for %s", watts(r.Most))
}

// kindly says on what the longer runtime hangs.
func (s *subject) kindly(b bounds, length units.Hours) string {
	var hangs []string
	if s.Chemistry == "" {
		hangs = append(hangs, "its battery is of a kind that keeps its capacity (ask the maker for the chemistry)")
	}
	if !s.alone() {
		hangs = append(hangs, "the circuits are not on together for long")
	}
	return fmt.Sprintf("%s: then it lasts up to %s, else %s; %s are wanted.", sentence(strings.Join(hangs, ", and ")), span(b.best), span(b.runtime), span(length))
}

func sentence(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToUpper(text[:1]) + text[1:]
}
