package draft

import (
	"errors"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"holdover/loads/home"
	"holdover/loads/home/edit"
	"holdover/loads/visible"
	"holdover/profiles"
)

// This file turns values of the file into the text of a form's field and back. A field shows what was typed, units and
// all. The outer brackets of a mapping or a list are left off: "times: 4" stands for {times: 4}.

// Typed gives a field as it stands in the file; ok is false when the file does not have it.
func (d *Draft) Typed(path Path) (text string, ok bool) {
	n := find(d.tree, path)
	if n == nil {
		return "", false
	}
	return inField(n), true
}

// find follows a path through a tree; nil when it ends early.
func find(n *yaml.Node, path Path) *yaml.Node {
	for _, step := range path {
		if n = child(n, step); n == nil {
			return nil
		}
	}
	return n
}

func child(n *yaml.Node, step any) *yaml.Node {
	switch step := step.(type) {
	case int:
		if n.Kind == yaml.SequenceNode && step < len(n.Content) {
			return n.Content[step]
		}
	case string:
		for i := 0; n.Kind == yaml.MappingNode && i+1 < len(n.Content); i += 2 {
			if n.Content[i].Value == step {
				return n.Content[i+1]
			}
		}
	}
	return nil
}

func inField(n *yaml.Node) string {
	if n.Kind == yaml.ScalarNode {
		return n.Value
	}
	text := OneLine(n)
	return text[1 : len(text)-1]
}

// OneLine writes a node in flow style, as a home file may have it on one line.
func OneLine(n *yaml.Node) string {
	var parts []string
	switch n.Kind {
	case yaml.MappingNode:
		for i := 0; i+1 < len(n.Content); i += 2 {
			parts = append(parts, OneLine(n.Content[i])+": "+OneLine(n.Content[i+1]))
		}
		return "{" + strings.Join(parts, ", ") + "}"
	case yaml.SequenceNode:
		for _, item := range n.Content {
			parts = append(parts, OneLine(item))
		}
		return "[" + strings.Join(parts, ", ") + "]"
	}
	return scalar(n.Value)
}

// unquoted are the scalars that mean the same to a reader of home files with or without quotes.
var unquoted = regexp.MustCompile(`^([+-]?([0-9]+\.?[0-9]*|\.[0-9]+)|true|false)$`)

func scalar(text string) string {
	if unquoted.MatchString(text) {
		return text
	}
	return edit.Quote(text)
}

// wholes are the keys whose mapping is one value to a person: its keys exclude or need each other.
var wholes = []string{"start", "use", "sun", "lasts", "gas", "tank", "pit"}

// fragment writes what was typed into a field as one line of YAML.
func fragment(key any, text string) (string, error) {
	open, shut := "", ""
	if key == "use" && home.IsUse(text) {
		return scalar(text), nil
	}
	if name, _ := key.(string); slices.Contains(wholes, name) {
		if inside, ok := mappingIn(text); ok {
			open, text, shut = "{", inside, "}"
		}
	}
	switch key {
	case "fuels", "runs":
		open, shut = "[", "]"
	case "runtimes":
		open, text = "[", runtimePairs(text)
	}
	if open == "" {
		return scalar(text), nil
	}
	if !strings.HasPrefix(text, open) {
		text = open + text + shut
	}
	n, ok := wholeNode(text)
	if !ok {
		return "", errors.New(visible.CutQuoted(strconv.Quote(text) + " is not understood; write it like " + example(key)))
	}
	return OneLine(n), nil
}

var (
	keyFirst  = regexp.MustCompile(`^\{|^[a-z_]+\s*:`)
	keyBefore = regexp.MustCompile(`^([a-z_]+)\s+(\S.*)$`)
)

// mappingIn is the mapping that a text stands for: "times: 4", and "times 4" as people type it. ok is false for a single
// value, such as none or the clock time of an outage's start.
func mappingIn(text string) (inside string, ok bool) {
	if keyFirst.MatchString(text) {
		return text, true
	}
	parts := strings.Split(text, ",")
	for i, part := range parts {
		found := keyBefore.FindStringSubmatch(strings.TrimSpace(part))
		if found == nil {
			return "", false
		}
		parts[i] = found[1] + ": " + found[2]
	}
	return strings.Join(parts, ", "), true
}

// wholeNode reads a text as one mapping or list and nothing after it: the decoder by itself would stop at the end of the
// first and leave the rest unread.
func wholeNode(text string) (*yaml.Node, bool) {
	decoder := yaml.NewDecoder(strings.NewReader(text))
	var doc, more yaml.Node
	if err := decoder.Decode(&doc); err != nil || doc.Content[0].Kind == yaml.ScalarNode {
		return nil, false
	}
	return doc.Content[0], errors.Is(decoder.Decode(&more), io.EOF)
}

func example(key any) string {
	switch key {
	case "start":
		return "times: 4, amps: 60 A, or code: G, hp: 0.5"
	case "use":
		return "duty: 0.35 or hours_per_day: 3 h"
	case "sun":
		return "kwh_per_day: 12"
	case "lasts":
		return "half: 2 h, nine_in_ten: 10 h"
	case "gas":
		return "pipe: 3/4 in, length: 40 ft"
	case "runs":
		return "{name: Generator to inlet, length: 60 ft}"
	case "tank":
		return "holds: 50 gal, set_to: 120 F"
	case "pit":
		return "room: 15 gal, inflow: 60 gal/h"
	case "runtimes":
		return "50% 11 min, 100% 2.5 min"
	}
	return strings.Join(profiles.Names("fuels")[:2], ", ")
}
