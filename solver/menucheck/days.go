package menucheck

import (
	"fmt"
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/verify"
)

// days holds the energy and the protein of each day, and the carbohydrate of each
// main meal of who counts it, to the person's mean.
func (c *checker) days(p *ration.PlanPerson) {
	var energy, protein, meals []float64
	var at []string // day and meal of each main one
	for _, d := range c.menu.Days {
		energy = append(energy, c.eaten(d.Meals, p.Name, contentOf(nutrients.Energy)))
		protein = append(protein, c.eaten(d.Meals, p.Name, contentOf(nutrients.Protein)))
		for i, m := range d.Meals {
			if m.isMain() {
				meals = append(meals, c.eaten(d.Meals[i:i+1], p.Name, contentOf(nutrients.Carbohydrate)))
				at = append(at, fmt.Sprintf("day %d, %s:", d.Day, m.Meal))
			}
		}
	}
	c.near(p.Name, Energy, "energy", energy, EnergyRoom)
	c.near(p.Name, Protein, "protein", protein, ProteinRoom)
	c.steady(p)
	c.daily(p)
	if band := p.Carbohydrate; band != nil {
		low, high := mean(meals)-CarbohydrateRoomG, mean(meals)+CarbohydrateRoomG
		if band.Enforced {
			low, high = band.LowG, band.HighG
		}
		for i, g := range meals {
			if off := max(low-g, g-high); off > 0.05 {
				c.add(Carbohydrate, p.Name, off, "%s with %.0f g, from %.0f to %.0f", at[i], g, low, high)
			}
		}
	}
}

// asked is what the words for medicines in household.csv ask to keep alike from day to
// day (nutrients/data/medicines.csv).
var asked = map[nutrients.Condition]nutrients.Nutrient{
	nutrients.Warfarin: nutrients.VitaminK, nutrients.PotassiumSparing: nutrients.Potassium, nutrients.Lithium: nutrients.Sodium,
}

// steady holds each day of who takes such a medicine to the mean.
func (c *checker) steady(p *ration.PlanPerson) {
	person := c.person(p)
	if person == nil {
		return
	}
	for _, condition := range person.Conditions {
		n, ok := asked[condition]
		if !ok {
			continue
		}
		var days []float64
		for _, d := range c.menu.Days {
			days = append(days, c.eaten(d.Meals, p.Name, contentOf(n)))
		}
		c.near(p.Name, Steady, ration.PlainName(n), days, SteadyRoom)
	}
}

// daily holds what a person eats to the amounts of a day that publications give.
func (c *checker) daily(p *ration.PlanPerson) {
	person := c.person(p)
	if person == nil {
		return
	}
	limits, err := verify.DailyOf(c.req, person)
	if err != nil {
		c.add(Daily, p.Name, math.Inf(1), "%v", err)
	}
	for _, l := range limits {
		for _, d := range c.menu.Days {
			got := c.eaten(d.Meals, p.Name, l.Counts)
			if over := got/l.Most - 1; over > DailyRoom {
				c.add(Daily, p.Name, over, "day %d: %.3g %s of %s, at most %.3g", d.Day, got, l.Unit, l.Name, l.Most)
			}
		}
	}
}

// person is the row of the household whom a plan serves, nil where there is none.
func (c *checker) person(p *ration.PlanPerson) *nutrients.Person {
	at := slices.IndexFunc(c.req.People, func(q nutrients.Person) bool { return q.Name == p.Name })
	if at < 0 {
		return nil
	}
	return &c.req.People[at]
}

// contentOf is what a gram of a food is known to hold of n.
func contentOf(n nutrients.Nutrient) func(*foods.Food) float64 {
	return func(f *foods.Food) float64 { return f.Per100g.Known(n) / 100 }
}

// eaten sums what each gives a gram over what a person eats at meals.
func (c *checker) eaten(meals []writtenMeal, name string, each func(*foods.Food) float64) float64 {
	sum := 0.0
	for _, m := range meals {
		for _, s := range m.People {
			for _, a := range s.Foods {
				if f := c.foods[a.Food]; f != nil && s.Name == name {
					sum += a.Grams * each(f)
				}
			}
		}
	}
	return sum
}

func mean(list []float64) float64 {
	sum := 0.0
	for _, v := range list {
		sum += v
	}
	return sum / float64(max(len(list), 1))
}

// near holds each day to the mean.
func (c *checker) near(name string, rule Rule, what string, days []float64, room float64) {
	middle := mean(days)
	if middle <= 0 {
		return
	}
	for i, v := range days {
		if off := math.Abs(v/middle - 1); off > room+slack {
			c.add(rule, name, off, "day %d: %s %+.1f %% of the mean", i+c.menu.FromDay, what, 100*(v/middle-1))
		}
	}
}
