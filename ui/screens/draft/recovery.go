package draft

import (
	"slices"

	"holdover/ui/disk"
	"holdover/ui/screens/session"
)

// This file keeps unsaved edits where a next run finds them, and takes in what an earlier one left; how that stands on the
// disk is the matter of [session].

// meet begins the draft's session and looks at what others have at its place.
func (d *Draft) meet(place session.Place) {
	d.session = session.Start(disk.OS, place, d.saved)
	d.around = session.Look(place, d.session)
	d.around.Left = slices.DeleteFunc(d.around.Left, func(l session.Left) bool {
		return string(l.Text) == string(d.text) && l.Remove() == nil
	})
}

// Close ends the session: from now on the home counts as open no more. Unsaved edits stay in the recovery file.
func (d *Draft) Close() { d.session.Close() }

// Recovery is the path of the recovery file.
func (d *Draft) Recovery() string { return d.session.Recovery() }

// RecoveryError says why the last step could not be kept in the recovery file, nil when it could.
func (d *Draft) RecoveryError() error { return d.recoveryError }

// keepRecovery brings the recovery file up to the current text; a text that is saved needs none.
func (d *Draft) keepRecovery() {
	if !d.Unsaved() {
		d.recoveryError = d.session.Drop()
		return
	}
	d.recoveryError = d.session.Keep(d.text)
}

// Discard gives the unsaved edits up: the recovery file goes.
func (d *Draft) Discard() { d.recoveryError = d.session.Drop() }

// Around is what other sessions had at the home's place when it was opened, or saved there: it may be changed by
// [session.Around.Forget].
func (d *Draft) Around() *session.Around { return &d.around }

// IsBase says whether the edits that a session left started from what the file holds now.
func (d *Draft) IsBase(left session.Left) bool { return left.Base == session.Sum(d.saved) }

// Recover takes what a session left as a step that can be undone. Its file goes once the draft has one of its own.
func (d *Draft) Recover(left session.Left) error {
	if err := d.commit(left.Text); err != nil {
		return err
	}
	if d.recoveryError != nil {
		return nil // this one is the only copy on the disk
	}
	return left.Remove()
}

// Untouched says whether the text is still the one that the draft began with, no step taken.
func (d *Draft) Untouched() bool { return len(d.past) == 0 && len(d.future) == 0 }
