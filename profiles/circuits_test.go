package profiles

import (
	"io/fs"
	"path"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"
)

// value gives the value of a key of a mapping, or nil.
func value(n *yaml.Node, key string) *yaml.Node {
	for i := 0; n != nil && i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return n.Content[i+1]
		}
	}
	return nil
}

// scalar gives the text of a key's value, or "".
func scalar(n *yaml.Node, key string) string {
	if v := value(n, key); v != nil {
		return v.Value
	}
	return ""
}

func TestGroupsAreTheFilesOfTheFolder(t *testing.T) {
	entries, err := fs.Glob(files, "circuits/*.yaml")
	require.NoError(t, err)
	var found []string
	for _, entry := range entries {
		found = append(found, strings.TrimSuffix(path.Base(entry), ".yaml"))
	}
	assert.ElementsMatch(t, found, Groups())
}

func TestCircuitsAreManyNamedOnceAndSourced(t *testing.T) {
	all := Circuits()
	assert.GreaterOrEqual(t, len(all), 80)
	form := regexp.MustCompile(`^[a-z][a-z0-9.]*(-[a-z0-9.]+)*$`)
	seen := map[string]bool{}
	for _, c := range all {
		assert.Regexp(t, form, c.Name)
		assert.False(t, seen[c.Name], "%s stands twice", c.Name)
		seen[c.Name] = true
		assert.NotEmpty(t, c.Title, c.Name)
		assert.NotEmpty(t, c.Source, c.Name)
		assert.Contains(t, Groups(), c.Group, c.Name)
	}
}

// FindCircuit cuts its entry out of the text; Circuits parses whole files. They must agree.
func TestFindCircuitGivesEachOfCircuits(t *testing.T) {
	for _, want := range Circuits() {
		for range 2 { // parsed, then remembered
			got, ok := FindCircuit(want.Name)
			require.True(t, ok, want.Name)
			wantText, err := yaml.Marshal(&want.Fields)
			require.NoError(t, err)
			gotText, err := yaml.Marshal(&got.Fields)
			require.NoError(t, err)
			assert.Equal(t, string(wantText), string(gotText), want.Name)
			assert.Equal(t, [5]string{want.Name, want.Title, want.Group, want.Source, want.Note},
				[5]string{got.Name, got.Title, got.Group, got.Source, got.Note})
		}
	}
	for _, name := range []string{"", "fridge", "refrigerator-", "refrigerator\n  title: x"} {
		_, ok := FindCircuit(name)
		assert.False(t, ok, "%q", name)
	}
}

// The keys that a home file's circuit may have, as far as a profile may give them.
var circuitKeys = []string{"volts", "running", "running_amps", "standby", "power_factor", "start", "start_seconds", "use",
	"class", "nameplate", "output", "fallback_duty", "breaker", "needs", "heater"}

func TestCircuitFieldsAreWholeAndPlain(t *testing.T) {
	for _, c := range Circuits() {
		t.Run(c.Name, func(t *testing.T) {
			f := &c.Fields
			require.Equal(t, yaml.MappingNode, f.Kind)
			for i := 0; i < len(f.Content); i += 2 {
				assert.Contains(t, circuitKeys, f.Content[i].Value)
			}
			assert.Contains(t, []string{"120 V", "240 V"}, scalar(f, "volts"))
			assert.NotEmpty(t, scalar(f, "breaker"))
			needs := value(f, "needs")
			assert.Contains(t, []string{"sine", "any"}, scalar(needs, "wave"))
			assert.NotEmpty(t, scalar(needs, "can_wait"))
			if value(f, "heater") == nil {
				assert.NotEqual(t, value(f, "running") == nil, value(f, "running_amps") == nil, "one of running and running_amps")
				assert.NotNil(t, value(f, "use"))
			}
			if start := value(f, "start"); start != nil && start.Kind == yaml.MappingNode {
				assert.NotEmpty(t, scalar(f, "start_seconds"))
			}
			if use := scalar(f, "use"); use == "heating" || use == "cooling" {
				assert.NotEmpty(t, scalar(f, "output"))
				assert.NotEmpty(t, scalar(f, "fallback_duty"))
			}
		})
	}
}

// An entry stands for itself, since FindCircuit parses it alone and the reader of a home file knows no alias either.
func TestCircuitFilesHaveNoAnchors(t *testing.T) {
	for _, group := range Groups() {
		var doc yaml.Node
		require.NoError(t, yaml.Unmarshal(text(circuitFile(group)), &doc))
		noAnchor(t, &doc, group)
	}
}

func noAnchor(t *testing.T, n *yaml.Node, group string) {
	assert.NotEqual(t, yaml.AliasNode, n.Kind, "%s line %d", group, n.Line)
	assert.Empty(t, n.Anchor, "%s line %d", group, n.Line)
	for _, child := range n.Content {
		noAnchor(t, child, group)
	}
}

func TestMedicalCircuitsNeverWaitAndAskForSine(t *testing.T) {
	count := 0
	for _, c := range Circuits() {
		if c.Group != "medical" {
			continue
		}
		count++
		needs := value(&c.Fields, "needs")
		assert.Equal(t, "0 h", scalar(needs, "can_wait"), c.Name)
		assert.Equal(t, "sine", scalar(needs, "wave"), c.Name)
	}
	assert.GreaterOrEqual(t, count, 7)
}

// Burner controls: common practice, no source.
func TestBurnersWithControlBoardsAskForSineAndEarthedNeutral(t *testing.T) {
	for _, name := range []string{"gas-instant-heater", "gas-instant-heater-guarded", "gas-instant-heater-outdoor", "gas-tank-fan",
		"gas-tank-damper", "furnace-gas", "furnace-gas-variable-speed", "furnace-oil", "boiler-gas", "boiler-gas-condensing", "boiler-oil"} {
		c, ok := FindCircuit(name)
		require.True(t, ok, name)
		needs := value(&c.Fields, "needs")
		assert.Equal(t, "sine", scalar(needs, "wave"), name)
		assert.Equal(t, "true", scalar(needs, "earthed_neutral"), name)
	}
}

func TestEveryKindOfWaterHeaterIsThere(t *testing.T) {
	for name, heater := range map[string]struct{ standsIn, guard string }{
		"gas-instant-heater":         {"indoors", ""},
		"gas-instant-heater-guarded": {"garage", "120 W"},
		"gas-instant-heater-outdoor": {"outdoors", "150 W"},
		"gas-tank-pilot":             {"indoors", ""},
		"gas-tank-damper":            {"indoors", ""},
		"gas-tank-fan":               {"indoors", ""},
	} {
		c, ok := FindCircuit(name)
		require.True(t, ok, name)
		h := value(&c.Fields, "heater")
		assert.Equal(t, heater.standsIn, scalar(h, "stands_in"), name)
		assert.Equal(t, heater.guard, scalar(h, "freeze_guard"), name)
		assert.NotEmpty(t, scalar(h, "gas_input"), name)
	}
	for _, name := range []string{"electric-tank", "electric-instant-heater", "heat-pump-heater", "hot-water-recirculation"} {
		_, ok := FindCircuit(name)
		assert.True(t, ok, name)
	}
}

// A pilot light and its valve live off the flame: common practice, no source.
func TestStandingPilotDrawsNothing(t *testing.T) {
	c, ok := FindCircuit("gas-tank-pilot")
	require.True(t, ok)
	h := value(&c.Fields, "heater")
	assert.Equal(t, "0 W", scalar(h, "firing"))
	assert.Equal(t, "0 W", scalar(h, "standby"))
}
