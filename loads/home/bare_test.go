package home

import (
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/units"
	"holdover/profiles"
)

// bareIn lists the paths whose number has no unit where the units of the home decide.
func bareIn(r *reader) (paths []string) {
	for path, o := range r.origins {
		if o.Bare {
			paths = append(paths, path)
		}
	}
	return paths
}

// What is built in and what stands in the repository means the same in every home: no length, area, volume or temperature of it
// is a bare number.
func TestBare_NoneIsBuiltIn(t *testing.T) {
	for _, p := range profiles.Circuits() {
		r := newReader(p.Name, units.US, map[string]Origin{})
		var c Circuit
		r.mapping(&p.Fields, reflect.ValueOf(&c).Elem(), "")
		assert.Empty(t, r.faults, p.Name)
		assert.Empty(t, bareIn(r), p.Name)
	}
	root := reflect.ValueOf(&Home{}).Elem()
	for _, d := range profiles.Defaults() {
		r := newReader("assume.yaml", units.US, map[string]Origin{})
		section, key, _ := strings.Cut(d.Key, ".")
		v, _ := fieldByKey(root, section)
		v, f := fieldByKey(v, key)
		r.value(&d.Value, v, f, d.Key)
		assert.Empty(t, r.faults, d.Key)
		assert.Empty(t, bareIn(r), d.Key)
	}
	demo, err := Read(profiles.Demo(), "demo")
	require.NoError(t, err)
	assert.Empty(t, demo.BareNumbers())
}

func TestBare_NoneStandsInTheHomesForTests(t *testing.T) {
	homes, err := filepath.Glob("../../testdata/homes/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, homes)
	for _, path := range homes {
		house, err := ReadFile(path)
		require.NoError(t, err)
		assert.Empty(t, house.BareNumbers(), path)
	}
}

const bareHome = `holdover: 1
site: {elevation: 5250, hottest: 95, coldest: -5, daily_range: 22, generator_clearance: 0}
circuits:
  - {name: A, running: 100, tank: {holds: 50, set_to: 120}}
limits: {fuel_store: 10}
home: {floor_area: 1850UNITS}
`

// Bare numbers are in the units of the home, which may stand after what needs them, and each is told.
func TestBare_FollowsTheUnitsOfTheHome(t *testing.T) {
	us, err := Read([]byte(strings.Replace(bareHome, "UNITS", "", 1)), "home.yaml")
	require.NoError(t, err)
	assert.InDelta(t, 1600.2, float64(us.Site.Elevation), 1e-9)
	assert.InDelta(t, 35, float64(us.Site.Hottest), 1e-9)
	assert.InDelta(t, 22/1.8, float64(us.Site.DailyRange), 1e-9)
	assert.InDelta(t, 37.85411784, us.Limits.FuelStore.Most(), 1e-9)
	assert.InDelta(t, 1850*0.09290304, float64(us.House.FloorArea), 1e-9)
	assert.EqualValues(t, 100, us.Circuits[0].Running, "a power is in watts everywhere")
	var told []string
	for _, b := range us.BareNumbers() {
		told = append(told, b.Path+" "+b.Text+" → "+b.Says)
	}
	assert.Equal(t, []string{"site.coldest -5 → -5 °F (-20.6 °C)", "site.daily_range 22 → 22 °F (12.2 K)", "site.elevation 5250 → 5,250 ft (1,600 m)", "site.hottest 95 → 95 °F (35 °C)",
		"circuits[0].tank.holds 50 → 50 gal (189 L)", "circuits[0].tank.set_to 120 → 120 °F (48.9 °C)", "limits.fuel_store 10 → 10 gal (37.9 L)", "home.floor_area 1850 → 1,850 ft² (172 m²)"}, told, "0 is 0 in feet and in metres")

	for _, say := range []string{", units: si", ", units: metric"} {
		text := strings.NewReplacer("UNITS", say, "hottest: 95", "hottest: 35", "holds: 50, set_to: 120", "holds: 50, set_to: 60").Replace(bareHome)
		si, err := Read([]byte(text), "home.yaml")
		require.NoError(t, err)
		assert.EqualValues(t, 5250, si.Site.Elevation)
		assert.EqualValues(t, 35, si.Site.Hottest)
		assert.EqualValues(t, 10, si.Limits.FuelStore.Most())
		assert.Equal(t, "10 L (2.64 gal)", si.Understood("limits.fuel_store"))
	}
}

// A gear file has no units of its own: it is read in those of the home that asks.
func TestBare_GearFileInTheUnitsOfTheHome(t *testing.T) {
	const sheet = "- {name: Set, kind: generator, fuel_tank: 4, price: \"$1,200\", fuel: petrol}\n"
	us, err := ReadGear([]byte(sheet), "gear.yaml", units.US)
	require.NoError(t, err)
	si, err := ReadGear([]byte(sheet), "gear.yaml", units.SI)
	require.NoError(t, err)
	assert.InDelta(t, 15.141647136, float64(us[0].FuelTank), 1e-9)
	assert.EqualValues(t, 4, si[0].FuelTank)
	assert.EqualValues(t, 1200, us[0].Price)
	assert.Equal(t, profiles.FuelName("gasoline"), us[0].Fuel)
	house, err := Read([]byte("holdover: 1\ncircuits: [{name: A, running: 1 W}]\nsite: {elevation: 300}\ngear:\n  - {name: Old, kind: generator, fuel_tank: 7}\n"), "home.yaml")
	require.NoError(t, err)
	told := func() (paths []string) {
		for _, b := range house.BareNumbers() {
			paths = append(paths, b.Path+" → "+b.Says)
		}
		return paths
	}
	assert.Equal(t, []string{"site.elevation → 300 ft (91.4 m)", "gear[0].fuel_tank → 7 gal (26.5 L)"}, told())
	house.Gear = us
	assert.Equal(t, []string{"site.elevation → 300 ft (91.4 m)", "gear[0].fuel_tank → 4 gal (15.1 L)"}, told(), "the units on offer are those of the other file")
}
