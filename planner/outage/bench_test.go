package outage_test

import (
	"testing"

	"holdover/planner/outage"
)

// plain is a house with a winter night's quiet and a hybrid that carries it.
func plain(lengthH float64) (house, outage.Design) {
	h := house{startH: 18, lengthH: lengthH, quietFrom: 22, quietTo: 7}
	for i := range h.drawKW {
		h.drawKW[i] = 0.4 + 0.1*float64(i%7)
	}
	return h, outage.Design{UsableKWh: 12, DischargeKW: 8, InverterKW: 5, ChargeKW: 3, ChargerKW: 3, ChargeEfficiency: 0.9, Efficiency: 0.92, IdleKW: 0.03,
		SiteKW: 5, IdleBurn: 0.6, BurnPerKWh: 0.4, FuelStore: 1000, StartAt: 0.1, StopAt: 1, LeadAt: 0.95}
}

func benchmarkRun(b *testing.B, lengthH float64) {
	h, d := plain(lengthH)
	o := h.outage()
	b.ReportAllocs()
	for b.Loop() {
		o.Run(&d, nil)
	}
}

func BenchmarkRun72Hours(b *testing.B) { benchmarkRun(b, 72) }

func BenchmarkRun30Days(b *testing.B) { benchmarkRun(b, 30*24) }

// Without a trace a run allocates nothing, however long.
func TestRun_AllocatesNothingWithoutATrace(t *testing.T) {
	for _, lengthH := range []float64{72, 30 * 24} {
		h, d := plain(lengthH)
		o := h.outage()
		if n := testing.AllocsPerRun(20, func() { o.Run(&d, nil) }); n != 0 {
			t.Errorf("%v h: %v allocations a run", lengthH, n)
		}
	}
}
