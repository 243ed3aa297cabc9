package screens

import (
	"holdover/planner"
	"holdover/ui/document"
)

// This file has the pages that show what the plan says of one subject.

func newOptionsPage(a *app) page {
	return a.reading(a.plan(func(r *planner.Result) document.Document {
		return choiceFirst(r, r.Has.Choice, "options side by side, and why", func(w document.Worked) document.Document {
			return append(document.Options(w), document.Reasons(w)...)
		})
	}), letterHint('p', "run"), letterHint('i', "outlook"), letterHint('f', "figures"))
}

func newOutlookPage(a *app) page {
	return a.reading(a.plan(func(r *planner.Result) document.Document {
		return choiceFirst(r, r.Has.Outlook && r.Has.Chance, "what would change it, costs by length, chances", document.Outlook)
	}), letterHint('o', "options"), letterHint('p', "run"))
}

func newCautionsPage(a *app) page {
	return a.reading(a.plan(func(r *planner.Result) document.Document {
		if !r.Has.Choice {
			return toCome("cautions")
		}
		return document.Cautions(document.Worked{Plan: r})
	}))
}

func newScopePage(a *app) page {
	return a.reading(a.plan(func(r *planner.Result) document.Document {
		if !r.Has.Choice {
			return toCome("transfer scope")
		}
		return document.Scope(document.Worked{Plan: r, Scope: planner.Scope(r)})
	}), letterHint('c', "cautions"))
}

// choiceFirst is the verdict in a line, and below it what a page says. Until that can be said, it says what is to come.
func choiceFirst(r *planner.Result, ready bool, what string, say func(document.Worked) document.Document) document.Document {
	d := document.Document{document.Paragraph{Text: choiceWords(r), Tone: choiceTone(r)}}
	if !ready {
		return append(d, toCome(what)...)
	}
	return append(d, say(document.Worked{Plan: r})...)
}

// toCome says what is still being worked out.
func toCome(what string) document.Document {
	return document.Document{document.Heading{Text: toComeText(what), Tone: document.Quiet}}
}

func toComeText(what string) string { return what + ": being worked out" }
