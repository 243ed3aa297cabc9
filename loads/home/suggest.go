package home

// suggest offers the nearest known key, or lists them all, after an unknown key.
func suggest(key string, fields []Field) string {
	if best := nearest(key, fieldKeys(fields)); best != "" {
		return "; did you mean " + best + "?"
	}
	return "; the keys here are " + keyList(fields)
}

func fieldKeys(fields []Field) []string {
	keys := make([]string, len(fields))
	for i, f := range fields {
		keys[i] = f.Key
	}
	return keys
}

// nearest gives the word that differs from text by the fewest letters, if by no more than a third of its length.
func nearest(text string, words []string) string {
	best, bestDistance := "", 1+len(text)/3
	for _, word := range words {
		if max(len(text)-len(word), len(word)-len(text)) > bestDistance {
			continue // so many letters at least have to be added or dropped
		}
		if d := editDistance(text, word); d < bestDistance || (d == bestDistance && best == "") {
			best, bestDistance = word, d
		}
	}
	return best
}

// editDistance is Levenshtein's: letters added, dropped or changed.
func editDistance(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			cost := diagonal
			if a[i] != b[j] {
				cost++
			}
			diagonal = row[j+1]
			row[j+1] = min(cost, diagonal+1, row[j]+1)
		}
	}
	return row[len(b)]
}
