package menu

import (
	"math"
	"slices"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// dishOf is a dish for tests, each of its parts one food of which 100 g are usual, 50 g the
// least and 200 g the most; a part whose role ends in "?" can be left out.
func dishOf(key, cooking string, minutes float64, slots []dishes.Slot, parts ...any) *choice {
	d := &dishes.Dish{Key: key, Name: key, Cooking: cooking, Minutes: minutes, Slots: slots, TimesMax: 14}
	c := &choice{candidate: &candidate{dish: d, cold: cooking == "none"}}
	for i := 0; i < len(parts); i += 2 {
		role, optional := strings.CutSuffix(parts[i].(string), "?")
		f := parts[i+1].(*foods.Food)
		p := &dishes.Part{Name: f.Name, Role: role, Optional: optional, MinG: 50, UsualG: 100, MaxG: 200, ReckonedAs: f, Options: []dishes.Option{{Food: f, Factor: 1}}}
		d.Parts = append(d.Parts, p)
		c.parts = append(c.parts, candidatePart{part: p, options: p.Options})
	}
	return c
}

// TestWhatFitsBeside: a dish of one's own is put where the stove has time, cold on a cold day,
// no main dish beside another, no second of a kind, no second drink, nothing of what the dish
// there is made of, and two at most.
func TestWhatFitsBeside(t *testing.T) {
	rice, beans, bread := &foods.Food{Name: "rice"}, &foods.Food{Name: "beans"}, &foods.Food{Name: "bread"}
	snack, drink, midday := []dishes.Slot{dishes.Snack}, []dishes.Slot{dishes.Drink}, []dishes.Slot{dishes.Midday, dishes.Snack}
	main := dishOf("rice and beans", "boil", 60, midday, "base", rice, "protein", beans)
	slice, cup, tea := dishOf("bread", "none", 5, snack, "base", bread), dishOf("cup", "none", 3, drink, "liquid", beans), dishOf("tea", "boil", 5, drink, "liquid", bread)
	bowl, pot, long := dishOf("bowl of rice", "none", 5, snack, "base", rice), dishOf("pot", "boil", 30, snack, "base", bread), dishOf("long", "boil", 31, snack, "base", bread)
	plate := dishOf("plate", "none", 5, midday, "base", bread)
	e, other := &eater{name: "Ida", person: &nutrients.Person{AgeMonths: 400}}, &eater{name: "Leif", person: &nutrients.Person{AgeMonths: 400}}
	for _, c := range []struct {
		name string
		t    int
		cold bool
		own  []ownDish
		dish *choice
		want bool
	}{
		{"a slice", atMidday, false, nil, slice, true},
		{"a slice twice", atMidday, false, []ownDish{{e, slice}}, slice, false},
		{"a slice that another has", atMidday, false, []ownDish{{other, slice}}, slice, true},
		{"two others", atMidday, false, []ownDish{{e, bowl}, {e, cup}}, slice, false},
		{"two of another's", atMidday, false, []ownDish{{other, bowl}, {other, cup}, {e, cup}}, slice, true},
		{"a second drink", atMidday, false, []ownDish{{e, cup}}, tea, false},
		{"a drink of another's", atMidday, false, []ownDish{{other, cup}}, tea, true},
		{"rice beside rice", atMidday, false, nil, bowl, false},
		{"rice between meals", atMorning, false, nil, bowl, true},
		{"a drink of rice beside rice", atMidday, false, nil, dishOf("rice drink", "none", 1, drink, "base", rice), true},
		{"a main dish beside another", atMidday, false, nil, plate, false},
		{"a main dish between meals", atAfternoon, false, nil, plate, true},
		{"90 minutes at the stove", atMidday, false, nil, pot, true},
		{"91 minutes", atMidday, false, nil, long, false},
		{"31 minutes by themselves", atAfternoon, false, nil, long, true},
		{"cooked on a cold day", atAfternoon, true, nil, pot, false},
		{"cold on a cold day", atAfternoon, true, nil, slice, true},
	} {
		l := make(layout, meals)
		l[atMidday].main, l[c.t].own = main, c.own
		h := &household{days: 1, cold: map[int]bool{0: c.cold}}
		if got := l.fits(h, c.t, e, c.dish); got != c.want {
			t.Errorf("%s: fits %v, want %v", c.name, got, c.want)
		}
	}
	// What is heated at a meal is each dish once, whoever has it.
	l := make(layout, meals)
	l[atMidday] = place{main: main, drinks: []*choice{tea, cup}, instead: map[*eater]*choice{other: pot}, own: []ownDish{{e, pot}, {e, slice}, {other, long}}}
	if got := l.stove(atMidday); got != 60+5+30+31 {
		t.Errorf("%g minutes at the stove, want 126", got)
	}
	if !l.hasTimeFor(atMidday, pot.dish) || !l.hasTimeFor(atMidday, slice.dish) || l.hasTimeFor(atMidday, dishOf("egg", "boil", 1, snack).dish) {
		t.Error("time for what is made there already and for what is not heated, no more")
	}
}

// TestDishForAFood: of what takes a food the dish that takes most of it: by its factor and
// the size of who eats; a cooked one counts a quarter, one that needs another food half, and
// not at all where the food is finished at the meal.
func TestDishForAFood(t *testing.T) {
	milk, oats := &foods.Food{Name: "milk"}, &foods.Food{Name: "oats"}
	snack := []dishes.Slot{dishes.Snack}
	glass, bowl, hot, breakfast := dishOf("glass", "none", 0, []dishes.Slot{dishes.Drink}, "liquid", milk), dishOf("bowl", "none", 0, snack, "base", oats, "protein", milk),
		dishOf("hot", "boil", 0, snack, "liquid", milk), dishOf("breakfast", "none", 0, []dishes.Slot{dishes.Breakfast}, "liquid", milk)
	glass.dish.Parts[0].UsualG = 40
	bowl.dish.Parts[1].UsualG, bowl.dish.Parts[1].Options[0].Factor = 50, 2
	with := dishOf("with", "none", 0, snack, "base", oats, "liquid?", milk)
	e := &eater{size: 0.5, person: &nutrients.Person{AgeMonths: 400}}
	for _, c := range []struct {
		name  string
		own   []*choice
		meal  bool
		want  *choice
		usual float64 // g of the food
	}{
		{"a glass", []*choice{glass}, false, glass, 40 * 0.5},
		{"a bowl takes 100 g and needs oats", []*choice{glass, bowl}, false, bowl, 50 * 2 * 0.5 / 2},
		{"milk that is finished at the meal", []*choice{bowl, glass}, true, glass, 20},
		{"a pot", []*choice{hot}, false, hot, 100 * 0.5 / 4},
		{"a glass rather than a pot", []*choice{hot, glass}, false, glass, 20},
		{"no breakfast", []*choice{breakfast}, false, nil, 0},
		{"what can be left", []*choice{with}, false, nil, 0},
	} {
		got, usual := ownOf(e, &stocked{food: milk, meal: c.meal}, c.own)
		if got != c.want || math.Abs(usual-c.usual) > 1e-9 {
			t.Errorf("%s: %v, %g g, want %v, %g g", c.name, got, usual, c.want, c.usual)
		}
	}
}

// TestWhereWhatIsBesideIsEaten: what keeps is eaten beside one meal of the day, by its group;
// who counts carbohydrate has it at every main meal, what is finished at a meal is eaten
// wherever it is open, what is opened for more than a meal where it is opened, what is eaten
// with another at its meals. On a cold day what must be heated is not.
func TestWhereWhatIsBesideIsEaten(t *testing.T) {
	of := func(group string) *foods.Food {
		return &foods.Food{Group: group, OccasionG: 100, DayG: 100, Per100g: nutrients.Unknown()}
	}
	raw := of("grains")
	raw.Preparation = &foods.Preparation{Class: "boil"}
	open := func(from, last int) []*opening { return []*opening{{from: from, last: last}} }
	plain := &eater{person: &nutrients.Person{AgeMonths: 400}}
	counts, infant := &eater{person: plain.person, band: &ration.MealRange{}}, &eater{person: &nutrients.Person{AgeMonths: 10}, infant: true}
	for _, c := range []struct {
		name string
		e    *eater
		s    *stocked
		with map[int]bool
		cold bool
		want []int
	}{
		{"beans in the evening", plain, &stocked{food: of("canned beans")}, nil, false, []int{atEvening}},
		{"bread at midday", plain, &stocked{food: of("bread and crackers")}, nil, false, []int{atMidday}},
		{"milk at breakfast", plain, &stocked{food: of("milk")}, nil, false, []int{atBreakfast}},
		{"rice in the evening", plain, &stocked{food: raw}, nil, false, []int{atEvening}},
		{"rice on a cold day", plain, &stocked{food: raw}, nil, true, nil},
		{"milk of who counts", counts, &stocked{food: of("milk")}, nil, false, []int{atBreakfast, atMidday, atEvening}},
		{"puree of an infant", infant, &stocked{food: of("milk")}, nil, false, []int{atBreakfast, atMidday, atEvening}},
		{"a can for a meal", plain, &stocked{food: of("canned fish"), meal: true, openings: open(atMorning, atMorning)}, nil, false, []int{atMorning}},
		{"a can for a day", plain, &stocked{food: of("canned fish"), openings: open(atMorning, atEvening)}, nil, false, []int{atMorning, atEvening}},
		{"a can for the forenoon", plain, &stocked{food: of("canned fish"), openings: open(atBreakfast, atMidday)}, nil, false, []int{atBreakfast}},
		{"a can for a day of who counts", counts, &stocked{food: of("canned fish"), openings: open(atMorning, atEvening)}, nil, false, []int{atMorning, atMidday, atAfternoon, atEvening}},
		{"a can for a day of an infant", infant, &stocked{food: of("canned fish"), openings: open(atMorning, atAfternoon)}, nil, false, []int{atMorning, atMidday}},
		{"a can that is not opened", plain, &stocked{food: of("canned fish"), openings: open(-1, -1)}, nil, false, nil},
		{"garlic with its beans", plain, &stocked{food: of("seasonings")}, map[int]bool{atMidday: true}, false, []int{atMidday}},
	} {
		c.e.grams = map[*foods.Food]float64{c.s.food: 10}
		h := &household{days: 1, foods: []*stocked{c.s}, cold: map[int]bool{0: c.cold}}
		var got []int
		for at := range meals {
			h.addBeside(c.e, at, map[*stocked]map[int]bool{c.s: c.with}, func(v serving, _, upper float64) int {
				if !math.IsInf(upper, 1) {
					got = append(got, v.t)
				}
				return 0
			})
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: at %v, want %v", c.name, got, c.want)
		}
		c.e.grams[c.s.food] = 0
		for at := range meals {
			h.addBeside(c.e, at, nil, func(serving, float64, float64) int { t.Errorf("%s: eaten by who has none", c.name); return 0 })
		}
	}
}
