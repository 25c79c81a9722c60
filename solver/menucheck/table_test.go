package menucheck_test

import (
	"slices"
	"testing"

	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/menucheck"
	"rationwright/solver/ration"
)

// TestBareByHand: rice with beans is at least 50 g of rice and 90 g of beans for a usual day of
// 2050 kcal, half of which is found; who eats half as much a day has half of that, and a dish
// for children is as it is written. Instant rice makes it as well; rice of another dish, or of
// another person, does not.
func TestBareByHand(t *testing.T) {
	const dish = "plain-rice-beans"
	for _, c := range []struct {
		name        string
		kcal        float64
		rice, beans float64
		as          string // the rice is in this dish
		want        int
	}{
		{"enough", 2050, 25.1, 45.1, dish, 0}, {"little rice", 2050, 24.9, 45.1, dish, 1}, {"few beans", 2050, 25.1, 44.9, dish, 1}, {"both", 2050, 24.9, 44.9, dish, 2},
		{"half a day", 1025, 12.6, 22.6, dish, 0}, {"little of half a day", 1025, 12.4, 22.6, dish, 1}, {"rice of another dish", 2050, 100, 100, "plain-rice-fish", 1},
	} {
		s := newSmall(t, 1)
		d := s.book.Dish(dish)
		if d.Parts[0].MinG != 50 || d.Parts[1].MinG != 90 {
			t.Fatal("the dish has other parts: the test shows nothing")
		}
		per := s.food(rice).Per100g.Known(nutrients.Energy) / 100
		s.plan.People[0].Foods = []ration.PersonFood{{Food: s.food(rice).Name, Grams: c.kcal / per}}
		s.meal(1, "midday", 13, []string{dish}, nil, s.eats(rice, c.rice, c.as), s.eats("black-beans-canned-439g-can", c.beans, dish))
		if got := s.found(menucheck.Bare); len(got) != c.want {
			t.Errorf("%s: %v, want %d", c.name, got, c.want)
		}
	}
}

// TestWhatIsAMainDish: a main meal has a dish where the person eats of one for main meals: not of
// a side, not of what others eat, and the first is it. How much of it is missing is counted by
// the people.
func TestWhatIsAMainDish(t *testing.T) {
	for _, c := range []struct {
		name   string
		dishes []string
		as     string
		want   int
	}{
		{"a dish", []string{"plain-rice-beans"}, "plain-rice-beans", 0}, {"a side", []string{"side-grain"}, "side-grain", 1}, {"a dish that others eat", []string{"plain-rice-beans"}, "", 1},
		{"a side and a dish", []string{"side-grain", "plain-rice-beans"}, "plain-rice-beans", 0}, {"no dish of the book", []string{"no-such-dish"}, "no-such-dish", 1},
	} {
		for _, meal := range []string{"breakfast", "midday", "evening", "afternoon snack"} {
			s := newSmall(t, 1)
			s.meal(1, meal, 12, c.dishes, nil, s.eats(rice, 100, c.as))
			want := c.want
			if meal == "afternoon snack" {
				want = 0
			}
			if got := s.found(menucheck.NoDish); len(got) != want {
				t.Errorf("%s at %s: %v, want %d", c.name, meal, got, want)
			}
		}
	}
}

// TestOfOneSlot: a dish that is for midday alone, for the evening alone or for breakfast alone is
// a main dish.
func TestOfOneSlot(t *testing.T) {
	seen := 0
	for _, slot := range []dishes.Slot{dishes.Breakfast, dishes.Midday, dishes.Evening} {
		s := newSmall(t, 1)
		i := slices.IndexFunc(s.book.Dishes, func(d *dishes.Dish) bool {
			main := 0
			for _, other := range []dishes.Slot{dishes.Breakfast, dishes.Midday, dishes.Evening} {
				if d.Has(other) {
					main++
				}
			}
			return main == 1 && d.Has(slot)
		})
		if i < 0 {
			continue
		}
		seen++
		key := s.book.Dishes[i].Key
		s.meal(1, string(slot), 12, []string{key}, nil, s.eats(rice, 100, key))
		if got := s.found(menucheck.NoDish); len(got) != 0 {
			t.Errorf("%s is no dish: %v", key, got)
		}
	}
	if seen < 2 {
		t.Error("hardly any dish is for one meal alone: the test shows nothing")
	}
}
