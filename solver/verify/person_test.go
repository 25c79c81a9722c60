package verify

import (
	"math"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

func limitOf(v float64) *nutrients.Limit { return &nutrients.Limit{Amount: v} }
func orderedOf(v float64) *nutrients.Limit {
	return &nutrients.Limit{Amount: v, Kind: nutrients.KindOrder}
}

// bread holds 250 kcal, 10 g of protein, 50 g of carbohydrate and 400 mg of sodium in 100 g.
func bread() *foods.Food {
	return food("bread", func(f *foods.Food) {
		f.Per100g[nutrients.Energy], f.Per100g[nutrients.Protein], f.Per100g[nutrients.Carbohydrate], f.Per100g[nutrients.Sodium] = 250, 10, 50, 400
	})
}

// TestEligibleAmounts: no less than nothing of a food, none where it is barred, and no more than
// may be eaten of it, its helpings together; 300 g are the most out of all packs and 100 g out of one.
func TestEligibleAmounts(t *testing.T) {
	f, other := bread(), food("rice", nil)
	for _, c := range []struct {
		name  string
		bar   string
		eaten []helping
		want  string
	}{
		{"nothing", "", nil, ""},
		{"none of it", "", []helping{{f, 0}}, ""},
		{"just all", "", []helping{{f, 300}}, ""},
		{"a gram more", "", []helping{{f, 301}}, "Signe: most of bread"},
		{"two helpings", "", []helping{{f, 150}, {other, 300}, {f, 150}}, ""},
		{"two helpings too much", "", []helping{{f, 150}, {f, 151}}, "Signe: most of bread\nSigne: most of bread"},
		{"less than nothing", "", []helping{{f, -1}}, "Signe: negative amount of bread"},
		{"no number", "", []helping{{f, math.NaN()}}, "Signe: negative amount of bread\nSigne: most of bread"},
		{"barred", "an allergy", []helping{{f, 1000}}, "Signe: gets bread: an allergy"},
	} {
		check := checkerOf(t, &ration.Request{Days: 10})
		d := dinerOf(400, c.eaten...)
		d.may[f], d.may[other] = amount{most: 300, window: 100, bar: c.bar}, amount{most: 300, window: 300}
		if (personal{check}).eligible(d); told(check) != c.want {
			t.Errorf("%s: %q, want %q", c.name, told(check), c.want)
		}
		for _, v := range check.found {
			if v.Limit == "negative amount of bread" && v.Bound != 0 {
				t.Errorf("%s: held against %g", c.name, v.Bound)
			}
		}
	}
}

// TestNeedsHeld: 1000 g of bread in ten days are 10 g of protein and 400 mg of sodium a day, each from both sides of a floor and of a ceiling. A shortfall that the plan
// declares lowers a floor to its amount and no further, one of somebody else, of another nutrient
// or in another unit not; a closest ration passes ceilings as it says. An order is neither lowered
// nor passed, but that a closest ration may say that it misses an ordered floor.
func TestNeedsHeld(t *testing.T) {
	short := func(person, nutrient, unit string, amount float64) []ration.Shortfall {
		return []ration.Shortfall{{Person: person, Nutrient: nutrient, Unit: unit, Amount: amount, Target: 90}}
	}
	over := func(person, nutrient string, amount float64) []ration.Over {
		return []ration.Over{{Person: person, Nutrient: nutrient, Amount: amount}}
	}
	floor := func(l *nutrients.Limit) nutrients.Need { return nutrients.Need{Nutrient: nutrients.Protein, Floor: l} }
	ceiling := func(l *nutrients.Limit) nutrients.Need { return nutrients.Need{Nutrient: nutrients.Sodium, Ceiling: l} }
	shown := floor(limitOf(99))
	shown.Shown, shown.Ceiling = true, limitOf(1)
	const protein, sodium = "Signe: protein", "Signe: sodium"
	for _, c := range []struct {
		name    string
		need    nutrients.Need
		short   []ration.Shortfall
		over    []ration.Over
		closest bool
		want    string
	}{
		{"the floor", floor(limitOf(10)), nil, nil, false, ""},
		{"over the floor", floor(limitOf(9)), nil, nil, false, ""},
		{"under the floor", floor(limitOf(10.01)), nil, nil, false, protein},
		{"under it by what rounds", floor(limitOf(10.000005)), nil, nil, false, ""},
		{"under it by more", floor(limitOf(10.00002)), nil, nil, false, protein},
		{"a shortfall, declared", floor(limitOf(12)), short("Signe", "protein", "g", 10), nil, false, ""},
		{"a shortfall, declared without a unit", floor(limitOf(12)), short("Signe", "protein", "", 10), nil, false, ""},
		{"a shortfall, larger than declared", floor(limitOf(12)), short("Signe", "protein", "g", 11), nil, false, protein},
		{"declared of another unit", floor(limitOf(12)), short("Signe", "protein", "mg", 10), nil, false, protein},
		{"declared of another nutrient", floor(limitOf(12)), short("Signe", "fat", "g", 10), nil, false, protein},
		{"declared of somebody else", floor(limitOf(12)), short("Odd", "protein", "g", 10), nil, false, protein},
		{"declared higher than the floor", floor(limitOf(10)), short("Signe", "protein", "g", 20), nil, false, ""},
		{"an order, declared", floor(orderedOf(12)), short("Signe", "protein", "g", 10), nil, false, protein},
		{"an order, declared by a closest ration", floor(orderedOf(12)), short("Signe", "protein", "g", 10), nil, true, ""},
		{"an order that is kept", floor(orderedOf(10)), nil, nil, false, ""},
		{"the ceiling", ceiling(limitOf(400)), nil, nil, false, ""},
		{"over the ceiling", ceiling(limitOf(399)), nil, nil, false, sodium},
		{"over it by what rounds", ceiling(limitOf(399.9997)), nil, nil, false, ""},
		{"over it by more", ceiling(limitOf(399.999)), nil, nil, false, sodium},
		{"passed as said", ceiling(limitOf(300)), nil, over("Signe", "sodium", 400), true, ""},
		{"passed by more than said", ceiling(limitOf(300)), nil, over("Signe", "sodium", 390), true, sodium},
		{"said of another nutrient", ceiling(limitOf(300)), nil, over("Signe", "protein", 400), true, sodium},
		{"said of somebody else", ceiling(limitOf(300)), nil, over("Odd", "sodium", 400), true, sodium},
		{"said lower than the ceiling", ceiling(limitOf(400)), nil, over("Signe", "sodium", 300), true, ""},
		{"an ordered ceiling, passed as said", ceiling(orderedOf(300)), nil, over("Signe", "sodium", 400), true, sodium},
		{"only shown", shown, nil, nil, false, ""},
	} {
		check := checkerOf(t, &ration.Request{Days: 10})
		check.plan.Shortfalls, check.over, check.closest = c.short, c.over, c.closest
		d := dinerOf(400, helping{bread(), 600}, helping{bread(), 400})
		d.needs.List = []nutrients.Need{c.need}
		d.plan.Needs = []ration.PersonNeed{{Nutrient: "energy", Amount: 250}, {Nutrient: "protein", Amount: 10}, {Nutrient: "sodium", Amount: 400}}
		if (personal{check}).needs(d); told(check) != c.want {
			t.Errorf("%s: %q, want %q", c.name, told(check), c.want)
		}
	}
	for _, c := range []struct {
		name  string
		needs []ration.PersonNeed
		want  string
	}{
		{"as it is", []ration.PersonNeed{{Nutrient: "protein", Amount: 10}}, ""},
		{"more", []ration.PersonNeed{{Nutrient: "protein", Amount: 10.001}}, "Signe: protein as printed"},
		{"less", []ration.PersonNeed{{Nutrient: "protein", Amount: 9.999}}, "Signe: protein as printed"},
		{"in the second place", []ration.PersonNeed{{Nutrient: "sodium", Amount: 10}, {Nutrient: "protein", Amount: 9}}, "Signe: protein as printed"},
		{"not there", []ration.PersonNeed{{Nutrient: "sodium", Amount: 10}}, "Signe: protein is missing from the plan"},
	} {
		check := checkerOf(t, &ration.Request{Days: 10})
		d := dinerOf(400, helping{bread(), 1000})
		d.needs.List, d.plan.Needs = []nutrients.Need{floor(limitOf(1))}, c.needs
		if (personal{check}).needs(d); told(check) != c.want {
			t.Errorf("printed %s: %q, want %q", c.name, told(check), c.want)
		}
	}
}

// TestSharesHeld: bread has 10 × 4 of its 250 kcal from protein, 16 %: held from both sides, also
// where the plan declares that it has less or passes it (8 g a day of the 10).
func TestSharesHeld(t *testing.T) {
	const found = "Signe: protein as a share of energy"
	for _, c := range []struct {
		name     string
		min, max *nutrients.Limit
		short    float64
		over     float64
		want     string
	}{
		{"none", nil, nil, 0, 0, ""},
		{"just the least", limitOf(16), nil, 0, 0, ""},
		{"under the least", limitOf(16.1), nil, 0, 0, found},
		{"just the most", nil, limitOf(16), 0, 0, ""},
		{"over the most", nil, limitOf(15.9), 0, 0, found},
		{"under the least, as declared", limitOf(20), nil, 10, 0, ""},
		{"further under it than declared", limitOf(20), nil, 11, 0, found},
		{"over the most, as said", nil, limitOf(12), 0, 10, ""},
		{"further over it than said", nil, limitOf(12), 0, 9, found},
		{"between", limitOf(10), limitOf(35), 0, 0, ""},
	} {
		check := checkerOf(t, &ration.Request{Days: 10})
		if c.short > 0 {
			check.plan.Shortfalls = []ration.Shortfall{{Person: "Signe", Nutrient: "protein", Unit: "g", Amount: c.short}}
		}
		if c.over > 0 {
			check.over = []ration.Over{{Person: "Signe", Nutrient: "protein", Amount: c.over}}
		}
		d := dinerOf(400, helping{bread(), 1000})
		d.needs.Shares = []nutrients.Share{{Nutrient: nutrients.Protein, KcalPerG: 4, Min: c.min, Max: c.max}}
		if (personal{check}).shares(d); told(check) != c.want {
			t.Errorf("%s: %q, want %q", c.name, told(check), c.want)
		}
		for _, v := range check.found { // in kcal
			if !near(v.Amount, 40) {
				t.Errorf("%s: %g kcal from protein, want 40", c.name, v.Amount)
			}
		}
	}
}

// TestServingsOfAPattern: on the line between the levels around an energy, the amount and its
// part each; at the lowest and the highest level beyond them, in any order of the rows.
func TestServingsOfAPattern(t *testing.T) {
	lines := []patternLine{
		{"us", "grains", 1000, 3, 0.6}, {"vegetarian", "grains", 1100, 50, 1}, {"us", "dairy", 1100, 70, 1},
		{"us", "grains", 1400, 5, 0.8}, {"us", "grains", 1200, 4, 0.6}, {"us", "oils", 2000, 20, 0.5},
	}
	for _, c := range []struct {
		pattern, group string
		kcal, want     float64
	}{
		{"us", "grains", 1000, 1.8}, {"us", "grains", 1100, 3.5 * 0.6}, {"us", "grains", 1150, 3.75 * 0.6}, {"us", "grains", 1200, 2.4},
		{"us", "grains", 1300, 4.5 * 0.7}, {"us", "grains", 1350, 4.75 * 0.75}, {"us", "grains", 1400, 4},
		{"us", "grains", 900, 1.8}, {"us", "grains", 3000, 4}, {"us", "oils", 1500, 10}, {"us", "oils", 2500, 10}, {"us", "oils", 2000, 10},
		{"us", "fruits", 1200, -1}, {"toddler-us", "grains", 1200, -1},
	} {
		for range 2 {
			tables := &tables{pattern: lines}
			got, ok := tables.servings(c.pattern, c.group, c.kcal)
			if ok != (c.want >= 0) || ok && !near(got, c.want) || !ok && got != 0 {
				t.Errorf("%s of the %s pattern at %g kcal: %g %v, want %g", c.group, c.pattern, c.kcal, got, ok, c.want)
			}
			lines = append(lines[3:len(lines):len(lines)], lines[:3]...)
		}
	}
}

// TestPatternHeld: at 2000 kcal the pattern asks for 6 × 0.6 oz-eq of grains, 3 × 0.5 cups of
// dairy and so on, by rows of its own here: held where what may be eaten can fill it. Bread counts
// 3 oz-eq in 100 g, of which 160 g a day may be eaten.
func TestPatternHeld(t *testing.T) {
	serves := func(name, group string, per100 float64, day float64) *foods.Food {
		return food(name, func(f *foods.Food) {
			f.Serves, f.OccasionG, f.DayG = []foods.Serving{{Group: group, Per100g: per100}}, day/2, day
		})
	}
	grain, rye := serves("bread", "grains", 3, 160), serves("rye", "grains", 3, 60)
	cheese, meat := serves("cheese", "dairy", 2, 200), serves("meat", "protein", 4, 200)
	const grains = "Signe: servings of grains"
	type change = func(*checker, *diner)
	for _, c := range []struct {
		name   string
		months int
		open   []*foods.Food
		eaten  []helping
		change change
		want   string
	}{
		{"3.6 a day", 400, []*foods.Food{grain}, []helping{{grain, 1200}}, nil, ""},
		{"less", 400, []*foods.Food{grain}, []helping{{grain, 1199}}, nil, grains},
		{"none there is", 400, []*foods.Food{cheese}, []helping{{cheese, 750}}, nil, ""},
		{"a day's amounts cannot fill it", 400, []*foods.Food{rye}, nil, nil, ""}, // 60 g: 1.8
		{"those of two just fill it", 400, []*foods.Food{rye, serves("oats", "grains", 3, 60)}, nil, nil, grains},
		{"those of two do not", 400, []*foods.Food{rye, serves("oats", "grains", 3, 59)}, nil, nil, ""},
		{"as declared", 400, []*foods.Food{grain}, []helping{{grain, 900}}, func(c *checker, d *diner) {
			c.plan.Shortfalls = []ration.Shortfall{{Person: "Signe", Nutrient: "grains", Unit: "oz-eq", Amount: 2.7}}
		}, ""},
		{"1.5 cups of dairy", 400, []*foods.Food{cheese}, []helping{{cheese, 750}}, nil, ""},
		{"less dairy", 400, []*foods.Food{cheese}, []helping{{cheese, 740}}, nil, "Signe: servings of dairy"},
		{"less dairy, without lactose", 400, []*foods.Food{cheese}, nil, func(c *checker, d *diner) {
			d.needs.Person.Conditions = []nutrients.Condition{nutrients.Lactose}
		}, ""},
		{"less dairy, ill kidneys", 400, []*foods.Food{cheese}, nil, func(c *checker, d *diner) {
			d.needs.Person.Conditions = []nutrients.Condition{nutrients.KidneyDisease}
		}, ""},
		{"less grains, without lactose", 400, []*foods.Food{grain}, nil, func(c *checker, d *diner) {
			d.needs.Person.Conditions = []nutrients.Condition{nutrients.Lactose}
		}, grains},
		{"a group called like a nutrient", 400, []*foods.Food{meat}, nil, nil, "Signe: servings of protein"},
		{"a shortfall of the nutrient is none of the group", 400, []*foods.Food{meat}, nil, func(c *checker, d *diner) {
			c.plan.Shortfalls = []ration.Shortfall{{Person: "Signe", Nutrient: "protein", Unit: "g"}}
		}, "Signe: servings of protein"},
		{"a shortfall of the group", 400, []*foods.Food{meat}, nil, func(c *checker, d *diner) {
			c.plan.Shortfalls = []ration.Shortfall{{Person: "Signe", Nutrient: "protein-foods"}}
		}, ""},
		{"by the basic standard", 400, []*foods.Food{grain}, nil, func(c *checker, d *diner) { c.req.Standard = nutrients.StandardBasic }, ""},
		{"an infant", 11, []*foods.Food{grain}, nil, nil, ""},
		{"who is fed", 400, []*foods.Food{grain}, nil, func(c *checker, d *diner) { d.needs.Feed = &nutrients.Feed{} }, ""},
		{"vegetarian: 4.8", 400, []*foods.Food{grain}, []helping{{grain, 1590}}, func(c *checker, d *diner) {
			d.needs.Person.Conditions = []nutrients.Condition{nutrients.Vegetarian}
		}, grains},
		{"vegan: 4.8", 400, []*foods.Food{grain}, []helping{{grain, 1600}}, func(c *checker, d *diner) {
			d.needs.Person.Conditions = []nutrients.Condition{nutrients.Vegan}
		}, ""},
		{"vegan: less", 400, []*foods.Food{grain}, []helping{{grain, 1590}}, func(c *checker, d *diner) {
			d.needs.Person.Conditions = []nutrients.Condition{nutrients.Vegan}
		}, grains},
		{"23 months: 0.6", 23, []*foods.Food{grain}, []helping{{grain, 200}}, nil, ""},
		{"23 months: less", 23, []*foods.Food{grain}, []helping{{grain, 199}}, nil, grains},
		{"12 months: less", 12, []*foods.Food{grain}, []helping{{grain, 199}}, nil, grains},
		{"24 months: 3.6 cannot be filled with 0.35 of the day's", 24, []*foods.Food{grain}, nil, nil, ""},
		{"23 months, vegetarian: 1.2", 23, []*foods.Food{grain}, []helping{{grain, 390}}, func(c *checker, d *diner) {
			d.needs.Person.Conditions = []nutrients.Condition{nutrients.Vegetarian}
		}, grains},
	} {
		check := checkerOf(t, &ration.Request{Days: 10, Standard: nutrients.StandardRDA})
		tables := *check.tables
		tables.pattern = []patternLine{
			{"us", "grains", 2000, 6, 0.6}, {"us", "dairy", 2000, 3, 0.5}, {"us", "protein", 2000, 5.5, 0.5},
			{"vegetarian", "grains", 2000, 8, 0.6}, {"toddler-us", "grains", 2000, 1, 0.6}, {"toddler-vegetarian", "grains", 2000, 2, 0.6},
		}
		check.tables = &tables
		d := dinerOf(c.months, c.eaten...)
		d.open, d.needs.EER.Amount = c.open, 2000
		if c.change != nil {
			c.change(check, d)
		}
		if (personal{check}).pattern(d); told(check) != c.want {
			t.Errorf("%s: %q, want %q", c.name, told(check), c.want)
		}
	}
}

// TestCompanionsHeld: an ingredient of 10 g at a sitting with dishes of 100 g takes 10 g for each
// 100 g of what it is cooked with, by the name, the group or what it counts as; not with itself
// nor with another ingredient of the same companions.
func TestCompanionsHeld(t *testing.T) {
	of := func(name, group string, sitting float64, companions ...string) *foods.Food {
		return food(name, func(f *foods.Food) { f.Group, f.OccasionG, f.Companions = group, sitting, companions })
	}
	spice, salt := of("spice", "spices", 10, "rice", "soups", "beans"), of("salt", "soups", 10, "rice", "soups", "beans")
	yeast := of("yeast", "soups", 10, "flour")
	rice, soup := of("rice", "grains", 100), of("pea soup", "soups", 200)
	beans := of("chickpeas", "tins", 100)
	beans.Serves = []foods.Serving{{Group: "beans", Per100g: 1}}
	plain, jam := of("plain", "soups", 0), of("jam", "spreads", 100)
	const found = "Signe: spice with what it is cooked with"
	for _, c := range []struct {
		name  string
		eaten []helping
		feed  *nutrients.Feed
		want  string
	}{
		{"with rice", []helping{{spice, 10}, {rice, 100}}, nil, ""},
		{"more than with rice", []helping{{spice, 10.1}, {rice, 100}}, nil, found},
		{"with a soup, 10 g with 200", []helping{{spice, 10}, {soup, 200}}, nil, ""},
		{"more than with a soup", []helping{{soup, 200}, {spice, 10.1}}, nil, found},
		{"with beans", []helping{{spice, 10}, {beans, 100}}, nil, ""},
		{"with both", []helping{{rice, 100}, {spice, 20}, {soup, 200}}, nil, ""},
		{"more than with both", []helping{{rice, 100}, {spice, 20.1}, {soup, 200}}, nil, found},
		{"with jam", []helping{{spice, 10}, {jam, 100}}, nil, found},
		{"with what has no sitting, gram for gram", []helping{{spice, 10}, {plain, 10}}, nil, ""},
		{"more than that", []helping{{spice, 10}, {plain, 9}}, nil, found},
		{"alone", []helping{{spice, 10}}, nil, found},
		{"with another ingredient of the same dishes", []helping{{spice, 10}, {salt, 10}, {rice, 100}}, nil, ""},
		{"which is no dish", []helping{{spice, 10}, {salt, 10}}, nil, found + "\nSigne: salt with what it is cooked with"},
		{"with an ingredient of other dishes", []helping{{spice, 10}, {yeast, 10}, {of("flour", "grains", 100), 100}}, nil, ""},
		{"an infant's", []helping{{spice, 10}}, &nutrients.Feed{}, ""},
		{"no ingredient", []helping{{rice, 100}}, nil, ""},
	} {
		check := checkerOf(t, &ration.Request{Days: 10})
		d := dinerOf(400, c.eaten...)
		d.needs.Feed = c.feed
		if (personal{check}).companions(d); told(check) != c.want {
			t.Errorf("%s: %q, want %q", c.name, told(check), c.want)
		}
	}
}

// TestLowGIHeld: half of the grains of somebody with diabetes are of low glycaemic index, where
// there are any (common practice, no source).
func TestLowGIHeld(t *testing.T) {
	grain := func(class string) *foods.Food {
		return food(class, func(f *foods.Food) { f.GIClass, f.Serves = class, []foods.Serving{{Group: "grains", Per100g: 3}} })
	}
	low, high, dull := grain("low"), grain("high"), food("dull", func(f *foods.Food) { f.GIClass = "low" })
	const found = "Signe: grains of low glycaemic index"
	for _, c := range []struct {
		name  string
		is    nutrients.Condition
		open  []*foods.Food
		eaten []helping
		want  string
	}{
		{"half", nutrients.Diabetes1, []*foods.Food{high, low}, []helping{{low, 500}, {high, 500}}, ""},
		{"less", nutrients.Diabetes1, []*foods.Food{high, low}, []helping{{low, 499}, {high, 501}}, found},
		{"type 2", nutrients.Diabetes2, []*foods.Food{high, low}, []helping{{high, 500}}, found},
		{"type 2 by diet", nutrients.Diabetes2Diet, []*foods.Food{high, low}, []helping{{high, 500}}, found},
		{"in pregnancy", nutrients.DiabetesPregnancy, []*foods.Food{high, low}, []helping{{high, 500}}, found},
		{"what is no grain does not count", nutrients.Diabetes1, []*foods.Food{high, low, dull}, []helping{{dull, 500}, {high, 500}}, found},
		{"none there is", nutrients.Diabetes1, []*foods.Food{high, dull}, []helping{{high, 500}}, ""},
		{"no diabetes", nutrients.Lactose, []*foods.Food{high, low}, []helping{{high, 500}}, ""},
	} {
		check := checkerOf(t, &ration.Request{Days: 10})
		d := dinerOf(400, c.eaten...)
		d.open, d.needs.Person.Conditions = c.open, []nutrients.Condition{c.is}
		if (personal{check}).lowGI(d); told(check) != c.want {
			t.Errorf("%s: %q, want %q", c.name, told(check), c.want)
		}
	}
}

// TestMealsHeld: the carbohydrate of a meal of three, at most 60 g, beside two snacks of 15 g, at
// most 30: what is left of the day over the snacks, which grow only where the meals would pass
// 60 g. 100 g of bread are 50 g.
func TestMealsHeld(t *testing.T) {
	for _, c := range []struct {
		perDay, mean float64
	}{
		{150, 40},         // (150 − 30) / 3
		{210, 60},         // the top: 3 × 60 + 2 × 15
		{230, 60},         // snacks of 25: (230 − 50) / 3
		{240, 60},         // snacks of 30
		{270, 210.0 / 3},  // snacks of 30 and no more
		{180, 150.0 / 3},  // all meals without snacks come to 60
		{200, 170.0 / 3},  // what is left for a snack, 10, is less than 15
		{30, 0}, {0, -10}, // all of it is in the snacks
	} {
		for _, off := range []float64{-0.01, 0, 0.01} {
			check := checkerOf(t, &ration.Request{Days: 10})
			d := dinerOf(400, helping{bread(), c.perDay * 20})
			d.needs.Meals = &nutrients.MealBand{Low: limitOf(45), High: limitOf(60), Meals: 3, Snacks: 2, SnackG: 15, SnackHighG: 30}
			d.plan.Carbohydrate = &ration.MealRange{MeanG: c.mean + off, LowG: 1, HighG: 2}
			want := ""
			if off != 0 {
				want = "Signe: carbohydrate of a meal as printed"
			}
			if (personal{check}).meals(d); told(check) != want {
				t.Errorf("%g g a day, %g a meal: %v", c.perDay, c.mean+off, check.found)
			}
			d.plan.Carbohydrate, check.found = nil, nil
			if (personal{check}).meals(d); told(check) != "Signe: carbohydrate of a meal is missing from the plan" || !near(check.found[0].Bound, c.mean) || check.found[0].Amount != 0 {
				t.Errorf("%g g a day and none printed: %v", c.perDay, check.found)
			}
		}
	}
	check := checkerOf(t, &ration.Request{Days: 10})
	if (personal{check}).meals(dinerOf(400, helping{bread(), 100})); told(check) != "" {
		t.Errorf("without a band: %v", check.found)
	}
}

// TestOwnAmountsHeld: what the household wrote of foods, all together, from both sides.
func TestOwnAmountsHeld(t *testing.T) {
	a, b, other := food("a", nil), food("b", nil), food("other", nil)
	most := foods.Portion{Foods: []*foods.Food{a, b}, GramsPerDay: 50, Text: "most 50 g"}
	least := foods.Portion{Foods: []*foods.Food{a, b}, GramsPerDay: 20, Text: "least 20 g"}
	for _, c := range []struct {
		a, b float64
		want string
	}{
		{250, 250, ""}, {250, 251, "Signe: most 50 g"}, {100, 100, ""}, {100, 99, "Signe: least 20 g"}, {0, 0, "Signe: least 20 g"},
	} {
		check := checkerOf(t, &ration.Request{Days: 10})
		d := dinerOf(400, helping{a, c.a}, helping{b, c.b}, helping{other, 900})
		d.wishes = &foods.Wishes{Most: []foods.Portion{most}, Least: []foods.Portion{least}}
		if (personal{check}).ownAmounts(d); told(check) != c.want {
			t.Errorf("%g and %g g: %q, want %q", c.a, c.b, told(check), c.want)
		}
	}
}

// TestDrinksHeld: 1000 g of soup of 900 g of water in ten days, made up with 1 mL a gram, are
// 0.19 L a day (90 mL + 100 mL); 1 L is drunk. In heat the need doubles (FEMA / Red Cross), but an
// order is neither raised nor passed, and by an order what is liquid on the plate counts as drunk.
func TestDrinksHeld(t *testing.T) {
	const water, drinks, ordered = "Signe: water", "Signe: drinks", "Signe: fluid that is ordered"
	short := func(nutrient, unit string, amount float64) []ration.Shortfall {
		return []ration.Shortfall{{Person: "Signe", Nutrient: nutrient, Unit: unit, Amount: amount}}
	}
	for _, c := range []struct {
		name          string
		total, drinks *nutrients.Limit
		most          *nutrients.Limit
		hot, closest  bool
		short         []ration.Shortfall
		dry           bool // the food is no liquid
		want          string
	}{
		{"no need", nil, limitOf(9), limitOf(0.1), false, false, nil, false, ""},
		{"just the water", limitOf(1.19), nil, nil, false, false, nil, false, ""},
		{"less", limitOf(1.191), nil, nil, false, false, nil, false, water},
		{"of a dry food too", limitOf(1.19), nil, nil, false, false, nil, true, ""},
		{"just the water in heat", limitOf(0.595), nil, nil, true, false, nil, false, ""},
		{"less in heat", limitOf(0.6), nil, nil, true, false, nil, false, water},
		{"less, as declared", limitOf(2), nil, nil, false, false, short("water", "L", 1.19), false, ""},
		{"less, declared in g", limitOf(2), nil, nil, false, false, short("water", "g", 1.19), false, water},
		{"less in heat, as ordered", orderedOf(1.19), nil, nil, true, false, nil, false, ""},
		{"less than ordered", orderedOf(1.2), nil, nil, true, false, nil, false, water},
		{"heat raises nothing past an order", limitOf(0.9), nil, limitOf(1.19), true, false, nil, false, ""},
		{"just what is drunk", limitOf(0.5), limitOf(1), nil, false, false, nil, false, ""},
		{"less drunk", limitOf(0.5), limitOf(1.01), nil, false, false, nil, false, drinks},
		{"less drunk in heat", limitOf(0.5), limitOf(0.51), nil, true, false, nil, false, drinks},
		{"less drunk, as declared", limitOf(0.5), limitOf(2), nil, false, false, short("drinking_water", "L", 1), false, ""},
		{"fluid of an order: with the soup", limitOf(0.5), orderedOf(1.19), nil, false, false, nil, false, ""},
		{"fluid of an order: less", limitOf(0.5), orderedOf(1.2), nil, false, false, nil, false, drinks},
		{"fluid of an order: what is dry does not count", limitOf(0.5), orderedOf(1.01), nil, false, false, nil, true, drinks},
		{"fluid of an order: no shortfall", limitOf(0.5), orderedOf(2), nil, false, false, short("drinking_water", "L", 1), false, drinks},
		{"but of a closest ration", limitOf(0.5), orderedOf(2), nil, false, true, short("drinking_water", "L", 1), false, ""},
		{"just the most fluid", limitOf(0.5), nil, limitOf(1.19), false, false, nil, false, ""},
		{"more fluid", limitOf(0.5), nil, limitOf(1.18), false, false, nil, false, ordered},
		{"more drunk than ordered", limitOf(0.5), nil, limitOf(0.99), false, false, nil, true, ordered},
		{"what is dry is no fluid", limitOf(0.5), nil, limitOf(1), false, false, nil, true, ""},
		{"drinks under a most count the soup", limitOf(0.5), limitOf(1.19), limitOf(1.2), false, false, nil, false, ""},
	} {
		check := checkerOf(t, &ration.Request{Days: 10, Hot: c.hot})
		check.plan.Shortfalls, check.closest = c.short, c.closest
		soup := food("soup", func(f *foods.Food) { f.Per100g[nutrients.Water], f.Group = 90, "soups" })
		form := check.made("concentrate", 1)
		if form(soup); c.dry {
			soup.Group = "grains"
		}
		d := dinerOf(400, helping{soup, 1000}, helping{bread(), 500})
		d.plan.DrinkLPerDay = 1
		d.needs.Water = nutrients.WaterNeed{Total: c.total, Drinks: c.drinks, Most: c.most}
		if (personal{check}).drinks(d); told(check) != c.want {
			t.Errorf("%s: %q, want %q", c.name, told(check), c.want)
		}
	}
}

// TestLiquids: what is drunk or spooned as a liquid, by its group, its form or its tags.
func TestLiquids(t *testing.T) {
	for name, change := range map[string]func(*foods.Food){
		"drinks": func(f *foods.Food) { f.Group = "drinks" }, "juice": func(f *foods.Food) { f.Group = "juice" },
		"soups": func(f *foods.Food) { f.Group = "soups" }, "bouillon": func(f *foods.Food) { f.Form = "bouillon" },
		"milk": func(f *foods.Food) { f.Tags = []string{foods.TagDairyDrink} }, "a juice": func(f *foods.Food) { f.Tags = []string{foods.TagJuice} },
		"lemonade": func(f *foods.Food) { f.Tags = []string{foods.TagSugaryDrink} },
	} {
		if !liquid(food(name, change)) {
			t.Errorf("%s is no liquid", name)
		}
	}
	if liquid(food("bread", func(f *foods.Food) { f.Group, f.Form, f.Tags = "grains", "crackers", []string{foods.TagMeat} })) {
		t.Error("bread is a liquid")
	}
}

// TestIronServings: the iron-rich servings of an infant: 15 g of dry cereal (21 CFR 101.12)
// or 55 g of plain strained meat (9 CFR 317.312) are one, of what can be had.
func TestIronServings(t *testing.T) {
	cereal := food("oat cereal", func(f *foods.Food) { f.Form = "baby_cereal_dry" })
	jar := func(name, tag string, perOunce float64) *foods.Food {
		return food(name, func(f *foods.Food) {
			f.Form, f.Tags, f.Serves = "baby_food_jar", []string{foods.TagInfantFood, tag}, []foods.Serving{{Group: "protein", Per100g: perOunce * 100 / gPerOz}}
		})
	}
	beef, hen, stew, pears := jar("beef", foods.TagMeat, 1), jar("hen", foods.TagPoultry, 0.91), jar("stew", foods.TagMeat, 0.89), jar("pears", "", 1)
	tinned := food("tinned beef", func(f *foods.Food) {
		f.Tags, f.Serves = []string{foods.TagMeat}, []foods.Serving{{Group: "protein", Per100g: 4}}
	})
	feed := &nutrients.Feed{IronFoods: limitOf(2)}
	for _, c := range []struct {
		name   string
		months int
		feed   *nutrients.Feed
		open   []*foods.Food
		eaten  []helping
		short  float64
		want   bool // a finding
	}{
		{"30 g of cereal a day", 8, feed, []*foods.Food{cereal}, []helping{{cereal, 300}}, 0, false},
		{"29 g of cereal a day", 8, feed, []*foods.Food{cereal}, []helping{{cereal, 290}}, 0, true},
		{"110 g of meat a day", 8, feed, []*foods.Food{beef}, []helping{{beef, 1100}}, 0, false},
		{"109 g of meat a day", 8, feed, []*foods.Food{beef}, []helping{{beef, 1090}}, 0, true},
		{"one of each", 8, feed, []*foods.Food{cereal, hen}, []helping{{cereal, 150}, {hen, 550}}, 0, false},
		{"stew is no plain meat", 8, feed, []*foods.Food{cereal, stew}, []helping{{cereal, 150}, {stew, 9000}}, 0, true},
		{"pears are no meat", 8, feed, []*foods.Food{cereal, pears}, []helping{{cereal, 150}, {pears, 9000}}, 0, true},
		{"meat for others", 8, feed, []*foods.Food{cereal, tinned}, []helping{{cereal, 150}, {tinned, 9000}}, 0, true},
		{"none can be had", 8, feed, []*foods.Food{stew, pears, tinned}, nil, 0, false},
		{"as declared", 8, feed, []*foods.Food{cereal}, []helping{{cereal, 150}}, 1, false},
		{"less than declared", 8, feed, []*foods.Food{cereal}, []helping{{cereal, 140}}, 1, true},
		{"none is asked", 8, &nutrients.Feed{}, []*foods.Food{cereal}, nil, 0, false},
		{"no infant", 400, nil, []*foods.Food{cereal}, nil, 0, false},
		{"no serving at this age", 12, feed, []*foods.Food{cereal, beef}, nil, 0, false},
	} {
		check := checkerOf(t, &ration.Request{Days: 10})
		if c.short > 0 {
			check.plan.Shortfalls = []ration.Shortfall{{Person: "Signe", Nutrient: "iron-rich infant food", Amount: c.short}}
		}
		d := dinerOf(c.months, c.eaten...)
		d.needs.Feed, d.open = c.feed, c.open
		personal{check}.ironFood(d)
		if got := told(check); (got == "Signe: iron-rich infant food") != c.want || got != "" && !c.want {
			t.Errorf("%s: %q, want a finding %v", c.name, got, c.want)
		}
	}
}

// TestPersonHeldInAll: of somebody who keeps none of the rules each is told; of an infant under
// six months only what is about its milk.
func TestPersonHeldInAll(t *testing.T) {
	cereal := func(name string) *foods.Food {
		return food(name, func(f *foods.Food) { f.Form = "baby_cereal_dry" })
	}
	pears := food("pears", func(f *foods.Food) {
		f.Form, f.Tags, f.Serves = "baby_food_jar", []string{foods.TagInfantFood}, []foods.Serving{{Group: "fruits", Per100g: 1}}
	})
	beef := food("beef", func(f *foods.Food) {
		f.Form, f.Tags, f.Serves = "baby_food_jar", []string{foods.TagInfantFood, foods.TagMeat}, []foods.Serving{{Group: "protein", Per100g: 4}}
	})
	formula := func(form string) *foods.Food {
		return food(form, func(f *foods.Food) {
			f.Form, f.Tags, f.Per100g[nutrients.Energy] = form, []string{foods.TagInfantFormula}, 67
		})
	}
	rice, oats, powder, ready := cereal("rice cereal"), cereal("oat cereal"), formula("infant_formula_powder"), formula("infant_formula_ready_to_feed")
	spice := food("spice", func(f *foods.Food) { f.Companions = []string{"rice"} })
	for _, c := range []struct {
		name   string
		months int
		feed   *nutrients.Feed
		want   string
	}{
		{"an infant", 8, &nutrients.Feed{FormulaML: limitOf(700), IronFoods: limitOf(2), PureeG: limitOf(50), MeatG: limitOf(20)},
			"Signe: gets spice: a bar\nSigne: infant formula\nSigne: formula as powder and ready to feed beside each other\nSigne: iron-rich infant food\n" +
				"Signe: fruit or vegetable infant food\nSigne: plain infant meat\nSigne: share of rice cereal in the infant cereal\nSigne: protein is missing from the plan\n" +
				"Signe: protein\nSigne: protein as a share of energy\nSigne: grains of low glycaemic index\nSigne: carbohydrate of a meal is missing from the plan\nSigne: least of it\nSigne: water\nSigne: drinks"},
		{"an infant under six months", 5, &nutrients.Feed{Only: true, FormulaML: limitOf(700), IronFoods: limitOf(2)},
			"Signe: gets spice: a bar\nSigne: infant formula\nSigne: formula as powder and ready to feed beside each other"},
		{"grown", 400, nil,
			"Signe: gets spice: a bar\nSigne: formula as powder and ready to feed beside each other\nSigne: protein is missing from the plan\nSigne: protein\nSigne: protein as a share of energy\n" +
				"Signe: most caffeine\nSigne: servings of grains\nSigne: spice with what it is cooked with\nSigne: grains of low glycaemic index\n" +
				"Signe: carbohydrate of a meal is missing from the plan\nSigne: least of it\nSigne: water\nSigne: drinks"},
	} {
		check := ofKinds(t)
		coffee := food("coffee", func(f *foods.Food) { f.Form, f.Tags = "coffee_instant", []string{foods.TagCaffeine} })
		grain := food("bread", func(f *foods.Food) {
			f.OccasionG, f.DayG, f.Serves, f.GIClass = 500, 1000, []foods.Serving{{Group: "grains", Per100g: 3}}, "low"
		})
		white := food("white", func(f *foods.Food) { f.Serves = []foods.Serving{{Group: "grains", Per100g: 1}} })
		d := dinerOf(c.months, helping{powder, 500}, helping{ready, 500}, helping{rice, 2}, helping{spice, 1}, helping{coffee, 200}, helping{white, 10})
		for _, h := range d.eaten {
			d.may[h.food] = amount{most: 1e6, window: 1e6}
		}
		d.may[spice] = amount{bar: "a bar"}
		d.open = []*foods.Food{rice, oats, pears, beef, grain}
		d.needs.Feed, d.needs.EER.Amount, d.needs.Person.Conditions = c.feed, 2000, []nutrients.Condition{nutrients.Diabetes1}
		d.needs.List = []nutrients.Need{{Nutrient: nutrients.Protein, Floor: limitOf(50)}}
		d.needs.Shares = []nutrients.Share{{Nutrient: nutrients.Protein, KcalPerG: 4, Min: limitOf(10)}}
		d.needs.Meals = &nutrients.MealBand{High: limitOf(60), Meals: 3, Snacks: 2, SnackG: 15, SnackHighG: 30}
		d.wishes = &foods.Wishes{Least: []foods.Portion{{Foods: []*foods.Food{grain}, GramsPerDay: 10, Text: "least of it"}}}
		d.needs.Water = nutrients.WaterNeed{Total: limitOf(3), Drinks: limitOf(2)}
		check.req.Standard = nutrients.StandardRDA
		if (personal{check}).person(d); told(check) != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.name, told(check), c.want)
		}
	}
}
