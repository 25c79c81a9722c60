package menu

import (
	"context"
	"math"
	"slices"
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/rules"
)

// TestMenuOfGivenDishes: two days of six dishes that were chosen with the plan, each once, for
// two women who are Ida, and Leif. All eat 100 g of each, a serving of the usual size, but of
// rice: Leif has none, and in its place the pot of lentils that was chosen for him; Ida has 40 g
// in the plan, and may have up to 60. She eats 740 g in all where a usual adult eats 800, so
// that her bowl has 0.925 · 50 g at least. In the afternoon of both days there is a cup of
// fruit. What a bowl takes of water beyond what rice takes is 1.5 mL a gram, with the spare that
// is stored. Corn is finished at its meal.
func TestMenuOfGivenDishes(t *testing.T) {
	table := rationtest.Table(t)
	table.Foods, table.Packs = nil, nil
	add := func(ndb, name string, keepsH float64) *foods.Food {
		f := &foods.Food{NDB: ndb, Name: name, OccasionG: 400, DayG: 800, Per100g: nutrients.Unknown(), Keeping: &foods.Keeping{AfterOpenHours: keepsH}}
		f.Per100g[nutrients.Energy], f.Per100g[nutrients.Protein], f.Per100g[nutrients.Carbohydrate] = 512.5, 20, 60
		table.Foods = append(table.Foods, f)
		return f
	}
	mains, breakfast, snack := []dishes.Slot{dishes.Midday, dishes.Evening}, []dishes.Slot{dishes.Breakfast}, []dishes.Slot{dishes.Snack}
	of := []struct {
		food, dish string
		slots      []dishes.Slot
		keepsH     float64
		ida, leif  float64 // g of each, at the point
		counts     [2]int
	}{
		{"oats", "porridge", breakfast, 720, 100, 100, [2]int{1, 0}}, {"wheat", "gruel", breakfast, 720, 100, 100, [2]int{1, 0}},
		{"rice", "bowl", mains, 720, 40, 0, [2]int{0, 1}}, {"pasta", "bake", mains, 720, 100, 100, [2]int{0, 1}},
		{"beans", "stew", mains, 720, 100, 100, [2]int{0, 1}}, {"corn", "pie", mains, 2, 100, 100, [2]int{0, 1}},
		{"lentils", "pot", mains, 720, 0, 100, [2]int{}}, {"fruit", "cup", snack, 720, 200, 200, [2]int{}},
	}
	m := &model.Model{Problem: &linear.Problem{}, Eaters: []*model.Eater{{Person: nutrients.Person{Name: "Ida"}}, {Person: nutrients.Person{Name: "Leif"}}}}
	m.Problem.AddRow("stored", -inf, 10)
	m.Rows = []model.RowInfo{{Kind: model.RowAllWater}}
	ida, leif := rationtest.Adult("Ida", 33, nutrients.Female), rationtest.Adult("Leif", 60, nutrients.Male)
	ida.Count, leif.Count = 2, 1
	plan := &ration.Plan{Days: 2, People: []ration.PlanPerson{{Name: "Ida", Count: 2}, {Name: "Leif", Count: 1}}}
	book := &dishes.Book{}
	given := &Given{Model: m, Counts: map[string][2]int{"unknown": {3, 3}}, Most: inf, Between: map[string]map[string]float64{"Ida": {"cup": 2}, "Leif": {"cup": 1.96}}, Instead: map[string]map[string]bool{"Leif": {"pot": true}}}
	var point []float64
	column := map[[2]string]int{}
	water := 150.0
	for li, v := range of {
		f := add("2000"+string(rune('0'+li)), v.food, v.keepsH)
		m.Larder = append(m.Larder, &model.LarderFood{Food: f, Balance: -1})
		d := dishOf(v.dish, "none", 5, v.slots, "base", f).dish
		if v.food == "rice" {
			d.Parts[0].WaterML = &water
		}
		book.Dishes = append(book.Dishes, d)
		if v.counts != [2]int{} {
			given.Counts[v.dish] = v.counts
		}
		table.Packs = append(table.Packs, &foods.Pack{Key: v.food + "-bag", Food: f, NetG: 2*v.ida + v.leif})
		plan.Packs = append(plan.Packs, ration.PlanPack{Pack: v.food + "-bag", Food: v.food, Count: 1})
		for i, grams := range []float64{v.ida, v.leif} {
			if grams == 0 {
				continue
			}
			upper := grams
			if v.food == "rice" {
				upper = 60
			}
			e, j := m.Eaters[i], m.Problem.AddCol("", 0.01, grams, upper, false)
			n := len(e.Eats)
			e.Eats = slices.Grow(e.Eats, 1)[:n+1]
			e.Eats[n].Food, e.Eats[n].Col = li, j
			column[[2]string{plan.People[i].Name, v.food}] = j
			point = append(point, grams)
			plan.People[i].Foods = append(plan.People[i].Foods, ration.PersonFood{Food: v.food, Grams: grams})
		}
	}
	m.Cols = slices.Grow(m.Cols, len(point))[:len(point)]
	req := &Request{Plan: plan, Of: &ration.Request{People: []nutrients.Person{ida, leif}, Table: table, Start: "2026-01-05", Days: 2, Cook: ration.CookNone}, Book: book}
	menu, x, beyondL, err := MakeGiven(context.Background(), req, given, slices.Clone(point))
	if err != nil || menu == nil {
		t.Fatal(menu, err)
	}
	if len(x) != len(point) {
		t.Fatalf("%d values, the model has %d columns", len(x), len(point))
	}
	served := map[[2]string]float64{}
	at, corn := map[string][]string{}, 0
	for _, d := range menu.Days {
		for _, meal := range d.Meals {
			for _, dish := range meal.Dishes {
				at[dish.Key] = append(at[dish.Key], meal.Meal)
				if want := map[string][]string{"bowl": {"Ida"}, "pot": {"Leif"}}[dish.Key]; !slices.Equal(dish.For, want) {
					t.Errorf("%s is for %v, want %v", dish.Key, dish.For, want)
				}
			}
			if slices.Contains(meal.Opens, "corn-bag") {
				corn++
				if !slices.ContainsFunc(meal.Dishes, func(d Dish) bool { return d.Key == "pie" }) {
					t.Errorf("the corn is opened at %s of day %d, where there is no pie", meal.Meal, d.Day)
				}
			}
			for _, p := range meal.People {
				for _, a := range p.Foods {
					served[[2]string{p.Name, a.Food}] += a.Grams
					if i := slices.IndexFunc(book.Dishes, func(d *dishes.Dish) bool { return d.Parts[0].Name == a.Food }); a.Dish != book.Dishes[i].Key {
						t.Errorf("%s has %g g of %s in %q", p.Name, a.Grams, a.Food, a.Dish)
					}
				}
			}
		}
	}
	for _, v := range of {
		list, once := at[v.dish], [][]string{{"midday"}, {"evening"}}
		switch v.slots[0] {
		case dishes.Breakfast:
			once = [][]string{{"breakfast"}}
		case dishes.Snack:
			once = [][]string{{"afternoon snack", "afternoon snack"}}
		}
		if !slices.ContainsFunc(once, func(want []string) bool { return slices.Equal(list, want) }) {
			t.Errorf("%s at %v, want one of %v", v.dish, list, once)
		}
	}
	if corn != 1 {
		t.Errorf("the corn is opened %d times", corn)
	}
	rice := column[[2]string{"Ida", "rice"}]
	for key, j := range column {
		if math.Abs(served[key]-x[j]) > 1e-6 || j != rice && math.Abs(x[j]-point[j]) > 1e-6 {
			t.Errorf("%v: %g g are served, %g at the point, %g in the plan", key, served[key], x[j], point[j])
		}
	}
	if x[rice] < 46.25-1e-6 || x[rice] > 60+1e-6 {
		t.Errorf("%g g of rice, want from 46.25 to 60", x[rice])
	}
	if want := 2 * x[rice] * 0.0015 * rules.WaterFigure().SpillFactor; math.Abs(beyondL-want) > 1e-9 {
		t.Errorf("%g L are stored for it, want %g", beyondL, want)
	}
	// A plan that may come to less than what all eat costs at the least cannot be shared out.
	given.Most = 0.01*(740+800) - 0.1
	if menu, x, beyondL, err := MakeGiven(context.Background(), req, given, slices.Clone(point)); menu != nil || x != nil || beyondL != 0 || err != nil {
		t.Errorf("of too little a menu %v, %v, %g L, %v", menu, x, beyondL, err)
	}
}
