package session

import (
	"bytes"
	"encoding/json"
	"errors"
	"time"

	"holdover/ui/disk"
)

// format is the version of our files that this program writes and reads.
const format = 1

// lead begins every file of ours. It is a comment to YAML: a recovery file reads as a home file too, in an editor and by plan.
const lead = "# holdover session: "

// An about is the first line of our files: whose they are, and what they started from.
type about struct {
	Format  int          `json:"format"`
	Process disk.Process `json:"process"`
	Since   time.Time    `json:"since"` // when the session began
	Home    string       `json:"home"`  // absolute path of the home file
	Base    string       `json:"base"`  // of the text that the edits started from, see [Sum]
}

func (a about) line() []byte {
	text, err := json.Marshal(a)
	if err != nil {
		panic("session: " + err.Error()) // nothing in it can fail
	}
	return append(append([]byte(lead), text...), '\n')
}

var errFormat = errors.New("it was written by another version of holdover, or is damaged")

// parse takes a file of ours apart.
func parse(content []byte) (about, []byte, error) {
	first, text, whole := bytes.Cut(content, []byte("\n"))
	line, ours := bytes.CutPrefix(first, []byte(lead))
	var a about
	if !whole || !ours || json.Unmarshal(line, &a) != nil || a.Format != format {
		return about{}, nil, errFormat
	}
	return a, text, nil
}
