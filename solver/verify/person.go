package verify

import (
	"slices"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// personal is the part of the check that is about one person.
type personal struct{ *checker }

// person holds what one person eats and drinks against what they may and must.
func (c personal) person(d *diner) {
	c.eligible(d)
	c.feed(d)
	c.oneForm(d)
	if d.needs.Feed != nil && d.needs.Feed.Only {
		return
	}
	c.ironFood(d)
	c.puree(d)
	c.meat(d)
	c.cereal(d)
	c.needs(d)
	c.shares(d)
	c.groups(d)
	c.kinds(d)
	c.pattern(d)
	c.companions(d)
	c.lowGI(d)
	c.meals(d)
	c.ownAmounts(d)
	c.drinks(d)
}

// eligible refuses what the person may not eat, and more of a food than they can.
func (c personal) eligible(d *diner) {
	name := d.needs.Person.Name
	for _, h := range d.eaten {
		if !(h.grams >= 0) {
			c.report(name, "negative amount of "+h.food.Name, h.grams, 0)
		}
		a := d.may[h.food]
		if a.bar != "" {
			c.report(name, "gets "+h.food.Name+": "+a.bar, h.grams, 0)
			continue
		}
		c.atMost(name, "most of "+h.food.Name, d.grams(h.food), a.most)
	}
}

// needs holds every enforced nutrient between its floor and its ceiling, and the
// printed amounts to the recomputed ones.
func (c personal) needs(d *diner) {
	who := d.needs.Person.Name
	for _, need := range d.needs.List {
		name, unit := need.Nutrient.Name(), need.Nutrient.Unit()
		got := content(d.eaten, need.Nutrient) / c.days()
		at := slices.IndexFunc(d.plan.Needs, func(n ration.PersonNeed) bool { return n.Nutrient == name })
		if at < 0 {
			c.report(who, name+" is missing from the plan", 0, got)
		} else {
			c.same(who, name, d.plan.Needs[at].Amount, got)
		}
		if need.Shown {
			continue
		}
		if need.Floor != nil {
			c.atLeast(who, name, got, c.allowedOf(who, name, unit, need.Floor))
		}
		if need.Ceiling != nil {
			c.atMost(who, name, got, c.passedOf(who, name, need.Ceiling))
		}
	}
}

// shares holds the energy of a nutrient within its share of the energy eaten.
func (c personal) shares(d *diner) {
	who := d.needs.Person.Name
	energy := content(d.eaten, nutrients.Energy) / c.days()
	for _, s := range d.needs.Shares {
		got := content(d.eaten, s.Nutrient) / c.days()
		name, unit := s.Nutrient.Name(), s.Nutrient.Unit()
		if s.Min != nil {
			least := c.allowed(who, name, unit, s.Min.Amount/100*energy/s.KcalPerG)
			c.atLeast(who, name+" as a share of energy", got*s.KcalPerG, least*s.KcalPerG)
		}
		if s.Max != nil {
			most := c.passed(who, name, s.Max.Amount/100*energy/s.KcalPerG)
			c.atMost(who, name+" as a share of energy", got*s.KcalPerG, most*s.KcalPerG)
		}
	}
}

// pattern holds the servings of each food group, interpolated between the energy
// levels of the published pattern. A group of which nothing may be eaten, or whose
// foods cannot fill it within a day's amounts, has no floor.
func (c personal) pattern(d *diner) {
	p := &d.needs.Person
	if c.req.Standard == nutrients.StandardBasic || d.needs.Feed != nil || p.AgeMonths < infantUnder {
		return
	}
	name := "us"
	if p.Has(nutrients.Vegetarian) || p.Has(nutrients.Vegan) {
		name = "vegetarian"
	}
	if p.AgeMonths < 24 {
		name = "toddler-" + name
	}
	for _, g := range foods.PatternGroups {
		asked, ok := c.tables.servings(name, g.Name, d.needs.EER.Amount)
		if !ok || g.Name == "dairy" && (p.Has(nutrients.Lactose) || p.Has(nutrients.KidneyDisease)) {
			continue
		}
		reach := 0.0
		for _, f := range d.open {
			if per := f.PerGram(g.Name); per > 0 {
				_, day := c.sittingAndDay(d, f)
				reach += per * day
			}
		}
		if reach < asked {
			continue
		}
		got := d.sum(func(f *foods.Food) float64 { return f.PerGram(g.Name) }) / c.days()
		key := g.Name
		if _, nutrient := nutrients.ByName(key); nutrient {
			key += "-foods" // a group that is called like a nutrient
		}
		c.atLeast(p.Name, "servings of "+g.Name, got, c.allowed(p.Name, key, "", asked))
	}
}

// servings is what a pattern asks of a group a day at an energy, on the line
// between the levels around it and at the end ones beyond them.
func (t *tables) servings(pattern, group string, kcal float64) (perDay float64, ok bool) {
	var below, above *patternLine
	for i := range t.pattern {
		l := &t.pattern[i]
		if l.pattern != pattern || l.group != group {
			continue
		}
		if l.kcal <= kcal && (below == nil || l.kcal > below.kcal) {
			below = l
		}
		if l.kcal >= kcal && (above == nil || l.kcal < above.kcal) {
			above = l
		}
	}
	switch {
	case below == nil && above == nil:
		return 0, false
	case below == nil:
		below = above
	case above == nil:
		above = below
	}
	at := 0.0
	if above.kcal > below.kcal {
		at = (kcal - below.kcal) / (above.kcal - below.kcal)
	}
	line := func(a, b float64) float64 { return a + at*(b-a) }
	return line(below.published, above.published) * line(below.scale, above.scale), true
}

// companions holds an ingredient to what it is cooked with: a dish made up to its
// limit takes the ingredient up to its own.
func (c personal) companions(d *diner) {
	if d.needs.Feed != nil {
		return
	}
	for _, h := range d.eaten {
		f := h.food
		if len(f.Companions) == 0 {
			continue
		}
		with := 0.0
		for _, other := range d.eaten {
			g := other.food
			named := slices.ContainsFunc(f.Companions, func(name string) bool {
				return name == g.Name || name == g.Group || g.PerGram(name) > 0
			})
			if g == f || !named || slices.Equal(g.Companions, f.Companions) {
				continue
			}
			ratio := 1.0
			if f.OccasionG > 0 && g.OccasionG > 0 {
				ratio = f.OccasionG / g.OccasionG
			}
			with += ratio * other.grams
		}
		c.atMost(d.needs.Person.Name, f.Name+" with what it is cooked with", h.grams, with)
	}
}

// lowGIPart is the least part of the grains of a person with diabetes that is of
// low glycaemic index: common practice, no source.
const lowGIPart = 0.5

func (c personal) lowGI(d *diner) {
	p := &d.needs.Person
	diabetes := slices.ContainsFunc(diabetic, p.Has)
	grains := func(f *foods.Food) float64 { return f.PerGram("grains") }
	low := func(f *foods.Food) float64 {
		if f.GIClass != "low" {
			return 0
		}
		return grains(f)
	}
	if !diabetes || !slices.ContainsFunc(d.open, func(f *foods.Food) bool { return low(f) > 0 }) {
		return
	}
	c.atLeast(p.Name, "grains of low glycaemic index", d.sum(low)/c.days(), lowGIPart*d.sum(grains)/c.days())
}

var diabetic = []nutrients.Condition{nutrients.Diabetes1, nutrients.Diabetes2, nutrients.Diabetes2Diet, nutrients.DiabetesPregnancy}

// meals holds the printed carbohydrate of a meal to the recomputed one.
func (c personal) meals(d *diner) {
	m := d.needs.Meals
	if m == nil {
		return
	}
	perDay := content(d.eaten, nutrients.Carbohydrate) / c.days()
	snack := m.SnackG // larger only where the meals would pass the band
	if left := perDay - float64(m.Meals)*m.High.Amount; left > float64(m.Snacks)*snack {
		snack = min(left/float64(m.Snacks), m.SnackHighG)
	}
	mean := (perDay - float64(m.Snacks)*snack) / float64(m.Meals)
	if d.plan.Carbohydrate == nil {
		c.report(d.needs.Person.Name, "carbohydrate of a meal is missing from the plan", 0, mean)
		return
	}
	c.same(d.needs.Person.Name, "carbohydrate of a meal", d.plan.Carbohydrate.MeanG, mean)
}

// ownAmounts holds the household file's own amounts of foods.
func (c personal) ownAmounts(d *diner) {
	perDay := func(w foods.Portion) float64 {
		return d.sum(one(func(f *foods.Food) bool { return slices.Contains(w.Foods, f) })) / c.days()
	}
	for _, w := range d.wishes.Most {
		c.atMost(d.needs.Person.Name, w.Text, perDay(w), w.GramsPerDay)
	}
	for _, w := range d.wishes.Least {
		c.atLeast(d.needs.Person.Name, w.Text, perDay(w), w.GramsPerDay)
	}
}

// drinks holds water in food and drink together, and what is drunk.
func (c personal) drinks(d *diner) {
	w := d.needs.Water
	if w.Total == nil {
		return
	}
	who := d.needs.Person.Name
	waterL := func(f *foods.Food) float64 {
		moisture := f.Per100g.Known(nutrients.Water)
		return (moisture/1000 + c.eatenWaterL(f)) / 100
	}
	inFood := d.sum(waterL) / c.days()
	c.atLeast(who, "water", inFood+d.plan.DrinkLPerDay, c.allowed(who, "water", "L", c.heated(&w, w.Total)))
	drunk := d.plan.DrinkLPerDay
	if w.Most != nil || w.Drinks != nil && w.Drinks.Kind == nutrients.KindOrder {
		drunk += d.sum(func(f *foods.Food) float64 {
			if !liquid(f) {
				return 0
			}
			return waterL(f)
		}) / c.days()
	}
	if w.Drinks != nil {
		least := c.heated(&w, w.Drinks)
		if w.Drinks.Kind != nutrients.KindOrder || c.closest {
			least = c.allowed(who, "drinking_water", "L", least)
		}
		c.atLeast(who, "drinks", drunk, least)
	}
	if w.Most != nil {
		c.atMost(who, "fluid that is ordered", drunk, w.Most.Amount)
	}
}

// heated is a limit of water in the heat: what is ordered is not raised, and
// nothing is raised past an ordered ceiling.
func (c personal) heated(w *nutrients.WaterNeed, l *nutrients.Limit) float64 {
	if l.Kind == nutrients.KindOrder {
		return l.Amount
	}
	amount := l.Amount * c.heat()
	if w.Most != nil {
		amount = min(amount, w.Most.Amount)
	}
	return amount
}

// liquid reports whether f is drunk or spooned as a liquid, as made ready.
func liquid(f *foods.Food) bool {
	return f.Group == "drinks" || f.Group == "juice" || f.Group == "soups" || f.Form == "bouillon" ||
		f.HasTag(foods.TagDairyDrink) || f.HasTag(foods.TagJuice) || f.HasTag(foods.TagSugaryDrink)
}

// allowedOf and passedOf are [checker.allowed] and [checker.passed] of a limit:
// what a clinician ordered no plan falls short of or passes. Only a closest
// ration, which is none, may say that it misses an ordered floor.
func (c personal) allowedOf(who, name, unit string, l *nutrients.Limit) float64 {
	if l.Kind == nutrients.KindOrder && !c.closest {
		return l.Amount
	}
	return c.allowed(who, name, unit, l.Amount)
}

func (c personal) passedOf(who, name string, l *nutrients.Limit) float64 {
	if l.Kind == nutrients.KindOrder {
		return l.Amount
	}
	return c.passed(who, name, l.Amount)
}
