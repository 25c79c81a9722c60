package conflict

import (
	"math"
	"slices"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/rationtest"
)

// TestEverythingOnce: each side of a row that may stand in a conflict is listed once and by
// itself, but for amounts, of which both sides are one limit; floors of the vitamins that the
// body stores only where the finder is strict; then each exclusion.
func TestEverythingOnce(t *testing.T) {
	signe := rationtest.Adult("Signe", 30, nutrients.Female)
	signe.Allergies = []nutrients.Allergy{{Allergen: "milk"}}
	m, err := model.Build(rationtest.Request(t, signe, rationtest.Infant("Liv", 4, 6.5, nutrients.FormulaFed)))
	if err != nil {
		t.Fatal(err)
	}
	for _, strict := range []bool{true, false} {
		f := newFinder(m)
		f.strict = strict
		var want []conflictLimit
		amounts, stored := 0, 0
		for i, info := range m.Rows {
			row := m.Problem.Rows[i]
			if info.Class != model.Requirement && info.Class != model.Safety && info.Class != model.UserLimit {
				continue
			}
			if info.Kind == model.RowFeed || info.Kind == model.RowKeep {
				amounts++
				want = append(want, conflictLimit{row: i, lower: true, upper: true, exclusion: -1})
				continue
			}
			if !math.IsInf(row.Lower, 0) {
				if info.Stored() {
					stored++
				}
				if !info.Stored() || strict {
					want = append(want, conflictLimit{row: i, lower: true, exclusion: -1})
				}
			}
			if !math.IsInf(row.Upper, 0) {
				want = append(want, conflictLimit{row: i, upper: true, exclusion: -1})
			}
		}
		for k := range f.exclusions {
			want = append(want, conflictLimit{row: -1, exclusion: k})
		}
		got := f.everything()
		for _, l := range want {
			if n := len(slices.DeleteFunc(slices.Clone(got), func(o conflictLimit) bool { return o != l })); n != 1 {
				t.Errorf("strict %v: %+v stands %d times in the list", strict, l, n)
			}
		}
		if len(got) != len(want) || amounts == 0 || stored == 0 || len(f.exclusions) == 0 {
			t.Errorf("strict %v: %d limits, want %d; %d amounts, %d stored vitamins, %d exclusions: none may be missing", strict, len(got), len(want), amounts, stored, len(f.exclusions))
		}
	}
}

// TestTooLong: up to six needs are told person by person; of more of them those that several
// people share are told as one, where there are any (own planning rule).
func TestTooLong(t *testing.T) {
	for _, c := range []struct {
		people, needs int
		long          bool
	}{{1, 6, false}, {1, 7, false}, {1, 12, false}, {2, 6, false}, {2, 7, true}, {2, 12, true}} {
		m, err := model.Build(rationtest.Request(t, []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Odd", 30, nutrients.Male)}[:c.people]...))
		if err != nil {
			t.Fatal(err)
		}
		f := newFinder(m)
		all := slices.DeleteFunc(f.everything(), func(l conflictLimit) bool { return l.row < 0 || m.Rows[l.row].Class != model.Requirement || l.upper })
		first := func(of conflictLimit) int {
			return slices.IndexFunc(m.Rows, func(info model.RowInfo) bool { return info.Text == m.Rows[of.row].Text })
		}
		slices.SortStableFunc(all, func(a, b conflictLimit) int { return first(a) - first(b) }) // the same need of both, one after the other
		set := conflictSet{limits: append(all[:c.needs:c.needs], conflictLimit{row: -1}, conflictLimit{row: -1, exclusion: 1})}
		if got := f.tooLong(set); got != c.long {
			t.Errorf("%d needs of %d people: too long %v, want %v", c.needs, c.people, got, c.long)
		}
	}
}
