package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"holdover/loads/home"
)

// A drawn is a random home: its tree, its text, and whether it reads.
type drawn struct {
	seed  uint64
	tree  map[string]any
	text  []byte // JSON, which is YAML
	reads bool
}

// anyHome draws the home of a seed.
func anyHome(seed uint64) drawn {
	d := newDraw(seed)
	return d.mended(d.mapping(homeForm(), ""))
}

// alike draws a few keys of a home again.
func alike(h drawn, seed uint64) drawn {
	d, tree := newDraw(seed), drawnFrom(h.text).tree
	d.circuits, d.slip = len(tree["circuits"].([]any)), 0
	for range 1 + d.IntN(4) {
		paths := pathsIn(tree, "", nil)
		d.mend(tree, pick(d, paths...), d.chance(0.3))
	}
	return d.mended(tree)
}

// pathsIn lists the path of everything in a tree.
func pathsIn(value any, path string, into []string) []string {
	if path != "" {
		into = append(into, path)
	}
	switch value := value.(type) {
	case []any:
		for i, item := range value {
			into = pathsIn(item, fmt.Sprintf("%s[%d]", path, i), into)
		}
	case map[string]any:
		for _, key := range sortedKeys(value) {
			into = pathsIn(value[key], below(path, key), into)
		}
	}
	return into
}

// mended makes a home of a tree. Keys drawn one by one rarely agree with one another, so the reader's own faults say what
// to draw again, to add or to leave out, until the home reads. A few homes are left as wrong as they were drawn.
func (d *draw) mended(tree map[string]any) drawn {
	h := drawn{seed: d.seed, tree: tree}
	for round := 0; ; round++ {
		h.text = written(h.tree)
		_, err := home.Read(h.text, "drawn")
		var faults home.Faults
		h.reads = err == nil
		if h.reads || !errors.As(err, &faults) || d.slip > 0 || round == 30 {
			return h
		}
		if round > 4 {
			d.presence, d.extreme = d.presence*0.7, d.extreme*0.8
		}
		for _, fault := range faults {
			path := fault.Field
			if round > 5 && d.chance(0.5) { // what a key disagrees with stands elsewhere: the whole mapping again, or none
				path = path[:max(0, strings.LastIndex(path, "."))]
			}
			d.mend(h.tree, path, round > 2)
		}
	}
}

// drawnFrom is a home that was kept as a file.
func drawnFrom(text []byte) drawn {
	h := drawn{text: text}
	_, err := home.Read(text, "kept")
	h.reads = err == nil
	if err := yaml.Unmarshal(text, &h.tree); err != nil {
		panic(err)
	}
	return h
}

func written(tree map[string]any) []byte {
	var out bytes.Buffer
	encoder := json.NewEncoder(&out)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(tree); err != nil {
		panic(err)
	}
	return out.Bytes()
}

var pathStep = regexp.MustCompile(`[^.\[\]]+|\[\d+\]`)

// mend draws anew what stands at the path of a fault, adds it where it is missing, or leaves it out.
func (d *draw) mend(tree map[string]any, path string, leaveOut bool) {
	var at any = tree
	f, walked := homeForm(), ""
	steps := pathStep.FindAllString(path, -1)
	for i, step := range steps {
		last := i == len(steps)-1
		if list, ok := at.([]any); ok && f.Items != nil {
			n, err := strconv.Atoi(strings.Trim(step, "[]"))
			if err != nil || n >= len(list) {
				return
			}
			f, walked = f.Items, walked+step
			if last {
				list[n] = d.value(f, walked)
			}
			at = list[n]
			continue
		}
		keys, ok := at.(map[string]any)
		parent := mappingForm(f)
		if !ok || parent == nil || parent.Properties[step] == nil {
			return
		}
		f, walked = parent.Properties[step], below(walked, step)
		_, there := keys[step]
		switch required := slices.Contains(parent.Required, step); {
		case !last && !there:
			return
		case last && there && !required && (leaveOut || d.chance(0.5)):
			delete(keys, step)
		case last:
			keys[step] = d.value(f, walked)
		}
		at = keys[step]
	}
}

// mappingForm is the form itself, or the one of its alternatives that is a mapping.
func mappingForm(f *form) *form {
	if f.Properties != nil {
		return f
	}
	for _, one := range f.Any {
		if one.Properties != nil {
			return one
		}
	}
	return nil
}

// keysOf lists every key of a schema or of a drawn home by its path without list positions: "circuits.needs.gap".
func (f *form) keysOf(path string, into map[string]bool) {
	if f.Items != nil {
		f.Items.keysOf(path, into)
	}
	if m := mappingForm(f); m != nil {
		for key, inner := range m.Properties {
			into[below(path, key)] = true
			inner.keysOf(below(path, key), into)
		}
	}
}

func keysIn(value any, path string, into map[string]bool) {
	switch value := value.(type) {
	case []any:
		for _, item := range value {
			keysIn(item, path, into)
		}
	case map[string]any:
		for key, inner := range value {
			into[below(path, key)] = true
			keysIn(inner, below(path, key), into)
		}
	}
}

// Every key of the schema stands in some home that reads, most homes read, and a seed is always the same home.
func TestRandomHomesHaveEveryKeyAndMostlyRead(t *testing.T) {
	const homes = 400
	wanted, found, read := map[string]bool{}, map[string]bool{}, 0
	homeForm().keysOf("", wanted)
	require.Greater(t, len(wanted), 180)
	for seed := range uint64(homes) {
		h := anyHome(seed)
		if h.reads {
			read++
			keysIn(h.tree, "", found)
		}
	}
	assert.Greater(t, read, homes*9/10)
	for _, key := range sortedKeys(wanted) {
		assert.True(t, found[key], "%s is in no home that reads", key)
	}
	assert.Equal(t, string(anyHome(7).text), string(anyHome(7).text))
}
