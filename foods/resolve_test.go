package foods

import (
	"errors"
	"slices"
	"strings"
	"testing"
)

// TestEveryWordResolves asks the table for every word of every kind: it must
// mean the foods of the kind, all of them and no others.
func TestEveryWordResolves(t *testing.T) {
	tab := load(t)
	for _, k := range tab.Kinds().Kinds {
		for _, word := range k.Words() {
			m, err := tab.Resolve(word)
			if err != nil || m.Kind != k {
				t.Errorf("Resolve(%q) = %+v, %v, want %s", word, m, err, k.Name)
				continue
			}
			var got []string
			for _, f := range m.Foods {
				got = append(got, f.NDB)
			}
			if !slices.Equal(got, k.Foods) {
				t.Errorf("Resolve(%q) = %q, want %q", word, got, k.Foods)
			}
		}
	}
}

// TestEveryFoodHasAWord checks that people who know no food table reach every
// food by a word that takes in few others: six at most.
func TestEveryFoodHasAWord(t *testing.T) {
	const few = 6
	tab := load(t)
	for _, f := range tab.Foods {
		if len(f.Kinds) == 0 {
			t.Errorf("%s lies in no kind", f.Name)
			continue
		}
		if k := tab.Kinds().Kind(f.Kinds[0]); len(k.Foods) > few {
			t.Errorf("the smallest kind of %s is %s with %d foods", f.Name, k.Name, len(k.Foods))
		}
		m, err := tab.Resolve(f.Name)
		if err != nil || !slices.Contains(m.Foods, f) {
			t.Errorf("Resolve(%q) = %v, %v: not that food", f.Name, m, err)
		}
		if one, err := tab.Food(f.Name); err != nil || one != f {
			t.Errorf("Food(%q) = %v, %v", f.Name, one, err)
		}
	}
}

// TestKindsNameFoods fails when a kind names a food that the table lacks.
func TestKindsNameFoods(t *testing.T) {
	tab := load(t)
	for _, k := range tab.Kinds().Kinds {
		for _, ndb := range k.Foods {
			if tab.byNDB(ndb) == nil {
				t.Errorf("%s names NDB %s, which the table lacks", k.Name, ndb)
			}
		}
	}
}

func TestAmbiguousWords(t *testing.T) {
	tab := load(t)
	for _, word := range []string{"butter", "tin of butter", "biscuits", "bread", "tomato puree", "tomato purée"} {
		_, err := tab.Resolve(word)
		ambiguous := (*AmbiguousError)(nil)
		if !errors.As(err, &ambiguous) || !errors.Is(err, ErrAmbiguous) {
			t.Errorf("Resolve(%q): %v, want an AmbiguousError", word, err)
			continue
		}
		if ambiguous.Name != word || len(ambiguous.Choices) < 2 {
			t.Errorf("Resolve(%q): %+v, want two choices or more", word, ambiguous)
		}
		for _, choice := range ambiguous.Choices {
			if _, err := tab.Resolve(choice); err != nil {
				t.Errorf("%q offers %q, which means nothing: %v", word, choice, err)
			}
		}
	}
	for word, want := range map[string]string{"corn": "sweetcorn", "tinned fish": "fish", "rice": "rice", "tomato sauce": "tomato sauce"} {
		m, err := tab.Resolve(word)
		if err != nil || m.Name != want || len(m.Else) == 0 || !strings.Contains(m.Said(), word) {
			t.Errorf("Resolve(%q) = %+v, %v, want %s and what else it could mean", word, m, err, want)
		}
	}
	if m, err := tab.Resolve("honey"); err != nil || m.Said() != "" {
		t.Errorf("Resolve(honey) = %+v, %v, want nothing to say", m, err)
	}
}

// A food of the user's own lies in the kinds of the foods like it, and the words
// for these mean it too.
func TestOwnFoodHasKinds(t *testing.T) {
	tab := load(t)
	const own = `ndb,name,group,form,allergens,tags,texture,energy_kcal,protein_g,fat_g,carbohydrate_g
U001,island oats,breakfast cereals,oats_rolled,none,gluten;oats,soft,370,13,7,60
U002,butter,fats and oils,ghee,milk,animal,soft,740,1,82,1
`
	if _, err := tab.ReadFoods("own.csv", strings.NewReader(own)); err != nil {
		t.Fatal(err)
	}
	for _, word := range []string{"porridge cereals", "island oats"} {
		m, err := tab.Resolve(word)
		if err != nil || !slices.ContainsFunc(m.Foods, func(f *Food) bool { return f.NDB == "U001" }) {
			t.Errorf("Resolve(%q) = %v, %v, want U001 among them", word, m, err)
		}
	}
	if m, err := tab.Resolve("butter"); err != nil || len(m.Foods) != 1 || m.Foods[0].NDB != "U002" {
		t.Errorf("Resolve(butter) = %v, %v, want the user's own butter", m, err)
	}
}
