package draft

import (
	"fmt"
	"slices"

	"holdover/loads/home"
	"holdover/loads/home/edit"
	"holdover/profiles"
)

// AddLike puts a circuit that starts from a profile in at index and gives it a name that no other has.
func (d *Draft) AddLike(profile profiles.Circuit, index int) error {
	return d.insert(index, profile.Title, edit.Entry{Key: "like", Value: edit.Quote(profile.Name)})
}

// AddBlank puts a circuit without a profile in at index. It draws 0 W until somebody says what it draws: a made-up figure
// would look like a fact.
func (d *Draft) AddBlank(index int) error {
	return d.insert(index, "New circuit", edit.Entry{Key: "running", Value: "0 W"})
}

func (d *Draft) insert(index int, name string, what edit.Entry) error {
	text, err := edit.Insert(d.text, Path{"circuits"}, index, []edit.Entry{
		{Key: "name", Value: edit.Quote(d.freeName(name))}, what, {Key: "care", Value: string(home.Keep)},
	})
	if err != nil {
		return err
	}
	return d.commit(text)
}

// freeName adds a number to a name until no circuit has it.
func (d *Draft) freeName(name string) string {
	taken := func(name string) bool {
		return slices.ContainsFunc(d.home.Circuits, func(c home.Circuit) bool { return c.Name == name })
	}
	free := name
	for n := 2; taken(free); n++ {
		free = fmt.Sprintf("%s %d", name, n)
	}
	return free
}

// Remove takes a circuit out, and the mention of it where another shares its neutral.
func (d *Draft) Remove(index int) error {
	if len(d.home.Circuits) == 1 {
		return fmt.Errorf("a home file lists at least one circuit; add another before deleting this one")
	}
	text := d.text
	for _, i := range d.sharing(d.home.Circuits[index].Name) {
		var err error
		if text, err = edit.Delete(text, Path{"circuits", i, "shares_neutral_with"}); err != nil {
			return err
		}
	}
	text, err := edit.Delete(text, Path{"circuits", index})
	if err != nil {
		return err
	}
	return d.commit(text)
}

// Move puts circuit from at place to; places past the ends change nothing.
func (d *Draft) Move(from, to int) error {
	if to < 0 || to >= len(d.home.Circuits) || from == to {
		return nil
	}
	text, err := edit.Move(d.text, Path{"circuits"}, from, to)
	if err != nil {
		return err
	}
	return d.commit(text)
}

// cares is the order in which one key goes through the kinds of care.
var cares = []home.Care{home.Keep, home.Rotate, home.Shed}

// NextCare gives a circuit the next kind of care.
func (d *Draft) NextCare(index int) error {
	now := slices.Index(cares, d.home.Circuits[index].Care)
	next := cares[(now+1)%len(cares)]
	return d.Apply(Change{Path{"circuits", index, "care"}, string(next)})
}
