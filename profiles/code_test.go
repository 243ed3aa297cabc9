package profiles

import (
	"go/scanner"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var nec2020 = codes["nec-2020"]()

// ids are those of the rules of an edition, with those of the editions that it is like and those it is silent on.
func ids(c *Code) (all []string) {
	for id := range section[map[string]Rule](c.file, "rules")() {
		all = append(all, id)
	}
	return append(all, section[[]string](c.file, "silent")()...)
}

func edition(t testing.TB, name string) *Code {
	c, ok := FindCode(name)
	require.True(t, ok, name)
	return c
}

// Every edition answers every id, with a source; what has a clause says either that it is remembered or where it was read.
func TestCodes_EveryEditionAnswersEveryRule(t *testing.T) {
	for _, name := range Codes() {
		c := edition(t, name)
		for id, own := range section[map[string]Rule](editionFile{name, [][]byte{codeText(name)}}, "rules")() {
			changed := own.Values != nil || own.Steps != nil || own.List != nil
			assert.False(t, changed && strings.HasPrefix(c.Rule(id).Read, "taken"), "%s: %s has numbers of its own and does not say where from", name, id)
		}
		assert.NotEmpty(t, c.Title, name)
		assert.NotEmpty(t, c.Foot, name)
		assert.ElementsMatch(t, ids(nec2020), ids(c), name)
		for _, id := range ids(nec2020) {
			r := c.Rule(id)
			assert.Equal(t, id, r.ID)
			assert.NotEmpty(t, r.Source(), "%s: %s", name, id)
			if r.Clause != "" && !r.None {
				assert.NotEqual(t, r.FromMemory, r.Read != "", "%s: %s", name, id)
			}
		}
	}
	assert.Panics(t, func() { nec2020.Rule("none-such") })
	assert.Panics(t, func() { nec2020.Rule("general").Value("none-such") })
	assert.Panics(t, func() { nec2020.Rule("general").Phrase("none-such") })
	_, ok := FindCode("nec-1999")
	assert.False(t, ok)
}

func TestUsualCode_BySupply(t *testing.T) {
	for service, want := range map[string]string{"120/240 V": "nec-2020", "120 V": "nec-2020", "230 V": "iec-60364"} {
		assert.Equal(t, want, UsualCode(service).Name)
	}
	assert.Panics(t, func() { UsualCode("400 V") })
}

func TestRule_SourceSaysHowItIsKnown(t *testing.T) {
	for name, want := range map[string]map[string]string{
		"nec-2017": {"wire-size": "NEC Table 310.15(B)(16), 110.14(C) and 240.4, 2017 edition, from memory", "storage-disconnect": "NEC 706.7, 2017 edition, from memory"},
		"nec-2020": {"transfer-equipment": "NEC 702.5, 2020 edition, from memory", "dwelling-service": "NEC 310.12, 2020 edition, as reprinted"},
		"nec-2023": {"dwelling-service": "NEC 310.12, 2023 edition, taken to be as in an older edition, as reprinted", "general": "NEC Table 220.45, 2023 edition, from memory", "unit-load": "NEC 220.41, 2023 edition, from memory"},
		"nec-2026": {"general": "NEC Table 120.45, 2026 edition, from memory", "unit-load": "NEC 120.41, 2026 edition, as a trade journal quotes its list of changes",
			"transfer-equipment": "NEC 702.5, 2026 edition, from memory"},
		"iec-60364": {"general": "local wiring rules (IEC 60364 family) apply"},
	} {
		for id, source := range want {
			assert.Equal(t, source, edition(t, name).Rule(id).Source(), name)
		}
	}
	assert.Equal(t, "NEC 702.5", nec2020.Rule("transfer-equipment").Short())
}

// What changed from edition to edition, typed a second time: the lighting of 2 VA/ft² and the first 8 kVA as published commentary
// on the 2026 edition has them; the rest from memory.
func TestCodes_WhatChanged(t *testing.T) {
	for name, want := range map[string]struct {
		lighting, vehicle, firstStep float64
		existing, disconnect         bool
	}{
		"nec-2017": {3, 0, 10000, true, false}, "nec-2020": {3, 0, 10000, true, true}, "nec-2023": {3, 7200, 10000, true, true}, "nec-2026": {2, 0, 8000, false, true},
	} {
		c := edition(t, name)
		assert.Equal(t, want.lighting, c.Rule("unit-load").Value("va_per_ft2"), name)
		assert.Equal(t, want.vehicle, c.Rule("vehicle").Value("least_va"), name)
		assert.Equal(t, want.firstStep, c.Rule("optional-method").Steps[0].UpToVA, name)
		assert.Equal(t, want.existing, !c.Rule("existing-method").None, name)
		assert.Equal(t, want.disconnect, !c.Rule("emergency-disconnect").None, name)
		assert.Equal(t, nec2020.Wire(), c.Wire(), "the tables of wire are the same")
		assert.Equal(t, nec2020.Cooking(), c.Cooking(), name)
	}
}

// A new edition is one file that gives what is different, down to one value of one rule.
func TestNewCode_GivesOnlyWhatIsDifferent(t *testing.T) {
	c := NewCode("nec-2029", []byte("about: {like: nec-2023, title: T, edition: 2029 edition}\nrules:\n  fastened: {values: {share: 0.5}}\n"))
	assert.Equal(t, 0.5, c.Rule("fastened").Value("share"))
	assert.Equal(t, 500.0, c.Rule("fastened").Value("least_va"))
	assert.Equal(t, "NEC 220.53, 2029 edition, from memory", c.Rule("fastened").Source())
	assert.Equal(t, 7200.0, c.Rule("vehicle").Value("least_va"), "as in 2023")
	assert.Equal(t, nec2020.Dryers(), c.Dryers())
	assert.Panics(t, func() { NewCode("slip", []byte("about: {titel: T}\n")) }, "an unknown key")
}

// source is a Go file of the program: its texts and comments.
type source struct {
	path     string
	texts    []string // string literals
	comments []string
}

func program(t testing.TB) (all []source) {
	err := filepath.WalkDir("..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		content, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		out, files := source{path: path}, token.NewFileSet()
		var s scanner.Scanner
		s.Init(files.AddFile(path, -1, len(content)), content, nil, scanner.ScanComments)
		for {
			switch _, tok, text := s.Scan(); tok {
			case token.EOF:
				all = append(all, out)
				return nil
			case token.STRING:
				if unquoted, err := strconv.Unquote(text); err == nil {
					text = unquoted
				}
				out.texts = append(out.texts, text)
			case token.COMMENT:
				out.comments = append(out.comments, text)
			}
		}
	})
	require.NoError(t, err)
	require.Greater(t, len(all), 200)
	return all
}

// A clause of a wiring code, its name or its number, stands in the folder code and nowhere else.
func TestNoClauseInGoNorInOtherTables(t *testing.T) {
	clause := regexp.MustCompile(`\bNEC\b|\bNFPA 70\b|\bArticle \d|\bTable \d{3}|\b(90|1\d\d|2\d\d|3[0-9]0|4\d\d|5\d\d|6\d\d|7\d\d)\.\d{1,3}(\([A-Za-z0-9]+\))+|\b(120|210|220|225|230|240|250|310|408|430|445|702|705|706|710|750)\.\d{1,3}\b`)
	for _, s := range program(t) {
		for _, text := range append(s.texts, s.comments...) {
			assert.NotRegexp(t, clause, text, s.path)
		}
	}
	tables, err := filepath.Glob("*.yaml")
	require.NoError(t, err)
	groups, err := filepath.Glob("circuits/*.yaml")
	require.NoError(t, err)
	for _, path := range append(tables, groups...) {
		assert.NotRegexp(t, regexp.MustCompile(`\bNEC\b|\bNFPA 70\b`), string(text(path)), path)
	}
}

// Every rule that the program or another table asks for is in the codes, and every rule, value and phrase in them is asked for.
func TestRules_AskedForAndThere(t *testing.T) {
	literal := map[string]bool{}
	for _, s := range program(t) {
		for _, text := range s.texts {
			literal[text] = true
		}
		content, err := os.ReadFile(s.path)
		require.NoError(t, err)
		for _, m := range regexp.MustCompile(`\.(?:Rule|rule)\("([^"]+)"\)|w\.ask\([^"]*"([^"]+)"`).FindAllStringSubmatch(string(content), -1) {
			assert.Contains(t, ids(nec2020), m[1]+m[2], s.path)
		}
	}
	braces := map[string]bool{}
	for _, path := range []string{"cautions.yaml", "hazards.yaml"} {
		for _, m := range regexp.MustCompile(`\{([a-z-]+)\}`).FindAllStringSubmatch(string(text(path)), -1) {
			braces[m[1]] = true
		}
	}
	for _, name := range Codes() {
		for _, id := range ids(edition(t, name)) {
			r := edition(t, name).Rule(id)
			assert.True(t, literal[id] || braces[id], "%s: nobody asks for %s", name, id)
			for key := range r.Values {
				assert.True(t, literal[key] || literal[strings.TrimPrefix(strings.TrimPrefix(key, "copper"), "aluminium")], "%s: nobody asks for %s of %s", name, key, id)
			}
			for key := range r.Phrases {
				assert.True(t, literal[key], "%s: nobody asks what %s says of %s", name, id, key)
			}
		}
	}
	for id := range braces {
		if id != "numbers" && id != "code" {
			assert.Contains(t, ids(nec2020), id)
		}
	}
}
