package sheet

import (
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/service"
)

// checkTransfer holds what meets the house to the way of transfer that the home file asks for. By hand, that is what the chosen
// circuits draw, which its ratings are held to with the head-room of the plan.
func (h *holding) checkTransfer() {
	way := h.home.House.Transfer
	if way == home.Manual {
		return
	}
	want := h.wanted()
	if !want.Known {
		h.sayMet("transfer", nil, "%s, which is not known here.", sentence(want.Why))
		return
	}
	derateW, derateVA := h.derate()
	kVA, kW := float64(h.VA)*derateVA.Value/1000, float64(h.Watts)*derateW.Value/1000
	if !h.Has("va") || !h.Has("watts") {
		return // asked for under va or watts
	}
	outcome := Fails
	if want.Met(kVA, kW) {
		outcome = Holds
	}
	id := h.figures.Note("fit.transfer_va", float64(want.VA), "VA", want.Why, want.Rule.Source())
	h.comparePower(units.Watts(want.W), units.Watts(1000*kW), want.VA, units.VoltAmps(1000*kVA))
	h.say("transfer", outcome, []string{id}, "By %s transfer it must give %s VA: %s. It gives %s kVA and %s kW here (%s).", way, number(want.VA), want.Why, number(kVA), number(kW), want.Rule.Source())
}

// wanted is what the code asks of a source by the home's way of transfer, worked out once for a duty.
func (d *Duty) wanted() service.Want {
	if d.want == nil {
		want := service.Wanted(d.Home, d.Home.Code(), &d.Demand, d.Home.House.Transfer)
		d.want = &want
	}
	return *d.want
}
