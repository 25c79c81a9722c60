package menu

import (
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/solver/ration"
)

// TestGroup: the packs of a food are parted over its openings with none left out, none
// twice, none empty, and with like contents.
func TestGroup(t *testing.T) {
	for _, c := range []struct{ packs, openings int }{{1, 1}, {5, 5}, {7, 3}, {20, 6}, {3, 2}} {
		s := &stocked{food: &foods.Food{}}
		for range c.packs {
			s.packs = append(s.packs, opened{&foods.Pack{NetG: 200}, noDate})
		}
		s.group(c.openings)
		if len(s.openings) != c.openings {
			t.Fatalf("%d packs in %d openings, want %d", c.packs, len(s.openings), c.openings)
		}
		n, least, most := 0, inf, 0.0
		for _, o := range s.openings {
			n += len(o.packs)
			least, most = min(least, o.grams), max(most, o.grams)
			if o.grams != 200*float64(len(o.packs)) {
				t.Errorf("%d packs hold %g g", len(o.packs), o.grams)
			}
		}
		if n != c.packs || least <= 0 || most-least > 200 {
			t.Errorf("%d packs in %d openings: %d opened, from %g to %g g", c.packs, c.openings, n, least, most)
		}
	}
}

// TestInTurn: what is repeated is spread over the list, none of it lost.
func TestInTurn(t *testing.T) {
	a, b, c := &choice{}, &choice{}, &choice{}
	list := inTurn([]*choice{a, a, a, a, b, b, c, c})
	count := map[*choice]int{}
	half := 0
	for i, x := range list {
		count[x]++
		if i < len(list)/2 && x == a {
			half++
		}
	}
	if half != 2 {
		t.Errorf("%d of 4 in the first half", half)
	}
	if count[a] != 4 || count[b] != 2 || count[c] != 2 {
		t.Errorf("counts %v", count)
	}
}

// TestColdOnly: what is better hot is eaten cold where nothing is heated, and where
// some day is cold.
func TestColdOnly(t *testing.T) {
	cold, hot := &dishes.Dish{Cooking: "none", ColdOnly: true}, &dishes.Dish{Cooking: "boil"}
	plain, oneDay := &household{}, &household{cold: map[int]bool{3: true}}
	for _, c := range []struct {
		h    *household
		d    *dishes.Dish
		cook ration.Cook
		want bool
	}{
		{plain, cold, ration.CookNone, true},
		{plain, cold, ration.CookBoil, false},
		{oneDay, cold, ration.CookBoil, true},
		{plain, hot, ration.CookNone, false},
		{plain, hot, ration.CookBoil, true},
	} {
		c.h.cook = c.cook
		if got := c.h.cooks(c.d); got != c.want {
			t.Errorf("%+v, cook %s, %d cold days: %v", c.d, c.cook, len(c.h.cold), got)
		}
	}
}
