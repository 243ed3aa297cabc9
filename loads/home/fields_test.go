package home

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/units"
	"holdover/profiles"
)

// What the schema says of a range is the range: each end as it is printed is accepted, and reads back as the end itself.
func TestRanges_AreSaidExactly(t *testing.T) {
	said := regexp.MustCompile(`\((\S+(?: \S+)?) to (\S+)(?: (\S+))?\)$`)
	for name := range sectionTypes {
		for _, f := range FieldsOf(name) {
			if !f.Bounded || name == "" {
				continue
			}
			m := said.FindStringSubmatch(schemaOf(f, name+"."+f.Key)["description"].(string))
			require.NotNil(t, m, "%s.%s", name, f.Key)
			for end, want := range map[string]float64{m[1]: f.Low, m[2] + " " + m[3]: f.High} {
				end = strings.ReplaceAll(strings.TrimSpace(end), ",", "")
				got, err := strconv.ParseFloat(strings.Fields(end)[0], 64)
				if f.Dimension != nil && len(strings.Fields(end)) > 1 {
					got, err = units.Parse(end, *f.Dimension)
				}
				require.NoError(t, err, "%s.%s: %s", name, f.Key, end)
				assert.Equal(t, want, got, "%s.%s: %s", name, f.Key, end)
			}
		}
	}
	fields := FieldsOf("outage")
	length := fields[slices.IndexFunc(fields, func(f Field) bool { return f.Key == "length" })]
	for _, minute := range []string{"1 min", "60 s", "60000 ms", "0.0166666666666667 h", "0.01666666666666667"} {
		_, err := Read([]byte("holdover: 1\noutage: {length: "+minute+"}\ncircuits: [{name: A, running: 1 W}]\n"), "home.yaml")
		assert.NoError(t, err)
	}
	_, err := Read([]byte("holdover: 1\noutage: {length: 59 s}\ncircuits: [{name: A, running: 1 W}]\n"), "home.yaml")
	assert.ErrorContains(t, err, "1 min to 2,160 h is accepted")
	assert.Equal(t, "1 min to 2,160 h", length.Accepts(units.US))
}

// What a table of profiles has is accepted where a home file names it, and all of it is said where a word is not; a new entry of a
// table needs nothing here.
func TestChoices_FollowTheTables(t *testing.T) {
	fuels, chemistries := profiles.Names("fuels"), profiles.Names("chemistries")
	for text, names := range map[string][]string{
		"limits: {fuels: [%s]}":                           fuels,
		"gear: [{name: G, kind: generator, fuel: %s}]":    fuels,
		"gear: [{name: B, kind: battery, chemistry: %s}]": chemistries,
		"assume: {chemistry: %s}":                         chemistries,
		"assume: {engine: %s}":                            profiles.Names("engines"),
		"limits: {battery_place: %s}":                     append(profiles.Names("places"), "none"),
		"site: {gas: {pipe: %s, length: 3 m}}":            profiles.PipeTables().Sizes,
		"site: {gas: {kind: %s}}":                         profiles.Names("gases"),
	} {
		for _, name := range names {
			_, err := Read([]byte("holdover: 1\n"+fmt.Sprintf(text, name)+"\ncircuits: [{name: A, running: 1 W}]\n"), "home.yaml")
			assert.NoError(t, err, text, name)
		}
		_, err := Read([]byte("holdover: 1\n"+fmt.Sprintf(text, "nothing")+"\ncircuits: [{name: A, running: 1 W}]\n"), "home.yaml")
		assert.ErrorContains(t, err, oneOf(names), text)
	}
}
