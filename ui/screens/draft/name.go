package draft

import (
	"path/filepath"
	"strings"
	"unicode"

	"holdover/loads/visible"
)

// This file says under which name a home is saved when the person leaves part of it to us.

// ending is what home files end in: by it the command line tells them from a verb.
const ending = ".yaml"

// longestSlug bounds an offered name, in letters.
const longestSlug = 40

// Offer is a file name for the home, made of what it is called: "Alder Row 12" gives "alder-row-12.yaml".
func (d *Draft) Offer() string {
	slug := strings.Join(strings.FieldsFunc(strings.ToLower(d.home.House.Name), func(r rune) bool {
		return (!unicode.IsLetter(r) && !unicode.IsDigit(r)) || visible.Hidden(r)
	}), "-")
	if letters := []rune(slug); len(letters) > longestSlug {
		slug = strings.TrimRight(string(letters[:longestSlug]), "-")
	}
	if slug == "" {
		slug = "home"
	}
	return slug + ending
}

// Completed is the path that is meant by what was typed: nothing typed takes the offered name, a folder the offered name in
// it, and a name without an ending gets that of home files.
func (d *Draft) Completed(typed string) string {
	switch {
	case typed == "":
		return d.Offer()
	case isFolder(typed):
		return filepath.Join(typed, d.Offer())
	case filepath.Ext(typed) == "":
		return typed + ending
	}
	return typed
}
