package verify

import (
	"math"
	"slices"
	"strings"

	"rationwright/foods"
	"rationwright/nutrients"
)

// amount is how much of a food one person may eat.
type amount struct {
	most   float64 // over the horizon, g
	window float64 // out of one pack between opening it and its end, g
	bar    string  // why they get none of it, "" for nothing
}

// Months of age: infants, and the feed that is all they have.
const (
	infantUnder   = 12
	onlyFeedUnder = 6
)

// menu works out what d may eat of every food.
func (c *checker) menu(d *diner) {
	d.may = map[*foods.Food]amount{}
	for _, f := range c.req.Table.Foods {
		a := amount{most: c.mostG(d, f), bar: c.bar(d, f)}
		a.window = math.Min(a.most, c.windowG(d, f))
		d.may[f] = a
	}
	c.oneFormula(d)
	for _, f := range c.req.Table.Foods {
		if a := d.may[f]; a.bar == "" && a.most > 0 && c.had(f) {
			d.open = append(d.open, f)
		}
	}
}

// bar says why d gets none of f: by age, allergy, condition, the shared kitchen,
// the household's exclusions, or because it is a milk that only infants get.
func (c *checker) bar(d *diner, f *foods.Food) string {
	p := &d.needs.Person
	switch feed := d.needs.Feed; {
	case isMilk(f) && c.feedML(d, f) == nil:
		return "it is the milk of infants who are fed by it"
	case feed != nil && feed.Only && !isMilk(f):
		return "under 6 months nothing but milk"
	}
	if why := plainBar(p, c.req.People, f); why != "" {
		return why
	}
	if ok, why := foods.Eligible(*p, c.req.People, f); !ok {
		return why.Text
	}
	if why := c.without[f]; why != "" {
		return why
	}
	if why, no := d.wishes.Refuses(f); no {
		return why.Text
	}
	return ""
}

// plainBar is the gravest of the rules of eligibility once more, from the words of
// the food alone: allergens, honey and choking of small children, diets.
func plainBar(p *nutrients.Person, household []nutrients.Person, f *foods.Food) string {
	has := func(tags ...string) bool { return slices.ContainsFunc(tags, f.HasTag) }
	holds := func(allergens ...string) bool {
		return slices.ContainsFunc(allergens, func(a string) bool { return slices.Contains(f.Allergens, a) })
	}
	for _, a := range p.Allergies {
		switch {
		case holds(a.Allergen):
			return "it holds " + a.Allergen
		case a.Level != nutrients.AllergyTraces && slices.Contains(f.MayContain, a.Allergen):
			return "it may hold " + a.Allergen
		}
	}
	for i := range household {
		for _, a := range household[i].Allergies {
			if a.Level == nutrients.AllergyHousehold && (holds(a.Allergen) || slices.Contains(f.MayContain, a.Allergen)) {
				return "it may hold " + a.Allergen + ", which this house keeps out"
			}
		}
	}
	is := func(list ...nutrients.Condition) bool { return slices.ContainsFunc(list, p.Has) }
	switch {
	case p.AgeMonths < infantUnder && has(foods.TagHoney):
		return "honey under 12 months"
	case p.AgeMonths < 48 && has(foods.TagChoking):
		return "a choking hazard under 4 years"
	case is(nutrients.Coeliac) && holds("wheat"):
		return "it holds wheat"
	case is(nutrients.Vegetarian, nutrients.Vegan) && (has(foods.TagMeat, foods.TagPoultry) || holds("fish", "shellfish")):
		return "it holds meat, poultry or fish"
	case is(nutrients.Vegan) && p.AgeMonths >= infantUnder && holds("milk", "egg"):
		return "it holds milk or egg"
	case is(nutrients.SoftFood) && (f.Texture == "hard" || f.Texture == "regular"):
		return "it is not soft"
	case f.Mercury == "avoid" || f.Mercury == "good" && p.AgeMonths < 11*12:
		return "mercury"
	}
	return ""
}

// had reports whether a pack of f can be had at all.
func (c *checker) had(f *foods.Food) bool {
	if f.HasTag(foods.TagHumanMilk) {
		return true
	}
	usable := func(k *foods.Pack) bool { return !c.req.EasyOpen || weakHands(k) }
	if !c.req.StockOnly && slices.ContainsFunc(f.Packs, usable) {
		return true
	}
	return slices.ContainsFunc(c.req.Stock, func(l foods.StockLine) bool { return l.Pack.Food == f && usable(l.Pack) })
}

// weakHandsG is the heaviest full pack that weak hands lift: common practice, no
// source.
const weakHandsG = 1500

func weakHands(k *foods.Pack) bool { return k.EasyOpen && k.GrossG <= weakHandsG }

// isMilk reports whether f is a milk that infants are fed by.
func isMilk(f *foods.Food) bool {
	return f.HasTag(foods.TagInfantFormula) || f.HasTag(foods.TagHumanMilk)
}

// feedML is the mL a day of the feed that f is part of, nil for none.
func (c *checker) feedML(d *diner, f *foods.Food) *nutrients.Limit {
	switch {
	case d.needs.Feed == nil:
	case f.HasTag(foods.TagInfantFormula):
		return d.needs.Feed.FormulaML
	case f.HasTag(foods.TagHumanMilk):
		return d.needs.Feed.HumanMilkML
	}
	return nil
}

// Ready feed: 67 kcal in 100 mL (20 kcal a US fluid ounce; Codex STAN 72-1981
// allows 60 to 70), human milk 30.8 g a US fluid ounce of 29.5735295625 mL (USDA
// SR26 measures, NDB 01107).
const (
	feedKcalPerML   = 0.67
	gPerFluidOunce  = 30.8
	mLPerFluidOunce = 29.5735295625
)

// readyML is the mL of ready feed from a gram of f.
func readyML(f *foods.Food) float64 {
	if f.HasTag(foods.TagHumanMilk) {
		return mLPerFluidOunce / gPerFluidOunce
	}
	return f.Per100g.Known(nutrients.Energy) / 100 / feedKcalPerML
}

// boughtPerGram is what is bought of f for each gram that d takes of it: a feed
// that is not finished is thrown away.
func boughtPerGram(d *diner, f *foods.Food) float64 {
	if d.needs.Feed != nil && f.HasTag(foods.TagInfantFormula) {
		return d.needs.Feed.SpareFactor
	}
	return 1
}

// oneFormula bars formula of another kind than the one planned (on milk, or soy
// where the child's diet asks for it) while that can be had, and lifts the
// exclusions of the household where they would leave a feed without milk.
func (c *checker) oneFormula(d *diner) {
	onSoy := func(f *foods.Food) bool {
		return slices.Contains(f.Allergens, "soy") && !slices.Contains(f.Allergens, "milk")
	}
	var milks []*foods.Food
	usual := false
	for _, f := range c.req.Table.Foods {
		if isMilk(f) && c.had(f) && c.feedML(d, f) != nil {
			milks = append(milks, f)
			usual = usual || f.HasTag(foods.TagInfantFormula) && d.may[f].bar == "" && onSoy(f) == d.needs.Feed.Soy
		}
	}
	for _, f := range milks {
		if a := d.may[f]; usual && f.HasTag(foods.TagInfantFormula) && a.bar == "" && onSoy(f) != d.needs.Feed.Soy {
			a.bar = "formula of another kind is planned"
			d.may[f] = a
		}
	}
	for _, tag := range []string{foods.TagInfantFormula, foods.TagHumanMilk} {
		of := func(f *foods.Food) bool { return f.HasTag(tag) }
		if slices.ContainsFunc(milks, func(f *foods.Food) bool { return of(f) && d.may[f].bar == "" }) {
			continue
		}
		alone := []nutrients.Person{d.needs.Person}
		holds := func(f *foods.Food) bool { // what somebody else keeps out of the house
			for i := range c.req.People {
				for _, a := range c.req.People[i].Allergies {
					if a.Level == nutrients.AllergyHousehold && slices.Contains(f.Allergens, a.Allergen) {
						return true
					}
				}
			}
			return false
		}
		safe := slices.DeleteFunc(slices.Clone(milks), func(f *foods.Food) bool {
			ok, _ := foods.Eligible(d.needs.Person, alone, f)
			return !ok || !of(f) || plainBar(&d.needs.Person, alone, f) != ""
		})
		someWithout := slices.ContainsFunc(safe, func(f *foods.Food) bool { return !holds(f) })
		for _, f := range safe {
			if a := d.may[f]; !someWithout || !holds(f) {
				a.bar = ""
				d.may[f] = a
			}
		}
	}
}

// mostG is what d eats of f at most over the horizon: the day's amount of an
// adult by the scale of the age, an infant's meals, all of a feed.
func (c *checker) mostG(d *diner, f *foods.Food) float64 {
	if isMilk(f) {
		if ml := c.feedML(d, f); ml != nil {
			return ml.Amount * c.days() / readyML(f)
		}
		return 0
	}
	_, day := c.sittingAndDay(d, f)
	return day * c.days()
}

// sittingAndDay are grams of f at one sitting and in a day.
func (c *checker) sittingAndDay(d *diner, f *foods.Food) (sitting, day float64) {
	p := &d.needs.Person
	if isMilk(f) {
		once, _ := c.tables.cap(p, "feed-once")
		all, _ := c.tables.cap(p, "feed-day")
		mL := 1 + c.eatenWaterL(f)*10 // a ready drink as it is, powder by its strength
		if f.Form == "infant_formula_powder" {
			mL = 1
			if g, ok := c.tables.cap(p, "feed-powder"); ok {
				mL = 1 / g
			}
		}
		return once / mL, all / mL
	}
	sitting, day = f.OccasionG, f.DayG
	if day <= 0 {
		twice, _ := c.tables.cap(p, "second-sitting")
		day = sitting * twice
	}
	if sitting <= 0 {
		sitting = day
	}
	if p.AgeMonths < infantUnder {
		mL, _ := c.tables.cap(p, "infant-meal")
		meals, _ := c.tables.cap(p, "infant-meals")
		g := mL / (1 + c.eatenWaterL(f)*10) // 1 mL of mash is taken as 1 g
		return math.Min(sitting, g), math.Min(day, g*meals)
	}
	if scale, ok := c.tables.cap(p, "portion-scale"); ok && scale < 1 && !f.HasTag(foods.TagInfantFood) {
		grown := day
		sitting, day = sitting*scale, day*scale
		cups := f.PerGram("dairy")
		if mL, ok := c.tables.cap(p, "milk-usual"); ok && f.HasTag(foods.TagDairyDrink) && cups > 0 {
			day = math.Min(grown, mL/(cups*mLPerCup))
		}
	}
	for _, g := range c.groupsFor(d) {
		if !g.publishedDaily() {
			continue
		}
		if most, ok := c.tables.cap(p, g.key); ok && g.count(f) > 0 {
			day = math.Min(day, most*g.perUnit/g.count(f))
		}
	}
	return math.Min(sitting, day), day
}

// groupsFor are the groups of foods of d, made once.
func (c *checker) groupsFor(d *diner) []group {
	if d.groups == nil {
		d.groups = personal{c}.groupsOf(&d.needs.Person)
	}
	return d.groups
}

// Hours that an open pack keeps, between which a day's amount is eaten of it:
// under the first one sitting, over the second several days. Common practice, no
// source.
const (
	oneSittingHours = 6
	oneDayHours     = 24
)

// windowG is what d eats of f out of one pack before it must be finished.
func (c *checker) windowG(d *diner, f *foods.Food) float64 {
	sitting, day := c.sittingAndDay(d, f)
	hours := 0.0
	if f.Keeping != nil {
		hours = f.Keeping.AfterOpenHours
	}
	switch {
	case hours < oneSittingHours:
		return math.Min(sitting, c.days()*day)
	case hours <= oneDayHours:
		return day
	}
	return day * math.Min(hours/oneDayHours, c.days())
}

// eatenWaterL is the litres of water that a hundred grams of f is eaten with.
func (c *checker) eatenWaterL(f *foods.Food) float64 { return c.makingOf(f).eatenL }

// makingOf is how f is made ready: nothing for a food without a preparation.
func (c *checker) makingOf(f *foods.Food) making {
	if f.Preparation == nil {
		return making{}
	}
	return c.tables.making[f.Preparation.Form]
}

// eatenCold reports whether f takes no heat: it may be eaten cold, and the
// household does not cook that far or its heat is limited.
func (c *checker) eatenCold(f *foods.Food) bool {
	p := f.Preparation
	return p != nil && p.ColdOK && (c.req.Limits.HeatMJ != nil || classRank[p.Class] > classRank[string(c.req.Cook)])
}

// shown writes a key of the tables in words.
func shown(key string) string { return strings.ReplaceAll(strings.ReplaceAll(key, "_", " "), "-", " ") }
