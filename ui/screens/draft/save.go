package draft

import (
	"errors"
	"io/fs"
	"os"

	"holdover/loads/home"
	"holdover/ui/disk"
	"holdover/ui/screens/session"
)

// What stops a save until somebody decides.
var (
	ErrNoName  = errors.New("the home has no file yet; give it a name")
	ErrChanged = errors.New("the file was changed on disk since it was read")
	ErrExists  = errors.New("there is a file of that name already")
)

// Save writes the text to its file, whole or not at all, and drops the recovery file. A file that changed on disk since
// it was read is left alone and [ErrChanged] returned. On an error nothing is lost: text and recovery file stay.
func (d *Draft) Save() error {
	if d.path == "" {
		return ErrNoName
	}
	onDisk, err := home.TextOf(d.path)
	switch {
	case errors.Is(statError(d.path), fs.ErrNotExist):
		// Deleted meanwhile: nothing there to be overwritten.
	case err != nil:
		return err
	case string(onDisk) != string(d.saved):
		return ErrChanged
	}
	return d.Overwrite()
}

// Overwrite saves without a look at what the file holds now. After [disk.ErrUnconfirmed] the text is saved, as far as anybody
// can tell, and the recovery file stays.
func (d *Draft) Overwrite() error { return d.write(d.path) }

// write brings the text to the file at path.
func (d *Draft) write(path string) error {
	err := disk.Replace(d.session.Steps, path, d.text)
	if err != nil && !errors.Is(err, disk.ErrUnconfirmed) {
		return err
	}
	d.saved = d.text
	d.session.Saved(d.saved)
	if err == nil {
		d.recoveryError = d.session.Drop()
	}
	return err
}

// SaveAs writes the text to another file, which becomes the draft's own. A file that is there already is left alone and
// [ErrExists] returned unless overwrite says otherwise.
func (d *Draft) SaveAs(path string, overwrite bool) error {
	if err := statError(path); err == nil && !overwrite {
		return ErrExists
	}
	err := d.write(path)
	if err != nil && !errors.Is(err, disk.ErrUnconfirmed) {
		return err
	}
	if path != d.path {
		d.session.Close()
		d.path = path
		d.meet(session.At(path))
	}
	return err
}

// Reread takes what the file holds now in place of the draft, as a step that can be undone.
func (d *Draft) Reread() error {
	text, err := home.TextOf(d.path)
	if err != nil {
		return err
	}
	if err := d.commit(text); err != nil {
		return err
	}
	d.saved = text
	d.session.Saved(d.saved)
	d.keepRecovery()
	return nil
}

// isFolder says whether a path means a folder: by how it is written, or by what is there.
func isFolder(path string) bool {
	info, err := os.Stat(path)
	return os.IsPathSeparator(path[len(path)-1]) || (err == nil && info.IsDir())
}

func statError(path string) error {
	_, err := os.Stat(path)
	return err
}
