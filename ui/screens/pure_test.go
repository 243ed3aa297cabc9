package screens

import (
	"testing"

	"github.com/stretchr/testify/require"

	"holdover/loads"
	"holdover/planner"
	"holdover/profiles"
	"holdover/ui/document"
)

func TestFit_IsAsWideAsAskedAndEscaped(t *testing.T) {
	require.Equal(t, "abc…", unicodeGlyphs.fit("abcdef", 4))
	require.Equal(t, "世… ", unicodeGlyphs.fit("世界人", 4))
	require.Equal(t, " [red[]", unicodeGlyphs.right("[red]", 6))
}

// What a document says is drawn as it is, in the mark of its tone.
func TestLay_EscapesAndMarks(t *testing.T) {
	l := newLook(false, false)
	lines := l.lay(document.Document{document.Heading{Text: "[red]House", Tone: document.Bad}, document.List{"[x] y"}}, 40, 0)
	require.Equal(t, []string{l.bad.on("[red[]House"), "  - [x[] y"}, lines)
}

func TestMatch_TheBestComesFirst(t *testing.T) {
	first := func(typed string) string {
		found := matchProfiles(profiles.Circuits(), typed)
		require.NotEmpty(t, found, typed)
		return found[0].Name
	}
	require.Equal(t, "refrigerator", first("refrig"))
	require.Equal(t, "refrigerator", first("rfrgrtr"))
	require.Equal(t, "sump-pump-half-hp", first("sump half"))
	require.Contains(t, first("heat pump"), "heat-pump", "before a heating pump")
	require.Equal(t, "furnace-gas", first("furnice"), "one letter wrong")
	require.Equal(t, "refrigerator", first("refriggerator"), "one too many")
	require.Empty(t, matchProfiles(profiles.Circuits(), "qqq"))
	require.Empty(t, matchProfiles(profiles.Circuits(), "qqqq"))
	require.Len(t, matchProfiles(profiles.Circuits(), ""), len(profiles.Circuits()))
}

// What people call things finds what they mean, before or in place of what has the same letters scattered about.
func TestMatch_EverydayWords(t *testing.T) {
	for typed, want := range map[string]string{
		"fridge": "refrigerator", "Fridge": "refrigerator", "tv": "television", "wifi": "router", "aircon window": "window-ac",
	} {
		found := matchProfiles(profiles.Circuits(), typed)
		require.NotEmpty(t, found, typed)
		require.Contains(t, found[0].Name, want, typed)
	}
	for _, p := range matchProfiles(profiles.Circuits(), "tv") {
		require.Regexp(t, "(?i)tv|television", p.Name+" "+p.Title+" "+p.Group)
	}
}

func TestFares_SaysHowEachOptionDoes(t *testing.T) {
	at := 9.5
	r := &planner.Result{Demand: loads.Demand{Start: 18}}
	for want, o := range map[string]planner.Option{
		"carried":                          {Carried: true},
		"fell short at 03:30, after 9.5 h": {FellShortAt: &at},
		"will not do":                      {WhyNot: []string{"x"}},
		"breaks a limit":                   {Carried: true, WhyNot: []string{"x"}},
		"breaks 2 limits":                  {Carried: true, WhyNot: []string{"x", "y"}},
	} {
		require.Equal(t, want, fares(r, o))
	}
}

func TestHelp_IsWholeAtEightyColumns(t *testing.T) {
	r := newRig(t, Options{}, 80, 120).press("?")
	for _, part := range helpParts {
		for _, row := range part.rows {
			r.has(row[0]).has(row[1])
		}
	}
	for _, key := range r.app.commonKeys() {
		r.has(key.label)
	}
}
