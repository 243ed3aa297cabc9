package screens

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/visible"
	"holdover/planner"
	"holdover/planner/working"
	"holdover/profiles"
)

func TestBars_HeightsAreShares(t *testing.T) {
	require.Equal(t, []string{
		"    █ ",
		"  ▄ █ ",
		"▄ █ █ ",
		"█ █ █ ",
	}, bars([]float64{1.5, 2.5, 4}, 1, 4, unicodeGlyphs))
	require.Equal(t, []string{"## .. :: "}, bars([]float64{3, 0.001, 2}, 2, 1, asciiGlyphs), "a little is never nothing")
	require.Equal(t, []string{"    "}, bars([]float64{0, 0}, 1, 1, unicodeGlyphs))
}

func TestFit_IsAsWideAsAsked(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, width := rapid.String().Draw(t, "text"), rapid.IntRange(1, 60).Draw(t, "width")
		clipped := unicodeGlyphs.clip(text, width)
		require.LessOrEqual(t, cells(clipped), width)
		if whole := visible.Text(text); cells(whole) <= width {
			require.Equal(t, whole, clipped)
		}
	})
	require.Empty(t, unicodeGlyphs.clip("abc", 0))
	require.Equal(t, "abc…", unicodeGlyphs.fit("abcdef", 4))
	require.Equal(t, "世… ", unicodeGlyphs.fit("世界人", 4), "wide letters are not cut in half")
	require.Equal(t, "  ab", unicodeGlyphs.right("ab", 4))
}

func TestWrap_LosesNothingAndKeepsTheWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOf(rapid.StringMatching(`[a-z\[\]世é ]{0,30}`)).Draw(t, "words"), " ")
		width := rapid.IntRange(2, 40).Draw(t, "width")
		lines := wrapPlain(text, width)
		for _, line := range lines {
			require.LessOrEqual(t, cells(line), width)
		}
		squeeze := func(text string) string { return strings.Join(strings.Fields(text), "") }
		require.Equal(t, squeeze(visible.Text(text)), squeeze(strings.Join(lines, "")))
	})
	require.Equal(t, []string{"  one two", "  [red[]", "  threefou", "  r"}, wrap("one two [red] threefour", 10, "  "))
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

func TestWorkingTree_GoesDownToTheSources(t *testing.T) {
	var s working.Sheet
	s.Add(working.Figure{ID: "site.height", Value: 5, Unit: "m", Source: "home file, line 3"})
	s.Add(working.Figure{ID: "a", Value: 2, Unit: "W", How: "half of it", From: []string{"site.height"}})
	s.Add(working.Figure{ID: "b", Value: 4, Unit: "W", How: "a + height [red]", From: []string{"a", "site.height", "gone"}})
	l := newLook(true, true)
	l.strong, l.quiet = mark{}, mark{}
	lines := workingTree(l, &home.Home{}, s.Get, "b", 60)
	for i := range lines {
		lines[i] = stripReset(lines[i])
	}
	require.Equal(t, []string{
		"b = 4 W",
		"|  a + height [red[]",
		"|- a = 2 W",
		"|  |  half of it",
		"|  `- site.height = 5 m",
		"|        source: home file, line 3",
		"|- site.height = 5 m (see above)",
		"`- gone",
	}, lines)
}

func stripReset(text string) string {
	const reset = "[-:-:-]"
	out := ""
	for len(text) > 0 {
		if len(text) >= len(reset) && text[:len(reset)] == reset {
			text = text[len(reset):]
			continue
		}
		out, text = out+text[:1], text[1:]
	}
	return out
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

func TestGravest_GoesByTheWordNotTheOrder(t *testing.T) {
	c, ok := gravest([]planner.Caution{{ID: "a", Word: "NOTICE"}, {ID: "b", Word: "DANGER"}, {ID: "c", Word: "DANGER"}})
	require.True(t, ok)
	require.Equal(t, "b", c.ID)
	_, ok = gravest(nil)
	require.False(t, ok)
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
