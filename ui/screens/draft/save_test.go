package draft_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/profiles"
	"holdover/ui/screens/draft"
	"holdover/ui/screens/draft/drafttest"
)

// kept is the text in a draft's recovery file, without the line that says whose it is.
func kept(t *testing.T, d *draft.Draft) string {
	t.Helper()
	about, text, _ := strings.Cut(onDisk(t, d.Recovery()), "\n")
	require.Contains(t, about, "# holdover session: ")
	return text
}

func TestSave_WritesAndDropsTheRecoveryFile(t *testing.T) {
	d := open(t, homeText)
	require.NoFileExists(t, d.Recovery())
	require.NoError(t, d.NextCare(0))
	require.Equal(t, string(d.Text()), kept(t, d))
	require.Equal(t, homeText, onDisk(t, d.Path()), "an edit does not touch the file")
	require.NoError(t, d.Save())
	require.Equal(t, string(d.Text()), onDisk(t, d.Path()))
	require.NoFileExists(t, d.Recovery())
	require.False(t, d.Unsaved())
}

func TestSave_NeverOverwritesWhatChangedOnDisk(t *testing.T) {
	d := open(t, homeText)
	require.NoError(t, d.NextCare(0))
	edited := string(d.Text())
	const theirs = homeText + "# somebody else was here\n"
	require.NoError(t, os.WriteFile(d.Path(), []byte(theirs), 0o644))
	require.ErrorIs(t, d.Save(), draft.ErrChanged)
	require.Equal(t, theirs, onDisk(t, d.Path()))
	require.Equal(t, edited, kept(t, d))

	require.NoError(t, d.Reread())
	require.Equal(t, theirs, string(d.Text()))
	require.False(t, d.Unsaved())
	require.True(t, d.Undo(), "the edits are one step back")
	require.Equal(t, edited, string(d.Text()))
	require.NoError(t, d.Save(), "the person has seen the other text now")
	require.Equal(t, edited, onDisk(t, d.Path()))
}

func TestSave_AFailureLeavesFileAndEditsAsTheyWere(t *testing.T) {
	d := open(t, homeText)
	require.NoError(t, d.NextCare(0))
	edited := string(d.Text())
	require.NoError(t, os.Chmod(d.Path(), 0o444))
	require.Error(t, d.Save())
	require.Equal(t, homeText, onDisk(t, d.Path()))
	require.Equal(t, edited, string(d.Text()))
	require.Equal(t, edited, kept(t, d))
	require.True(t, d.Unsaved())
	entries, err := os.ReadDir(filepath.Dir(d.Path()))
	require.NoError(t, err)
	require.Len(t, entries, 3, "the file, the mark that it is open and the recovery file, nothing stray")
}

// The edits of a home whose folder is gone are kept in the state folder, and where there is none either, that is said.
func TestSave_AFolderThatVanishedFailsAndKeepsTheEdits(t *testing.T) {
	d := open(t, homeText)
	require.NoError(t, d.NextCare(0))
	beside := d.Recovery()
	require.NoError(t, os.RemoveAll(filepath.Dir(d.Path())))
	require.Error(t, d.Save())
	require.True(t, d.Unsaved())
	require.NoError(t, d.NextCare(0))
	require.NoError(t, d.RecoveryError())
	require.NotEqual(t, beside, d.Recovery())
	require.Equal(t, string(d.Text()), kept(t, d))

	require.NoError(t, os.RemoveAll(os.Getenv("XDG_STATE_HOME")))
	require.NoError(t, os.WriteFile(os.Getenv("XDG_STATE_HOME"), nil, 0o600))
	require.NoError(t, d.NextCare(0))
	require.Error(t, d.RecoveryError())
}

func TestSave_ADeletedFileIsWrittenAgain(t *testing.T) {
	d := open(t, homeText)
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
	d := open(t, homeText)
	path := filepath.Join(t.TempDir(), "other.yaml")
	require.NoError(t, os.WriteFile(path, []byte(homeText), 0o644))
	first, err := draft.Open(path)
	require.NoError(t, err)
	require.NoError(t, first.NextCare(1))
	left := drafttest.Die(t, first)
	before := onDisk(t, left)

	require.NoError(t, d.SaveAs(path, true))
	require.Len(t, d.Around().Left, 1, "and it is told")
	require.NoError(t, d.NextCare(0))
	require.Equal(t, before, onDisk(t, left))
	require.Equal(t, string(d.Text()), kept(t, d))
}

func TestSave_ASymbolicLinkStaysOne(t *testing.T) {
	d := open(t, homeText)
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
	d := open(t, homeText)
	require.Empty(t, d.Around().Left)
	require.NoError(t, d.NextCare(0))
	edited := string(d.Text())
	path := drafttest.Die(t, d)

	again, err := draft.Open(d.Path())
	require.NoError(t, err)
	require.Len(t, again.Around().Left, 1)
	left := again.Around().Left[0]
	require.Equal(t, edited, string(left.Text))
	require.True(t, again.IsBase(left))
	require.NoError(t, again.Recover(left))
	require.Equal(t, edited, string(again.Text()))
	require.Equal(t, edited, kept(t, again), "the draft has a recovery file of its own")
	require.NoFileExists(t, path)
	require.True(t, again.Undo())
	require.Equal(t, homeText, string(again.Text()))
}

// Edits made after a save start from what was saved.
func TestRecovery_AfterASaveTheBaseIsWhatWasSaved(t *testing.T) {
	d := open(t, homeText)
	require.NoError(t, d.NextCare(0))
	require.NoError(t, d.Save())
	require.NoError(t, d.NextCare(1))
	drafttest.Die(t, d)
	again, err := draft.Open(d.Path())
	require.NoError(t, err)
	require.True(t, again.IsBase(again.Around().Left[0]))
}

// What was recovered into a draft that cannot keep it stays where it was: there is no other copy on the disk.
func TestRecovery_TheFileStaysWhereTheDraftCannotKeepIt(t *testing.T) {
	d := open(t, homeText)
	require.NoError(t, d.NextCare(0))
	path := drafttest.Die(t, d)
	again, err := draft.Open(d.Path())
	require.NoError(t, err)
	again.Rig(&rigged{at: 1, how: onwards})
	require.NoError(t, again.Recover(again.Around().Left[0]))
	require.Error(t, again.RecoveryError())
	require.FileExists(t, path)
}

// Of several, each is offered, the newest first, and none is lost to another.
func TestRecovery_OfSeveralRunsTheNewestComesFirst(t *testing.T) {
	d := open(t, homeText)
	var left []string
	for i := range 3 {
		again, err := draft.Open(d.Path())
		require.NoError(t, err)
		for range i + 1 {
			require.NoError(t, again.Apply(draft.Change{Path: draft.Path{"home", "name"}, Text: strings.Repeat("House", i+1)}))
		}
		path := drafttest.Die(t, again)
		at := time.Now().Add(time.Duration(i-10) * time.Minute)
		require.NoError(t, os.Chtimes(path, at, at))
		left = append([]string{path}, left...)
	}
	again, err := draft.Open(d.Path())
	require.NoError(t, err)
	var found []string
	for _, l := range again.Around().Left {
		found = append(found, l.Path)
	}
	require.Equal(t, left, found)
}

func TestRecovery_OfAHomeWithoutAFile(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	d, err := draft.BeginHouse("")
	require.NoError(t, err)
	require.NoFileExists(t, d.Recovery(), "nothing is typed yet")
	require.NoError(t, d.NextCare(0))
	edited := string(d.Text())
	require.FileExists(t, d.Recovery())
	drafttest.Die(t, d)

	demo, err := draft.New(profiles.Demo())
	require.NoError(t, err)
	require.Empty(t, demo.Around().Left, "that is another home")
	again, err := draft.BeginHouse("")
	require.NoError(t, err)
	require.Len(t, again.Around().Left, 1)
	require.Equal(t, edited, string(again.Around().Left[0].Text))
	require.True(t, again.IsBase(again.Around().Left[0]))
}

func TestRecovery_SetAsideIsNotOfferedAgain(t *testing.T) {
	d := open(t, homeText)
	require.NoError(t, d.NextCare(0))
	before := onDisk(t, drafttest.Die(t, d))
	again, err := draft.Open(d.Path())
	require.NoError(t, err)
	aside, err := again.Around().Left[0].SetAside()
	require.NoError(t, err)
	require.NoError(t, again.NextCare(1))
	require.Equal(t, before, onDisk(t, aside))
	third, err := draft.Open(d.Path())
	require.NoError(t, err)
	require.Empty(t, third.Around().Left)
}

func TestRecovery_ThatEqualsTheFileIsDropped(t *testing.T) {
	d := open(t, homeText)
	require.NoError(t, d.NextCare(0))
	edited := d.Text()
	path := drafttest.Die(t, d)
	require.NoError(t, os.WriteFile(d.Path(), edited, 0o644))
	again, err := draft.Open(d.Path())
	require.NoError(t, err)
	require.Empty(t, again.Around().Left)
	require.NoFileExists(t, path)
}

// A recovery file reads as a home file, so that it can be looked at and rescued by hand.
func TestRecovery_FileReadsAsAHome(t *testing.T) {
	d := open(t, homeText)
	require.NoError(t, d.NextCare(0))
	rescued, err := home.ReadFile(d.Recovery())
	require.NoError(t, err)
	require.Equal(t, d.Home().Circuits, rescued.Circuits)
	info, err := os.Stat(d.Recovery())
	require.NoError(t, err)
	require.EqualValues(t, 0o600, info.Mode().Perm())
}

func TestRecovery_UndoBackToTheFileNeedsNone(t *testing.T) {
	d := open(t, homeText)
	require.NoError(t, d.NextCare(0))
	require.FileExists(t, d.Recovery())
	require.True(t, d.Undo())
	require.NoFileExists(t, d.Recovery())
}
