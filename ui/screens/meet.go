package screens

import (
	"fmt"
	"strings"
	"time"

	"holdover/ui/screens/draft"
	"holdover/ui/screens/session"
)

// This file says what there is around a home that is opened: other sessions, and what earlier ones left unsaved.

// begin shows a draft in place of the one that is open, after what there is to say around it.
func (a *app) begin(d *draft.Draft) {
	a.endSession()
	a.draft = d
	a.replaceAll(newCircuitsPage(a))
	a.meet()
}

// meet tells of other sessions first: whoever hears of them may rather quit. Then it offers what earlier runs left.
func (a *app) meet() {
	around := a.draft.Around()
	text, elsewhere := aroundText(*around, time.Now())
	if text == "" {
		a.offer()
		return
	}
	choices := []choice{{'g', "go on: your edits get a recovery file of their own", a.offer}}
	if elsewhere {
		choices = append(choices, choice{'f', "forget the session elsewhere: it is over; show what it left", func() {
			around.Forget()
			a.offer()
		}})
	}
	a.ask(text, append(choices, choice{'q', "quit", a.quit})...)
}

// mostNamed bounds what one question names of a kind.
const mostNamed = 3

// aroundText says who else has the home open and what was left alone; elsewhere says that one of them may be over.
func aroundText(around session.Around, now time.Time) (text string, elsewhere bool) {
	var said []string
	for i, o := range around.Others {
		elsewhere = elsewhere || !o.Lives
		if i < mostNamed {
			said = append(said, otherText(o, now))
		}
	}
	if more := len(around.Others) - mostNamed; more > 0 {
		said = append(said, fmt.Sprintf("And %d more sessions.", more))
	}
	for _, strange := range around.Strange[:min(mostNamed, len(around.Strange))] {
		said = append(said, "Left alone: "+strange+".")
	}
	if more := len(around.Strange) - mostNamed; more > 0 {
		said = append(said, fmt.Sprintf("And %d more such files.", more))
	}
	return strings.Join(said, " "), elsewhere
}

func otherText(o session.Other, now time.Time) string {
	text := fmt.Sprintf("Another session has this home open (pid %d, since %s).", o.Process.PID, clock(o.Since, now))
	if !o.Lives {
		text = fmt.Sprintf("A session on %s may have this home open (pid %d, since %s).", o.Process.Host, o.Process.PID, clock(o.Since, now))
	}
	if o.Unsaved {
		text += " It has unsaved edits."
	}
	return text
}

// clock is a time as a person says it today.
func clock(at, now time.Time) string {
	at, now = at.Local(), now.Local()
	if at.Format(time.DateOnly) == now.Format(time.DateOnly) {
		return at.Format("15:04")
	}
	return at.Format("2 Jan 15:04")
}

// offer asks about the newest of what earlier runs left, and then about the next.
func (a *app) offer() {
	around := a.draft.Around()
	if len(around.Left) == 0 {
		return
	}
	left := around.Left[0]
	around.Left = around.Left[1:]
	if string(left.Text) == string(a.draft.Text()) { // of two that left the same, one was taken just now
		a.discard(left)
		return
	}
	found := fmt.Sprintf("Unsaved edits of an earlier run, made until %s, were found in %s.", clock(left.Last, time.Now()), left.Path)
	differences, err := a.draft.Differences(left.Text)
	switch {
	case err != nil:
		a.ask(found+" They do not read as a home file: "+plainFault(err), a.refusals(left)...)
	case a.draft.IsBase(left) && a.draft.Untouched():
		take := choice{'r', "recover them", func() { a.recover(left) }}
		a.ask(found, append([]choice{take}, a.refusals(left)...)...)
	default:
		a.open(newMergePage(a, left, differences))
	}
}

// refusals are what can be done with unsaved edits but taking them; the last changes nothing.
func (a *app) refusals(left session.Left) []choice {
	return []choice{
		{'x', "discard them for good", func() { a.discard(left) }},
		{'k', "keep them aside and go on with the file", func() { a.setAside(left) }},
	}
}

func (a *app) recover(left session.Left) {
	if err := a.draft.Recover(left); err != nil {
		a.fail(err)
	} else {
		a.say("recovered; s saves, u goes back to the file")
	}
	a.offer()
}

func (a *app) discard(left session.Left) {
	if err := left.Remove(); err != nil {
		a.fail(err)
	} else {
		a.say("the earlier edits are gone")
	}
	a.offer()
}

func (a *app) setAside(left session.Left) {
	where, err := left.SetAside()
	if err != nil {
		a.fail(err)
	} else {
		a.say("the earlier edits are kept in %s", where)
	}
	a.offer()
}
