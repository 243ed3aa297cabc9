package session

import (
	"crypto/sha256"
	"encoding/hex"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"holdover/ui/disk"
)

// A Place is where the sessions on one home leave their files.
type Place struct {
	path string // of the home file, absolute and with its links resolved; empty for a home without one
	name string // what stands for such a home in the names
}

// At is the place of a home file, which need not be there yet. Whatever the links by which it is opened, it is the same.
func At(path string) Place {
	path, err := filepath.Abs(path)
	if err != nil {
		return Place{}
	}
	if real, err := filepath.EvalSymlinks(path); err == nil {
		return Place{path: real}
	}
	if folder, err := filepath.EvalSymlinks(filepath.Dir(path)); err == nil {
		path = filepath.Join(folder, filepath.Base(path))
	}
	return Place{path: path}
}

// Without is the place of a home that has no file, under a name such as "demo".
func Without(name string) Place { return Place{name: name} }

// A spot is one folder and how the names of our files begin there.
type spot struct{ folder, prefix string }

// The kinds of our files.
const (
	open    = "open"    // a mark: the home is open
	unsaved = "unsaved" // unsaved edits
)

// spots are where the files of a place may be, the preferred first.
func (p Place) spots() []spot {
	var at []spot
	prefix := p.name
	if p.path != "" {
		at = append(at, spot{filepath.Dir(p.path), "." + filepath.Base(p.path)})
		sum := sha256.Sum256([]byte(p.path))
		prefix = hex.EncodeToString(sum[:8])
	}
	if state := stateFolder(); state != "" && prefix != "" {
		at = append(at, spot{state, prefix})
	}
	return at
}

func (s spot) file(kind, name string) string {
	return filepath.Join(s.folder, s.prefix+"."+kind+"-"+name)
}

// fileName is what our files have in their names after the kind: which process, and something unforeseeable.
func fileName(pid int) string { return strconv.Itoa(pid) + "-" + disk.Random() }

// aside ends the names of files that a person has put aside; they are not offered again.
const aside = ".aside"

// kindOf tells the kind of one of our files by its name; ok is false for any other.
func (s spot) kindOf(name string) (kind string, ok bool) {
	rest, ours := strings.CutPrefix(name, s.prefix+".")
	kind, _, isOurs := strings.Cut(rest, "-")
	isFinal := !strings.HasSuffix(name, ".tmp") && !strings.Contains(rest, aside)
	return kind, ours && isOurs && isFinal && (kind == open || kind == unsaved)
}

// stateFolder is where files go that have no home file to stand beside: the XDG state folder, or the cache folder of the
// system; empty when there is neither.
func stateFolder() string {
	state := os.Getenv("XDG_STATE_HOME")
	if !filepath.IsAbs(state) { // the XDG base directory specification has relative values ignored
		if home, err := os.UserHomeDir(); err == nil {
			state = filepath.Join(home, ".local", "state")
		} else if state, err = os.UserCacheDir(); err != nil {
			return ""
		}
	}
	return filepath.Join(state, "holdover")
}
