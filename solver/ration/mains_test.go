package ration

import (
	"slices"
	"testing"

	"rationwright/foods"
	"rationwright/foods/kinds"
)

// TestMainsAreApart: no food is of two bases, or of two proteins, so that a main counts
// once; every word is a kind.
func TestMainsAreApart(t *testing.T) {
	all, err := AllMains()
	if err != nil || len(all) == 0 {
		t.Fatal(len(all), err)
	}
	table, err := kinds.Load()
	if err != nil {
		t.Fatal(err)
	}
	for _, column := range []func(Main) string{func(m Main) string { return m.Base }, func(m Main) string { return m.Protein }} {
		of := map[string]string{} // kind of each food
		for _, m := range all {
			kind := table.Kind(column(m))
			if kind == nil {
				t.Fatalf("%q is no kind", column(m))
			}
			for _, ndb := range kind.Foods {
				if other, ok := of[ndb]; ok && other != kind.Name {
					t.Errorf("%s is of %s and of %s", ndb, other, kind.Name)
				}
				of[ndb] = kind.Name
			}
		}
	}
}

// TestMainsAreCookedAsTheirFoods: a main takes at least the cooking of the more demanding of
// its base and its protein, of each the easiest food of the kind, by the table of
// preparation: what is safe as it is needs none.
func TestMainsAreCookedAsTheirFoods(t *testing.T) {
	all, err := AllMains()
	if err != nil {
		t.Fatal(err)
	}
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	easiest := func(kind string) int {
		rank := len(CookRank)
		for _, f := range table.Foods {
			if !slices.Contains(f.Kinds, kind) {
				continue
			}
			if f.Preparation == nil || f.Preparation.ColdOK {
				return 0
			}
			rank = min(rank, CookRank[f.Preparation.Class])
		}
		return rank
	}
	for _, m := range all {
		takes := max(easiest(m.Base), easiest(m.Protein))
		if m.Base == "wheat flour" { // dumplings are boiled in the soup, flour else is baked
			takes = CookRank[string(CookBoil)]
		}
		if CookRank[m.Cooking] < takes {
			t.Errorf("%s with %s: %s, of rank %d; their foods take %d", m.Base, m.Protein, m.Cooking, CookRank[m.Cooking], takes)
		}
	}
}

// TestDifferentMains: rice and pasta with beans and fish are four mains, without pasta
// two, without beans and fish none; where nothing is heated those that are cooked are no
// mains.
func TestDifferentMains(t *testing.T) {
	for _, c := range []struct {
		cook Cook
		has  []string
		want int
	}{
		{CookBoil, []string{"rice", "pasta", "plain canned beans", "fish in portions"}, 4},
		{CookBoil, []string{"rice", "plain canned beans", "fish in portions"}, 2},
		{CookBoil, []string{"rice", "pasta"}, 0},
		{CookBoil, []string{"rice", "lentils"}, 0}, // an hour at the boil
		{CookSimmer, []string{"rice", "lentils"}, 1},
		{CookNone, []string{"pasta", "plain canned beans"}, 0},
		{CookNone, []string{"bread for spreading", "plain canned beans"}, 1},
	} {
		if got := DifferentMains(c.cook, func(kind string) bool { return slices.Contains(c.has, kind) }); got != c.want {
			t.Errorf("%v by %s make %d mains, want %d", c.has, c.cook, got, c.want)
		}
	}
	for days, want := range map[float64]int{14: 7, 7: 4, 28: 7, 2: 1} {
		if got := MainsIn(days); got != want {
			t.Errorf("%g days ask for %d mains, want %d", days, got, want)
		}
	}
}
