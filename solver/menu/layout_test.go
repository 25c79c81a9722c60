package menu

import (
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
)

// TestNoDishRuns: two breakfasts of the same energy, seven times each in a fortnight, can
// stand on days in turn, and do; two main dishes are never both on one day.
func TestNoDishRuns(t *testing.T) {
	dish := func(slot dishes.Slot, base string) *candidate {
		part := &dishes.Part{Role: "base", ReckonedAs: &foods.Food{Name: base}}
		return &candidate{dish: &dishes.Dish{Key: base, Slots: []dishes.Slot{slot}, Parts: []*dishes.Part{part}}}
	}
	var chosen []*choice
	for _, name := range []string{"oats", "bread"} {
		c := &choice{candidate: dish(dishes.Breakfast, name), kcal: 500, protein: 15}
		c.times[atBreakfasts] = 7
		chosen = append(chosen, c)
	}
	for _, name := range []string{"rice", "pasta", "beans", "potatoes"} {
		c := &choice{candidate: dish(dishes.Midday, name), kcal: 800, protein: 25}
		c.dish.Slots = append(c.dish.Slots, dishes.Evening)
		c.times[atMains] = 7
		chosen = append(chosen, c)
	}
	h := &household{days: 14}
	l := h.lay(chosen)
	count := map[*choice]int{}
	for d := range h.days {
		today := map[*choice]bool{}
		for _, m := range mainMeals {
			c := l[d*meals+m].main
			if c == nil {
				t.Fatalf("nothing on day %d, meal %d", d+1, m)
			}
			if today[c] {
				t.Errorf("%s twice on day %d", c.dish.Key, d+1)
			}
			today[c] = true
			count[c]++
			for _, before := range mainMeals {
				if d > 0 && l[(d-1)*meals+before].main == c {
					t.Errorf("%s on days %d and %d", c.dish.Key, d, d+1)
				}
			}
		}
	}
	for _, c := range chosen {
		if count[c] != 7 {
			t.Errorf("%s %d times of 7", c.dish.Key, count[c])
		}
	}
}
