package screens

import (
	"path/filepath"

	"holdover/profiles"
	"holdover/ui/screens/draft"
)

// This file begins a new home: the first choice is whether it is about one appliance or about a house. Nothing is written
// until it is saved, under the path it is begun with, or where that is empty under a name still to be given.

// startNew asks what the new home is to be about, after a question if edits of this one would be lost.
func (a *app) startNew() {
	if a.draft != nil && a.draft.Unsaved() {
		a.ask("There are unsaved edits here.",
			choice{'s', "save them first", func() { a.save(a.chooseNew) }},
			choice{'x', "discard them", func() { a.draft.Discard(); a.chooseNew() }},
			choice{'b', "back", nil})
		return
	}
	a.chooseNew()
}

func (a *app) chooseNew() {
	a.ask("What is it to be about?", append(a.beginnings(""), choice{'b', "back", nil})...)
}

func (a *app) beginnings(path string) []choice {
	return []choice{
		{'o', "one appliance: will a unit run it, and for how long?", func() { a.beginAppliance(path) }},
		{'w', "a whole house: what carries its circuits through an outage?", func() { a.beginHouse(path) }},
	}
}

// beginAt begins the home file that the program was called with and that is not there. The question stays beneath what it
// opens, so that Esc comes back to it. What an earlier run left unsaved is offered first: its owner looks for that.
func (a *app) beginAt(path string) {
	if draft.Waits(path) {
		if d, err := draft.BeginHouse(path); err == nil {
			a.begin(d)
			return
		}
	}
	a.open(newQuestion(a.look, filepath.Base(path)+" is not there yet; it is written when you save. What is the new home to be about?",
		append(a.beginnings(path), choice{'q', "quit", a.quit})...))
}

// beginAppliance has an appliance picked, and then opens the sheet of the first unit.
func (a *app) beginAppliance(path string) {
	p := newPicker(a, nil)
	p.label = "which appliance? "
	p.take = func(profile profiles.Circuit) {
		a.back()
		if a.beginNew(func() (*draft.Draft, error) { return draft.BeginAppliance(profile, path) }) {
			a.open(newUnitPage(a, 0))
			a.say("fill in what the shop page or the sheet says; the verdict follows below")
		}
	}
	a.open(p)
}

func (a *app) beginHouse(path string) {
	if a.beginNew(func() (*draft.Draft, error) { return draft.BeginHouse(path) }) {
		a.say("a adds circuits, space changes what each gets, w says where and when")
	}
}

// beginNew puts a new draft in place of the one that is open.
func (a *app) beginNew(make func() (*draft.Draft, error)) bool {
	d, err := make()
	if err != nil {
		a.fail(err)
		return false
	}
	a.begin(d)
	return true
}
