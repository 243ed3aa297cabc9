package home_test

import (
	"errors"
	"testing"

	"holdover/loads/home"
	"holdover/loads/home/edit"
	"holdover/loads/units"
)

// FuzzReadGear looks for a gear file that panics, or that is neither read nor faulted.
func FuzzReadGear(f *testing.F) {
	f.Add("- {name: A, kind: ups, watts: 900 W, runtimes: [[50%, 11 min], [100%, 2.5 min]]}\n") // a list
	f.Add("gear:\n  - {name: A, kind: battery, energy: 5 kWh}\n")                               // a mapping
	f.Add("- {name: A, kind: ups, runtimes: [[50%, 11 min, 3], [1]]}\n")                        // pairs that are none
	f.Add("- {name: A, kind: ups, runtimes: {50%: 11 min}, surge: [1]}\n")                      // other shapes
	f.Add("gear: ~\ngear: 3\n")                                                                 // a key twice, nothing in it
	f.Add("name,watts\nBox,900\n")                                                              // another kind of file
	f.Fuzz(func(t *testing.T, text string) {
		gear, err := home.ReadGear([]byte(text), "g", units.US)
		if (len(gear) == 0) == (err == nil) {
			t.Fatalf("%d units, error %v", len(gear), err)
		}
		var faults home.Faults
		if err != nil && (!errors.As(err, &faults) || len(faults) == 0) {
			t.Fatalf("no faults: %v", err)
		}
	})
}

// FuzzClock looks for clock times and quiet hours that panic, or are read as a moment that no day has.
func FuzzClock(f *testing.F) {
	f.Add("22:00-07:00")  // over midnight
	f.Add(" 7:05 - 9:10") // as people write it
	f.Add("24:00-00:00")  // no hour of a day
	f.Add("worst")        // a word
	f.Add("10pm-7am")     // twelve hours
	f.Add("-")            // neither end
	f.Fuzz(func(t *testing.T, text string) {
		quoted := edit.Quote(text)
		for _, section := range []string{"outage: {start: " + quoted + "}\n", "limits: {quiet: " + quoted + "}\n"} {
			house, err := home.Read([]byte("holdover: 1\n"+section+one), "f")
			if err != nil {
				continue
			}
			for _, at := range []units.Hours{house.Outage.Start.At, house.Limits.Quiet.From, house.Limits.Quiet.To} {
				if !(at >= 0 && at < 24) {
					t.Errorf("%q is read as %v h", text, float64(at))
				}
			}
			if length := house.Limits.Quiet.Length(); !(length >= 0 && length < 24) {
				t.Errorf("%q is %v h of quiet", text, float64(length))
			}
		}
	})
}
