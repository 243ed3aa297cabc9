package disk

import (
	"encoding/binary"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"
)

// entry is one entry of an access list as the attribute holds it: tag, permissions, id (linux/posix_acl_xattr.h).
func entry(tag, permissions uint16, id uint32) []byte {
	return binary.LittleEndian.AppendUint32(binary.LittleEndian.AppendUint16(binary.LittleEndian.AppendUint16(nil, tag), permissions), id)
}

// list gives user 65534 reading and writing, and the group nothing: the group bits of the mode say rw- all the same.
func list() []byte {
	const version, noID = 2, 1<<32 - 1
	out := binary.LittleEndian.AppendUint32(nil, version)
	for _, e := range [][]byte{entry(1, 6, noID), entry(2, 6, 65534), entry(4, 0, noID), entry(16, 6, noID), entry(32, 0, noID)} {
		out = append(out, e...)
	}
	return out
}

func TestReplace_KeepsTheAccessList(t *testing.T) {
	path := write(t, "old", 0o600)
	if err := unix.Setxattr(path, accessList, list(), 0); err != nil {
		t.Skip("no access lists here: " + err.Error())
	}
	require.NoError(t, Replace(OS, path, []byte("new")))
	got := make([]byte, 100)
	n, err := unix.Getxattr(path, accessList, got)
	require.NoError(t, err)
	assert.Equal(t, list(), got[:n])
	assert.Equal(t, "new", content(t, path))
}

// A file without a list does not get that of its folder: somebody could read it then who could not before.
func TestReplace_TakesNoAccessListFromTheFolder(t *testing.T) {
	path := write(t, "old", 0o640)
	if err := unix.Setxattr(filepath.Dir(path), "system.posix_acl_default", list(), 0); err != nil {
		t.Skip("no access lists here: " + err.Error())
	}
	require.NoError(t, Replace(OS, path, []byte("new")))
	_, err := unix.Getxattr(path, accessList, nil)
	assert.ErrorIs(t, err, unix.ENODATA)
	info, err := os.Stat(path)
	require.NoError(t, err)
	assert.EqualValues(t, 0o640, info.Mode().Perm())
}
