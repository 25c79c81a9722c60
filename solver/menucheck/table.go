package menucheck

import (
	"maps"
	"slices"

	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// dishes counts how often a person has a dish as the main one of a meal.
func (c *checker) dishes(p *ration.PlanPerson) {
	times := map[string]int{}
	var before map[string]bool
	for _, d := range c.menu.Days {
		today := map[string]bool{}
		for _, m := range d.Meals {
			if !m.isMain() {
				continue
			}
			main := ""
			for _, x := range m.Dishes {
				if dish := c.book.Dish(x.Dish); main == "" && dish != nil && eatsOf(m.People, p.Name, x.Dish) &&
					(dish.Has(dishes.Breakfast) || dish.Has(dishes.Midday) || dish.Has(dishes.Evening)) {
					main = x.Dish
				}
			}
			if main == "" {
				// Under a year of age milk feeds are the meals.
				if person := c.person(p); person == nil || person.AgeMonths >= 12 {
					c.add(NoDish, p.Name, 1, "day %d, %s", d.Day, m.Meal)
				}
				continue
			}
			c.bare(p, m.People, d.Day, m.Meal, c.book.Dish(main))
			times[main]++
			if before[main] || today[main] {
				c.add(Running, p.Name, 1, "day %d, %s: %s", d.Day, m.Meal, c.book.Dish(main).Name)
			}
			today[main] = true
		}
		before = today
	}
	for _, key := range slices.Sorted(maps.Keys(times)) {
		n := times[key]
		most := c.book.Dish(key).TimesMax * ((len(c.menu.Days) + dishes.Fortnight - 1) / dishes.Fortnight)
		if n > most {
			c.add(Often, p.Name, float64(n-most), "%s %d times, at most %d", c.book.Dish(key).Name, n, most)
		}
	}
}

// bare finds the parts that make a dish what it is, its base and its protein, of which
// a person has less than the room leaves of the least.
func (c *checker) bare(p *ration.PlanPerson, people []served, day int, meal string, d *dishes.Dish) {
	size := 1.0
	if d.UnderMonths == 0 {
		size = c.kcal(p) / adultKcal
	}
	for _, part := range d.Required() {
		if part.Role != "base" && part.Role != "protein" {
			continue
		}
		grams := 0.0
		for _, s := range people {
			for _, a := range s.Foods {
				if f := c.foods[a.Food]; s.Name == p.Name && a.Dish == d.Key && f != nil {
					if factor, ok := part.Makes(f); ok {
						grams += a.Grams / factor
					}
				}
			}
		}
		if short := 1 - grams/(part.MinG*size); short > BareRoom {
			c.add(Bare, p.Name, short, "day %d, %s: %s with %.0f g of %s, at least %.0f g", day, meal, d.Name, grams, part.Name, part.MinG*size)
		}
	}
}

// kcal is what a person eats a day.
func (c *checker) kcal(p *ration.PlanPerson) float64 {
	sum := 0.0
	for _, f := range p.Foods {
		if x := c.foods[f.Food]; x != nil {
			sum += f.Grams / 100 * x.Per100g.Known(nutrients.Energy)
		}
	}
	return sum / float64(c.plan.Days)
}

// eatsOf reports whether somebody eats of a dish at a meal.
func eatsOf(people []served, name, dish string) bool {
	return slices.ContainsFunc(people, func(s served) bool {
		return s.Name == name && slices.ContainsFunc(s.Foods, func(a helping) bool { return a.Dish == dish })
	})
}
