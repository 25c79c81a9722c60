package verify

import (
	"slices"
	"strings"

	"rationwright/foods"
	"rationwright/nutrients"
)

// feed holds an infant's milk to its volume, both ways.
func (c personal) feed(d *diner) {
	if d.needs.Feed == nil {
		return
	}
	for _, milk := range milksOf(d.needs.Feed) {
		perDay := milk.readyOf(d.eaten) / c.days()
		c.atLeast(d.needs.Person.Name, shown(milk.tag), perDay, milk.ml.Amount)
		c.atMost(d.needs.Person.Name, shown(milk.tag), perDay, milk.ml.Amount)
	}
}

// oneForm refuses formula that is partly mixed from powder and partly ready to
// feed.
func (c personal) oneForm(d *diner) {
	if c.req.StockOnly || c.closest {
		return
	}
	powder, ready := 0.0, 0.0
	for _, h := range d.eaten {
		switch {
		case !h.food.HasTag(foods.TagInfantFormula):
		case h.food.Form == "infant_formula_powder":
			powder += h.grams
		default:
			ready += h.grams
		}
	}
	if powder > residueG && ready > residueG {
		c.report(d.needs.Person.Name, "formula as powder and ready to feed beside each other", powder, 0)
	}
}

// residueG, in g, is less of a formula than any scoop or spoon: what rounds.
const residueG = 0.1

// milk is one milk of a feed and how much of it, mL a day.
type milk struct {
	tag string
	ml  *nutrients.Limit
}

// readyOf is the ready feed of the milk in what is eaten, in mL.
func (m milk) readyOf(eaten []helping) float64 {
	return sumOf(eaten, func(f *foods.Food) float64 {
		if !f.HasTag(m.tag) {
			return 0
		}
		return readyML(f)
	})
}

func milksOf(feed *nutrients.Feed) []milk {
	var list []milk
	for _, m := range []milk{{foods.TagInfantFormula, feed.FormulaML}, {foods.TagHumanMilk, feed.HumanMilkML}} {
		if m.ml != nil {
			list = append(list, m)
		}
	}
	return list
}

// ironRich is what a plan calls the servings of [checker.ironFood].
const ironRich = "iron-rich infant food"

// gPerOz is exact: the avoirdupois ounce. plainMeat is the least protein food, in
// ounce-equivalents an ounce, of strained meat that counts as plain.
const (
	gPerOz    = 28.349523125
	plainMeat = 0.9
)

// ironFood holds the servings of iron-rich food of an infant from six months.
func (c personal) ironFood(d *diner) {
	if d.needs.Feed == nil || d.needs.Feed.IronFoods == nil {
		return
	}
	p := &d.needs.Person
	servings := func(f *foods.Food) float64 {
		key := ""
		switch meat := f.HasTag(foods.TagMeat) || f.HasTag(foods.TagPoultry); {
		case f.Form == "baby_cereal_dry":
			key = "iron-serving-cereal"
		case f.HasTag(foods.TagInfantFood) && meat && f.PerGram("protein")*gPerOz >= plainMeat:
			key = "iron-serving-meat"
		default:
			return 0
		}
		if g, ok := c.tables.cap(p, key); ok {
			return 1 / g
		}
		return 0
	}
	if slices.ContainsFunc(d.open, func(f *foods.Food) bool { return servings(f) > 0 }) {
		c.atLeast(p.Name, ironRich, d.sum(servings)/c.days(), c.allowed(p.Name, ironRich, "", d.needs.Feed.IronFoods.Amount))
	}
}

// puree holds the fruit and vegetables of an infant from six months: jars for infants
// without meat.
func (c personal) puree(d *diner) {
	if d.needs.Feed == nil || d.needs.Feed.PureeG == nil {
		return
	}
	const name = "fruit or vegetable infant food"
	of := one(func(f *foods.Food) bool {
		meat := f.HasTag(foods.TagMeat) || f.HasTag(foods.TagPoultry)
		return f.Form == "baby_food_jar" && f.HasTag(foods.TagInfantFood) && !meat && (f.PerGram("fruits") > 0 || f.PerGram("vegetables") > 0)
	})
	p := &d.needs.Person
	choice := 0
	for _, f := range d.open {
		if of(f) > 0 {
			choice++
		}
	}
	if choice > 0 {
		c.atLeast(p.Name, name, d.sum(of)/c.days(), c.allowed(p.Name, name, "g", d.needs.Feed.PureeG.Amount))
	}
	const fewest, part = 3, 0.4 // kinds to choose from, and of what all is
	if choice < fewest || c.req.StockOnly {
		return
	}
	for _, f := range d.open {
		if of(f) > 0 {
			c.atMost(p.Name, "share of "+f.Name+" in the purees", d.grams(f)/c.days(), part*d.sum(of)/c.days())
		}
	}
}

// cereal holds the rice of an infant's cereal under a half where there is another.
func (c personal) cereal(d *diner) {
	if d.needs.Feed == nil || d.needs.Feed.Only || c.req.StockOnly {
		return
	}
	var rice []*foods.Food
	others := 0
	for _, f := range d.open {
		switch {
		case f.Form != "baby_cereal_dry":
		case strings.Contains(f.Name, "rice"):
			rice = append(rice, f)
		default:
			others++
		}
	}
	all := d.sum(one(func(f *foods.Food) bool { return f.Form == "baby_cereal_dry" }))
	for _, f := range rice {
		if others > 0 {
			c.atMost(d.needs.Person.Name, "share of "+f.Name+" in the infant cereal", d.grams(f)/c.days(), all/2/c.days())
		}
	}
}

// meat holds the plain meat of an infant from six months: jars of meat or poultry that
// are nearly all meat.
func (c personal) meat(d *diner) {
	if d.needs.Feed == nil || d.needs.Feed.MeatG == nil || c.req.StockOnly {
		return
	}
	const name = "plain infant meat"
	of := one(func(f *foods.Food) bool {
		return f.Form == "baby_food_jar" && (f.HasTag(foods.TagMeat) || f.HasTag(foods.TagPoultry)) && f.PerGram("protein")*gPerOz >= plainMeat
	})
	if slices.ContainsFunc(d.open, func(f *foods.Food) bool { return of(f) > 0 }) {
		p := &d.needs.Person
		c.atLeast(p.Name, name, d.sum(of)/c.days(), c.allowed(p.Name, name, "g", d.needs.Feed.MeatG.Amount))
	}
}
