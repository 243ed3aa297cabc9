package report

import (
	"strings"

	"holdover/planner"
)

// addOutlook says at which outage length, fuel store or price the answer would be another.
func addOutlook(p *page, r *planner.Result) {
	if len(r.Outlook.Flips) == 0 {
		return
	}
	p.heading("What would change the answer")
	for _, f := range r.Outlook.Flips {
		p.item(capital(planner.FlipText(f, r.Home.House.Units)) + ".")
	}
}

func capital(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToUpper(text[:1]) + text[1:]
}
