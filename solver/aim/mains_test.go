package aim

import (
	"slices"
	"testing"

	"rationwright/foods/dishes"
	"rationwright/solver/answer"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestMainsAreThoseOfTheDishes: each main of the list is a dish of the book for midday or
// evening, with a base and a protein of its kinds, of the class of cooking that the list
// says and of none below.
func TestMainsAreThoseOfTheDishes(t *testing.T) {
	book, err := dishes.Load(rationtest.Table(t))
	if err != nil {
		t.Fatal(err)
	}
	mains, err := ration.AllMains()
	if err != nil {
		t.Fatal(err)
	}
	hasPart := func(d *dishes.Dish, role, kind string) bool {
		return slices.ContainsFunc(d.Parts, func(p *dishes.Part) bool {
			return p.Role == role && !p.Optional && slices.ContainsFunc(p.Options, func(o dishes.Option) bool { return !o.Substitute && slices.Contains(o.Food.Kinds, kind) })
		})
	}
	for _, m := range mains {
		least := ""
		for _, d := range book.Dishes {
			if d.UnderMonths > 0 || !d.Has(dishes.Midday) && !d.Has(dishes.Evening) || !hasPart(d, "base", m.Base) || !hasPart(d, "protein", m.Protein) {
				continue
			}
			if least == "" || ration.CookRank[d.Cooking] < ration.CookRank[least] {
				least = d.Cooking
			}
		}
		if least != m.Cooking {
			t.Errorf("%s with %s: %q in the list, %q by the dishes", m.Base, m.Protein, m.Cooking, least)
		}
	}
}

// TestMissingMainsCount: where portions are of nothing, seven mains are missing and each
// counts its weight; portions of rice, pasta, beans and fish leave three missing; portions
// of half a food each leave seven.
func TestMissingMainsCount(t *testing.T) {
	p := aimed(t, 14, 200, 0.03)
	e := p.model.Eaters[0]
	at := func(part float64, kinds ...string) float64 {
		x := make([]float64, len(p.model.Cols))
		for _, kind := range kinds {
			at := slices.IndexFunc(p.in([]string{kind}), func(li int) bool { _, ok := p.eats[0][li]; return ok })
			if at < 0 {
				t.Fatalf("nobody eats %s", kind)
			}
			li := p.in([]string{kind})[at]
			y, _ := e.Eating(li)
			x[y.Col] = part * answer.LeastPortionG(&e.Person, p.model.Larder[li].Food)
		}
		return p.point(x)[p.mains.missing]
	}
	four := []string{"rice", "pasta", "plain canned beans", "fish in portions"}
	for _, c := range []struct {
		part  float64
		kinds []string
		want  float64
	}{{1, nil, 7}, {1, four, 3}, {0.5, four, 7}, {1, four[:3], 5}} {
		if got := at(c.part, c.kinds...); got != c.want {
			t.Errorf("%g portions of %v: %g mains are missing, want %g", c.part, c.kinds, got, c.want)
		}
	}
	if got, want := p.Cols[p.mains.missing].Cost, p.weights.Of(ration.AimMain); got != want || want <= 0 {
		t.Errorf("a missing main counts %g, want %g", got, want)
	}
	if p := aimed(t, 7, 200, 0.03); p.Cols[p.mains.missing].Upper != 4 {
		t.Errorf("a week asks for %g mains, want 4", p.Cols[p.mains.missing].Upper)
	}
}
