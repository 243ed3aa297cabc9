package draft

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"holdover/loads"
)

// The recovery file holds the unsaved text. It is written whole after every step, so that a killed program, a lost
// connection or a flat battery loses at most the field being typed; signals then need no code of their own.

// withoutFile is where the unsaved edits of a home without a file are kept: the XDG state folder, or the cache folder of
// the system; empty when there is neither.
func withoutFile() string {
	state := os.Getenv("XDG_STATE_HOME")
	if !filepath.IsAbs(state) { // the XDG base directory specification has relative values ignored
		home, err := os.UserHomeDir()
		if err != nil {
			return inCache()
		}
		state = filepath.Join(home, ".local", "state")
	}
	return filepath.Join(state, "holdover", "demo.yaml.unsaved")
}

func inCache() string {
	cache, err := os.UserCacheDir()
	if err != nil {
		return ""
	}
	return filepath.Join(cache, "holdover", "demo.yaml.unsaved")
}

// Recovery is the path of the recovery file.
func (d *Draft) Recovery() string { return d.recovery }

// RecoveryError says why the last step could not be kept in the recovery file, nil when it could.
func (d *Draft) RecoveryError() error { return d.recoveryError }

// keepRecovery brings the recovery file up to the current text; a text that is saved needs none.
func (d *Draft) keepRecovery() {
	if !d.Unsaved() {
		d.dropRecovery()
		return
	}
	if d.recovery == "" {
		d.recoveryError = errors.New("no place was found for a recovery file; save often")
		return
	}
	if d.path == "" {
		if d.recoveryError = os.MkdirAll(filepath.Dir(d.recovery), 0o700); d.recoveryError != nil {
			return
		}
	}
	d.recoveryError = loads.WriteFile(d.recovery, d.text)
}

// dropRecovery removes the recovery file. That it is gone already is no error.
func (d *Draft) dropRecovery() {
	d.recoveryError = nil
	if err := os.Remove(d.recovery); err != nil && d.recovery != "" && !errors.Is(err, fs.ErrNotExist) {
		d.recoveryError = err
	}
}

// Discard gives the unsaved edits up: the recovery file goes.
func (d *Draft) Discard() { d.dropRecovery() }

// Found gives the text of a recovery file left by an earlier run, if there is one that differs from the draft. One that
// does not is removed.
func (d *Draft) Found() (text []byte, ok bool) {
	text, err := loads.TextOf(d.recovery)
	if err != nil {
		return nil, false
	}
	if string(text) == string(d.text) {
		d.dropRecovery()
		return nil, false
	}
	return text, true
}

// Recover takes the text of a recovery file as a step that can be undone.
func (d *Draft) Recover(text []byte) error { return d.commit(text) }

// SetAside moves the recovery file out of the way of the next one and says where it is now.
func (d *Draft) SetAside() (string, error) {
	for n := 1; ; n++ {
		aside := fmt.Sprintf("%s.%d", d.recovery, n)
		if _, err := os.Lstat(aside); errors.Is(err, fs.ErrNotExist) {
			return aside, os.Rename(d.recovery, aside)
		} else if err != nil {
			return "", err
		}
	}
}
