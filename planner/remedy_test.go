package planner_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/planner"
)

// heaters is a house of so many heaters and a router that a battery in a garage, of 80 kWh at most, is to carry.
func heaters(count int) string {
	var b strings.Builder
	b.WriteString("holdover: 1\noutage: {length: 24 h}\nlimits: {generator: none, battery_place: garage}\ncircuits:\n")
	for i := range count {
		fmt.Fprintf(&b, "  - {name: Heater %d, care: keep, running: 1500 W, use: {duty: 0.5}}\n", i)
	}
	b.WriteString("  - {name: Router, care: keep, running: 20 W}\n")
	return b.String()
}

// Where one circuit less is not enough, as few are shed as will do, and the changed home is then carried; one more is not.
func TestRemedies_ShedAsFewAsWillDo(t *testing.T) {
	for _, count := range []int{4, 9, 30, 200} {
		t.Run(fmt.Sprint(count), func(t *testing.T) {
			house, err := home.Read([]byte(heaters(count)), "heaters.yaml")
			require.NoError(t, err)
			r := planner.PlanAll(house)
			require.Equal(t, planner.None, r.Choice)
			var shed string
			for _, m := range r.Outlook.Remedies {
				if strings.HasPrefix(m.Change, "Shed ") {
					shed = m.Change
				}
			}
			require.NotEmpty(t, shed)
			listed := strings.Split(strings.TrimPrefix(strings.TrimPrefix(shed, "Shed "), "all but "), ", ")
			kept := map[string]bool{}
			for i := range house.Circuits {
				kept[house.Circuits[i].Name] = !strings.HasPrefix(shed, "Shed all but ")
			}
			for _, name := range listed {
				require.Contains(t, kept, name)
				kept[name] = !kept[name]
			}
			assert.True(t, kept["Router"], shed)
			again := func() planner.Kind {
				for i := range house.Circuits {
					house.Circuits[i].Care = map[bool]home.Care{true: home.Keep, false: home.Shed}[kept[house.Circuits[i].Name]]
				}
				return planner.PlanAll(house).Choice
			}
			assert.Equal(t, planner.Battery, again(), shed)
			for name, on := range kept {
				if !on {
					kept[name] = true
					break
				}
			}
			assert.Equal(t, planner.None, again(), "one heater fewer would do")
		})
	}
}

// The last circuit is not shed: a house of nothing is no advice.
func TestRemedies_LeaveSomethingToCarry(t *testing.T) {
	house, err := home.Read([]byte(`holdover: 1
limits: {generator: none, battery_place: none}
circuits:
  - {name: A, running: 10 W}
  - {name: B, running: 10 W}
`), "home.yaml")
	require.NoError(t, err)
	for _, m := range planner.PlanAll(house).Outlook.Remedies {
		assert.NotContains(t, m.Change, "Shed")
	}
}

// Nobody is told to do without what keeps them well, whether it says so by a profile or by its name alone.
func TestRemedies_LeaveMedicalEquipmentAlone(t *testing.T) {
	house, err := home.Read([]byte(`holdover: 1
limits: {generator: none, battery_place: garage}
circuits:
  - {name: Oxygen concentrator, running: 350 W}
  - {name: Space heater, running: 9 kW}
  - {name: Kiln, running: 9 kW}
`), "home.yaml")
	require.NoError(t, err)
	r := planner.PlanAll(house)
	require.NotEmpty(t, r.Outlook.Remedies)
	for _, m := range r.Outlook.Remedies {
		assert.NotContains(t, m.Change, "Move Oxygen")
		assert.NotContains(t, m.Change, "Shed Oxygen")
	}
	var cautions []string
	for _, c := range r.Cautions {
		cautions = append(cautions, c.ID)
	}
	assert.Contains(t, cautions, "medical")
}

// A limit that is not given is none at all, one of 0 allows nothing, and lifting it is what helps.
func TestLimits_NoneSoMuchAndWithoutEnd(t *testing.T) {
	const text = "holdover: 1\noutage: {length: 6 h}\nlimits: {fuels: [gasoline], %s}\ncircuits: [{name: Fridge, like: refrigerator}]\n"
	for key, change := range map[string]string{"fuel_store": "Keep more fuel", "budget": "Raise the budget"} {
		for value, carried := range map[string]bool{"": true, key + ": 0, ": false, key + ": 20000, ": true} {
			house, err := home.Read([]byte(fmt.Sprintf(text, value+"battery_place: none")), "home.yaml")
			require.NoError(t, err)
			r := planner.PlanAll(house)
			assert.Equal(t, carried, r.Choice != planner.None, "%s%q", key, value)
			helps := slices.ContainsFunc(r.Outlook.Remedies, func(m planner.Remedy) bool { return strings.HasPrefix(m.Change, change) })
			assert.Equal(t, !carried, helps, "%s%q", key, value)
		}
	}
}

// Each limit that alone stands in the way is named among the changes, and the home with that change made is carried.
func TestRemedies_NameWhatStandsInTheWay(t *testing.T) {
	const text = "holdover: 1\noutage: {length: 6 h, start: \"08:00\", season: winter}\n%s\ncircuits: [{name: Fridge, like: refrigerator}, {name: Pump, like: well-pump-1hp}]\n"
	for name, c := range map[string]struct{ home, change, changed string }{
		"clearance": {`
site: {generator_clearance: 2 ft}
limits: {battery_place: none}`, "Stand the engine at least 20 ft", `
site: {generator_clearance: 20 ft}
limits: {battery_place: none}`},
		"cylinders": {`
site: {coldest: 0 F, gas: {cylinders: 1, left: 0.2}}
limits: {battery_place: none, fuels: [propane]}`, "Have 4 cylinders", `
site: {coldest: 0 F, gas: {cylinders: 4, left: 0.2}}
limits: {battery_place: none, fuels: [propane]}`},
		"automatic": {`
home: {transfer: automatic, floor_area: 3000 sq ft}
limits: {battery_place: none, budget: 5500}`, "Switch the house over by hand", `
home: {transfer: manual, floor_area: 3000 sq ft}
limits: {battery_place: none, budget: 5500}`},
		"cold battery": {`
site: {battery_space: -30 C}
limits: {generator: none}`, "Keep the battery as warm as the house", `
site: {battery_space: 20 C}
limits: {generator: none}`},
	} {
		t.Run(name, func(t *testing.T) {
			plan := func(with string) *planner.Result {
				house, err := home.Read([]byte(fmt.Sprintf(text, with)), "home.yaml")
				require.NoError(t, err)
				return planner.PlanAll(house)
			}
			r := plan(c.home)
			require.Equal(t, planner.None, r.Choice)
			var changes []string
			for _, m := range r.Outlook.Remedies {
				changes = append(changes, m.Change)
			}
			assert.True(t, slices.ContainsFunc(changes, func(change string) bool { return strings.HasPrefix(change, c.change) }), "%q", changes)
			assert.NotEqual(t, planner.None, plan(c.changed).Choice)
		})
	}
}
