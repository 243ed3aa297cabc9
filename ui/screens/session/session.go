// Package session answers: who has this home open now, and what did a run that died leave unsaved?
//
// While a home is open a [Session] stands for it on the disk by two files for its owner alone: a mark, from opening to
// closing, and, while there are unsaved edits, a recovery file with their text. Both begin with a line that says whose they are
// (see [about]) and carry the process number and something unforeseeable in their names, so that no two sessions share a
// file and nobody can lie in wait under its name. They stand beside the home file, and where that folder takes none, or the
// home has no file yet, in the state folder of the person (XDG base directory specification).
//
// [Look] finds the files of other sessions: those of living processes are told and never touched; what dead ones left is
// given back as [Left]; links and files of other owners are neither read nor trusted nor removed, only named.
//
// A recovery file is written whole after every step, so that a killed program, a lost connection or a flat battery loses at
// most the field being typed; signals then need no code of their own.
package session

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"holdover/ui/disk"
)

// A Session is one home being edited by this process.
type Session struct {
	Steps disk.Steps // by which anything of this home is written
	place Place
	about about
	mark  string // empty where none could be left
	kept  string // where the recovery file is, or will be; empty when there is no place for one
}

// Start begins a session on a home whose text, as far as it is saved, is base; nil when nothing is. A home that has a file
// is marked as open. That a mark cannot be left is no error: nobody is told then.
func Start(steps disk.Steps, place Place, base []byte) *Session {
	s := &Session{Steps: steps, place: place}
	s.about = about{Format: format, Process: disk.Self(), Since: time.Now().Round(time.Second), Home: place.path, Base: Sum(base)}
	name := fileName(disk.Self().PID)
	for _, spot := range place.spots() {
		if s.kept == "" {
			s.kept = spot.file(unsaved, name)
		}
		if mark := spot.file(open, name); place.path != "" && s.mark == "" && s.write(mark, nil) == nil {
			s.mark = mark
		}
	}
	return s
}

// Recovery is the path of the recovery file, whether there is one now or not.
func (s *Session) Recovery() string { return s.kept }

// Saved says what the home holds on the disk now: edits from here on start from that.
func (s *Session) Saved(base []byte) { s.about.Base = Sum(base) }

// Keep brings the recovery file up to a text, at the place where it is or, where that fails, at the next. The error is that
// of the first place.
func (s *Session) Keep(text []byte) error {
	if s.kept == "" {
		return errors.New("no place was found for a recovery file; save often")
	}
	first := s.write(s.kept, text)
	if first == nil {
		return nil
	}
	for _, spot := range s.place.spots() {
		next := spot.file(unsaved, fileName(disk.Self().PID))
		if filepath.Dir(next) != filepath.Dir(s.kept) && s.write(next, text) == nil {
			s.Drop() // an older text, if it lets itself be removed; the newer is offered first
			s.kept = next
			return nil
		}
	}
	return disk.Cause(first)
}

// write writes one of our own files whole, with the line that says whose it is before the text.
func (s *Session) write(path string, text []byte) error {
	if filepath.Dir(path) == stateFolder() {
		if err := os.MkdirAll(stateFolder(), 0o700); err != nil {
			return err
		}
	}
	err := disk.Private(s.Steps, path, append(s.about.line(), text...))
	if errors.Is(err, disk.ErrUnconfirmed) {
		return nil // it is there for whoever looks, and after a power failure an earlier one is
	}
	return err
}

// Drop removes the recovery file, if it is there and ours.
func (s *Session) Drop() error { return remove(s.kept) }

// Close ends the session: the mark goes. A recovery file stays for the next session to find.
func (s *Session) Close() {
	remove(s.mark)
	s.mark = ""
}

// remove removes a file of our own. That it is gone already is no error.
func remove(path string) error {
	if path == "" {
		return nil
	}
	if err := disk.RemovePrivate(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}

// Sum is the SHA-256 of a text in hexadecimal digits, empty for none.
func Sum(text []byte) string {
	if text == nil {
		return ""
	}
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:])
}
