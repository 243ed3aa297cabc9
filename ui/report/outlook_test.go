package report

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/planner"
	"holdover/profiles"
)

func TestRemediesAreSaidOnce(t *testing.T) {
	r := planned(t, shortOfFuel)
	require.NotEmpty(t, r.Outlook.Remedies)
	text := strings.Join(strings.Fields(Text(r, 200, Blocks)), " ")
	for _, m := range r.Outlook.Remedies {
		assert.Equal(t, 1, strings.Count(text, m.Change), m.Change)
		assert.NotContains(t, text, m.String())
		assert.Contains(t, text, m.Change+" a "+string(m.Kind)+" "+planner.Money(m.Cost))
	}
	assert.Contains(t, text, "Why - Nothing carries this house within its limits.", "other reasons stay")
}

func TestWhereNothingHelpsTheOutlookSaysSo(t *testing.T) {
	r := planned(t, shortOfFuel)
	r.Outlook = planner.Outlook{AllTried: true}
	text := Text(r, 80, Blocks)
	assert.Contains(t, text, "No single limit lifted and no circuits moved would do")
	assert.Contains(t, text, "No outage of up to 14 days")
}

func TestTheRunnerUpIsNamedWithWhatItCostsMore(t *testing.T) {
	r := planned(t, string(profiles.Demo()))
	r.Outlook.RunnerUp = planner.Battery
	r.Options[0].Cost, r.Options[2].Cost = 27402, 20147
	assert.Equal(t, "The runner-up is a battery: about 7,260 USD more over the planning years (about 27,400 USD in place of about 20,100 USD).", runnerUpText(r))
	r.Outlook.RunnerUp = planner.None
	assert.Equal(t, "There is no runner-up: no other option is open to choose.", runnerUpText(r))
}

// The front has the planned length among its rows, and what nothing carries is said in words.
func TestTheFrontMarksThePlannedLength(t *testing.T) {
	r := planned(t, shortOfFuel)
	text := strings.Join(frontSection(r).Lines(80), "\n")
	assert.Contains(t, text, "2 h  generator  ")
	assert.Regexp(t, `planned: 30 h +nothing +nothing within the limits`, text)
	for i := range r.Outlook.Front {
		r.Outlook.Front[i].Kind = planner.None
	}
	assert.Equal(t, []string{"  - Nothing within the limits carries even 2 h."}, frontSection(r).Lines(80))
}

func TestRiskNamesEveryOptionWithADesignAndTheSource(t *testing.T) {
	r := planned(t, string(profiles.Demo()))
	text := strings.Join(strings.Fields(strings.Join(riskSection(r).Lines(80), " ")), " ")
	for _, o := range r.Options {
		e, ok := r.Chance.Exposure[o.Kind]
		assert.Equal(t, o.Outcome.Real(), ok)
		assert.Equal(t, ok, strings.Contains(text, string(o.Kind)+" "+percent(e.Carried)), o.Kind)
	}
	assert.Contains(t, text, r.Chance.Lasting.Source)
	assert.Contains(t, text, "2 a year are expected")
}

func TestPercentNeverRoundsUpToAll(t *testing.T) {
	for share, want := range map[float64]string{1: "100 %", 0.99999: "over 99.9 %", 0.9996: "over 99.9 %", 0.998: "99.8 %", 0.5: "50 %", 0: "0 %"} {
		assert.Equal(t, want, percent(share))
	}
	assert.Equal(t, "100 %", percent(math.Nextafter(1, 0)))
}
