package draft_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"holdover/profiles"
	"holdover/ui/screens/draft"
)

func TestSave_WritesAndDropsTheRecoveryFile(t *testing.T) {
	d := open(t, home)
	require.NoFileExists(t, d.Recovery())
	require.NoError(t, d.NextCare(0))
	require.Equal(t, string(d.Text()), onDisk(t, d.Recovery()))
	require.Equal(t, home, onDisk(t, d.Path()), "an edit does not touch the file")
	require.NoError(t, d.Save())
	require.Equal(t, string(d.Text()), onDisk(t, d.Path()))
	require.NoFileExists(t, d.Recovery())
	require.False(t, d.Unsaved())
}

func TestSave_NeverOverwritesWhatChangedOnDisk(t *testing.T) {
	d := open(t, home)
	require.NoError(t, d.NextCare(0))
	edited := string(d.Text())
	const theirs = home + "# somebody else was here\n"
	require.NoError(t, os.WriteFile(d.Path(), []byte(theirs), 0o644))
	require.ErrorIs(t, d.Save(), draft.ErrChanged)
	require.Equal(t, theirs, onDisk(t, d.Path()))
	require.Equal(t, edited, onDisk(t, d.Recovery()))

	require.NoError(t, d.Reread())
	require.Equal(t, theirs, string(d.Text()))
	require.False(t, d.Unsaved())
	require.True(t, d.Undo(), "the edits are one step back")
	require.Equal(t, edited, string(d.Text()))
	require.NoError(t, d.Save(), "the person has seen the other text now")
	require.Equal(t, edited, onDisk(t, d.Path()))
}

func TestSave_AFailureLeavesFileAndEditsAsTheyWere(t *testing.T) {
	d := open(t, home)
	require.NoError(t, d.NextCare(0))
	edited := string(d.Text())
	require.NoError(t, os.Chmod(d.Path(), 0o444))
	require.Error(t, d.Save())
	require.Equal(t, home, onDisk(t, d.Path()))
	require.Equal(t, edited, string(d.Text()))
	require.Equal(t, edited, onDisk(t, d.Recovery()))
	require.True(t, d.Unsaved())
	entries, err := os.ReadDir(filepath.Dir(d.Path()))
	require.NoError(t, err)
	require.Len(t, entries, 2, "the file and its recovery file, nothing stray")
}

func TestSave_AFolderThatVanishedFailsAndKeepsTheEdits(t *testing.T) {
	d := open(t, home)
	require.NoError(t, d.NextCare(0))
	require.NoError(t, os.RemoveAll(filepath.Dir(d.Path())))
	require.Error(t, d.Save())
	require.True(t, d.Unsaved())
	require.NoError(t, d.NextCare(0))
	require.Error(t, d.RecoveryError(), "and says that edits are no longer kept safe")
}

func TestSave_ADeletedFileIsWrittenAgain(t *testing.T) {
	d := open(t, home)
	require.NoError(t, d.NextCare(0))
	require.NoError(t, os.Remove(d.Path()))
	require.NoError(t, d.Save())
	require.Equal(t, string(d.Text()), onDisk(t, d.Path()))
}

func TestSaveAs_GivesTheDemoAFileAndSparesOthers(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	d, err := draft.New(profiles.Demo())
	require.NoError(t, err)
	require.False(t, d.Unsaved())
	require.NoError(t, d.NextCare(0))
	demoRecovery := d.Recovery()
	require.FileExists(t, demoRecovery)
	require.ErrorIs(t, d.Save(), draft.ErrNoName)

	taken := filepath.Join(t.TempDir(), "taken.yaml")
	require.NoError(t, os.WriteFile(taken, []byte("precious"), 0o644))
	require.ErrorIs(t, d.SaveAs(taken, false), draft.ErrExists)
	require.Equal(t, "precious", onDisk(t, taken))

	path := filepath.Join(t.TempDir(), "mine.yaml")
	require.NoError(t, d.SaveAs(path, false))
	require.Equal(t, string(d.Text()), onDisk(t, path))
	require.NoFileExists(t, demoRecovery)
	require.Equal(t, path, d.Path())
	require.NoError(t, d.NextCare(0))
	require.NoError(t, d.Save())
}

func TestSaveAs_SparesTheRecoveryFileThatIsThere(t *testing.T) {
	d := open(t, home)
	path := filepath.Join(t.TempDir(), "other.yaml")
	left := filepath.Join(filepath.Dir(path), ".other.yaml.unsaved")
	require.NoError(t, os.WriteFile(left, []byte("somebody's edits"), 0o644))
	require.NoError(t, d.SaveAs(path, false))
	require.NoError(t, d.NextCare(0))
	require.Equal(t, "somebody's edits", onDisk(t, left+".1"))
	require.Equal(t, string(d.Text()), onDisk(t, left))
}

func TestSave_ASymbolicLinkStaysOne(t *testing.T) {
	d := open(t, home)
	link := filepath.Join(t.TempDir(), "link.yaml")
	require.NoError(t, os.Symlink(d.Path(), link))
	linked, err := draft.Open(link)
	require.NoError(t, err)
	require.NoError(t, linked.NextCare(0))
	require.NoError(t, linked.Save())
	require.Equal(t, string(linked.Text()), onDisk(t, d.Path()))
	info, err := os.Lstat(link)
	require.NoError(t, err)
	require.NotZero(t, info.Mode()&os.ModeSymlink)
}

func TestRecovery_OfAnEarlierRunIsFoundAndCanBeTaken(t *testing.T) {
	d := open(t, home)
	_, found := d.Found()
	require.False(t, found)
	require.NoError(t, d.NextCare(0)) // and then the power fails

	again, err := draft.Open(d.Path())
	require.NoError(t, err)
	text, found := again.Found()
	require.True(t, found)
	require.Equal(t, string(d.Text()), string(text))
	require.NoError(t, again.Recover(text))
	require.Equal(t, string(d.Text()), string(again.Text()))
	require.True(t, again.Undo())
	require.Equal(t, home, string(again.Text()))
}

func TestRecovery_SetAsideIsNotOverwritten(t *testing.T) {
	d := open(t, home)
	require.NoError(t, d.NextCare(0))
	first := string(d.Text())
	again, err := draft.Open(d.Path())
	require.NoError(t, err)
	aside, err := again.SetAside()
	require.NoError(t, err)
	require.NoError(t, again.NextCare(1))
	require.Equal(t, first, onDisk(t, aside))
	require.Equal(t, string(again.Text()), onDisk(t, again.Recovery()))
	second, err := again.SetAside()
	require.NoError(t, err)
	require.NotEqual(t, aside, second)
}

func TestRecovery_ThatEqualsTheFileIsDropped(t *testing.T) {
	d := open(t, home)
	require.NoError(t, os.WriteFile(d.Recovery(), []byte(home), 0o644))
	_, found := d.Found()
	require.False(t, found)
	require.NoFileExists(t, d.Recovery())
}

func TestRecovery_UndoBackToTheFileNeedsNone(t *testing.T) {
	d := open(t, home)
	require.NoError(t, d.NextCare(0))
	require.FileExists(t, d.Recovery())
	require.True(t, d.Undo())
	require.NoFileExists(t, d.Recovery())
}
