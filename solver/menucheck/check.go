package menucheck

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"time"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// Finding is a rule that a menu breaks, and by how much.
type Finding struct {
	Rule   Rule
	Text   string
	Amount float64 // how far beyond the rule, in its own unit
}

// Rule is what a menu is held to.
type Rule string

// The rules. Those of [Rule.Safety] are never broken.
const (
	NotTheirs    Rule = "a food that the plan does not give the person"
	Spoiled      Rule = "eaten from a pack that has been open too long"
	NotOpened    Rule = "eaten and not opened"
	Sums         Rule = "grams of the plan"                 // share off
	Packs        Rule = "packs of the plan"                 // packs not opened, or opened and not there
	Energy       Rule = "energy of a day"                   // share off the mean
	Protein      Rule = "protein of a day"                  // share off the mean
	Carbohydrate Rule = "carbohydrate of a meal"            // g off the mean
	Steady       Rule = "what a medicine asks to be alike"  // share off the mean
	Often        Rule = "a dish too often"                  // times over
	Running      Rule = "a dish on two days running"        // days
	Cold         Rule = "heated on a cold day"              // dishes
	Heat         Rule = "heat"                              // MJ over the plan's
	Water        Rule = "water into food"                   // L a person and day over what the plan keeps for it
	NoDish       Rule = "a main meal without a dish"        // meals
	Dated        Rule = "opened past its best before"       // days
	Stove        Rule = "at the stove for too long"         // minutes over, one pot after the other
	Bare         Rule = "a main dish without what makes it" // share of the least of a part that is lacking
)

// Safety reports whether the rule is one of safety.
func (r Rule) Safety() bool { return r == NotTheirs || r == Spoiled || r == NotOpened }

// The rooms that the rules leave. Energy, protein and carbohydrate: planning rules of
// the program; sums: a tenth of a percent of each person's grams of each food.
const (
	SumRoom           = 0.001
	EnergyRoom        = 0.10
	ProteinRoom       = 0.20
	SteadyRoom        = 0.30
	CarbohydrateRoomG = 10
	BareRoom          = 0.5 // of the least of a part
	StoveRoomMin      = 90  // for all that is heated at a meal, one pot at a time
	slack             = 1e-6

	// adultKcal is a day of an adult's usual servings, as the dish table reckons them.
	adultKcal = 2050
)

// written is a menu as its JSON says.
type written struct {
	FromDay int `json:"from_day"`
	Days    []struct {
		Day  int    `json:"day"`
		Date string `json:"date"`
		Cold bool   `json:"cold"`

		HeatMJ float64 `json:"heat_mj"`

		Meals []struct {
			Meal   string  `json:"meal"`
			Hour   float64 `json:"hour"`
			Dishes []struct {
				Dish    string   `json:"dish"`
				Minutes float64  `json:"minutes"`
				For     []string `json:"for"`
			} `json:"dishes"`
			Opens  []string `json:"opens"`
			People []served `json:"people"`
		} `json:"meals"`
	} `json:"days"`
	Leftovers []struct {
		Pack  string `json:"pack"`
		Count int    `json:"count"`
	} `json:"leftovers"`
	WaterL float64 `json:"water_l"`
	HeatMJ float64 `json:"heat_mj"`
}

// served is what one person gets at a meal.
type served struct {
	Name  string `json:"name"`
	Count int    `json:"count"`
	Foods []struct {
		Food  string  `json:"food"`
		Dish  string  `json:"dish"`
		Grams float64 `json:"grams"`
	} `json:"foods"`
}

// checker gathers findings.
type checker struct {
	menu  written
	plan  *ration.Plan
	req   *ration.Request
	book  *dishes.Book
	foods map[string]*foods.Food
	found []Finding
}

func (c *checker) add(rule Rule, amount float64, format string, args ...any) {
	c.found = append(c.found, Finding{rule, fmt.Sprintf(format, args...), amount})
}

// Check holds a menu in its JSON form against the plan and the request that it was
// made of. The error is of JSON that is no menu.
func Check(menuJSON []byte, plan *ration.Plan, req *ration.Request, book *dishes.Book) ([]Finding, error) {
	c := &checker{plan: plan, req: req, book: book, foods: map[string]*foods.Food{}}
	if err := json.Unmarshal(menuJSON, &c.menu); err != nil {
		return nil, fmt.Errorf("menucheck: %w", err)
	}
	for _, f := range req.Table.Foods {
		c.foods[f.Name] = f
	}
	if len(c.menu.Days) != plan.Days {
		c.add(Sums, float64(plan.Days-len(c.menu.Days)), "%d days of %d", len(c.menu.Days), plan.Days)
	}
	c.sums()
	c.packs()
	c.keeping()
	for i := range plan.People {
		c.days(&plan.People[i])
		c.dishes(&plan.People[i])
	}
	c.dates()
	c.stove()
	c.kitchen()
	return c.found, nil
}

// sums holds what each person gets of each food to the plan.
func (c *checker) sums() {
	got := map[[2]string]float64{}
	for _, d := range c.menu.Days {
		for _, m := range d.Meals {
			for _, p := range m.People {
				for _, a := range p.Foods {
					got[[2]string{p.Name, a.Food}] += a.Grams
				}
			}
		}
	}
	for _, p := range c.plan.People {
		for _, f := range p.Foods {
			key := [2]string{p.Name, f.Food}
			if off := math.Abs(got[key] - f.Grams); off > SumRoom*f.Grams {
				c.add(Sums, off/f.Grams, "%s gets %.2f g of %s, the plan has %.2f g", p.Name, got[key], f.Food, f.Grams)
			}
			delete(got, key)
		}
	}
	for key, grams := range got {
		c.add(NotTheirs, grams, "%s gets %.1f g of %s", key[0], grams, key[1])
	}
}

// packs holds what is opened to what the plan buys and takes from stock.
func (c *checker) packs() {
	left := map[string]int{}
	for _, k := range c.plan.Packs {
		if !k.Reserve {
			left[k.Pack] += k.Count
		}
	}
	for _, d := range c.menu.Days {
		for _, m := range d.Meals {
			for _, k := range m.Opens {
				left[k]--
			}
		}
	}
	for _, k := range c.menu.Leftovers { // said to stay closed
		left[k.Pack] -= k.Count
	}
	for _, k := range c.plan.Packs {
		if n := left[k.Pack]; n != 0 {
			c.add(Packs, math.Abs(float64(n)), "%s: %+d packs not opened", k.Pack, n)
		}
		delete(left, k.Pack)
	}
	for k, n := range left {
		if n != 0 {
			c.add(NotOpened, float64(-n), "%s is opened and not in the plan", k)
		}
	}
}

// feedHour is when the first feed of an infant is made.
const feedHour = 7.5

// open is what is left of a pack and when it was opened.
type open struct {
	hour  float64
	grams float64
}

// keeping eats the menu meal by meal out of open packs, the oldest first, and throws
// away what has been open longer than its food keeps without refrigeration.
func (c *checker) keeping() {
	larder := map[*foods.Food][]open{}
	for _, d := range c.menu.Days {
		for _, m := range d.Meals {
			at := float64(d.Day)*24 + m.Hour
			if m.Hour == 0 {
				at += feedHour
			}
			for _, key := range m.Opens {
				i := slices.IndexFunc(c.req.Table.Packs, func(k *foods.Pack) bool { return k.Key == key })
				if i < 0 {
					c.add(NotOpened, 1, "there is no pack %s", key)
					continue
				}
				k := c.req.Table.Packs[i]
				larder[k.Food] = append(larder[k.Food], open{at, k.NetG})
			}
			for _, p := range m.People {
				for _, a := range p.Foods {
					if f := c.foods[a.Food]; f != nil && len(f.Packs) > 0 {
						larder[f] = c.eat(larder[f], f, at, float64(p.Count)*a.Grams, d.Day, m.Meal)
					}
				}
			}
		}
	}
}

// eat takes grams of f out of what is open at the hour.
func (c *checker) eat(packs []open, f *foods.Food, hour, grams float64, day int, meal string) []open {
	keeps := 0.0
	if f.Keeping != nil {
		keeps = f.Keeping.AfterOpenHours
	}
	stale := 0.0
	for i := range packs {
		p := &packs[i]
		if hour > p.hour+keeps+slack {
			stale += p.grams
			continue
		}
		take := min(p.grams, grams)
		p.grams -= take
		grams -= take
	}
	if grams <= slack*1000 {
		return packs
	}
	rule := NotOpened
	if stale >= grams-slack*1000 {
		rule = Spoiled
	}
	c.add(rule, grams, "day %d, %s: %.1f g of %s", day, meal, grams, f.Name)
	return packs
}

// days holds the energy and the protein of each day, and the carbohydrate of each
// main meal of who counts it, to the person's mean.
func (c *checker) days(p *ration.PlanPerson) {
	var energy, protein, meals []float64
	for _, d := range c.menu.Days {
		kcal, g := 0.0, 0.0
		for _, m := range d.Meals {
			carbohydrate := 0.0
			for _, s := range m.People {
				if s.Name != p.Name {
					continue
				}
				for _, a := range s.Foods {
					f := c.foods[a.Food]
					if f == nil {
						continue
					}
					kcal += a.Grams / 100 * f.Per100g.Known(nutrients.Energy)
					g += a.Grams / 100 * f.Per100g.Known(nutrients.Protein)
					carbohydrate += a.Grams / 100 * f.Per100g.Known(nutrients.Carbohydrate)
				}
			}
			if m.Meal == "breakfast" || m.Meal == "midday" || m.Meal == "evening" {
				meals = append(meals, carbohydrate)
			}
		}
		energy, protein = append(energy, kcal), append(protein, g)
	}
	c.near(p.Name, Energy, energy, EnergyRoom)
	c.near(p.Name, Protein, protein, ProteinRoom)
	c.steady(p)
	if band := p.Carbohydrate; band != nil {
		low, high := mean(meals)-CarbohydrateRoomG, mean(meals)+CarbohydrateRoomG
		if band.Enforced {
			low, high = band.LowG, band.HighG
		}
		for i, g := range meals {
			if off := max(low-g, g-high); off > 0.05 {
				c.add(Carbohydrate, off, "%s: %.0f g at main meal %d, from %.0f to %.0f", p.Name, g, i+1, low, high)
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
	at := slices.IndexFunc(c.req.People, func(q nutrients.Person) bool { return q.Name == p.Name })
	if at < 0 {
		return
	}
	for _, condition := range c.req.People[at].Conditions {
		n, ok := asked[condition]
		if !ok {
			continue
		}
		var days []float64
		for _, d := range c.menu.Days {
			amount := 0.0
			for _, m := range d.Meals {
				for _, s := range m.People {
					for _, a := range s.Foods {
						if f := c.foods[a.Food]; f != nil && s.Name == p.Name {
							amount += a.Grams / 100 * f.Per100g.Known(n)
						}
					}
				}
			}
			days = append(days, amount)
		}
		c.near(p.Name, Steady, days, SteadyRoom)
	}
}

func mean(list []float64) float64 {
	sum := 0.0
	for _, v := range list {
		sum += v
	}
	return sum / float64(max(len(list), 1))
}

// near holds each day to the mean.
func (c *checker) near(name string, rule Rule, days []float64, room float64) {
	middle := mean(days)
	if middle <= 0 {
		return
	}
	for i, v := range days {
		if off := math.Abs(v/middle - 1); off > room+slack {
			c.add(rule, off, "%s, day %d: %+.1f %% of the mean", name, i+c.menu.FromDay, 100*(v/middle-1))
		}
	}
}

// dishes counts how often a person has a dish as the main one of a meal.
func (c *checker) dishes(p *ration.PlanPerson) {
	times := map[string]int{}
	var before map[string]bool
	for _, d := range c.menu.Days {
		today := map[string]bool{}
		for _, m := range d.Meals {
			if m.Meal != "breakfast" && m.Meal != "midday" && m.Meal != "evening" {
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
				if !c.infant(p) {
					c.add(NoDish, 1, "%s, day %d, %s", p.Name, d.Day, m.Meal)
				}
				continue
			}
			c.bare(p, m.People, d.Day, m.Meal, c.book.Dish(main))
			times[main]++
			if before[main] || today[main] {
				c.add(Running, 1, "%s, day %d, %s: %s", p.Name, d.Day, m.Meal, main)
			}
			today[main] = true
		}
		before = today
	}
	for key, n := range times {
		most := c.book.Dish(key).TimesMax * ((len(c.menu.Days) + dishes.Fortnight - 1) / dishes.Fortnight)
		if n > most {
			c.add(Often, float64(n-most), "%s: %s %d times, at most %d", p.Name, key, n, most)
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
			c.add(Bare, short, "%s, day %d, %s: %s with %.0f g of %s, at least %.0f g", p.Name, day, meal, d.Key, grams, part.Name, part.MinG*size)
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

// dates holds what is opened to its date: of packs alike, those that expire first are
// opened first.
func (c *checker) dates() {
	left := map[string][]string{}
	for _, l := range c.req.Stock {
		for range int(l.Count) {
			if l.BestBefore != "" {
				left[l.Pack.Key] = append(left[l.Pack.Key], l.BestBefore)
			}
		}
	}
	for _, d := range c.menu.Days {
		for _, m := range d.Meals {
			for _, key := range m.Opens {
				if len(left[key]) == 0 {
					continue
				}
				slices.Sort(left[key])
				date, err := time.Parse(time.DateOnly, left[key][0])
				today, err2 := time.Parse(time.DateOnly, d.Date)
				if left[key] = left[key][1:]; err == nil && err2 == nil && today.After(date) {
					c.add(Dated, today.Sub(date).Hours()/24, "day %d, %s: %s is best before %s", d.Day, m.Meal, key, date.Format(time.DateOnly))
				}
			}
		}
	}
}

// infant reports whether a person is under a year of age: milk feeds are the meals then.
func (c *checker) infant(p *ration.PlanPerson) bool {
	return slices.ContainsFunc(c.req.People, func(q nutrients.Person) bool { return q.Name == p.Name && q.AgeMonths < 12 })
}

// eatsOf reports whether somebody eats of a dish at a meal.
func eatsOf(people []served, name, dish string) bool {
	for _, s := range people {
		if s.Name != name {
			continue
		}
		for _, a := range s.Foods {
			if a.Dish == dish {
				return true
			}
		}
	}
	return false
}
