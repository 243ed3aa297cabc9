package disk

import (
	"crypto/rand"
	"encoding/hex"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"
)

// The file written aside is called ".NAME.holdover-PID-START-PLACE-RANDOM.tmp": who writes it can be read from its name, so
// that what a dead process left can be told from what a living one is writing.

const (
	longestName  = 150       // bytes of NAME; most file systems take 255 for the whole
	surelyUnused = time.Hour // a save takes milliseconds: so old a file is nobody's any more, wherever they are
	tries        = 100       // names of eight random bytes
)

var tempName = regexp.MustCompile(`^\..*\.holdover-([0-9]+)-([0-9]*)-([0-9a-f]{8})-[0-9a-f]{16}\.tmp$`)

// createAside makes a new file beside target.
func createAside(s Steps, target string, mode fs.FileMode) (path string, file File, err error) {
	for range tries {
		path = filepath.Join(filepath.Dir(target), tempFor(filepath.Base(target), Self()))
		if file, err = s.Create(path, mode); !errors.Is(err, fs.ErrExist) {
			return path, file, err
		}
	}
	return path, nil, err
}

func tempFor(name string, p Process) string {
	name = strings.TrimPrefix(name, ".")
	for len(name) > longestName {
		_, size := utf8.DecodeLastRuneInString(name)
		name = name[:len(name)-size]
	}
	return "." + name + ".holdover-" + strconv.Itoa(p.PID) + "-" + p.Start + "-" + p.place() + "-" + Random() + ".tmp"
}

// Random is 16 hexadecimal digits that nobody can foresee.
func Random() string {
	var random [8]byte
	rand.Read(random[:])
	return hex.EncodeToString(random[:])
}

// Sweep removes from a folder what dead processes of ours left half written. What a living one is writing stays, and so does
// what belongs to somebody else. Of processes on other hosts, and of earlier boots, nothing is known but the age of the file.
func Sweep(folder string) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return
	}
	for _, e := range entries {
		parts := tempName.FindStringSubmatch(e.Name())
		if parts == nil {
			continue
		}
		if info, err := e.Info(); err == nil && foreign(info) == "" && abandoned(parts, time.Since(info.ModTime())) {
			os.Remove(filepath.Join(folder, e.Name()))
		}
	}
}

// abandoned says whether nobody writes a file any more, by the parts of its name and its age.
func abandoned(parts []string, age time.Duration) bool {
	here := Self()
	if parts[3] != here.place() {
		return age > surelyUnused
	}
	pid, err := strconv.Atoi(parts[1])
	if err != nil {
		return false
	}
	writer := here
	writer.PID, writer.Start = pid, parts[2]
	return writer.State() == Dead
}
