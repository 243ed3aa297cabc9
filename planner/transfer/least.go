package transfer

import (
	"fmt"
	"math"

	"holdover/loads/home"
	"holdover/profiles"
)

// addLeast says what a new service must be rated at least, and which of the methods gives the least load: the code allows
// each of them.
func (w *service) addLeast() (out Service) {
	out.Known = true
	rating, from := w.addMinimum("service.standard_minimum_a", "service.standard_a"), "service.standard_minimum_a"
	if w.optionalA > 0 {
		if optional := w.addMinimum("service.optional_minimum_a", "service.optional_a"); optional < rating {
			rating, from = optional, "service.optional_minimum_a"
		}
	}
	out.MinimumA = w.put("service.minimum_a", rating, "A", "the lower of what the standard and the optional method ask for: either may be used", "NEC 220.40 and 220.82, 2020 edition, from memory", from)
	out.LeastVA = w.Value("service.standard_va")
	out.LeastBy = "service.standard_va"
	for _, id := range []string{"service.optional_va", "service.existing_va", "service.measured_va"} {
		if f, ok := w.Get(id); ok && f.Value < out.LeastVA && w.mayUse(id) {
			out.LeastVA, out.LeastBy = f.Value, id
		}
	}
	w.va("service.least_va", out.LeastVA, "the lowest of the methods that this dwelling may be reckoned by", "NEC 220.40, 220.82, 220.83 and 220.87, 2020 edition, from memory", out.LeastBy)
	if rating := float64(w.home.House.ServiceAmps); rating > 0 {
		out.ServiceVA = rating * w.systemVolts()
		out.TooSmall = whole(out.LeastVA/w.systemVolts()) > rating
	}
	return out
}

// addMinimum writes the least rating of a service that carries the current of one method.
func (w *service) addMinimum(id, of string) float64 {
	least := w.rules.Service.OtherA
	if w.split() {
		least = w.rules.Service.OneFamilyA
	}
	return w.put(id, math.Max(least, nextStandard(w.Value(of))), "A", fmt.Sprintf("the next standard rating, %.0f A at least", least),
		w.rules.Service.Source+"; ratings of NEC 240.6(A)", of)
}

// mayUse says whether the home file has what a method asks for: 220.87 allows 30 days of recording only where no solar
// source shaves the peaks.
func (w *service) mayUse(id string) bool {
	return id != "service.measured_va" || w.home.House.MeasuredOver == "year" || w.home.Site.Sun.PerDay == 0
}

// nextStandard is the smallest standard rating that is not less; the largest there is where none is.
func nextStandard(amps float64) float64 {
	all := profiles.StandardBreakersA()
	for _, rating := range all {
		if rating >= amps-1e-9 {
			return rating
		}
	}
	return all[len(all)-1]
}

// workConnected is for homes on other rules: the sum of the plates, which is physics.
func workConnected(b book, house *home.Home) {
	va := 0.0
	var ids []string
	for _, p := range plates(house) {
		ids = append(ids, p.id)
		va += b.va(p.id, p.va(), p.how, p.fromFile)
	}
	b.va("service.connected_va", va, "the sum of the plates, nothing left out; what of it counts, the local wiring rules say", localRules, ids...)
	b.put("service.connected_a", va/float64(house.House.Service.LegVolts()), "A", "VA / volts", "physics", "service.connected_va")
}

// localRules stands in place of a clause where no clause of the US code holds.
const localRules = "local wiring rules (IEC 60364 family) apply"
