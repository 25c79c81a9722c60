package foods

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"rationwright/foods/kinds"
	"rationwright/nutrients/table"
)

// ErrAmbiguous is wrapped by every error about a name that could mean several
// things.
var ErrAmbiguous = errors.New("could mean several foods")

// AmbiguousError is a name that could mean several foods or kinds.
type AmbiguousError struct {
	Name    string
	Choices []string // what it could mean, the likeliest first; each is a name of its own
	Note    string   // where it means which, "" unknown
}

func (e *AmbiguousError) Error() string {
	what, fix := e.split()
	return what + "; " + fix
}

func (e *AmbiguousError) split() (what, fix string) {
	if len(e.Choices) == 0 {
		return fmt.Sprintf("%q is no food of its own: %s", e.Name, e.Note), "name the foods that are meant"
	}
	what, fix = fmt.Sprintf("%q could mean %s", e.Name, table.OrList(e.Choices)), "write the one that is meant"
	if len(e.Choices) == 1 {
		what, fix = fmt.Sprintf("%q is not certain to mean %q", e.Name, e.Choices[0]), fmt.Sprintf("write %q if that is meant", e.Choices[0])
	}
	if e.Note != "" {
		what += " (" + e.Note + ")"
	}
	return what, fix
}

func (e *AmbiguousError) Unwrap() error { return ErrAmbiguous }

// NameFault splits an error about a name into what is wrong and what to do; ok
// is false where err is about something else.
func NameFault(err error) (what, fix string, ok bool) {
	if unknown := (*UnknownError)(nil); errors.As(err, &unknown) {
		what = fmt.Sprintf("no %s is called %q", unknown.What, unknown.Name)
		near := unknown.Nearest()
		if len(near) == 0 {
			return what, "\"rationwright foods list\" has all names", true
		}
		return what, "did you mean " + table.OrList(near) + "?", true
	}
	if ambiguous := (*AmbiguousError)(nil); errors.As(err, &ambiguous) {
		what, fix = ambiguous.split()
		return what, fix, true
	}
	return "", "", false
}

// Meaning is what a name stands for.
type Meaning struct {
	Word  string      // as it was written
	Name  string      // the name of the kind, food or group
	Kind  *kinds.Kind // nil for one food and for a group
	Foods []*Food     // in table order, at least one
	Else  []string    // what else the word could mean, each a name of its own
	Note  string      // what the word takes in and leaves out, "" where it is plain
}

// Said returns a line for the reader where the word could have been meant
// otherwise, else "".
func (m *Meaning) Said() string {
	if len(m.Else) == 0 && m.Note == "" {
		return ""
	}
	s := fmt.Sprintf("%q is taken to mean %s", m.Word, m.Name)
	if m.Note != "" {
		s += " (" + m.Note + ")"
	}
	if len(m.Else) > 0 {
		s += "; it could also mean " + table.OrList(m.Else)
	}
	return s
}

// Resolve returns what a name stands for, in every place where a person names
// food: one food by NDB number or pack key, a kind by any of its words, one food
// by its name; where it is none of these, the same without the container in front
// (tin of sardines); else a shop group or pattern group. How words are compared
// is said in package kinds. A food of the user's own that bears the word belongs
// to what it means.
//
// The error is an [*AmbiguousError] where the word must be asked about, else an
// [*UnknownError] with the nearest names.
func (t *Table) Resolve(name string) (*Meaning, error) {
	m, err := t.resolve(name)
	if m == nil && err == nil {
		if rest, packed := t.kinds.Unpacked(name); packed {
			m, err = t.resolve(rest)
		}
	}
	if m == nil && err == nil {
		m = t.group(name)
	}
	switch ambiguous := (*AmbiguousError)(nil); {
	case errors.As(err, &ambiguous):
		ambiguous.Name = name
		return nil, err
	case m == nil:
		return nil, &UnknownError{What: "food or kind", Name: name, near: func() []string { return t.Nearest(name) }}
	}
	m.Word = strings.TrimSpace(name)
	return m, nil
}

// resolve is Resolve for the whole name; both values are nil where it is none.
func (t *Table) resolve(name string) (*Meaning, error) {
	one := func(f *Food) *Meaning { return &Meaning{Name: f.Name, Foods: []*Food{f}} }
	if f := t.byKey(name); f != nil {
		return one(f), nil
	}
	named := t.byName(name)
	kind, sense := t.kinds.Find(name)
	switch {
	case kind != nil:
		m := &Meaning{Name: kind.Name, Kind: kind, Foods: t.ofKind(kind.Name)}
		if named != nil && named.Own && !slices.Contains(m.Foods, named) {
			m.Foods = append(m.Foods, named)
		}
		if sense != nil {
			m.Else, m.Note = names(sense.CouldMean), sense.Note
		}
		return m, nil
	case named != nil:
		m := one(named)
		if sense != nil && !named.Own {
			m.Else, m.Note = names(sense.CouldMean), sense.Note
		}
		return m, nil
	case sense != nil:
		return nil, &AmbiguousError{Name: name, Choices: names(sense.CouldMean), Note: sense.Note}
	}
	return nil, nil
}

// group returns the foods of a shop group or pattern group, nil when there is no
// such group.
func (t *Table) group(name string) *Meaning {
	want := fold(name)
	m := &Meaning{Name: want}
	for _, f := range t.Foods {
		if fold(f.Group) == want || slices.ContainsFunc(f.Serves, func(s Serving) bool { return s.Group == want }) {
			m.Foods = append(m.Foods, f)
		}
	}
	if m.Foods == nil {
		return nil
	}
	return m
}

func names(list []*kinds.Kind) []string {
	return table.Words(list, func(k *kinds.Kind) string { return k.Name })
}

// ofKind returns the foods of a kind in table order.
func (t *Table) ofKind(name string) []*Food {
	var found []*Food
	for _, f := range t.Foods {
		if slices.Contains(f.Kinds, name) {
			found = append(found, f)
		}
	}
	return found
}

// byKey returns the food with an NDB number or the key of a pack, nil when there
// is none.
func (t *Table) byKey(key string) *Food {
	want := fold(key)
	if f := t.byNDB(want); f != nil {
		return f
	}
	if p := t.pack(want); p != nil {
		return p.Food
	}
	return nil
}

// byName returns the food with the name, as written or else as words are
// compared; nil when there is none or there are two.
func (t *Table) byName(name string) *Food {
	want := fold(name)
	for _, f := range t.Foods {
		if fold(f.Name) == want {
			return f
		}
	}
	var found *Food
	folded := t.kinds.Fold(name)
	for _, f := range t.Foods {
		if nameKey(t.kinds, f) == folded {
			if found != nil {
				return nil
			}
			found = f
		}
	}
	return found
}

// nameKey is the key of the food's name.
func nameKey(words *kinds.Table, f *Food) string {
	if f.folded != "" {
		return f.folded
	}
	return words.Fold(f.Name) // not yet sorted in
}

// Food returns the one food called name: by NDB number, pack key or its exact
// name, or else by a word that means one food only, see [Table.Resolve]. The
// error is an [*AmbiguousError] with the foods of a word that means several, or
// an [*UnknownError] with the nearest names.
func (t *Table) Food(name string) (*Food, error) {
	if f := t.byKey(name); f != nil {
		return f, nil
	}
	if f := t.byName(name); f != nil {
		return f, nil
	}
	m, err := t.Resolve(name)
	unknown := (*UnknownError)(nil)
	switch {
	case errors.As(err, &unknown):
		unknown.What = "food"
		return nil, unknown
	case err != nil:
		return nil, err
	case len(m.Foods) > 1:
		return nil, &AmbiguousError{Name: name, Choices: foodNames(m.Foods)}
	}
	return m.Foods[0], nil
}

func foodNames(list []*Food) []string {
	return table.Words(list, func(f *Food) string { return f.Name })
}

// Named returns the foods that name stands for, in table order, see
// [Table.Resolve].
func (t *Table) Named(name string) ([]*Food, error) {
	m, err := t.Resolve(name)
	if err != nil {
		return nil, err
	}
	return m.Foods, nil
}

// Kinds returns the kinds of food with their words. They do not change.
func (t *Table) Kinds() *kinds.Table { return t.kinds }

// fillKinds gives a food of the user's own, where its row names none, the kinds
// in which every food of the same form and group lies, else of the same group:
// what binds all of these binds it too.
func (f *Food) fillKinds(others []*Food) {
	if len(f.Kinds) > 0 {
		return
	}
	for _, like := range []func(*Food) bool{
		func(o *Food) bool { return o.Form == f.Form && o.Group == f.Group },
		func(o *Food) bool { return o.Group == f.Group },
	} {
		var common []string
		first := true
		for _, o := range others {
			switch {
			case o.Own || !like(o):
			case first:
				common, first = slices.Clone(o.Kinds), false
			default:
				common = slices.DeleteFunc(common, func(k string) bool { return !slices.Contains(o.Kinds, k) })
			}
		}
		if len(common) > 0 {
			f.Kinds = common
			return
		}
	}
}

// Nearest returns up to three words for kinds and names of foods or groups that
// are most like name, best first.
func (t *Table) Nearest(name string) []string {
	var names []string
	seen := map[string]bool{}
	add := func(words ...string) {
		for _, s := range words {
			if !seen[s] {
				seen[s] = true
				names = append(names, s)
			}
		}
	}
	for _, k := range t.kinds.Kinds {
		add(k.Words()...)
	}
	add(foodNames(t.Foods)...)
	for _, f := range t.Foods {
		add(f.Group)
	}
	add(patternGroupNames()...)
	// Of several words for one thing the likest is enough.
	meant := map[string]bool{}
	var best []string
	for _, near := range nearest(name, names, 3*mostNearest) {
		means := near
		if m, err := t.resolve(near); err == nil && m != nil {
			means = m.Foods[0].NDB
			if m.Kind != nil {
				means = m.Kind.Name
			}
		}
		if !meant[means] && len(best) < mostNearest {
			meant[means] = true
			best = append(best, near)
		}
	}
	return best
}
