package withmenu

import (
	"maps"
	"math"
	"slices"
	"testing"

	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestGivenByHand: how often the household eats which dish, in whole numbers; which dishes a party
// has in place of it, and servings between the meals for each of the party, by the servings
// that it is, of a child's dish by heads.
func TestGivenByHand(t *testing.T) {
	porridge, stew, never, glass, mash := &dishes.Dish{Key: "porridge"}, &dishes.Dish{Key: "stew"}, &dishes.Dish{Key: "never"}, &dishes.Dish{Key: "glass"}, &dishes.Dish{Key: "mash", UnderMonths: 36}
	//            0  1          2  3  4     5  6    7  8
	x := []float64{3, 1.9999999, 4, 0, 1e-9, 6, 0.5, 9, 2}
	eater := func(name string) *model.Eater { return &model.Eater{Person: nutrients.Person{Name: name}} }
	seating := &model.Seating{
		Seats: []*model.Seat{{Dish: porridge, Breakfast: 0, Main: -1}, {Dish: stew, Breakfast: 1, Main: 2}, {Dish: never, Breakfast: 3, Main: 3}},
		Parties: []*model.Party{
			{Eaters: []*model.Eater{eater("Ida"), eater("Leif")}, Heads: 2.5, Count: 2, Own: []*model.OwnDish{{Dish: glass, Breakfast: -1, Main: -1, Between: 5}, {Dish: stew, Breakfast: 6, Main: -1, Between: -1}, {Dish: never, Breakfast: 4, Main: 3, Between: 4}}},
			{Eaters: []*model.Eater{eater("Tuva")}, Heads: 0.5, Count: 3, Own: []*model.OwnDish{{Dish: mash, Breakfast: -1, Main: 8, Between: 7}}},
		},
	}
	counts := countsOf(seating, x)
	if want := map[string][2]int{"porridge": {3, 0}, "stew": {2, 4}}; !maps.Equal(counts, want) {
		t.Errorf("counts %v, want %v", counts, want)
	}
	g := given(seating, &chosen{counts: counts}, x)
	if !maps.Equal(g.Counts, counts) {
		t.Errorf("counts %v", g.Counts)
	}
	for name, want := range map[string]map[string]float64{"Ida": {"glass": 6 / 2.5}, "Leif": {"glass": 6 / 2.5}, "Tuva": {"mash": 3}} {
		if !maps.Equal(g.Between[name], want) {
			t.Errorf("%s has %v between meals, want %v", name, g.Between[name], want)
		}
	}
	for name, want := range map[string][]string{"Ida": {"stew"}, "Leif": {"stew"}, "Tuva": {"mash"}} {
		if got := slices.Sorted(maps.Keys(g.Instead[name])); !slices.Equal(got, want) {
			t.Errorf("%s has %v instead, want %v", name, got, want)
		}
	}
}

// TestMostSodium: who is to have little sodium may have with dishes a quarter more of it than
// without, where the plan sought little; nobody else is held to it.
func TestMostSodium(t *testing.T) {
	free := func() *ration.Plan {
		need := func(mg float64) []ration.PersonNeed {
			return []ration.PersonNeed{{Nutrient: nutrients.Sodium.Name(), Amount: mg}}
		}
		return &ration.Plan{
			First: &ration.First{}, Eatable: &ration.Eatable{LittleSodium: &ration.LittleSodium{People: []string{"Aud", "gone", "Nils"}}},
			People: []ration.PlanPerson{{Name: "Ida", Needs: need(3000)}, {Name: "Aud", Needs: need(1600)}, {Name: "Nils"}},
		}
	}
	if got := littleSodium(free()); !maps.Equal(got, map[string]float64{"Aud": 2000}) {
		t.Errorf("%v, want 2000 mg of Aud", got)
	}
	for name, change := range map[string]func(*ration.Plan){
		"no second aim": func(p *ration.Plan) { p.First = nil }, "nothing said": func(p *ration.Plan) { p.Eatable = nil }, "none sought": func(p *ration.Plan) { p.Eatable.LittleSodium = nil },
	} {
		p := free()
		if change(p); littleSodium(p) != nil {
			t.Errorf("%s: %v", name, littleSodium(p))
		}
	}
	aud := rationtest.Adult("Aud", 60, nutrients.Female)
	aud.Conditions = []nutrients.Condition{nutrients.LowSodium}
	ida := rationtest.Adult("Ida", 33, nutrients.Female)
	for _, c := range []struct {
		people []nutrients.Person
		slack  float64
		want   bool
	}{{[]nutrients.Person{ida, aud}, 0.03, true}, {[]nutrients.Person{ida, aud}, 0, false}, {[]nutrients.Person{ida}, 0.03, false}} {
		if got := harmed(&ration.Request{People: c.people, Slack: c.slack}); got != c.want {
			t.Errorf("%d people, slack %g: %v", len(c.people), c.slack, got)
		}
	}
}

// TestWhatDishesAdd: dishes add 12 to a plan of 100 without them: 12 %; of a plan with a second
// aim it is its first that counts. Why there are none is said beside the same value.
func TestWhatDishesAdd(t *testing.T) {
	hundred, spent, bound, gap, other := 100.0, 103.0, 95.0, 0.05, 0.08
	req := &ration.Request{Least: ration.LeastCost}
	plain := &ration.Plan{Value: &hundred, Bound: &bound, Gap: &gap}
	aimed := &ration.Plan{Value: &spent, Bound: &bound, Gap: &other, First: &ration.First{Value: 100, Gap: &gap}}
	for name, free := range map[string]*ration.Plan{"plain": plain, "with a second aim": aimed} {
		got := (&dining{req: req, free: free, room: 0.1}).cost(112)
		if got.Value != 100 || *got.Bound != 95 || *got.Gap != 0.05 || got.Room != 0.1 || math.Abs(got.Price-0.12) > 1e-12 || got.None != "" {
			t.Errorf("%s: %+v", name, got)
		}
		if got := none(free, "no dishes"); got.Value != 100 || *got.Bound != 95 || *got.Gap != 0.05 || got.None != "no dishes" || got.Price != 0 {
			t.Errorf("%s: %+v", name, got)
		}
	}
	zero := 0.0 // of a plan that costs nothing the price is by the cent
	if got := (&dining{req: req, free: &ration.Plan{Value: &zero}}).cost(0.02); math.Abs(got.Price-2) > 1e-9 {
		t.Errorf("%+v, want twice", got)
	}
}

// TestSmallerSetOfDishes: of more than 140 foods that somebody may eat dishes are those of the
// smaller set, for children, or the user's own; for the last way, and of fewer foods, all.
func TestSmallerSetOfDishes(t *testing.T) {
	plain, core, own, child := &dishes.Dish{}, &dishes.Dish{Core: true}, &dishes.Dish{Own: true}, &dishes.Dish{UnderMonths: 12}
	for _, c := range []struct {
		in, nobodys int
		beside      float64
		want        bool // the plain one too
	}{{140, 0, 0, true}, {141, 0, 0, false}, {150, 10, 0, true}, {151, 10, 0, false}, {200, 0, 0.1, false}, {200, 0, 0.4, true}} {
		l := &larder{in: make([]bool, 300), nobodys: c.nobodys}
		for i := range c.in {
			l.in[2*i%300+i/150] = true
		}
		if got := l.foods(); got != c.in-c.nobodys {
			t.Errorf("%d foods, want %d", got, c.in-c.nobodys)
		}
		all := l.dishes(c.beside)
		if all(plain) != c.want || !all(core) || !all(own) || !all(child) {
			t.Errorf("%+v: all dishes %v; of the smaller set, own and children's %v, %v, %v", c, all(plain), all(core), all(own), all(child))
		}
	}
}
