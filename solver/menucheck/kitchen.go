package menucheck

import (
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/foods/stores"
)

// stove adds up the minutes of what is heated at a meal, an infant's feeds apart.
func (c *checker) stove() {
	for _, d := range c.menu.Days {
		for _, m := range d.Meals {
			minutes := 0.0
			for _, x := range m.Dishes {
				if dish := c.book.Dish(x.Dish); dish != nil && dish.Cooking != "none" && m.Hour > 0 {
					minutes += dish.Minutes
				}
			}
			if minutes > StoveRoomMin {
				c.add(Stove, "", minutes-StoveRoomMin, "day %d, %s: %.0f minutes", d.Day, m.Meal, minutes)
			}
		}
	}
}

// spareWater is what the plan stores for food in L beyond what its foods take by
// themselves: a plan made with dishes stores what these take more. Where water is kept for
// more than people's drinking and washing, none is counted.
func (c *checker) spareWater(takes float64) float64 {
	if c.plan.Totals == nil || c.req.Pets > 0 || c.req.Hot || len(c.req.Ill) > 0 || len(c.plan.Refused) > 0 {
		return 0
	}
	washing := stores.HygieneL().Value
	if c.req.WashingL != nil {
		washing = *c.req.WashingL
	}
	needed := storedFor * takes
	for _, p := range c.plan.People {
		needed += float64(p.Count) * float64(c.plan.Days) * (washing + storedFor*p.DrinkLPerDay)
	}
	return max(0, (c.plan.Totals.WaterL-needed)/storedFor)
}

// storedFor is the water stored for each litre drunk or cooked with: own planning rule.
const storedFor = 1.1

// heatOfDays holds the heat that is said of each day between that of what cannot be eaten
// without and that of everything eaten that heat makes ready, a cold day to none but the
// feeds, and the days together to the heat of the menu.
func (c *checker) heatOfDays() {
	sum := 0.0
	for _, d := range c.menu.Days {
		least, most := 0.0, 0.0
		for _, m := range d.Meals {
			for _, p := range m.People {
				for _, a := range p.Foods {
					f := c.foods[a.Food]
					if f == nil || f.Preparation == nil || d.Cold && m.Hour > 0 {
						continue
					}
					mj := float64(p.Count) * a.Grams / 100 * f.Preparation.HeatMJ
					most += mj
					if mustBeHeated(f) {
						least += mj
					}
				}
			}
		}
		sum += d.HeatMJ
		if off := max(least-d.HeatMJ, d.HeatMJ-most); off > heatRoomMJ {
			c.add(Heat, "", off, "day %d: %.3f MJ; what is eaten takes from %.3f to %.3f MJ", d.Day, d.HeatMJ, least, most)
		}
	}
	if off := math.Abs(sum - c.menu.HeatMJ); off > heatRoomMJ {
		c.add(Heat, "", off, "the days take %.3f MJ, the menu says %.3f MJ", sum, c.menu.HeatMJ)
	}
}

// mustBeHeated reports whether f cannot be eaten cold.
func mustBeHeated(f *foods.Food) bool {
	return f.Preparation != nil && f.Preparation.Class != "none" && !f.Preparation.ColdOK
}

// heatRoomMJ is what sums of heat may differ by: servings are written in full, so only
// rounding of the arithmetic.
const heatRoomMJ = 1e-3

// personDays is the days of all rows of people together.
func (c *checker) personDays() float64 {
	return float64(len(c.menu.Days) * max(len(c.plan.People), 1))
}

// waterOfDays holds the water that is said of each day between the least and the most that
// what is eaten takes, by the parts of its dish that the food makes or by itself, as more of
// what is in a dish goes with it; and the days together to the water of the menu. It returns
// the least of all days.
func (c *checker) waterOfDays() float64 {
	sum, all := 0.0, 0.0
	for _, d := range c.menu.Days {
		least, most := 0.0, 0.0
		for _, m := range d.Meals {
			for _, p := range m.People {
				for _, a := range p.Foods {
					if f := c.foods[a.Food]; f != nil {
						low, high := c.waterML(f, a.Dish)
						least += float64(p.Count) * a.Grams * low / 1000
						most += float64(p.Count) * a.Grams * high / 1000
					}
				}
			}
		}
		sum, all = sum+d.WaterL, all+least
		if off := max(least-d.WaterL, d.WaterL-most); off > waterRoomL {
			c.add(Water, "", off/c.personDays(), "day %d: %.3f L; what is eaten takes from %.3f to %.3f L", d.Day, d.WaterL, least, most)
		}
	}
	if off := math.Abs(sum - c.menu.WaterL); off > waterRoomL {
		c.add(Water, "", off/c.personDays(), "the days take %.3f L, the menu says %.3f L", sum, c.menu.WaterL)
	}
	return all
}

// waterRoomL is what sums of water may differ by: only rounding of the arithmetic.
const waterRoomL = 1e-3

// waterML is the least and the most water in mL that a gram of f takes in a dish: as dry food
// is by itself, or as a part of the dish says of the food it is reckoned with, of another as
// much more or less as it takes by itself.
func (c *checker) waterML(f *foods.Food, key string) (least, most float64) {
	alone := 0.0
	if f.Preparation != nil {
		alone = f.Preparation.WaterML / 100
	}
	least, most = alone, alone
	dish := c.book.Dish(key)
	if dish == nil {
		return least, most
	}
	for _, part := range dish.Parts {
		if !slices.ContainsFunc(part.Options, func(o dishes.Option) bool { return o.Food == f }) || part.WaterML == nil {
			continue
		}
		ml, with := *part.WaterML/100, part.ReckonedAs
		switch {
		case f.Form == with.Form:
		case alone == 0:
			continue
		case with.Preparation != nil && with.Preparation.WaterML > 0:
			ml *= alone / (with.Preparation.WaterML / 100)
		default:
			continue
		}
		least, most = min(least, ml), max(most, ml)
	}
	return least, most
}

// kitchen holds heat and water to the plan, and cold days to their word.
func (c *checker) kitchen() {
	if c.plan.Totals != nil && c.menu.HeatMJ > c.plan.Totals.HeatMJ*(1+slack) {
		c.add(Heat, "", c.menu.HeatMJ-c.plan.Totals.HeatMJ, "%.2f MJ, the plan has %.2f MJ", c.menu.HeatMJ, c.plan.Totals.HeatMJ)
	}
	c.heatOfDays()
	takes := 0.0
	for _, p := range c.plan.People {
		for _, f := range p.Foods {
			if x := c.foods[f.Food]; x != nil && x.Preparation != nil {
				takes += float64(p.Count) * f.Grams / 100 * x.Preparation.WaterML / 1000
			}
		}
	}
	into := math.Max(c.menu.WaterL, c.waterOfDays())
	if kept := takes + c.spareWater(takes); into > kept*(1+slack)+slack {
		c.add(Water, "", (into-kept)/c.personDays(), "%.1f L, the plan keeps %.1f L", into, kept)
	}
	for _, d := range c.menu.Days {
		for _, m := range d.Meals {
			for _, p := range m.People {
				for _, a := range p.Foods {
					if f := c.foods[a.Food]; d.Cold && m.Hour > 0 && f != nil && mustBeHeated(f) {
						c.add(Cold, p.Name, a.Grams, "day %d, %s: %s, which must be heated", d.Day, m.Meal, a.Food)
					}
				}
			}
			for _, x := range m.Dishes {
				if dish := c.book.Dish(x.Dish); d.Cold && m.Hour > 0 && dish != nil && dish.Cooking != "none" && dish.Cooking != "warm" {
					c.add(Cold, "", 1, "day %d, %s: %s", d.Day, m.Meal, dish.Name)
				}
			}
		}
	}
}
