package solver

import (
	"math"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// checkPerson holds what one person eats against everything that the person
// may and must eat.
func (c *checker) checkPerson(e *checkedEater) {
	c.checkEligible(e)
	c.checkFeed(e)
	if e.needs.Feed != nil && e.needs.Feed.Only {
		return
	}
	c.checkIronFood(e)
	c.checkNeeds(e)
	c.checkShares(e)
	c.checkPattern(e)
	c.checkGroupCaps(e)
	c.checkCompanions(e)
	c.checkGlycaemic(e)
	c.checkMeals(e)
	c.checkWishes(e)
	if e.needs.Water.Total == nil {
		return
	}
	c.atLeast(e.person.Name, "water", waterIntakeL(e.eaten, c.days())+e.plan.DrinkLPerDay,
		c.allowance(e.person.Name, nutrients.Water.Name(), "L", e.needs.Water.Total.Amount*climate(c.req)))
	if e.needs.Water.Drinks != nil {
		c.atLeast(e.person.Name, "drinks", e.plan.DrinkLPerDay,
			c.allowance(e.person.Name, shortDrink, "L", e.needs.Water.Drinks.Amount*climate(c.req)))
	}
}

// checkEligible refuses food that the person may not eat, and more of a food
// than one can eat.
func (c *checker) checkEligible(e *checkedEater) {
	for _, p := range e.eaten {
		if p.grams < 0 {
			c.report(e.person.Name, "negative amount of "+p.food.Name, p.grams, 0)
		}
		if ok, why := foods.Eligible(e.person, c.req.People, p.food); !ok {
			c.report(e.person.Name, "may not eat "+p.food.Name+": "+why.Text, p.grams, 0)
			continue
		}
		may, ok := e.may[p.food]
		if !ok {
			c.report(e.person.Name, "gets "+p.food.Name+", which is left out", p.grams, 0)
			continue
		}
		c.atMost(e.person.Name, "most of "+p.food.Name, p.grams, may.capG)
	}
}

// checkFeed holds an infant's milk to its volume.
func (c *checker) checkFeed(e *checkedEater) {
	if e.needs.Feed == nil {
		return
	}
	for _, milk := range []struct {
		tag string
		ml  *nutrients.Limit
	}{
		{foods.TagInfantFormula, e.needs.Feed.FormulaML}, {foods.TagHumanMilk, e.needs.Feed.HumanMilkML},
	} {
		if milk.ml == nil {
			continue
		}
		perDay := e.sum(func(f *foods.Food) float64 {
			if !f.HasTag(milk.tag) {
				return 0
			}
			return readyMLPerGram(f)
		}) / c.days()
		c.atLeast(e.person.Name, milk.tag, perDay, milk.ml.Amount)
		c.atMost(e.person.Name, milk.tag, perDay, milk.ml.Amount)
	}
}

// checkIronFood holds the servings of iron-rich food of an infant.
func (c *checker) checkIronFood(e *checkedEater) {
	if e.needs.Feed == nil || e.needs.Feed.IronFoods == nil || !anyIronFood(&e.person, e.list) {
		return
	}
	servings := e.sum(func(f *foods.Food) float64 { return foods.IronServings(&e.person, f) }) / c.days()
	c.atLeast(e.person.Name, ironFoods, servings, c.allowance(e.person.Name, ironFoods, "", e.needs.Feed.IronFoods.Amount))
}

// checkNeeds holds every enforced nutrient between floor and ceiling, and the
// plan's own figures to the recomputed ones.
func (c *checker) checkNeeds(e *checkedEater) {
	for _, need := range e.needs.List {
		amount, _ := intake(e.eaten, need.Nutrient, c.days())
		name := need.Nutrient.Name()
		if line := e.plan.Need(name); line == nil {
			c.report(e.person.Name, name+" is missing from the plan", 0, amount)
		} else if math.Abs(line.Amount-amount) > checkTolerance*math.Max(1, math.Abs(amount)) {
			c.report(e.person.Name, name+" as printed", line.Amount, amount)
		}
		if need.Shown {
			continue
		}
		if need.Floor != nil {
			c.atLeast(e.person.Name, name, amount, c.allowance(e.person.Name, name, need.Nutrient.Unit(), need.Floor.Amount))
		}
		if need.Ceiling != nil {
			c.atMost(e.person.Name, name, amount, c.passed(e.person.Name, name, need.Ceiling.Amount))
		}
	}
}

// checkShares holds the shares of the energy eaten.
func (c *checker) checkShares(e *checkedEater) {
	energy, _ := intake(e.eaten, nutrients.Energy, c.days())
	for _, share := range e.needs.Shares {
		amount, _ := intake(e.eaten, share.Nutrient, c.days())
		kcal := share.KcalPerG * amount
		label := share.Nutrient.Name() + " as a share of energy"
		if share.Min != nil {
			least := share.Min.Amount / 100 * energy / share.KcalPerG
			c.atLeast(e.person.Name, label, kcal, share.KcalPerG*c.allowance(e.person.Name, share.Nutrient.Name(), share.Nutrient.Unit(), least))
		}
		if share.Max != nil {
			most := share.Max.Amount / 100 * energy / share.KcalPerG
			c.atMost(e.person.Name, label, kcal, share.KcalPerG*c.passed(e.person.Name, share.Nutrient.Name(), most))
		}
	}
}

// checkPattern holds the servings of each food group.
func (c *checker) checkPattern(e *checkedEater) {
	if c.req.Standard == nutrients.StandardBasic || e.needs.Feed != nil {
		return
	}
	for _, floor := range c.req.Table.Pattern(&e.needs, e.list) {
		if floor.Dropped {
			continue
		}
		servings := e.sum(func(f *foods.Food) float64 { return f.PerGram(floor.Group) }) / c.days()
		c.atLeast(e.person.Name, "servings of "+floor.Group, servings,
			c.allowance(e.person.Name, ration.GroupName(floor.Group), floor.Unit, floor.PerDay))
	}
}

func (c *checker) checkGroupCaps(e *checkedEater) {
	for _, group := range foods.GroupCaps(&e.person) {
		amount := e.sum(func(f *foods.Food) float64 {
			if isFeed(&e.needs, f) {
				return 0
			}
			return group.Coefficient(f)
		}) / c.days()
		c.atMost(e.person.Name, "most "+group.Name, amount, group.PerDay)
	}
}

func (c *checker) checkCompanions(e *checkedEater) {
	if e.needs.Feed != nil {
		return
	}
	for _, p := range e.eaten {
		companions := c.req.Table.Companions(p.food)
		if companions == nil {
			continue
		}
		with := 0.0
		for _, k := range companions {
			with += k.Ratio * e.grams(k.Food)
		}
		c.atMost(e.person.Name, p.food.Name+" with what it is cooked with", p.grams, with)
	}
}

// checkGlycaemic holds the part of the grains that is of low glycaemic index.
func (c *checker) checkGlycaemic(e *checkedEater) {
	if hasDiabetes(&e.person) && anyLowGI(e.list) {
		c.atLeast(e.person.Name, "grains of low glycaemic index", e.sum(lowGIWeight)/c.days(), 0)
	}
}

// checkMeals holds the printed carbohydrate of a meal to the recomputed one.
func (c *checker) checkMeals(e *checkedEater) {
	if e.needs.Meals == nil {
		return
	}
	perDay, _ := intake(e.eaten, nutrients.Carbohydrate, c.days())
	mean := e.needs.Meals.MeanG(perDay)
	switch printed := e.plan.Carbohydrate; {
	case printed == nil:
		c.report(e.person.Name, "carbohydrate of a meal is missing from the plan", 0, mean)
	case math.Abs(printed.MeanG-mean) > checkTolerance*math.Max(1, math.Abs(mean)):
		c.report(e.person.Name, "carbohydrate of a meal as printed", printed.MeanG, mean)
	}
}

// checkWishes holds the household file's own amounts of foods.
func (c *checker) checkWishes(e *checkedEater) {
	total := func(w foods.Portion) float64 {
		grams := 0.0
		for _, f := range w.Foods {
			grams += e.grams(f) / c.days()
		}
		return grams
	}
	for _, w := range e.wishes.Most {
		c.atMost(e.person.Name, w.Text, total(w), w.GramsPerDay)
	}
	for _, w := range e.wishes.Least {
		c.atLeast(e.person.Name, w.Text, total(w), w.GramsPerDay)
	}
}
