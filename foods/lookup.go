package foods

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"rationwright/nutrients/table"
)

// UnknownError is a name that no food, group or pack bears, with the nearest
// names that exist.
type UnknownError struct {
	What string // "food", "food or kind" or "pack"
	Name string

	near func() []string
}

// Nearest returns the nearest names that exist, best first. They are looked for
// only when asked for, since that takes longer than all else about a wrong name.
func (e *UnknownError) Nearest() []string { return e.near() }

func (e *UnknownError) Error() string {
	s := fmt.Sprintf("no %s is called %q", e.What, e.Name)
	if near := e.Nearest(); len(near) > 0 {
		s += "; the nearest are " + strings.Join(table.Words(near, strconv.Quote), ", ") // names may hold commas
	}
	return s
}

func (e *UnknownError) Unwrap() error { return ErrUnknown }

// Pack returns the pack with the key; case does not matter. The error is an
// [*UnknownError] with the nearest keys.
func (t *Table) Pack(key string) (*Pack, error) {
	if p := t.pack(fold(key)); p != nil {
		return p, nil
	}
	return nil, &UnknownError{What: "pack", Name: key, near: func() []string { return nearest(key, t.packKeys(), mostNearest) }}
}

func (t *Table) packKeys() []string {
	return table.Words(t.Packs, func(p *Pack) string { return p.Key })
}

func (t *Table) pack(folded string) *Pack {
	for _, p := range t.Packs {
		if strings.EqualFold(p.Key, folded) || !isASCII(p.Key) && fold(p.Key) == folded {
			return p
		}
	}
	return nil
}

// isASCII reports whether a key has one spelling only, but for capitals.
func isASCII(key string) bool {
	for i := range len(key) {
		if key[i] >= utf8.RuneSelf {
			return false
		}
	}
	return true
}

// nearest returns at most so many of names that are most like s: where s is several
// words, the shortest that hold all of them, then those a few letters away, then
// those that share most of its words, whatever their order.
func nearest(s string, names []string, most int) []string {
	words := strings.FieldsFunc(fold(s), notWord)
	found := holding(words, names, most)
	for _, n := range table.Nearest(s, names, most) {
		if len(found) < most && !slices.Contains(found, n) {
			found = append(found, n)
		}
	}
	for want := len(words); want > 0; want-- {
		for _, n := range names {
			if len(found) == most {
				return found
			}
			if sharedWords(words, strings.FieldsFunc(fold(n), notWord)) == want && !slices.Contains(found, n) {
				found = append(found, n)
			}
		}
	}
	return found
}

// holding returns at most so many of names that hold all of two words or more, the
// shortest first.
func holding(words, names []string, most int) []string {
	var found []string
	for _, n := range names {
		if len(words) > 1 && sharedWords(words, strings.FieldsFunc(fold(n), notWord)) == len(words) {
			found = append(found, n)
		}
	}
	slices.SortStableFunc(found, func(a, b string) int { return cmp.Compare(len(a), len(b)) })
	return found[:min(len(found), most)]
}

// mostNearest is how many near names an error lists.
const mostNearest = 3

func notWord(r rune) bool { return strings.ContainsRune(" ,-()/;", r) }

// sharedWords counts the words of a, of three letters or more, that stand in
// b, a plural s forgiven.
func sharedWords(a, b []string) int {
	n := 0
	for _, x := range a {
		if len(x) >= 3 && slices.ContainsFunc(b, func(y string) bool { return alike(strings.TrimSuffix(x, "s"), strings.TrimSuffix(y, "s")) }) {
			n++
		}
	}
	return n
}

// alike reports whether two words are the same but for one slip of the pen: a
// letter too many, too few, wrong, or two of them the wrong way round. In words
// under slipLength a slip makes another word.
func alike(x, y string) bool {
	if x == y {
		return true
	}
	if len(x) < slipLength || len(y) < slipLength {
		return false
	}
	if len(x) > len(y) {
		x, y = y, x
	}
	head := 0
	for head < len(x) && x[head] == y[head] {
		head++
	}
	switch restX, restY := x[head:], y[head:]; len(restY) - len(restX) {
	case 0:
		return restX[1:] == restY[1:] ||
			len(restX) > 1 && restX[0] == restY[1] && restX[1] == restY[0] && restX[2:] == restY[2:]
	case 1:
		return restX == restY[1:]
	default:
		return false
	}
}

const slipLength = 4

// Supply returns the supply with the key; case does not matter. The error is
// an [*UnknownError] with the nearest keys.
func (t *Table) Supply(key string) (*Supply, error) {
	if s := t.supply(key); s != nil {
		return s, nil
	}
	return nil, &UnknownError{What: "supply", Name: key, near: func() []string { return nearest(key, t.supplyKeys(), mostNearest) }}
}

func (t *Table) supplyKeys() []string {
	return table.Words(t.Supplies, func(s *Supply) string { return s.Key })
}

func (t *Table) supply(key string) *Supply {
	want := fold(key)
	if i := slices.IndexFunc(t.Supplies, func(s *Supply) bool { return s.Key == want }); i >= 0 {
		return t.Supplies[i]
	}
	return nil
}

// unknownItem is the error of a key that neither a pack nor a supply bears,
// with the nearest of both.
func (t *Table) unknownItem(key string) error {
	return &UnknownError{What: "pack", Name: key, near: func() []string {
		return nearest(key, append(t.packKeys(), t.supplyKeys()...), mostNearest)
	}}
}

// failUnknown records an unknown name with the nearest names as the remedy.
func failUnknown(row *table.Row, field string, err error) {
	unknown := (*UnknownError)(nil)
	if !errors.As(err, &unknown) {
		row.Fail(field, err, "")
		return
	}
	fix := "see foods list for what there is"
	if !row.Crowded() {
		if near := unknown.Nearest(); len(near) > 0 {
			fix = "did you mean " + table.OrList(near) + "?"
		}
	}
	row.Fail(field, fmt.Errorf("no such %s: %w", unknown.What, ErrUnknown), fix)
}
