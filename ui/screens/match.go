package screens

import (
	"cmp"
	"slices"
	"strings"

	"holdover/profiles"
)

// matchProfiles lists the profiles that fit what is typed, the best first. Every word typed must be found in name, title
// or group: whole, by what it is called here, or with letters left out. Where that finds nothing, one letter of each word
// may be wrong or too many. Nothing typed finds all, in their own order.
func matchProfiles(all []profiles.Circuit, typed string) []profiles.Circuit {
	words := strings.Fields(strings.ToLower(typed))
	if found := matchWords(all, words, scoreWord); len(found) > 0 {
		return found
	}
	return matchWords(all, words, scoreSlip)
}

func matchWords(all []profiles.Circuit, words []string, rate rating) []profiles.Circuit {
	type scored struct {
		profile profiles.Circuit
		score   int
	}
	var found []scored
	for _, p := range all {
		if score, ok := scoreAll(p, words, rate); ok {
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

// A rating rates how well a text has a word.
type rating func(text, word string) int

func scoreAll(p profiles.Circuit, words []string, rate rating) (sum int, ok bool) {
	texts := []string{strings.ToLower(p.Name), strings.ToLower(p.Title), strings.ToLower(p.Group)}
	for _, word := range words {
		best := 0
		for _, text := range texts {
			best = max(best, rate(text, word))
		}
		if best == 0 {
			return 0, false
		}
		sum += best
	}
	return sum, true
}

// scoreWord is the best score of a word and of what people mean by it, such as a refrigerator by "fridge". A word that is
// known so is no abbreviation: then letters left out do not count.
func scoreWord(text, word string) int {
	best := score(text, word)
	meant := profiles.EverydayWord(word)
	for _, other := range meant {
		best = max(best, score(text, other))
	}
	if meant != nil && best == 1 {
		return 0
	}
	return best
}

// leastSlip is the length from which a word is taken to be mistyped: a shorter one would find anything.
const leastSlip = 4

// scoreSlip is the score of a word of which one letter is wrong or too many, no more than that of letters left out.
func scoreSlip(text, word string) int {
	letters := []rune(word)
	if len(letters) < leastSlip {
		return scoreWord(text, word)
	}
	for i := range letters {
		if score(text, string(letters[:i])+string(letters[i+1:])) > 0 {
			return 1
		}
	}
	return 0
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
