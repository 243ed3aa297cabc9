package screens

import "strings"

// A finder selects rows of a grid by a part of their name.
type finder struct {
	grid *grid
	name func(i int) string
	text string // what was last looked for
}

// ask has the person type what to look for.
func (f *finder) ask(a *app) {
	a.open(newPrompt(a.look, "find", f.text, func(text string) {
		a.back()
		f.text = text
		f.next(a)
	}, a.back))
}

// next selects the next row that has it, round the end.
func (f *finder) next(a *app) {
	count := f.grid.count()
	for step := 1; f.text != "" && step <= count; step++ {
		i := (f.grid.at() + step) % count
		if strings.Contains(strings.ToLower(f.name(i)), strings.ToLower(f.text)) {
			f.grid.choose(i)
			return
		}
	}
	a.say("nothing here has %q in its name", f.text)
}
