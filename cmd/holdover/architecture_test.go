package main

import (
	"io/fs"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/profiles"
)

// TestImportsRunOneWay holds the one line of the architecture: profiles, loads, planner, ui, cmd; a room may use those
// before it and none after it. Within loads the home file comes before what works out the draw.
// "design/architecture: an arrow means is used by".
func TestImportsRunOneWay(t *testing.T) {
	rooms := []string{"profiles", "loads/units", "loads/visible", "loads/home", "loads/home/edit", "loads", "planner", "ui", "cmd"}
	out, err := exec.Command("go", "list", "-f", "{{.ImportPath}}: {{join .Imports \" \"}}", "holdover/...").Output()
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	require.Greater(t, len(lines), len(rooms))
	for _, line := range lines {
		path, imports, _ := strings.Cut(line, ": ")
		from := roomOf(path, rooms)
		require.GreaterOrEqual(t, from, 0, "%s is in no room", path)
		for _, used := range strings.Fields(imports) {
			if strings.HasPrefix(used, "holdover/") {
				assert.LessOrEqual(t, roomOf(used, rooms), from, "%s uses %s", path, used)
			}
		}
	}
}

// roomOf is the place in the line of the innermost room that a package stands in; -1 for none.
func roomOf(path string, rooms []string) int {
	found := -1
	for i, room := range rooms {
		if strings.HasPrefix(path+"/", "holdover/"+room+"/") && (found < 0 || len(room) > len(rooms[found])) {
			found = i
		}
	}
	return found
}

// All that the program knows of a fuel or a chemistry stands in its entry, so no code names one.
func TestNoCodeNamesAFuelOrAChemistry(t *testing.T) {
	names := strings.ReplaceAll(strings.Join(append(profiles.Names("fuels"), profiles.Names("chemistries")...), "|"), "-", "[- _]?")
	named := regexp.MustCompile(`(?i)(^|[^a-z])(` + names + `)([^a-z]|$)`)
	require.NoError(t, fs.WalkDir(os.DirFS("../.."), ".", func(path string, _ fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		text, err := os.ReadFile("../../" + path)
		for i, line := range strings.Split(string(text), "\n") {
			assert.NotRegexp(t, named, line, "%s:%d", path, i+1)
		}
		return err
	}))
}
