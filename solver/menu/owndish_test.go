package menu

import (
	"math"
	"slices"
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// TestRepaired: who has 20 g of a least of 50 g of rice in her dish, and pasta beside it, has a
// dish of that; who has 25 g keeps hers. What makes another dish stays in it, and an infant
// whose jar is all but empty has rather none.
func TestRepaired(t *testing.T) {
	mains := []dishes.Slot{dishes.Midday, dishes.Evening}
	for _, c := range []struct {
		name          string
		rice          float64 // at midday
		beside, other float64 // of pasta: beside that, in the dish of the evening of the next day but one
		want          string
		repaired      bool
	}{
		{"hardly any rice", 20, 60, 0, "pasta", true},
		{"half of the least", 25, 60, 0, "rice", false},
		{"too little pasta", 20, 40, 0, "rice", false},                 // half of a usual 100 g
		{"pasta of the dish of another day", 20, 0, 80, "pasta", true}, // over 27.5 g, which stay
		{"no more than that takes itself", 20, 0, 70, "rice", false},
	} {
		table := newTable(t)
		rice, pasta := table.add("rice", 360), table.add("pasta", 360)
		bowl, dish := dishOf("rice", "boil", 20, mains, "base", rice), dishOf("pasta", "boil", 20, mains, "base", pasta)
		e := &eater{name: "Ida", size: 1, count: 1, person: &nutrients.Person{AgeMonths: 400}, grams: map[*foods.Food]float64{rice: 500, pasta: 500}}
		h := &household{days: 3, cook: ration.CookBoil, foods: table.foods, of: table.of, eaters: []*eater{e}, cold: map[int]bool{}, book: &dishes.Book{}}
		h.book.Dishes = []*dishes.Dish{bowl.dish, dish.dish}
		for _, s := range h.foods {
			s.days = 3
		}
		l := make(layout, 3*meals)
		var servings []serving
		full := func(at int, c *choice, s *stocked, g float64) {
			l[at].main = c
			servings = append(servings, serving{eater: e, t: at, of: c, part: &c.parts[0], food: s, grams: g})
		}
		full(atMidday, bowl, table.of[rice], c.rice)
		for at := range l { // the rest has dishes that lack nothing
			if at != atMidday && !isSnack(mealOf(at)) && (at != 2*meals+atEvening || c.other == 0) {
				x := dishOf("x", "boil", 20, mains, "base", table.add("x", 100))
				x.dish.Key = "x"
				full(at, x, table.foods[len(table.foods)-1], 100)
			}
		}
		h.foods, h.of = table.foods, table.of
		if c.other > 0 {
			full(2*meals+atEvening, dish, table.of[pasta], c.other)
		}
		if c.beside > 0 {
			servings = append(servings, serving{eater: e, t: atEvening, food: table.of[pasta], grams: c.beside / 3}, serving{eater: e, t: meals, food: table.of[pasta], grams: c.beside * 2 / 3}, serving{eater: &eater{}, t: atEvening, food: table.of[pasta], grams: 1000})
		}
		if got := h.repair(l, servings); got != c.repaired || l[atMidday].mainOf(e).dish.Key != c.want {
			t.Errorf("%s: repaired %v, has %s, want %v, %s", c.name, got, l[atMidday].mainOf(e).dish.Key, c.repaired, c.want)
		}
	}
	table := newTable(t)
	puree := table.add("puree", 60)
	jar := dishOf("jar", "none", 0, mains, "base", puree)
	bo := &eater{infant: true, size: 1, person: &nutrients.Person{AgeMonths: 8}, grams: map[*foods.Food]float64{puree: 20}}
	h := &household{days: 1, book: &dishes.Book{}, foods: table.foods, of: table.of, eaters: []*eater{bo}}
	l := make(layout, meals)
	l[atMidday].instead = put(nil, bo, jar)
	if !h.repair(l, []serving{{eater: bo, t: atMidday, of: jar, part: &jar.parts[0], food: table.of[puree], grams: 20}}) || l[atMidday].mainOf(bo) != nil {
		t.Error("an infant's dish of 20 g of 50 g stays")
	}
}

// TestBareBySubstitutes: 12 g of powder are 30 g of beans, half of the least of 50 g and more; of
// half size 5 g are enough; what is eaten of another dish, beside, or by others makes none.
func TestBareBySubstitutes(t *testing.T) {
	table := newTable(t)
	beans, powder := table.add("beans", 100), table.add("powder", 300)
	c := dishOf("beans", "none", 0, nil, "protein", beans)
	c.dish.Parts[0].Options = append(c.dish.Parts[0].Options, dishes.Option{Food: powder, Factor: 0.4, Substitute: true})
	other := dishOf("other", "none", 0, nil, "protein", beans)
	e := &eater{size: 1, person: &nutrients.Person{AgeMonths: 400}}
	l := make(layout, meals)
	for _, m := range mainMeals {
		l[m].main = c
	}
	for _, w := range []struct {
		name string
		of   *choice
		who  *eater
		food *foods.Food
		g    float64
		size float64
		bare bool
	}{
		{"powder", c, e, powder, 10, 1, false}, {"too little powder", c, e, powder, 9.9, 1, true}, {"beans", c, e, beans, 25, 1, false}, {"too few beans", c, e, beans, 24.9, 1, true},
		{"half size", c, e, powder, 5, 0.5, false}, {"another dish", other, e, beans, 100, 1, true}, {"another's", c, &eater{}, beans, 100, 1, true},
	} {
		e.size = w.size
		part := &w.of.parts[0]
		got := l.bareMeals([]serving{{eater: w.who, t: atMidday, of: w.of, part: part, food: table.of[w.food], grams: w.g}, {eater: e, t: atMidday, food: table.of[beans], grams: 100}}, e)
		if got[atMidday] != w.bare || !got[atBreakfast] || !got[atEvening] || got[atMorning] {
			t.Errorf("%s: %g g, bare %v, want %v", w.name, w.g, got, w.bare)
		}
	}
}

// TestChilled: on a cold day a hot dish gives way to a cold one of that meal that stands
// neither on that day, nor the one before or after, nor as often as it may; elsewhere a dish
// that stands twice on a day or on two running does. What is hot between meals is left out.
func TestChilled(t *testing.T) {
	hot := dishOf("hot", "boil", 20, []dishes.Slot{dishes.Midday, dishes.Evening}, "base", &foods.Food{})
	made := func(key string, cold bool, most int, slots ...dishes.Slot) *candidate {
		c := dishOf(key, map[bool]string{true: "none", false: "boil"}[cold], 0, slots, "base", &foods.Food{}).candidate
		c.dish.TimesMax = most
		return c
	}
	midday, evening := []dishes.Slot{dishes.Midday}, []dishes.Slot{dishes.Evening}
	for _, c := range []struct {
		name string
		list []*candidate
		want string
	}{
		{"a cold one", []*candidate{made("salad", true, 7, midday...)}, "salad"},
		{"of the evening", []*candidate{made("salad", true, 7, evening...)}, ""},
		{"a hot one", []*candidate{made("soup", false, 7, midday...)}, ""},
		{"never more than none", []*candidate{made("salad", true, 0, midday...)}, ""},
	} {
		h := &household{days: 3, cold: map[int]bool{1: true}}
		l := make(layout, 3*meals)
		l[meals+atMidday].main, l[meals+atMorning].main, l[2*meals+atMorning].main = hot, hot, hot
		h.chill(l, c.list)
		got := ""
		if l[meals+atMidday].main != nil {
			got = l[meals+atMidday].main.dish.Key
		}
		if got != c.want || l[meals+atMorning].main != nil || l[2*meals+atMorning].main != hot {
			t.Errorf("%s: %q at midday, want %q", c.name, got, c.want)
		}
	}
	// On days that are not cold: the second of two on one day gives way, to that of the list
	// which stands less often.
	h, l := &household{days: 5, cold: map[int]bool{}}, make(layout, 5*meals)
	soup, bake := made("soup", false, 7, dishes.Evening, dishes.Midday), made("bake", false, 7, dishes.Evening)
	l[atMidday].main, l[atEvening].main, l[3*meals+atMidday].main = hot, hot, &choice{candidate: soup}
	h.chill(l, []*candidate{soup, bake})
	if l[atMidday].main == hot && l[atEvening].main == hot || l[atMidday].main == nil || l[atEvening].main == nil || l[atMidday].main.dish == l[atEvening].main.dish {
		t.Error("the same dish twice on a day")
	}
	// Near: 1000 for each on the day, 100 the day before or after, one else.
	l = make(layout, 5*meals)
	for _, at := range []int{atMidday, meals + atEvening, 2*meals + atBreakfast, 4*meals + atMidday, 2*meals + atMorning} {
		l[at].main = hot
	}
	for day, want := range []float64{1000 + 100 + 2, 100 + 1000 + 100 + 1, 1 + 100 + 1000 + 1, 2 + 100 + 100, 3 + 1000} {
		if got := l.near(day*meals+atEvening, hot.dish); got != want {
			t.Errorf("day %d: %g, want %g", day+1, got, want)
		}
	}
	for days, want := range map[int]int{1: 3, 14: 3, 15: 6, 28: 6, 29: 9} { // three times in each begun fortnight
		if got := mostServed(&dishes.Dish{TimesMax: 3}, days); got != want {
			t.Errorf("%d days: %d times, want %d", days, got, want)
		}
	}
}

// TestWarmedDishesAreCold: a dish that is only warmed can be made on a cold day where all that
// is in it may be eaten cold, and one without heat always; for one alone what is warmed takes
// the pot.
func TestWarmedDishesAreCold(t *testing.T) {
	for _, c := range []struct {
		cooking string
		coldOK  bool
		want    bool
	}{{"none", true, true}, {"warm", true, true}, {"warm", false, false}, {"boil", true, false}} {
		f := &foods.Food{Name: "f", Preparation: &foods.Preparation{Class: "warm", ColdOK: c.coldOK}}
		d := dishOf("d", c.cooking, 0, nil, "base", f).dish
		e := &eater{count: 1, size: 1, person: &nutrients.Person{AgeMonths: 400}, grams: map[*foods.Food]float64{f: 1}}
		h := &household{days: 1, cook: ration.CookBoil, eaters: []*eater{e}, heads: 1, of: map[*foods.Food]*stocked{f: {food: f}}}
		got := h.candidate(d)
		if got == nil || got.cold != c.want {
			t.Errorf("%s, cold allowed %v: %+v, want cold %v", c.cooking, c.coldOK, got, c.want)
		}
		if own := e.partsFor(d); own.cold != (c.cooking == "none") {
			t.Errorf("%s for one alone: cold %v", c.cooking, own.cold)
		}
	}
}

// TestSnackOfWhatIsLeft: 250 g of nut butter beside the dishes, of which a snack takes 100 g,
// are three snacks, in the afternoon of each of three days; a pot stands beside main meals, a
// savoury one not at breakfast; of a can that is open on the second day one is had then.
func TestSnackOfWhatIsLeft(t *testing.T) {
	snack := []dishes.Slot{dishes.Snack}
	for _, c := range []struct {
		name     string
		cooking  string
		group    string
		grams    float64
		openings []*opening
		want     []int
	}{
		{"cold", "none", "nuts", 250, nil, []int{atAfternoon, meals + atAfternoon, 2*meals + atAfternoon}},
		{"once", "none", "nuts", 100, nil, []int{atAfternoon}},
		{"a pot", "boil", "grains", 120, nil, []int{atMidday, atEvening, meals + atEvening, 2*meals + atEvening, meals + atMidday}},
		{"a savoury pot", "boil", "canned beans", 1000, nil, []int{atEvening, atMidday, meals + atEvening, meals + atMidday, 2*meals + atEvening, 2*meals + atMidday}},
		{"a can", "none", "canned fish", 150, []*opening{{from: meals, last: 2*meals - 1}}, []int{meals + atAfternoon, meals + atMorning}},
		{"two cans", "none", "canned fish", 100, []*opening{{from: meals + atMidday, last: 2*meals - 1}, {from: 2 * meals, last: 2*meals + atMorning}}, []int{meals + atAfternoon, 2*meals + atMorning}},
		{"a can that is not opened", "none", "canned fish", 100, []*opening{{from: -1, last: -1}}, nil},
	} {
		table := newTable(t)
		f := table.add("f", 500)
		f.Group = c.group
		d := dishOf("d", c.cooking, 0, snack, "base", f)
		e := &eater{name: "Ida", size: 1, person: &nutrients.Person{AgeMonths: 400}, grams: map[*foods.Food]float64{f: 500}}
		h := &household{days: 3, eaters: []*eater{e}, foods: table.foods, of: table.of, cold: map[int]bool{}}
		s := table.of[f]
		s.openings = c.openings
		l := make(layout, 3*meals)
		h.snack(l, e, s, []*choice{d}, c.grams)
		var got []int
		for at := range l {
			if l.owns(at, e) > 0 {
				got = append(got, at)
			}
		}
		slices.Sort(c.want)
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: at %v, want %v", c.name, got, c.want)
		}
	}
	// What is beside the dishes under 6 kcal a day of an adult is no snack.
	for grams, want := range map[float64]int{3.5: 0, 3.7: 1} { // of 500 kcal in 100 g, in three days 18 kcal
		table := newTable(t)
		f := table.add("f", 500)
		table.of[f].days = 3
		d := dishOf("d", "none", 0, snack, "base", f)
		e := &eater{name: "Ida", size: 1, person: &nutrients.Person{AgeMonths: 400}, grams: map[*foods.Food]float64{f: 500}}
		h := &household{days: 3, eaters: []*eater{{name: "Leif"}, e}, foods: table.foods, of: table.of, cold: map[int]bool{}, book: &dishes.Book{Dishes: []*dishes.Dish{d.dish}}}
		l := make(layout, 3*meals)
		h.addOwn(l, []serving{{eater: e, food: table.of[f], grams: grams - 1}, {eater: e, food: table.of[f], grams: 1}, {eater: e, of: d, part: &d.parts[0], food: table.of[f], grams: 100}})
		if got := l.owns(atAfternoon, e); got != want {
			t.Errorf("%g g beside: %d snacks, want %d", grams, got, want)
		}
	}
}

// TestOneForAParty: who stands for a woman of usual size and two men of a row with one and a half
// eats what they eat together, parted in three.
func TestOneForAParty(t *testing.T) {
	f, g, free := &foods.Food{}, &foods.Food{}, &foods.Food{}
	woman := &eater{count: 1, size: 1, grams: map[*foods.Food]float64{f: 90}, may: map[*foods.Food]bool{f: true, free: false}}
	men := &eater{count: 2, size: 1.5, grams: map[*foods.Food]float64{f: 30, g: 60}, may: map[*foods.Food]bool{free: true}}
	e := standIn([]*eater{woman, men}, men)
	if e.count != 3 || math.Abs(e.size-4./3) > 1e-12 || math.Abs(e.grams[f]-50) > 1e-9 || math.Abs(e.grams[g]-40) > 1e-9 {
		t.Errorf("%g of size %g, %v", e.count, e.size, e.grams)
	}
	if !e.may[f] || !e.may[free] || e.may[g] {
		t.Errorf("may eat %v", e.may)
	}
	if men.count != 2 || men.grams[f] != 30 {
		t.Error("one of them is changed")
	}
}
