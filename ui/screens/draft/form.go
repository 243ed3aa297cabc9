package draft

import (
	"errors"
	"strings"

	"holdover/loads/home"
)

// A Form is the fields of one screen being typed into. What is typed and not yet accepted stays here with its fault; what
// is accepted goes into the draft.
type Form struct {
	draft  *Draft
	Fields []FormField
}

// A FormField is one field of a form.
type FormField struct {
	Group string // heading it stands under
	Path  Path
	home.Field
	Choices []string // accepted values of a choice; nil for a field that is typed
	Fault   string   // what is wrong with what is typed, empty when it is accepted

	pending string
	waiting bool   // pending is typed and not in the draft
	says    string // what pending was understood as, where that is not plain from it
}

// NewForm makes a form on some fields of a draft.
func NewForm(d *Draft, fields []FormField) *Form {
	for i := range fields {
		fields[i].Choices = d.Choices(fields[i].Path, fields[i].Field)
	}
	return &Form{draft: d, Fields: fields}
}

// Text is what field i shows: what was typed, or else what the file has; empty when it inherits.
func (f *Form) Text(i int) string {
	if f.Fields[i].waiting {
		return f.Fields[i].pending
	}
	text, _ := f.draft.Typed(f.Fields[i].Path)
	return text
}

// Inherited is what field i comes to while it is empty, and where that comes from.
func (f *Form) Inherited(i int) (text, source string) {
	return f.draft.Inherited(f.Fields[i].Path, f.Fields[i].Field)
}

// Says is what the text of field i is understood as, where that is not plain from it: "10 gal (37.9 L)" for 10.
func (f *Form) Says(i int) string {
	if f.Fields[i].waiting {
		return f.Fields[i].says
	}
	return f.draft.home.Understood(FieldName(f.Fields[i].Path))
}

// Type notes what is typed into field i and says at once what is wrong with it. The draft does not change.
func (f *Form) Type(i int, text string) {
	field := &f.Fields[i]
	current, _ := f.draft.Typed(field.Path)
	field.pending = strings.TrimSpace(text)
	field.waiting = field.pending != current
	f.check(i)
}

// check tries all that waits and gives each field the fault that is its own. A fault that belongs to no field of this
// form is laid at the one just typed.
func (f *Form) check(typed int) {
	for i := range f.Fields {
		f.Fields[i].Fault, f.Fields[i].says = "", ""
	}
	waiting := f.waiting()
	if len(waiting) == 0 {
		return
	}
	house, err := f.try(waiting)
	f.blame(err, typed)
	if err != nil {
		house, _ = f.try([]int{typed}) // the fault of another field does not silence this one
		waiting = []int{typed}
	}
	for _, i := range waiting {
		if house != nil {
			f.Fields[i].says = house.Understood(FieldName(f.Fields[i].Path))
		}
	}
}

// try reads the home as it would be with what is typed into some fields.
func (f *Form) try(at []int) (*home.Home, error) {
	text, err := f.draft.with(f.changes(at))
	if err != nil {
		return nil, err
	}
	return home.Read(text, f.draft.Name())
}

func (f *Form) blame(err error, typed int) {
	var faults home.Faults
	if err != nil && !errors.As(err, &faults) {
		f.Fields[typed].Fault = err.Error()
		return
	}
	for _, fault := range faults {
		at := typed
		for i := range f.Fields {
			name := FieldName(f.Fields[i].Path)
			if fault.Field == name || strings.HasPrefix(fault.Field, name+".") || strings.HasPrefix(fault.Field, name+"[") {
				at = i
			}
		}
		if f.Fields[at].Fault == "" {
			f.Fields[at].Fault = fault.Message
		}
	}
}

func (f *Form) waiting() []int {
	var at []int
	for i := range f.Fields {
		if f.Fields[i].waiting {
			at = append(at, i)
		}
	}
	return at
}

func (f *Form) changes(at []int) []Change {
	changes := make([]Change, len(at))
	for n, i := range at {
		changes[n] = Change{f.Fields[i].Path, f.Fields[i].pending}
	}
	return changes
}

// Commit puts into the draft what is accepted: all that waits as one step if it is good together, else each field that is
// good alone. What is not stays, with its fault. It says whether nothing is left waiting.
func (f *Form) Commit() bool {
	waiting := f.waiting()
	if f.draft.Apply(f.changes(waiting)...) == nil {
		f.Drop()
		return true
	}
	for _, i := range waiting {
		if f.draft.Apply(f.changes([]int{i})...) == nil {
			f.Fields[i].waiting = false
		}
	}
	left := f.waiting()
	if len(left) > 0 {
		f.check(left[len(left)-1])
	}
	return len(left) == 0
}

// Drop puts every field back to what the file has.
func (f *Form) Drop() {
	for i := range f.Fields {
		f.Fields[i].waiting, f.Fields[i].Fault = false, ""
	}
}
