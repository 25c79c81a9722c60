package menucheck

import (
	"maps"
	"math"
	"slices"
	"time"

	"rationwright/foods"
)

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
				c.add(Sums, p.Name, off/f.Grams, "%.2f g of %s, the plan has %.2f g", got[key], f.Food, f.Grams)
			}
			delete(got, key)
		}
	}
	for _, key := range slices.SortedFunc(maps.Keys(got), func(a, b [2]string) int { return slices.Compare(a[:], b[:]) }) {
		grams := got[key]
		c.add(NotTheirs, key[0], grams, "%.1f g of %s", grams, key[1])
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
			c.add(Packs, "", math.Abs(float64(n)), "%s: %+d packs not opened", k.Pack, n)
		}
		delete(left, k.Pack)
	}
	for _, k := range slices.Sorted(maps.Keys(left)) {
		if n := left[k]; n != 0 {
			c.add(NotOpened, "", float64(-n), "%s is opened and not in the plan", k)
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
					c.add(NotOpened, "", 1, "there is no pack %s", key)
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
	c.add(rule, "", grams, "day %d, %s: %.1f g of %s", day, meal, grams, f.Name)
	return packs
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
					c.add(Dated, "", today.Sub(date).Hours()/24, "day %d, %s: %s is best before %s", d.Day, m.Meal, key, date.Format(time.DateOnly))
				}
			}
		}
	}
}
