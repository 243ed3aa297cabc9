package session

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"time"

	"holdover/loads/home"
	"holdover/ui/disk"
)

// Around is what [Look] finds.
type Around struct {
	Others  []Other  // sessions that have the home open, or may have it open elsewhere
	Left    []Left   // what dead sessions left, the newest first
	Strange []string // files that are not what their names say, each with why; they were left alone
}

// An Other is another session on the same home.
type Other struct {
	Process disk.Process
	Since   time.Time
	Unsaved bool // it has unsaved edits
	Lives   bool // false: it runs or ran elsewhere, and nothing can be known of it from here
	marks   []string
	left    []Left
}

// A Left is the recovery file of a session that is no more.
type Left struct {
	Path  string
	Text  []byte
	Base  string    // [Sum] of the text that the edits started from
	Since time.Time // when the session began
	Last  time.Time // when the last edit was made
}

// mostBytes bounds a file of ours: a home file and the line before it.
const mostBytes = home.MaxBytes + 64<<10

// Look finds what other sessions on a home have left at its place, removes the marks of dead ones, and what they left half
// written.
func Look(place Place, own *Session) Around {
	l := looking{place: place, own: own}
	for _, spot := range place.spots() {
		disk.Sweep(spot.folder)
		entries, err := os.ReadDir(spot.folder)
		if err != nil {
			continue
		}
		for _, e := range entries {
			if kind, ours := spot.kindOf(e.Name()); ours {
				l.take(kind, filepath.Join(spot.folder, e.Name()))
			}
		}
	}
	newestFirst(l.found.Left)
	return l.found
}

func newestFirst(left []Left) {
	slices.SortStableFunc(left, func(a, b Left) int { return cmp.Compare(b.Last.UnixNano(), a.Last.UnixNano()) })
}

type looking struct {
	place Place
	own   *Session
	found Around
}

// take puts one file where it belongs.
func (l *looking) take(kind, path string) {
	if l.own != nil && (path == l.own.mark || path == l.own.kept) {
		return
	}
	content, info, err := disk.ReadPrivate(path, mostBytes)
	if errors.Is(err, fs.ErrNotExist) {
		return
	}
	var a about
	var text []byte
	if err == nil {
		a, text, err = parse(content)
	}
	if err != nil {
		l.found.Strange = append(l.found.Strange, fmt.Sprintf("%s: %v", path, disk.Cause(err)))
		return
	}
	left := Left{Path: path, Text: text, Base: a.Base, Since: a.Since, Last: info.ModTime()}
	switch state := a.Process.State(); {
	case state != disk.Dead:
		l.other(a, state == disk.Living, kind, left)
	case kind == open:
		disk.RemovePrivate(path)
	default:
		l.found.Left = append(l.found.Left, left)
	}
}

// other notes a session that lives or may live; its mark and its recovery file make one.
func (l *looking) other(a about, lives bool, kind string, left Left) {
	at := slices.IndexFunc(l.found.Others, func(o Other) bool { return o.Process == a.Process && o.Since.Equal(a.Since) })
	if at < 0 {
		at = len(l.found.Others)
		l.found.Others = append(l.found.Others, Other{Process: a.Process, Since: a.Since, Lives: lives})
	}
	o := &l.found.Others[at]
	if kind == open {
		o.marks = append(o.marks, left.Path)
		return
	}
	o.Unsaved = true
	o.left = append(o.left, left)
}

// Forget takes a person's word that sessions elsewhere are no more: their marks go, and what they left is [Left] now. Those
// that live here stay as they are.
func (a *Around) Forget() {
	a.Others = slices.DeleteFunc(a.Others, func(o Other) bool {
		if o.Lives {
			return false
		}
		for _, mark := range o.marks {
			disk.RemovePrivate(mark)
		}
		a.Left = append(a.Left, o.left...)
		return true
	})
	newestFirst(a.Left)
}

// Remove removes the file for good. That it is gone already is no error.
func (l Left) Remove() error { return remove(l.Path) }

// SetAside gives the file a name under which it is not offered again, and says which.
func (l Left) SetAside() (string, error) {
	for n := 1; ; n++ {
		to := l.Path + aside
		if n > 1 {
			to = fmt.Sprintf("%s%s%d", l.Path, aside, n)
		}
		if _, err := os.Lstat(to); errors.Is(err, fs.ErrNotExist) {
			return to, os.Rename(l.Path, to)
		} else if err != nil {
			return "", err
		}
	}
}
