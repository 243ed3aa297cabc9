package service

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"holdover/loads/home"
	"holdover/planner/derive"
	"holdover/profiles"
)

// A published example: a home and what the calculated load of it must come to, line by line.
type published struct {
	Source    string             `yaml:"source"`
	Tolerance float64            `yaml:"tolerance"`
	Home      string             `yaml:"home"`
	Expected  map[string]float64 `yaml:"expected"`
}

func readHome(t testing.TB, text string) *home.Home {
	house, err := home.Read([]byte(text), "home.yaml")
	require.NoError(t, err)
	return house
}

// sheetOf is the calculated load of a home.
func sheetOf(t testing.TB, text string) (*derive.Figures, Load) {
	house := readHome(t, text)
	s := &derive.Figures{}
	return s, Calculate(house, house.Code(), s)
}

// nec is an edition of the code.
func nec(t testing.TB, name string) *profiles.Code {
	code, ok := profiles.FindCode(name)
	require.True(t, ok, name)
	return code
}

// NEC Annex D; each file names its edition and where it was read.
func TestAnnexD_EveryLine(t *testing.T) {
	files, err := filepath.Glob("../../testdata/published/annex-d*.yaml")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 7)
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			text, err := os.ReadFile(file)
			require.NoError(t, err)
			var p published
			require.NoError(t, yaml.Unmarshal(text, &p))
			require.NotEmpty(t, p.Source)
			require.NotEmpty(t, p.Expected)
			sheet, _ := sheetOf(t, p.Home)
			for id, want := range p.Expected {
				f, ok := sheet.Get(id)
				if assert.True(t, ok, id) {
					assert.InDelta(t, want, f.Value, p.Tolerance+1e-6, id)
				}
			}
		})
	}
}
