package profiles

import (
	"bytes"
	"embed"
	"sync"

	"gopkg.in/yaml.v3"
)

//go:embed *.yaml circuits/*.yaml code/*.yaml
var files embed.FS

// table gives a function that parses the named file on its first call and remembers the result.
func table[T any](name string) func() T {
	return sync.OnceValue(func() T { return parse[T](name) })
}

func parse[T any](name string) T { return decode[T](text(name), name) }

// decode reads embedded text. An unknown key is an error too, so that a slip of the pen in a table cannot pass for a
// missing value.
func decode[T any](content []byte, name string) T {
	var out T
	decoder := yaml.NewDecoder(bytes.NewReader(content))
	decoder.KnownFields(true)
	if err := decoder.Decode(&out); err != nil {
		panic("profiles: " + name + ": " + err.Error())
	}
	return out
}

func text(name string) []byte {
	content, err := files.ReadFile(name)
	if err != nil {
		panic("profiles: " + err.Error())
	}
	return content
}

// find looks for the first entry that matches.
func find[T any](entries []T, matches func(T) bool) (T, bool) {
	for _, entry := range entries {
		if matches(entry) {
			return entry, true
		}
	}
	var none T
	return none, false
}
