package screens

import (
	"cmp"
	"slices"
	"strings"

	"holdover/profiles"
)

// matchProfiles lists the profiles that fit what is typed, the best first. Every word typed must be found in name, title
// or group: whole, or with letters left out. Nothing typed finds all, in their own order.
func matchProfiles(all []profiles.Circuit, typed string) []profiles.Circuit {
	words := strings.Fields(strings.ToLower(typed))
	type scored struct {
		profile profiles.Circuit
		score   int
	}
	var found []scored
	for _, p := range all {
		if score, ok := scoreAll(p, words); ok {
			if strings.Contains(p.Name, strings.Join(words, "-")) {
				score += 4 // the words as they stand, beside one another
			}
			found = append(found, scored{p, score})
		}
	}
	slices.SortStableFunc(found, func(a, b scored) int { return cmp.Compare(b.score, a.score) })
	out := make([]profiles.Circuit, len(found))
	for i, f := range found {
		out[i] = f.profile
	}
	return out
}

func scoreAll(p profiles.Circuit, words []string) (sum int, ok bool) {
	texts := []string{strings.ToLower(p.Name), strings.ToLower(p.Title), strings.ToLower(p.Group)}
	for _, word := range words {
		best := 0
		for _, text := range texts {
			best = max(best, score(text, word))
		}
		if best == 0 {
			return 0, false
		}
		sum += best
	}
	return sum, true
}

// score rates how well a text has a word: 4 at its beginning, 3 at the beginning of one of its words, 2 anywhere, 1 with
// other letters between its letters, 0 not at all.
func score(text, word string) int {
	at := strings.Index(text, word)
	switch {
	case at == 0:
		return 4
	case strings.Contains(text, " "+word), strings.Contains(text, "-"+word):
		return 3
	case at > 0:
		return 2
	}
	for _, r := range word {
		at := strings.IndexRune(text, r)
		if at < 0 {
			return 0
		}
		text = text[at+len(string(r)):]
	}
	return 1
}
