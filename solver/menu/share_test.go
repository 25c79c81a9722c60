package menu

import (
	"context"
	"math"
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
	"rationwright/solver/simplex"
)

// TestDayNearMean: days are held within nine tenths of the room about a mean of 1000: of
// energy from 910 to 1090, of protein from 820 to 1180. What is beyond costs a unit each.
func TestDayNearMean(t *testing.T) {
	for _, c := range []struct{ room, day, want float64 }{
		{EnergyRoom, 1000, 0}, {EnergyRoom, 910, 0}, {EnergyRoom, 900, 10}, {EnergyRoom, 1090, 0}, {EnergyRoom, 1100, 10},
		{ProteinRoom, 820, 0}, {ProteinRoom, 810, 10}, {ProteinRoom, 1180, 0}, {ProteinRoom, 1190, 10},
	} {
		p := &program{}
		m := p.dayMean(14, 1000, 0, false)
		rows := m.goal(p, c.room, 1)
		j := p.col(0, inf)
		p.Cols[j].Lower, p.Cols[j].Upper = c.day, c.day
		m.add(p, rows, j, 1)
		s, err := simplex.New(p.problem())
		if err != nil {
			t.Fatal(err)
		}
		if r := s.Solve(context.Background(), simplex.Limits{}); r.Status != simplex.Optimal || math.Abs(r.Value-c.want) > 1e-6 {
			t.Errorf("a day of %g about 1000, room %g: %v, costs %g, want %g", c.day, c.room, r.Status, r.Value, c.want)
		}
	}
}

// TestOverASittingWithinTheTenth: of 500 g of bread of 4 kcal for four days, 500 kcal a day, nobody
// eats gladly more than 100 g at a sitting. Three days have a sitting more, in a dish. The other has
// 452.5 kcal, 9.5 % under the mean, that is 113.125 g: a kcal over the sitting costs 30 and, beside
// the dishes, 4 times 1, less than the 40 of one near the tenth and more than the 18 of one that is
// 9 % under.
func TestOverASittingWithinTheTenth(t *testing.T) {
	table := newTable(t)
	bread := table.add("bread", 400)
	bread.OccasionG, bread.DayG = 100, 100
	bread.Per100g[nutrients.Protein] = 0
	e := &eater{
		name: "A", count: 1, person: &nutrients.Person{AgeMonths: 360, Sex: nutrients.Female}, size: 1, kcal: 500,
		grams: map[*foods.Food]float64{bread: 500}, may: map[*foods.Food]bool{bread: true},
	}
	h := &household{days: 4, eaters: []*eater{e}, foods: table.foods, of: table.of}
	h.foods[0].days, h.foods[0].grams = 4, 500
	l := make(layout, 4*meals)
	for d := range 3 {
		l[d*meals+atMidday].main = dishOf("bread", "none", 5, []dishes.Slot{dishes.Midday}, "base", bread)
	}
	servings, err := h.share(context.Background(), l)
	if err != nil {
		t.Fatal(err)
	}
	all, last := 0.0, 0.0
	for _, v := range servings {
		all += v.grams
		if dayOf(v.t) == 3 {
			last += v.grams
		}
	}
	if math.Abs(all-500) > 1e-6 || math.Abs(last-113.125) > 1e-6 {
		t.Errorf("%g g in all, %g on the day with one sitting, want 500 and 113.125", all, last)
	}
}

// TestOwnAmountsOfChildren: a dish for the household is served by the size of who eats it,
// one for children as it is written.
func TestOwnAmountsOfChildren(t *testing.T) {
	child := &eater{size: 0.4}
	for months, want := range map[int]float64{0: 0.4, 12: 1, 24: 1} {
		if got := child.scale(&dishes.Dish{UnderMonths: months}); got != want {
			t.Errorf("a dish for those under %d months: %g of it, want %g", months, got, want)
		}
	}
}

// TestEatenByItsDate: of a food of which 100 g are eaten on a mean day, 381 g keep to the
// third day. They are eaten on the first three, though these are then over the mean by
// more than the room.
func TestEatenByItsDate(t *testing.T) {
	f := &foods.Food{Name: "rice", OccasionG: 1000, DayG: 1000, Per100g: nutrients.Unknown()}
	f.Per100g[nutrients.Energy], f.Per100g[nutrients.Protein], f.Per100g[nutrients.Carbohydrate] = 360, 7, 80
	s := &stocked{food: f, grams: 1400, days: 14}
	e := &eater{name: "A", count: 1, person: &nutrients.Person{AgeMonths: 360, Sex: nutrients.Female}, size: 1, grams: map[*foods.Food]float64{f: 1400}, kcal: 360, protein: 7,
		byDate: []ration.DatedFood{{Food: "rice", Day: 3, Grams: 381}}}
	h := &household{days: 14, eaters: []*eater{e}, foods: []*stocked{s}, of: map[*foods.Food]*stocked{f: s}, byName: map[string]*stocked{"rice": s}}
	servings, err := h.share(context.Background(), make(layout, 14*meals))
	if err != nil {
		t.Fatal(err)
	}
	byDay := make([]float64, 14)
	all, early := 0.0, 0.0
	for _, v := range servings {
		byDay[dayOf(v.t)] += v.grams
		all += v.grams
		if dayOf(v.t) < 3 {
			early += v.grams
		}
	}
	if math.Abs(all-1400) > 1e-6 || early < 381-1e-6 {
		t.Errorf("%.1f g in all, %.1f g by the third day, want 1400 and 381: %.1f", all, early, byDay)
	}
}

// TestFewKcalAreNoCrumb: beside the dishes, 1 g of oil is too little to be served; not so
// 2 g of baking powder, of which a whole sitting of 4 g gives 2 kcal (USDA NDB 18369, 53
// kcal in 100 g): else a fortnight's 28 g come together at one meal.
func TestFewKcalAreNoCrumb(t *testing.T) {
	e := &eater{size: 1, person: &nutrients.Person{AgeMonths: 360, Sex: nutrients.Female}}
	for _, c := range []struct {
		kcal, sitting, grams float64
		crumb                bool
	}{{53, 4, 2, false}, {884, 25, 1, true}, {884, 25, 2, false}, {360, 100, 4, true}} {
		f := &foods.Food{OccasionG: c.sitting, DayG: c.sitting, Per100g: nutrients.Unknown()}
		f.Per100g[nutrients.Energy] = c.kcal
		v := serving{eater: e, food: &stocked{food: f}}
		if got := v.isCrumb(c.grams, 14); got != c.crumb {
			t.Errorf("%g g of %g kcal in 100 g, %g g at a sitting: a crumb %t, want %t", c.grams, c.kcal, c.sitting, got, c.crumb)
		}
	}
}

// TestGatheredByHand: what is hardly there goes to the smallest other serving of the same
// food and person; what is opened for a meal stays there, with another of that meal if there is
// one, and so does what has no other, or beyond what is published for a day.
func TestGatheredByHand(t *testing.T) {
	maja, emil := &eater{name: "Maja"}, &eater{name: "Emil"}
	maja.limits = []rules.Limit{{Most: 10, Days: 1, Counts: func(f *foods.Food) float64 {
		if f.Name == "flaxseed" {
			return 1
		}
		return 0
	}}}
	seed, juice := &stocked{food: &foods.Food{Name: "flaxseed"}}, &stocked{food: &foods.Food{Name: "juice"}, openings: []*opening{{}}}
	oil, fish := &stocked{food: &foods.Food{Name: "oil"}}, &stocked{food: &foods.Food{Name: "fish"}, openings: []*opening{{}}}
	got := gathered([]serving{
		{eater: maja, t: 0, food: oil, grams: 0.4}, {eater: maja, t: 1, food: oil, grams: 20}, {eater: maja, t: 2, food: oil, grams: 0.5}, {eater: maja, t: 4, food: oil, grams: 30},
		{eater: emil, t: 0, food: oil, grams: 0.3}, {eater: maja, t: 1, food: fish, grams: 0.2}, {eater: maja, t: 3, food: fish, grams: 50},
		{eater: maja, t: 0, food: seed, grams: 10}, {eater: maja, t: 5, food: seed, grams: 0.4},
		{eater: maja, t: 0, food: juice, grams: 0.2}, {eater: maja, t: 0, food: juice, grams: 150},
	}, 14)
	type plate struct {
		who, what string
		t         int
		g         float64
	}
	want := []plate{{"Maja", "oil", 1, 20}, {"Maja", "oil", 2, 0.9}, {"Maja", "oil", 4, 30}, {"Emil", "oil", 0, 0.3}, {"Maja", "fish", 1, 0.2}, {"Maja", "fish", 3, 50},
		{"Maja", "flaxseed", 0, 10}, {"Maja", "flaxseed", 5, 0.4}, {"Maja", "juice", 0, 150.2}}
	if len(got) != len(want) {
		t.Fatalf("%d servings, want %d", len(got), len(want))
	}
	for i, v := range got {
		if w := want[i]; v.eater.name != w.who || v.food.food.Name != w.what || v.t != w.t || math.Abs(v.grams-w.g) > 1e-9 {
			t.Errorf("%s has %g g of %s at %d, want %+v", v.eater.name, v.grams, v.food.food.Name, v.t, w)
		}
	}
}

// TestSavouryIsNoBreakfast: what stands beside a meal of beans, fish, meat, vegetables or soya
// mince is not for breakfast; egg, grain and milk are.
func TestSavouryIsNoBreakfast(t *testing.T) {
	side := func(group string, allergens ...string) *dishes.Dish {
		return &dishes.Dish{Parts: []*dishes.Part{{ReckonedAs: &foods.Food{Group: group, Allergens: allergens}}}}
	}
	for _, c := range []struct {
		dish *dishes.Dish
		want bool
	}{
		{side("canned beans"), true}, {side("canned fish", "fish"), true}, {side("canned meat and poultry"), true}, {side("canned vegetables"), true}, {side("eggs and soy", "soy"), true},
		{side("eggs and soy", "egg"), false}, {side("grains"), false}, {side("milk", "milk"), false}, {side("drinks", "soy"), false},
	} {
		if got := savoury(c.dish); got != c.want {
			t.Errorf("%s %v: %t, want %t", c.dish.Parts[0].ReckonedAs.Group, c.dish.Parts[0].ReckonedAs.Allergens, got, c.want)
		}
	}
}

// TestOwnInsteadIsApart: who has which dish instead can be tried without a trace, the rest of
// the layout is shared.
func TestOwnInsteadIsApart(t *testing.T) {
	maja, stew, soup := &eater{name: "Maja"}, &choice{}, &choice{}
	l := layout{{main: stew}, {main: stew, instead: map[*eater]*choice{maja: soup}}}
	other := l.withOwnInstead()
	other[0].instead = put(other[0].instead, maja, soup)
	delete(other[1].instead, maja)
	if l[0].mainOf(maja) != stew || l[1].mainOf(maja) != soup {
		t.Error("what was tried stands in the layout before")
	}
	if other[0].mainOf(maja) != soup || other[1].mainOf(maja) != stew {
		t.Error("what was tried does not stand where it was tried")
	}
}

// TestBareMealsByHand: of three main meals of a day, one without a dish and one with less than
// half of the least of its base lack it; 20 g of a least of 40 are enough, and nobody lacks a
// snack.
func TestBareMealsByHand(t *testing.T) {
	rice := &foods.Food{Name: "rice", Group: "grains"}
	part := &dishes.Part{Role: "base", MinG: 40, UsualG: 60, MaxG: 90, ReckonedAs: rice, Options: []dishes.Option{{Food: rice, Factor: 1}}}
	c := &choice{candidate: &candidate{dish: &dishes.Dish{Key: "rice", Parts: []*dishes.Part{part}}, parts: []candidatePart{{part: part}}}}
	maja := &eater{name: "Maja", size: 1, person: &nutrients.Person{AgeMonths: 360}}
	l := make(layout, meals)
	l[atBreakfast].main, l[atEvening].main = c, c
	food := &stocked{food: rice}
	servings := func(evening float64) []serving {
		return []serving{{eater: maja, t: atBreakfast, of: c, part: &c.parts[0], food: food, grams: 60}, {eater: maja, t: atEvening, of: c, part: &c.parts[0], food: food, grams: evening}}
	}
	for _, w := range []struct {
		evening float64
		want    int
	}{{60, 1}, {20, 1}, {19, 2}} {
		if got := l.bare(servings(w.evening), []*eater{maja}); got != w.want {
			t.Errorf("%g g in the evening: %d meals lack it, want %d", w.evening, got, w.want)
		}
	}
}

// TestSaltIsNotLeft: to leave a gram of salt, which gives no energy, is worse than to eat it
// beyond a sitting of 1 g: the plan's salt is a need. 0.24 g of it were left once.
func TestSaltIsNotLeft(t *testing.T) {
	f := &foods.Food{Name: "salt", OccasionG: 1, DayG: 2, Per100g: nutrients.Unknown()}
	s := &stocked{food: f, grams: 2, days: 1}
	e := &eater{name: "A", count: 1, person: &nutrients.Person{AgeMonths: 360, Sex: nutrients.Female}, size: 1, grams: map[*foods.Food]float64{f: 2}}
	h := &household{days: 1, eaters: []*eater{e}, foods: []*stocked{s}, of: map[*foods.Food]*stocked{f: s}, byName: map[string]*stocked{"salt": s}}
	_, p := h.shareProgram(make(layout, meals), []*eater{e}, nil, nil)
	over := newSittings()
	over.add(e, s, atEvening, 0)
	over.add(e, s, atEvening, 1)
	q := &program{}
	q.col(0, inf)
	q.col(0, inf)
	over.hold(q, e)
	if len(p.uneaten) != 1 || len(q.Cols) != 3 {
		t.Fatalf("%d columns of what is left, %d of what is over: want 1 and 3", len(p.uneaten), len(q.Cols))
	}
	if left, over := p.Cols[p.uneaten[0]].Cost, q.Cols[2].Cost; left <= over {
		t.Errorf("a gram left costs %g, a gram over the sitting %g", left, over)
	}
}
