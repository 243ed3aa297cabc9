package draft

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"holdover/loads/home"
	"holdover/loads/home/edit"
	"holdover/profiles"
	"holdover/ui/screens/session"
)

// newName is what messages call a home that was begun here and has no file yet.
const newName = "new home"

// Free says whether a home can be begun at path: nothing is there, not even a link that leads nowhere, and its folder is.
func Free(path string) bool {
	_, err := os.Lstat(path)
	folder, missing := os.Stat(filepath.Dir(path))
	return errors.Is(err, fs.ErrNotExist) && missing == nil && folder.IsDir()
}

// begin starts from a text of our own, to be saved at path; with an empty path a save asks for one. It counts as unsaved from
// the first, but the first edit is what writes a recovery file.
func begin(text, path string) (*Draft, error) {
	d := &Draft{path: path, title: newName}
	if err := d.settle([]byte(text)); err != nil {
		return nil, err
	}
	d.meet(placeOfNew(path))
	return d, nil
}

func placeOfNew(path string) session.Place {
	if path == "" {
		return session.Without("new")
	}
	return session.At(path)
}

// Waits says whether a run that died left unsaved edits of a home that was begun at path and never saved.
func Waits(path string) bool { return len(session.Look(placeOfNew(path), nil).Left) > 0 }

// BeginAppliance starts a home of one appliance, to be carried for half an hour, and one unit whose spec sheet is still empty.
// It will be saved at path, or where that is empty under a name still to be given.
func BeginAppliance(p profiles.Circuit, path string) (*Draft, error) {
	return begin(fmt.Sprintf(`# One appliance, and units to carry it. Begun in the screens; yours to edit.
holdover: 1

home:
  name: One appliance

outage:
  length: 30 min

circuits:
  - name: %s
    like: %s
    care: keep

gear:
  - name: Unit 1
    kind: ups
`, edit.Quote(p.Title), edit.Quote(p.Name)), path)
}

// BeginHouse starts a house with what nearly every house has; the rest is added from there. path is as in [BeginAppliance].
func BeginHouse(path string) (*Draft, error) {
	return begin(`# A house. Begun in the screens; yours to edit. What is left out is assumed, and the plan says what.
holdover: 1

home:
  name: My house

outage:
  length: 24 h
  start: "18:00"
  season: winter

circuits:
  - name: Refrigerator
    like: refrigerator
    care: keep

  - name: Lights
    like: lights-led
    care: keep

  - name: Modem and router
    like: modem-and-router
    care: keep
`, path)
}

// AddUnit adds an empty spec sheet at the end and gives its index.
func (d *Draft) AddUnit() (int, error) {
	at := len(d.home.Gear)
	taken := func(name string) bool {
		return slices.ContainsFunc(d.home.Gear, func(g home.Gear) bool { return g.Name == name })
	}
	name := ""
	for n := at + 1; name == "" || taken(name); n++ {
		name = fmt.Sprintf("Unit %d", n)
	}
	text, err := edit.Insert(d.text, Path{"gear"}, at, []edit.Entry{{Key: "name", Value: edit.Quote(name)}, {Key: "kind", Value: "ups"}})
	if err != nil {
		return 0, err
	}
	return at, d.commit(text)
}

// runtimePairs turns "50% 11 min, 100% 2.5 min" into a list of pairs. What has brackets already only gets the outer ones.
func runtimePairs(text string) string {
	if strings.Contains(text, "[") {
		if strings.HasPrefix(strings.ReplaceAll(text, " ", ""), "[[") {
			return text
		}
		return "[" + text + "]"
	}
	var pairs []string
	for _, part := range strings.Split(text, ",") {
		load, time, _ := strings.Cut(strings.TrimSpace(part), " ")
		pairs = append(pairs, fmt.Sprintf("[%s, %s]", edit.Quote(strings.TrimSpace(load)), edit.Quote(strings.TrimSpace(time))))
	}
	return "[" + strings.Join(pairs, ", ") + "]"
}
