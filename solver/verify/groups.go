package verify

import (
	"slices"

	"rationwright/foods"
	"rationwright/nutrients"
)

// mLPerCup is exact: the US cup, the cup-equivalent of milk.
const mLPerCup = 236.5882365

// mgCaffeine are the rows of caps.csv with the caffeine of a gram, by form.
var mgCaffeine = map[string]string{
	"coffee_instant": "caffeine-coffee", "tea_bags": "caffeine-tea",
	"cocoa_powder": "caffeine-cocoa", "chocolate": "caffeine-chocolate",
}

// group is several foods together, the row of caps.csv with their amount, and what a
// gram counts in it.
type group struct {
	name, key string
	perUnit   float64 // of the row's unit, in a day of its days
	days      float64 // that the row is about
	count     func(*foods.Food) float64
}

// publishedDaily reports whether the row is a published amount of a day: bare fat and
// sugar are a rule of kitchens, and fish is counted by the week.
func (g group) publishedDaily() bool {
	return g.days == 1 && g.key != "fat-day" && g.key != "sugar-day"
}

// caffeineMg is the caffeine of a gram of f.
func (t *tables) caffeineMg(f *foods.Food, p *nutrients.Person) float64 {
	if !f.HasTag(foods.TagCaffeine) {
		return 0
	}
	key, ok := mgCaffeine[f.Form]
	if !ok {
		key = "caffeine-other"
	}
	mg, _ := t.cap(p, key)
	return mg
}

// groups holds what is eaten of several foods together to a day's amount.
func (c personal) groups(d *diner) {
	p := &d.needs.Person
	for _, g := range c.groupsFor(d) {
		most, ok := c.tables.cap(p, g.key)
		if !ok {
			continue
		}
		c.atMost(p.Name, "most "+g.name, d.sum(g.count)/c.days(), most*g.perUnit/g.days)
	}
}

// groupsOf lists fish by its mercury, juice, milk, bare fat and sugar, caffeine, lactose
// and an infant's food beside the milk.
func (c personal) groupsOf(p *nutrients.Person) []group {
	form := func(forms ...string) func(*foods.Food) float64 {
		return one(func(f *foods.Food) bool { return slices.Contains(forms, f.Form) })
	}
	scale, _ := c.tables.cap(p, "portion-scale")
	meals, _ := c.tables.cap(p, "infant-meals")
	return []group{
		{"fish", "fish-week", gPerOz, 7, c.fish(p)},
		{"fruit juice", "juice-day", 1, 1, one(func(f *foods.Food) bool { return f.HasTag(foods.TagJuice) })},
		{"milk", "milk-day", 1, 1, func(f *foods.Food) float64 {
			if !f.HasTag(foods.TagDairyDrink) {
				return 0
			}
			return f.PerGram("dairy") * mLPerCup
		}},
		{"oil and fat as such", "fat-day", scale, 1, form("oil_vegetable", "shortening", "ghee")},
		{"sugar and jam as such", "sugar-day", scale, 1, form("sugar_white", "honey", "syrup", "jam_jelly")},
		{"caffeine", "caffeine-day", 1, 1, func(f *foods.Food) float64 { return c.tables.caffeineMg(f, p) }},
		{"lactose", "lactose-day", 1, 1, func(f *foods.Food) float64 { return lactoseG(f) / 100 }},
		{"food beside the milk", "infant-meal", meals, 1, func(f *foods.Food) float64 {
			if isMilk(f) {
				return 0
			}
			return 1 + c.eatenWaterL(f)*10
		}},
	}
}

// fish counts a gram as before cooking. One serving of good-choice fish takes the
// room of all of a week's: its gram counts as many as the best-choice week is
// larger.
func (c personal) fish(p *nutrients.Person) func(*foods.Food) float64 {
	raw, _ := c.tables.cap(p, "fish-raw-per-canned")
	week, _ := c.tables.cap(p, "fish-week")
	times := week // not for this age: nothing of it passes
	if good, ok := c.tables.cap(p, "fish-good-week"); ok {
		times = week / good
	}
	return func(f *foods.Food) float64 {
		switch f.Mercury {
		case "best":
			return raw
		case "good":
			return raw * times
		}
		return 0
	}
}

// lactoseG is the most lactose that 100 g of f can hold: where it is unknown all
// the sugars, else all the carbohydrate of a food with milk.
func lactoseG(f *foods.Food) float64 {
	if f.HasLactose {
		return f.LactoseG
	}
	if !slices.Contains(f.Allergens, "milk") {
		return 0
	}
	for _, n := range []nutrients.Nutrient{nutrients.Sugars, nutrients.Carbohydrate} {
		if g, known := f.Per100g.Get(n); known {
			return g
		}
	}
	return 100
}
