package menucheck_test

import (
	"math"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/menucheck"
	"rationwright/solver/ration"
)

// TestAlikeOfMedicines: who takes a medicine that asks for it has each day within 30 % of the
// mean of that nutrient: with 100 g on 13 days, and r·1300/(14 − r) g on the other, that day
// has r times the mean.
func TestAlikeOfMedicines(t *testing.T) {
	for _, c := range []struct {
		times     float64
		condition nutrients.Condition
		want      int
	}{{1.29, nutrients.PotassiumSparing, 0}, {1.31, nutrients.PotassiumSparing, 1}, {0.71, nutrients.PotassiumSparing, 0}, {0.69, nutrients.PotassiumSparing, 1}, {1.31, nutrients.Lithium, 1}, {1.31, nutrients.Vegetarian, 0}} {
		s := newSmall(t, 14)
		s.ask = func(r *ration.Request) { r.People[0].Conditions = []nutrients.Condition{c.condition} }
		for day := 1; day <= 14; day++ {
			grams := 100.0
			if day == 5 {
				grams = c.times * 1300 / (14 - c.times)
			}
			s.meal(day, "midday", 12, nil, nil, s.eats(rice, grams, ""))
		}
		if got := s.found(menucheck.Steady); len(got) != c.want || c.want == 1 && math.Abs(got[0]-math.Abs(c.times-1)) > 1e-9 {
			t.Errorf("%s, a day of %g times the mean: %v, want %d", c.condition, c.times, got, c.want)
		}
	}
}

// TestMostOfADay: 10 g of ground flaxseed a day at most (EFSA Journal 17(4):5662), of each person
// and day, with half a hundredth of room.
func TestMostOfADay(t *testing.T) {
	s := newSmall(t, 2)
	var seed *foods.Food
	for _, f := range s.table.Foods {
		if f.NDB == "12220" {
			seed = f
		}
	}
	for grams, want := range map[float64]int{5: 0, 5.02: 0, 5.03: 1} { // at each of two meals
		s.days[0]["meals"], s.days[1]["meals"] = []any{}, []any{}
		for _, day := range []int{1, 1, 2} {
			s.meal(day, "midday", 12, nil, nil, map[string]any{"food": seed.Name, "dish": "", "grams": grams})
		}
		if got := s.found(menucheck.Daily); len(got) != want {
			t.Errorf("twice %g g: %v, want %d", grams, got, want)
		}
	}
}
