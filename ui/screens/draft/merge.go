package draft

import (
	"slices"

	"gopkg.in/yaml.v3"

	"holdover/loads/home"
	"holdover/loads/home/edit"
)

// Merge takes some of the differences from the other text into the draft, as one step that can be undone.
func (d *Draft) Merge(text []byte, taken []Difference) error {
	_, theirs, err := home.ReadTree(text, d.Name())
	if err != nil {
		return err
	}
	merged := d.text
	for _, t := range taken {
		if t.kind != field {
			continue
		}
		if merged, err = t.set(merged); err != nil {
			return err
		}
	}
	for _, list := range itemized {
		m := merging{text: merged, list: Path{list}, theirs: items(valueOf(theirs, list)), taken: taken}
		m.partner = pairs(items(valueOf(d.tree, list)), m.theirs)
		if merged, err = m.run(); err != nil {
			return err
		}
	}
	return d.commit(merged)
}

func (t Difference) set(text []byte) ([]byte, error) {
	if t.value == nil {
		return edit.Delete(text, emptied(text, t.path))
	}
	return edit.Set(text, t.path, OneLine(t.value))
}

// A merging takes items of a list in and out, and puts them in order.
type merging struct {
	text    []byte
	list    Path
	theirs  []*yaml.Node
	taken   []Difference
	partner []int // for each item that the text has now, its place in the other list, or -1
}

func (m *merging) run() ([]byte, error) {
	for _, t := range slices.Backward(m.taken) {
		if t.kind != removed || t.path[0] != m.list[0] {
			continue
		}
		at := t.path[1].(int)
		if err := m.step(edit.Delete(m.text, t.path)); err != nil {
			return nil, err
		}
		m.partner = slices.Delete(m.partner, at, at+1)
	}
	for _, t := range m.taken {
		if t.kind != added || t.path[0] != m.list[0] {
			continue
		}
		at := m.placeFor(t.at)
		if err := m.step(edit.Insert(m.text, m.list, at, entriesOf(t.value))); err != nil {
			return nil, err
		}
		m.partner = slices.Insert(m.partner, at, t.at)
	}
	for _, t := range m.taken {
		if t.kind == order && t.path[0] == m.list[0] {
			return m.text, m.sort()
		}
	}
	return m.text, nil
}

func (m *merging) step(text []byte, err error) error {
	if err == nil {
		m.text = text
	}
	return err
}

// placeFor is behind the nearest item before it in the other list that the text has too, else at the front.
func (m *merging) placeFor(item int) int {
	for before := item - 1; before >= 0; before-- {
		if at := slices.Index(m.partner, before); at >= 0 {
			return at + 1
		}
	}
	return 0
}

// sort moves the items that both have into the other's order; those that only the text has keep their places.
func (m *merging) sort() error {
	for at, item := range slices.Clone(m.partner) {
		to := slices.IndexFunc(m.partner[:at], func(before int) bool { return before > item })
		if item < 0 || to < 0 {
			continue
		}
		if err := m.step(edit.Move(m.text, m.list, at, to)); err != nil {
			return err
		}
		m.partner = slices.Insert(slices.Delete(m.partner, at, at+1), to, item)
	}
	return nil
}

func entriesOf(item *yaml.Node) []edit.Entry {
	var entries []edit.Entry
	for _, key := range keysOfBoth(item, nil) {
		if value := valueOf(item, key); value != nil {
			entries = append(entries, edit.Entry{Key: key, Value: OneLine(value)})
		}
	}
	return entries
}
