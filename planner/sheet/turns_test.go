package sheet

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"holdover/loads/home"
	"holdover/planner/effort"
	"holdover/planner/waiting"
	"holdover/profiles"
)

// What is on by the timetable is never more than the duty counts on: one circuit at a time, and one that the duty has as a turn of
// its own. So no leg carries more than in that turn, whichever leg each circuit is put on. All others that the duty has are kept,
// and the timetable begins with the outage.
func TestDuty_HasEveryTurnOfTheTimetable(t *testing.T) {
	all := profiles.Circuits()
	turns := 0
	rapid.Check(t, func(r *rapid.T) {
		text := "home: {service: " + rapid.SampledFrom([]string{"120 V", "120/240 V"}).Draw(r, "service") + "}\noutage: {length: " +
			rapid.SampledFrom([]string{"6 h", "24 h", "200 h"}).Draw(r, "length") + ", start: " + rapid.SampledFrom([]string{"worst", `"13:20"`}).Draw(r, "start") + "}\ncircuits:\n"
		for i := range rapid.IntRange(1, 8).Draw(r, "circuits") {
			text += fmt.Sprintf("  - {name: C%d, like: %s, care: %s, use: {duty: 0.1}", i, all[rapid.IntRange(0, len(all)-1).Draw(r, "like")].Name, rapid.SampledFrom([]string{"keep", "rotate"}).Draw(r, "care"))
			if rapid.Bool().Draw(r, "wait given") {
				text += ", needs: {can_wait: " + rapid.SampledFrom([]string{"2 min", "40 min", "3 h", "100 h"}).Draw(r, "wait") + "}"
			}
			text += "}\n"
		}
		house, err := home.Read([]byte("holdover: 1\n"+text), "home.yaml")
		if err != nil {
			r.Skip(err)
		}
		d := NewDuty(house)
		table := d.Turns(effort.New(context.Background(), waiting.Looks))
		assert.Equal(r, d.Demand.Start, table.Start)
		rotating := map[string]bool{}
		for i := range d.Demand.Loads {
			if d.Demand.Loads[i].Care == home.Rotate {
				rotating[d.Demand.Loads[i].Name] = true
			}
		}
		assert.Len(r, rotating, len(table.Rounds)+len(table.Later))
		for i, turn := range table.Turns {
			turns++
			assert.True(r, rotating[turn.Circuit], turn.Circuit)
			if i > 0 {
				assert.LessOrEqual(r, float64(table.Turns[i-1].To), float64(turn.From)+1e-9)
			}
		}
	})
	assert.Positive(t, turns)
}
