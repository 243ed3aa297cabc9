package screens

import (
	"holdover/profiles"
	"holdover/ui/screens/draft"
)

// This file begins a new home: the first choice is whether it is about one appliance or about a house.

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
	a.ask("What is it to be about?",
		choice{'o', "one appliance: will a unit run it, and for how long?", a.beginAppliance},
		choice{'w', "a whole house: what carries its circuits through an outage?", a.beginHouse},
		choice{'b', "back", nil})
}

// beginAppliance has an appliance picked, and then opens the sheet of the first unit.
func (a *app) beginAppliance() {
	p := newPicker(a, nil)
	p.label = "which appliance? "
	p.take = func(profile profiles.Circuit) {
		a.back()
		if a.beginNew(func() (*draft.Draft, error) { return draft.BeginAppliance(profile) }) {
			a.open(newUnitPage(a, 0))
			a.say("fill in what the shop page or the sheet says; the verdict follows below")
		}
	}
	a.open(p)
}

func (a *app) beginHouse() {
	if a.beginNew(draft.BeginHouse) {
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
