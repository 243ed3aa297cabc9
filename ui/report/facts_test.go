package report

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/profiles"
)

func TestFactsShowsEveryFieldUnderItsKey(t *testing.T) {
	entry := struct {
		Name   string            `yaml:"name"`
		Note   string            `yaml:"note"`
		Limit  float64           `yaml:"limit_kwh"`
		Points []profiles.PointC `yaml:"points"`
		Inner  struct {
			Use struct {
				Duty float64 `yaml:"duty"`
			} `yaml:"use"`
		} `yaml:"inner"`
	}{Name: "x", Limit: 80, Points: []profiles.PointC{{Celsius: 0, Share: 0.8}, {Celsius: 25, Share: 1}}}
	text, err := Facts(Fact{Entry: entry}, 80)
	require.NoError(t, err)
	assert.Equal(t, `name: x
limit_kwh: 80
points:
  - {celsius: 0, share: 0.8}
  - {celsius: 25, share: 1}
inner:
  use: {duty: 0}
`, text)
}
