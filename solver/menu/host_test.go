package menu

import (
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
)

// TestMoreThanIsEatenAtASitting: where one meal is no place for all that there is of a food,
// it may be opened between the meals too, where it is enough only there.
func TestMoreThanIsEatenAtASitting(t *testing.T) {
	for _, c := range []struct {
		jars   int
		places int
	}{{2, 2}, {3, 6}} {
		fruit := &foods.Food{Name: "fruit", OccasionG: 100, DayG: 300, Keeping: &foods.Keeping{AfterOpenHours: 2}}
		s := &stocked{food: fruit, grams: 100 * float64(c.jars), meal: true}
		for range c.jars {
			s.packs = append(s.packs, opened{&foods.Pack{NetG: 100}, noDate})
		}
		e := &eater{person: &nutrients.Person{AgeMonths: 480}, size: 1, count: 1, grams: map[*foods.Food]float64{fruit: s.grams}}
		part := &dishes.Part{Role: "base", MinG: 50, UsualG: 100, MaxG: 150, ReckonedAs: fruit, Options: []dishes.Option{{Food: fruit, Factor: 1}}}
		bowl := &choice{candidate: &candidate{dish: &dishes.Dish{Key: "bowl"}, parts: []candidatePart{{part: part, options: part.Options}}}}
		h := &household{days: 2, of: map[*foods.Food]*stocked{fruit: s}, foods: []*stocked{s}, eaters: []*eater{e}, cold: map[int]bool{}}
		l := make(layout, h.days*meals)
		l[atBreakfast].main, l[meals+atBreakfast].main = bowl, bowl
		p := &hosting{program: &program{}, h: h, l: l, content: map[*stocked]map[int]int{}, needs: map[need]int{}}
		p.addOpenings(s)
		if got := len(p.content[s]); got != c.places {
			t.Errorf("%d jars, one a sitting, two breakfasts: %d places to open them, want %d", c.jars, got, c.places)
		}
	}
}
