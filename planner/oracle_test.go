package planner_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"holdover/loads/home"
	"holdover/planner"
)

// Every promised figure of a random home against the oracle, which was written from the method alone before the planner
// was read.
func TestPlan_EveryPromisedFigureAgainstTheOracle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := plainHomes(t, 9)
		text := h.text()
		house, err := home.Read([]byte(text), "plain.yaml")
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		r := planner.PlanAll(house)
		want, wave := h.oracle()
		compare(t, want, wave, r, text)
	})
}

// compare holds every figure to 2.1e-6 of the oracle's: two millionths is how near the best split of the legs is looked for.
func compare(t *rapid.T, want map[string]float64, wave string, r *planner.Result, text string) {
	got := map[string]float64{}
	for _, f := range r.Sheet.All() {
		got[f.ID] = f.Value
		if f.ID == "load.wave" && f.Word != wave {
			t.Errorf("load.wave is %q, the oracle says %q", f.Word, wave)
		}
	}
	for id, value := range want {
		have, ok := got[id]
		if !ok {
			t.Errorf("%s is missing", id)
		} else if math.Abs(have-value) > 2.1e-6*math.Abs(value)+1e-9 {
			t.Errorf("%s is %v, the oracle says %v", id, have, value)
		}
	}
	if t.Failed() {
		t.Logf("\n%s", text)
	}
}
