package menu

import (
	"context"
	"math"
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// TestDinerByHand: one day of one who has rice of 3.6 kcal a gram, and a dish of at least 50 g and
// at most 200 g of it at one of two main meals. Breakfast and the other main meal are without a
// dish, at 500 each a head. A gram over the most costs what one beside the dishes does, its 3.6
// kcal; one that lacks to the least one and a half times that; under 25 g there is less than
// a dish: of 20 g four fifths, which lack 20 g and leave a fifth of 500.
func TestDinerByHand(t *testing.T) {
	for _, c := range []struct {
		name        string
		grams       float64
		size, count float64
		own         string // the dish is their own, cooked so; "" of the household
		optional    float64
		want        float64
	}{
		{"usual", 100, 1, 1, "", 0, 1000}, {"the most", 200, 1, 1, "", 0, 1000}, {"50 g over it", 250, 1, 1, "", 0, 1000 + 50*3.6},
		{"the least", 50, 1, 1, "", 0, 1000}, {"20 g under it", 30, 1, 1, "", 0, 1000 + 20*1.5*3.6}, {"less than a dish", 20, 1, 1, "", 0, 1000 + 100 + 20*1.5*3.6},
		{"half size", 125, 0.5, 1, "", 0, 500 + 25*3.6}, {"three of a row", 250, 1, 3, "", 0, 3 * (1000 + 50*3.6)},
		{"an own dish", 100, 1, 1, "none", 0, 1000 + 60}, {"an own pot", 100, 1, 1, "boil", 0, 1000 + 160}, {"an own pot of two of half size", 50, 0.5, 2, "boil", 0, 1000 + 160},
		{"with oil that can be left out", 100, 1, 1, "", 40, 1000}, {"with more oil than it takes", 100, 1, 1, "", 210, 1000 + 10*9},
	} {
		table := newTable(t)
		rice, oil := table.add("rice", 360), table.add("oil", 900)
		cooking := "boil"
		if c.own != "" {
			cooking = c.own
		}
		d := dishOf("rice", cooking, 20, []dishes.Slot{dishes.Midday, dishes.Evening}, "base", rice, "fat?", oil)
		e := &eater{count: c.count, size: c.size, person: &nutrients.Person{AgeMonths: 400}, grams: map[*foods.Food]float64{rice: c.grams}}
		if c.optional > 0 {
			e.grams[oil] = c.optional
		}
		h := &household{days: 1, eaters: []*eater{e}, foods: table.foods, of: table.of}
		p := &program{}
		g := newDiner(h, e, p, -1, 1)
		if c.own == "" {
			g.share(0, d.candidate, false)
		} else {
			g.addOwn(d, false)
		}
		if got := relaxed(t, p); math.Abs(got-c.want) > 1e-6 {
			t.Errorf("%s: costs %g, want %g", c.name, got, c.want)
		}
	}
}

// TestDinerNotServed: who is too young for a dish, or has none of what makes it, has no columns
// of it; what is for breakfast alone has one there, a snack one of its own.
func TestDinerNotServed(t *testing.T) {
	table := newTable(t)
	rice, beans := table.add("rice", 360), table.add("beans", 100)
	all := []dishes.Slot{dishes.Breakfast, dishes.Evening, dishes.Snack, dishes.Drink}
	for _, c := range []struct {
		name   string
		slots  []dishes.Slot
		from   int
		second string // role of the beans, which they have not
		want   [kinds]bool
	}{
		{"all", all, 0, "protein?", [kinds]bool{true, true, true, true}}, {"breakfast", all[:1], 0, "vegetable", [kinds]bool{atBreakfasts: true}}, {"a snack", all[2:3], 0, "protein?", [kinds]bool{atSnacks: true}},
		{"too young", all, 401, "protein?", [kinds]bool{}}, {"what makes it is lacking", all, 0, "protein", [kinds]bool{}}, {"vegetables are lacking", all, 0, "vegetable", [kinds]bool{true, true, true, true}},
	} {
		d := dishOf("d", "boil", 20, c.slots, "base", rice, c.second, beans)
		d.dish.FromMonths = c.from
		e := &eater{count: 1, size: 1, person: &nutrients.Person{AgeMonths: 400}, grams: map[*foods.Food]float64{rice: 100}}
		g := newDiner(&household{days: 2, eaters: []*eater{e}, foods: table.foods, of: table.of}, e, &program{}, -1, 1)
		g.share(0, d.candidate, true)
		served := false
		for k, j := range g.shares[0] {
			served = served || j >= 0
			if (j >= 0) != c.want[k] {
				t.Errorf("%s: has it at places of sort %d: %v", c.name, k, j >= 0)
			}
			if j >= 0 && g.Cols[j].Integer != (kind(k) == atBreakfasts || kind(k) == atMains) {
				t.Errorf("%s: whole at places of sort %d: %v", c.name, k, g.Cols[j].Integer)
			}
		}
		if (len(g.plates[0]) > 0) != served {
			t.Errorf("%s: %d plates", c.name, len(g.plates[0]))
		}
	}
}

// TestChosenDishes: one day of two who have 100 g of each of some foods, of which dishes are made
// that take 50 to 200 g. A food for each meal gives a dish at each; on a cold day the cold
// dishes come first; of two dishes of one food the one that takes no more water than it does
// alone; of who has none of a food the dish of it is not.
func TestChosenDishes(t *testing.T) {
	wet := 5000.0 // mL for 100 g
	mains := []dishes.Slot{dishes.Midday, dishes.Evening}
	for _, c := range []struct {
		name string
		cold bool
		have []string
		want map[string][2]int // at breakfast, at midday and in the evening
	}{
		{"a dish for each meal", false, []string{"oats", "rice", "pasta"}, map[string][2]int{"oats": {1, 0}, "rice": {0, 1}, "pasta": {0, 1}}},
		{"one food too many", false, []string{"oats", "rice"}, map[string][2]int{"oats": {1, 0}, "rice": {0, 1}}},
		{"a cold day", true, []string{"oats", "rice", "pasta", "bread", "cheese", "muesli"}, map[string][2]int{"muesli": {1, 0}, "bread": {0, 1}, "cheese": {0, 1}}},
		{"as often as it is eaten gladly", false, []string{"spelt", "rice"}, map[string][2]int{"spelt": {0, 1}, "rice": {0, 1}}},
		{"dry rather than wet", false, []string{"barley"}, map[string][2]int{"barley": {0, 1}}},
	} {
		table := newTable(t)
		var list []*candidate
		h := &household{days: 1, cook: ration.CookBoil, heads: 2, book: &dishes.Book{}, cold: map[int]bool{}}
		if c.cold {
			h.cold[0] = true
		}
		grams := map[*foods.Food]float64{}
		for _, name := range c.have {
			f := table.add(name, 360)
			grams[f] = 100
			slots, cooking := mains, "boil"
			if name == "oats" || name == "muesli" {
				slots = []dishes.Slot{dishes.Breakfast}
			}
			if name == "bread" || name == "cheese" || name == "muesli" {
				cooking = "none"
			}
			d := dishOf(name, cooking, 20, slots, "base", f)
			d.dish.TimesUsual = 14
			if name == "barley" {
				soup := dishOf("barley soup", cooking, 20, slots, "base", f)
				soup.dish.TimesUsual, soup.parts[0].part.WaterML = 14, &wet
				list = append(list, soup.candidate)
			}
			if name == "spelt" { // of which this is never eaten gladly
				list = append(list, dishOf("spelt cake", cooking, 20, slots, "base", f).candidate)
			}
			list = append(list, d.candidate)
		}
		for _, name := range []string{"Ida", "Leif"} {
			h.eaters = append(h.eaters, &eater{name: name, count: 1, size: 1, person: &nutrients.Person{AgeMonths: 400}, grams: grams})
		}
		h.foods, h.of = table.foods, table.of
		for _, s := range h.foods {
			s.grams, s.days = 200, 1
		}
		chosen, err := h.choose(context.Background(), list)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range chosen {
			if got := [2]int{d.times[atBreakfasts], d.times[atMains]}; got != c.want[d.dish.Key] {
				t.Errorf("%s: %s %v times, want %v", c.name, d.dish.Key, got, c.want[d.dish.Key])
			}
			if math.Abs(d.kcal-720) > 1 || math.Abs(d.protein-18) > 0.1 { // two of 100 g of 3.6 kcal and 0.09 g
				t.Errorf("%s: %g kcal and %g g of protein of %s, want 720 and 18", c.name, d.kcal, d.protein, d.dish.Key)
			}
		}
		if len(chosen) != len(c.want) {
			t.Errorf("%s: %d dishes, want %d", c.name, len(chosen), len(c.want))
		}
	}
}

// TestSeated: of two dishes of the household Leif, who has none of the rice, has the other and at
// the meal of the rice one of his own; Ida has those of the household.
func TestSeated(t *testing.T) {
	table := newTable(t)
	rice, pasta, beans := table.add("rice", 360), table.add("pasta", 360), table.add("beans", 360)
	mains := []dishes.Slot{dishes.Midday, dishes.Evening}
	bowl, plate, pot := dishOf("rice", "boil", 20, mains, "base", rice), dishOf("pasta", "boil", 20, mains, "base", pasta), dishOf("beans", "boil", 20, mains, "base", beans)
	bowl.times[atMains], plate.times[atMains] = 1, 1
	of := func(name string, list ...*foods.Food) *eater {
		e := &eater{name: name, count: 1, size: 1, person: &nutrients.Person{AgeMonths: 400}, grams: map[*foods.Food]float64{}}
		for _, f := range list {
			e.grams[f] = 100
		}
		return e
	}
	ida, leif := of("Ida", rice, pasta), of("Leif", beans, pasta)
	h := &household{days: 1, cook: ration.CookBoil, eaters: []*eater{ida, leif}, foods: table.foods, of: table.of, cold: map[int]bool{}, book: &dishes.Book{Dishes: []*dishes.Dish{bowl.dish, plate.dish, pot.dish}}}
	for _, s := range h.foods {
		s.days = 1
	}
	l := make(layout, meals)
	l[atMidday].main, l[atEvening].main = bowl, plate
	for _, e := range h.eaters {
		if err := h.seat(context.Background(), l, e, []*choice{bowl, plate}); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range []struct {
		e       *eater
		at      int
		want    string
		instead bool
	}{{ida, atMidday, "rice", false}, {ida, atEvening, "pasta", false}, {leif, atMidday, "beans", true}, {leif, atEvening, "pasta", false}} {
		if got := l[c.at].mainOf(c.e).dish.Key; got != c.want || (l[c.at].instead[c.e] != nil) != c.instead {
			t.Errorf("%s has %s at %s, want %s", c.e.name, got, clock[c.at].name, c.want)
		}
	}
	// Near servings crowd: 1 on the day, a half on the next, a third two days away.
	far := make(layout, 4*meals)
	far[atMidday].main, far[meals+atEvening].main, far[3*meals+atMidday].main = pot, pot, pot
	if got := far.crowd(meals+atMidday, ida, pot.dish); math.Abs(got-(0.5+1+1./3)) > 1e-12 {
		t.Errorf("crowd %g, want %g", got, 0.5+1+1./3)
	}
}
