package edit

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"
	"pgregory.net/rapid"
)

// decode is the judge that knows nothing of nodes: plain Go values.
func decode(t require.TestingT, text []byte) any {
	var v any
	require.NoError(t, yaml.Unmarshal(text, &v), "text:\n%s", text)
	return v
}

// change returns a copy of a decoded value with f done at path; f gets nil for what is missing.
func change(v any, path Path, f func(any) any) any {
	if len(path) == 0 {
		return f(v)
	}
	switch step := path[0].(type) {
	case int:
		s := slices.Clone(v.([]any))
		s[step] = change(s[step], path[1:], f)
		return s
	case string:
		m := map[string]any{}
		if v != nil {
			for k, x := range v.(map[string]any) {
				m[k] = x
			}
		}
		m[step] = change(m[step], path[1:], f)
		return m
	}
	panic("a path step is a string or an int")
}

func without(v any, path Path) any {
	last := path[len(path)-1]
	return change(v, path[:len(path)-1], func(v any) any {
		if i, ok := last.(int); ok {
			return append(slices.Clone(v.([]any)[:i]), v.([]any)[i+1:]...)
		}
		m := map[string]any{}
		for k, x := range v.(map[string]any) {
			if k != last {
				m[k] = x
			}
		}
		return m
	})
}

func (s sample) drawSpot(t *rapid.T, want func(spot) bool) spot {
	var fit []spot
	for _, p := range s.spots {
		if want(p) {
			fit = append(fit, p)
		}
	}
	if len(fit) == 0 {
		t.Skip("no such spot in this text")
	}
	return fit[rapid.IntRange(0, len(fit)-1).Draw(t, "spot")]
}

func (s sample) parent(p spot) spot {
	for _, q := range s.spots {
		if q.path.String() == p.path[:len(p.path)-1].String() {
			return q
		}
	}
	panic("every spot but the root has a parent")
}

// requireOutside checks that the lines before first and from end on are as they were, byte for byte.
func (s sample) requireOutside(t *rapid.T, out []byte, first, end int) []string {
	const mark = "\ufeff"
	require.Equal(t, strings.HasPrefix(s.text, mark), strings.HasPrefix(string(out), mark))
	got := strings.Split(strings.TrimSuffix(strings.TrimPrefix(string(out), mark), s.eol), s.eol)
	after := s.lines[end:]
	require.GreaterOrEqual(t, len(got), first+len(after), "before:\n%s\nafter:\n%s", s.text, out)
	require.Equal(t, s.lines[:first], got[:first], "before:\n%s\nafter:\n%s", s.text, out)
	require.Equal(t, after, got[len(got)-len(after):], "before:\n%s\nafter:\n%s", s.text, out)
	return got[first : len(got)-len(after)]
}

var commentNumber = regexp.MustCompile(`#c\d+;`)

func comments(text string) []string { return commentNumber.FindAllString(text, -1) }

// lost counts the lines of before that are not, in this order, among those of after.
func lost(before, after []string) int {
	common := make([][]int, len(before)+1)
	common[0] = make([]int, len(after)+1)
	for i, b := range before {
		common[i+1] = make([]int, len(after)+1)
		for j, a := range after {
			common[i+1][j+1] = max(common[i][j+1], common[i+1][j])
			if a == b {
				common[i+1][j+1] = common[i][j] + 1
			}
		}
	}
	return len(before) - common[len(before)][len(after)]
}

func TestSet_ExistingValue_Property(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSample(t)
		p := s.drawSpot(t, func(p spot) bool { return len(p.path) > 0 })
		value := rapid.SampledFrom([]string{"7 kW", `"a # b"`, "{x: 1, y: [2]}", "~", "1500000 some long text"}).Draw(t, "value")
		out, err := Set([]byte(s.text), p.path, value)
		require.NoError(t, err, "%s in\n%s", p.path, s.text)
		want := change(decode(t, []byte(s.text)), p.path, func(any) any { return decode(t, []byte(value)) })
		require.Equal(t, want, decode(t, out), "%s\n%s", s.text, out)
		s.requireOutside(t, out, p.first, p.end)
		if p.kind == 'v' {
			require.Equal(t, comments(s.text), comments(string(out)), "%s\n%s", s.text, out)
		}
	})
}

func TestSet_MissingKey_Property(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSample(t)
		p := s.drawSpot(t, func(p spot) bool { return p.kind == 'm' })
		path := append(append(Path{}, p.path...), "new")
		if rapid.Bool().Draw(t, "deep") {
			path = append(path, "deeper")
		}
		out, err := Set([]byte(s.text), path, "7 kW")
		require.NoError(t, err, "%s in\n%s", path, s.text)
		want := change(decode(t, []byte(s.text)), path, func(any) any { return "7 kW" })
		require.Equal(t, want, decode(t, out), "%s\n%s", s.text, out)
		s.requireAdded(t, out, p)
	})
}

// requireAdded checks that an addition kept every comment and every line, but for one that a flow entry went into.
func (s sample) requireAdded(t *rapid.T, out []byte, p spot) {
	middle := s.requireOutside(t, out, p.first, p.end)
	may := 0
	if p.flow || p.inline || p.size == 0 || s.parentInline(p) {
		may = 1
	}
	require.LessOrEqual(t, lost(s.lines[p.first:p.end], middle), may, "%s\n%s", s.text, out)
	require.Equal(t, comments(s.text), comments(string(out)), "%s\n%s", s.text, out)
}

// parentInline tells a collection that begins on the line of its dash: a new first item goes there.
func (s sample) parentInline(p spot) bool {
	return slices.ContainsFunc(s.spots, func(q spot) bool {
		return len(q.path) == len(p.path)+1 && s.parent(q).path.String() == p.path.String() && q.inline
	})
}

func TestInsert_Property(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSample(t)
		p := s.drawSpot(t, func(p spot) bool { return p.kind == 's' })
		index := rapid.IntRange(0, p.size).Draw(t, "index")
		out, err := Insert([]byte(s.text), p.path, index, []Entry{{"name", "New one"}, {"start", "{times: 4}"}})
		require.NoError(t, err, "%s in\n%s", p.path, s.text)
		item := any(map[string]any{"name": "New one", "start": map[string]any{"times": 4}})
		want := change(decode(t, []byte(s.text)), p.path, func(v any) any {
			return slices.Insert(slices.Clone(v.([]any)), index, item)
		})
		require.Equal(t, want, decode(t, out), "%s\n%s", s.text, out)
		s.requireAdded(t, out, p)
	})
}

func TestDelete_Property(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSample(t)
		p := s.drawSpot(t, func(p spot) bool { return len(p.path) > 0 })
		out, err := Delete([]byte(s.text), p.path)
		require.NoError(t, err, "%s in\n%s", p.path, s.text)
		require.Equal(t, without(decode(t, []byte(s.text)), p.path), decode(t, out), "%s\n%s", s.text, out)
		up := s.parent(p)
		if p.inline || up.size == 1 || up.flow { // the line of the dash, the key or the bracket changes too
			s.requireOutside(t, out, up.first, up.end)
			require.LessOrEqual(t, lost(comments(string(out)), comments(s.text)), 0, "%s\n%s", s.text, out)
			return
		}
		require.Empty(t, s.requireOutside(t, out, p.head, p.end), "%s\n%s", s.text, out)
	})
}

func TestMove_Property(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSample(t)
		p := s.drawSpot(t, func(p spot) bool { return p.kind == 's' && p.size > 1 })
		from := rapid.IntRange(0, p.size-1).Draw(t, "from")
		to := rapid.IntRange(0, p.size-1).Draw(t, "to")
		out, err := Move([]byte(s.text), p.path, from, to)
		if p.flow && err != nil {
			require.ErrorContains(t, err, "comments between the items")
			require.NotEmpty(t, comments(strings.Join(s.lines[p.first:p.end], "\n")))
			return
		}
		require.NoError(t, err, "%s %d to %d in\n%s", p.path, from, to, s.text)
		want := change(decode(t, []byte(s.text)), p.path, func(v any) any {
			items := slices.Clone(v.([]any))
			item := items[from]
			return slices.Insert(slices.Delete(items, from, from+1), to, item)
		})
		require.Equal(t, want, decode(t, out), "%s\n%s", s.text, out)
		middle := s.requireOutside(t, out, p.first, p.end)
		if !p.flow && !s.parentInline(p) {
			blank := func(line string) bool { return line == "" }
			before := slices.DeleteFunc(slices.Clone(s.lines[p.first:p.end]), blank)
			require.ElementsMatch(t, before, slices.DeleteFunc(middle, blank), "%s\n%s", s.text, out)
		}
		require.ElementsMatch(t, comments(s.text), comments(string(out)), "%s\n%s", s.text, out)
	})
}
