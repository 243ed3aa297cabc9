package main

import (
	"context"
	"flag"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner"
	"holdover/planner/install"
	"holdover/planner/sheet"
)

var truths = flag.Int("truths", 2000, "how many random homes the plan, the fit and the job sheet are held to each other on")

// The plan, the fit and the job sheet are one truth. On random homes of every key: an option that carries the house passes the
// checks of its own sheets, a gear entry with the numbers of such a sheet fits, the job sheet of the option has no fail that the
// option brings, and a generator of the catalogue as a gear entry gets the catalogue's answer.
func TestOneTruth(t *testing.T) {
	homes, carried := 0, 0
	for seed := *firstHome; homes < *truths; seed++ {
		h := anyHome(seed)
		if !h.reads {
			continue
		}
		homes++
		house, err := home.Read(h.text, "home.yaml")
		require.NoError(t, err)
		broken, options := denials(t, house)
		carried += options
		if len(broken) > 0 {
			t.Errorf("seed %d:\n  %s", seed, strings.Join(broken, "\n  "))
		}
	}
	t.Logf("%d homes, %d options that carry", homes, carried)
	require.Greater(t, carried, homes/5, "too few to prove anything")
}

// denials lists where the parts of the answer on a home deny each other, and how many options carry it.
func denials(t *testing.T, house *home.Home) (broken []string, options int) {
	r, err := planner.Plan(context.Background(), house, planner.Verdict())
	require.NoError(t, err)
	say := func(format string, args ...any) { broken = append(broken, fmt.Sprintf(format, args...)) }
	if len(r.Demand.Loads) == 0 {
		return nil, 0 // nothing needs carrying
	}
	scope := planner.Scope(r)
	for _, o := range r.Options {
		if !o.Carried || !o.Outcome.Real() {
			continue
		}
		options++
		for _, c := range r.Checks(o) {
			for _, f := range c.Findings {
				if !f.Met {
					say("%s: %s (%s) %s: %s", o.Kind, c.Sheet.Name, c.Part, f.ID, f.Says)
				}
				if strings.Contains(f.Says, "the sun adds") && house.Site.Sun.PerDay == 0 {
					say("%s: %s: %s, and there is no sun", o.Kind, c.Sheet.Name, f.Says)
				}
				if a := f.Compared; a != nil && f.Outcome == sheet.Holds && !enough(c.Sheet, f.ID, *a) {
					say("%s: %s %s holds, and wants %v %s of %v", o.Kind, c.Sheet.Name, f.ID, a.Wants, a.Unit, a.Gives)
				}
			}
		}
		for _, c := range scope.Checks {
			if c.About == string(o.Kind) && c.Result == install.Fail && c.Step == "" {
				say("%s: the job sheet fails its %s: %s", o.Kind, c.Name, c.Reason)
			}
		}
		for _, x := range scope.Refusals {
			if x.Source == string(o.Kind) {
				say("%s: the job sheet refuses it: %s", o.Kind, x.Reason)
			}
		}
		for _, f := range unmetAsGear(t, house, r, o) {
			say("%s as gear: %s: %s", o.Kind, f.ID, f.Says)
		}
	}
	return append(broken, catalogueBreaks(t, house, r)...), options
}

// enough says whether a sheet gives what is wanted, or no more than is borne.
func enough(s sheet.Sheet, id string, a sheet.Amounts) bool {
	switch {
	case id == "hertz":
		return math.Abs(a.Gives/a.Wants-1) <= 0.05
	case slices.Contains([]string{"dip", "gap", "recharge"}, id), id == "place" && s.Stores():
		return a.Gives <= a.Wants*(1+1e-9)
	}
	return a.Gives >= a.Wants*(1-1e-9)
}

// unmetAsGear writes what carries the house in an option as a gear entry, as its maker would, and lists what fit says against it.
func unmetAsGear(t *testing.T, house *home.Home, r *planner.Result, o planner.Option) (unmet []sheet.Finding) {
	sheets := r.Sheets(o)
	var entry sheet.Sheet
	switch o.Kind {
	case planner.Generator:
		entry = sheets[0].Sheet
	case planner.Battery:
		entry = sheets[0].Sheet
		entry.Kind = home.Set
		cells := sheets[1].Sheet
		entry.Gear.Energy, entry.Gear.Chemistry, entry.Gear.Left, entry.Gear.Recharge = cells.Energy, cells.Chemistry, cells.Left, cells.Recharge
	default:
		return nil
	}
	for _, f := range fitOf(t, house, entry).Checks {
		// Its asking price is the budget's matter, and cells of several units are one here.
		if !f.Met && f.ID != "price" && !(o.Kind == planner.Battery && f.ID == "place") {
			unmet = append(unmet, f)
		}
	}
	return unmet
}

// catalogueBreaks holds the sizes commonly sold of the preferred fuel, as gear entries, to whether the plan has a generator.
func catalogueBreaks(t *testing.T, house *home.Home, r *planner.Result) (broken []string) {
	option, _ := r.Option(planner.Generator)
	if house.Limits.Budget.Ends() || !r.Turns.Found || len(house.Limits.Fuels) == 0 {
		return nil
	}
	made := slices.DeleteFunc(sheet.Generators(house), func(s sheet.Sheet) bool { return s.Fuel != house.Limits.Fuels[0] })
	for i := 0; i < len(made); i += 7 {
		u := fitOf(t, house, made[i])
		if serves := sheet.AllMet(u.Checks); serves && !option.Carried {
			broken = append(broken, fmt.Sprintf("%s fits by its sheet, and no generator carries: %s", made[i].Name, strings.Join(option.WhyNot, " ")))
		}
	}
	return broken
}

// fitOf writes a sheet as the text of a gear entry, reads it, and has it checked.
func fitOf(t *testing.T, house *home.Home, s sheet.Sheet) sheet.Unit {
	g := s.Gear
	var b strings.Builder
	put := func(key string, value any) {
		if g.Has(key) || s.Kind == home.Set && slices.Contains([]string{"energy", "chemistry", "capacity_left", "recharge"}, key) {
			fmt.Fprintf(&b, ", %s: %v", key, value)
		}
	}
	fmt.Fprintf(&b, "gear: [{name: Unit, kind: %s, price: 0", s.Kind)
	put("wave", g.Wave)
	put("distortion", g.Distortion)
	put("volts", fmt.Sprint(float64(g.Volts), " V"))
	put("legs", g.Legs)
	put("hertz", fmt.Sprint(float64(g.Frequency), " Hz"))
	put("watts", fmt.Sprint(float64(g.Watts), " W"))
	put("va", fmt.Sprint(float64(g.VA), " VA"))
	put("surge", fmt.Sprint(float64(g.Surge), " W"))
	put("surge_seconds", fmt.Sprint(float64(g.SurgeTime), " s"))
	put("alternator", g.Alternator)
	put("place", g.Stands)
	put("gap", fmt.Sprint(float64(g.Gap), " s"))
	put("neutral", g.Neutral)
	put("fuel", g.Fuel)
	put("efficiency", g.Efficiency)
	put("idle", fmt.Sprint(float64(g.Idle), " W"))
	put("energy", fmt.Sprint(float64(g.Energy), " Wh"))
	put("chemistry", g.Chemistry)
	put("capacity_left", g.Left)
	put("recharge", fmt.Sprint(float64(g.Recharge), " h"))
	gear, err := home.ReadGear([]byte(b.String()+"}]"), "unit.yaml", units.US)
	require.NoError(t, err, b.String())
	changed := *house
	changed.Gear = gear
	report, err := sheet.Of(&changed, sheet.Request{})
	require.NoError(t, err)
	return report.Units[0]
}
