package foods

import (
	"errors"
	"fmt"
	"slices"
	"sort"
	"strings"
)

// ErrUnknown is wrapped by every error about a name that the table lacks.
var ErrUnknown = errors.New("not in the food table")

// UnknownError is a name that no food, group or pack bears, with the nearest
// names that exist, best first.
type UnknownError struct {
	What    string // "food", "food or group" or "pack"
	Name    string
	Nearest []string
}

func (e *UnknownError) Error() string {
	s := fmt.Sprintf("no %s is called %q", e.What, e.Name)
	if len(e.Nearest) > 0 {
		s += "; the nearest are " + strings.Join(e.Nearest, ", ")
	}
	return s
}

func (e *UnknownError) Unwrap() error { return ErrUnknown }

// Food returns the food called name: its exact name or NDB number, or the key
// of one of its packs; case and outer blanks do not matter. A part of a name
// is never enough, as it would change its meaning when a food is added. The
// error is an [*UnknownError] with the nearest names.
func (t *Table) Food(name string) (*Food, error) {
	want := fold(name)
	for _, f := range t.Foods {
		if fold(f.Name) == want || fold(f.NDB) == want {
			return f, nil
		}
	}
	if p := t.pack(want); p != nil {
		return p.Food, nil
	}
	return nil, &UnknownError{What: "food", Name: name, Nearest: t.Nearest(name)}
}

// Pack returns the pack with the key; case does not matter. The error is an
// [*UnknownError] with the nearest keys.
func (t *Table) Pack(key string) (*Pack, error) {
	if p := t.pack(fold(key)); p != nil {
		return p, nil
	}
	keys := make([]string, len(t.Packs))
	for i, p := range t.Packs {
		keys[i] = p.Key
	}
	return nil, &UnknownError{What: "pack", Name: key, Nearest: nearest(key, keys)}
}

func (t *Table) pack(folded string) *Pack {
	for _, p := range t.Packs {
		if fold(p.Key) == folded {
			return p
		}
	}
	return nil
}

// Named returns the foods that name stands for, in table order: one food by
// name, NDB number or pack key, or every food of a shop group or pattern
// group. The error is an [*UnknownError] with the nearest names.
func (t *Table) Named(name string) ([]*Food, error) {
	if f, err := t.Food(name); err == nil {
		return []*Food{f}, nil
	}
	want := fold(name)
	var found []*Food
	for _, f := range t.Foods {
		if fold(f.Group) == want || slices.ContainsFunc(f.Serves, func(s Serving) bool { return s.Group == want }) {
			found = append(found, f)
		}
	}
	if len(found) == 0 {
		return nil, &UnknownError{What: "food or group", Name: name, Nearest: t.Nearest(name)}
	}
	return found, nil
}

// Nearest returns up to three names of foods or groups that are most like
// name, best first.
func (t *Table) Nearest(name string) []string {
	names := make([]string, 0, len(t.Foods)+len(PatternGroups))
	seen := map[string]bool{}
	add := func(s string) {
		if !seen[s] {
			seen[s] = true
			names = append(names, s)
		}
	}
	for _, f := range t.Foods {
		add(f.Name)
	}
	for _, f := range t.Foods {
		add(f.Group)
	}
	for _, g := range PatternGroups {
		add(g.Name)
	}
	return nearest(name, names)
}

func fold(s string) string { return strings.ToLower(strings.TrimSpace(s)) }

// nearest returns up to three of names that are most like s: first those that
// share its words, then those within a third of its length in edits.
func nearest(s string, names []string) []string {
	type scored struct {
		name string
		cost float64
	}
	s = fold(s)
	if s == "" {
		return nil
	}
	words := strings.FieldsFunc(s, notWord)
	var found []scored
	for _, n := range names {
		low := fold(n)
		d := float64(edits(s, low)) / float64(max(len(s), 1))
		if shared := sharedWords(words, strings.FieldsFunc(low, notWord)); shared > 0 {
			// A shared word outranks any spelling distance; longer names lose a
			// little, so that "beans" offers "beans, black" before a stew.
			d = 0.33 - 0.2*float64(shared)/float64(len(words)) + 0.001*float64(len(low))
		}
		if d <= 0.4 {
			found = append(found, scored{name: n, cost: d})
		}
	}
	sort.SliceStable(found, func(i, j int) bool { return found[i].cost < found[j].cost })
	if len(found) > 3 {
		found = found[:3]
	}
	out := make([]string, len(found))
	for i, f := range found {
		out[i] = f.name
	}
	return out
}

func notWord(r rune) bool {
	return r == ' ' || r == ',' || r == '-' || r == '(' || r == ')' || r == '/'
}

// sharedWords counts the words of a that stand in b, a plural s and a spelling
// slip in words of five letters or more forgiven.
func sharedWords(a, b []string) int {
	n := 0
	for _, x := range a {
		if len(x) < 3 {
			continue
		}
		for _, y := range b {
			same := strings.TrimSuffix(x, "s") == strings.TrimSuffix(y, "s")
			if same || len(x) >= 5 && len(y) >= 5 && edits(x, y) <= 1 {
				n++
				break
			}
		}
	}
	return n
}

// edits is the Levenshtein distance in bytes (V. I. Levenshtein, 1966).
func edits(a, b string) int {
	prev := make([]int, len(b)+1)
	for j := range prev {
		prev[j] = j
	}
	cur := make([]int, len(b)+1)
	for i := 1; i <= len(a); i++ {
		cur[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			cur[j] = min(prev[j]+1, cur[j-1]+1, prev[j-1]+cost)
		}
		prev, cur = cur, prev
	}
	return prev[len(b)]
}
