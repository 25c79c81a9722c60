package verify

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"rationwright/foods"
	"rationwright/nutrients"
)

// usableG is what can be eaten of one pack: its net, what all eat of it before it
// must be finished, what all may eat of the food over the horizon.
func (c *checker) usableG(k *foods.Pack) float64 {
	window, most := 0.0, 0.0
	for _, d := range c.diners {
		a := d.may[k.Food]
		if a.bar != "" {
			continue
		}
		n := d.heads * boughtPerGram(d, k.Food)
		window += n * a.window
		most += n * a.most
	}
	return math.Min(k.NetG, math.Min(window, most))
}

// packs holds what all eat of a food to its whole packs, and each person to one
// window's amount a pack.
func (c stored) packs() {
	number := map[*foods.Food]float64{}
	bought := map[*foods.Food]float64{}
	taken := map[*foods.Pack]int{}
	for _, line := range c.plan.Packs {
		k := c.pack(line.Pack)
		if k == nil || line.Count <= 0 || line.FromStock < 0 {
			c.report("", "pack "+line.Pack+" is unknown or not counted", float64(line.Count), 1)
			continue
		}
		if line.Count > line.FromStock && !slices.Contains(k.Food.Packs, k) {
			c.report("", "pack "+line.Pack+" is of a size that is not sold", float64(line.Count-line.FromStock), 0)
		}
		if c.req.EasyOpen && !weakHands(k) {
			c.report("", "pack "+line.Pack+" is hard to open", float64(line.Count), 0)
		}
		if line.Reserve {
			continue
		}
		number[k.Food] += float64(line.Count)
		bought[k.Food] += float64(line.Count-line.FromStock) * c.usableG(k)
		taken[k] += line.FromStock
	}
	for _, f := range c.req.Table.Foods {
		if f.HasTag(foods.TagHumanMilk) {
			continue
		}
		eaten := 0.0
		for _, d := range c.diners {
			grams := d.grams(f)
			eaten += d.heads * boughtPerGram(d, f) * grams
			if a := d.may[f]; grams > 0 && a.window < a.most {
				c.atMost(d.needs.Person.Name, "opened packs of "+f.Name, grams, a.window*number[f])
			}
		}
		if eaten > 0 {
			c.atMost("", "packs of "+f.Name, eaten, bought[f]+c.fromStockG(f, taken))
		}
	}
}

// lastDay is the last day of the plan on which a line of the stock may be eaten, 1
// for the first: that of its date or of the keeping time once open, whichever
// comes first; ok is false where neither is known. An open pack keeps for the day
// on which it was opened and as many days more as it has whole days beyond the
// first.
func (c *checker) lastDay(line foods.StockLine) (day int, ok bool) {
	day, ok = c.dayOf(line.BestBefore)
	opened, isOpen := c.dayOf(line.Opened)
	if !isOpen {
		return day, ok
	}
	end := opened
	if k := line.Pack.Food.Keeping; k != nil {
		for hours := k.AfterOpenHours - 24; hours >= 24; hours -= 24 {
			end++
		}
	}
	if !ok || end < day {
		day = end
	}
	return day, true
}

// dayOf is the day of the plan that a date is.
func (c *checker) dayOf(date string) (day int, ok bool) {
	first, err := time.Parse(time.DateOnly, c.req.Start)
	if err != nil {
		return 0, false
	}
	at, err := time.Parse(time.DateOnly, date)
	if err != nil {
		return 0, false
	}
	return int(at.Sub(first)/(24*time.Hour)) + 1, true
}

// end is the last day of the horizon on which a line may be eaten, 0 where its
// time is over.
func (c *checker) end(line foods.StockLine) int {
	if day, ok := c.lastDay(line); ok && day < c.req.Days {
		return max(day, 0)
	}
	return c.req.Days
}

// fromStockG is the most that can be eaten out of packs taken from stock: those
// that keep longest are taken first, and what is over by some day gives no more
// than all may eat of the food until then.
func (c *checker) fromStockG(f *foods.Food, taken map[*foods.Pack]int) float64 {
	lines := slices.Clone(c.req.Stock)
	slices.SortStableFunc(lines, func(a, b foods.StockLine) int { return cmp.Compare(c.end(b), c.end(a)) })
	byDay := map[int]float64{}
	used := map[*foods.Pack]int{}
	for _, l := range lines {
		if l.Pack.Food != f {
			continue
		}
		n := min(int(l.Count), taken[l.Pack]-used[l.Pack])
		used[l.Pack] += n
		byDay[c.end(l)] += float64(n) * c.usableG(l.Pack)
	}
	perDay := 0.0
	for _, d := range c.diners {
		if a := d.may[f]; a.bar == "" {
			perDay += d.heads * boughtPerGram(d, f) * a.most / c.days()
		}
	}
	total := 0.0
	for day := 0; day <= c.req.Days; day++ {
		total += byDay[day]
		if day < c.req.Days {
			total = math.Min(total, perDay*float64(day))
		}
	}
	return total
}

// stock holds packs taken from stock to what is on hand, and buys nothing where
// only the stock may be used.
func (c stored) stock() {
	left := map[string]float64{}
	for _, line := range c.req.Stock {
		if c.end(line) > 0 {
			left[line.Pack.Key] += math.Floor(line.Count)
		}
	}
	for _, line := range c.plan.Packs {
		c.atMost("", "stock of "+line.Pack, float64(line.FromStock), math.Min(left[line.Pack], float64(line.Count)))
		left[line.Pack] -= float64(line.FromStock) // the same packs cannot be set aside as well
		if c.req.StockOnly {
			c.atMost("", "bought "+line.Pack, float64(line.Count-line.FromStock), 0)
		}
	}
}

// dates holds what is eaten out of stock whose date falls within the horizon:
// there is that much, nobody eats ahead of the days, the rest comes out of packs
// that keep, and the days after each date are fed.
func (c stored) dates() {
	taken := map[string]int{}
	for _, line := range c.plan.Packs {
		if !line.Reserve {
			taken[line.Pack] += line.FromStock
		}
	}
	type batch struct {
		food *foods.Food
		day  int
	}
	used := map[batch]float64{}
	var days []int
	for _, d := range c.diners {
		who := d.needs.Person.Name
		early := map[batch]float64{} // eaten by d of a food by a day
		for _, line := range d.plan.ByDate {
			f := c.food(line.Food)
			if f == nil || line.Day < 1 || line.Day >= c.req.Days || !(line.Grams >= 0) {
				c.report(who, fmt.Sprintf("dated %s, day %d", line.Food, line.Day), line.Grams, 0)
				continue
			}
			if !slices.Contains(days, line.Day) {
				days = append(days, line.Day)
			}
			used[batch{f, line.Day}] += d.heads * boughtPerGram(d, f) * line.Grams
			for day := line.Day; day <= c.req.Days; day++ {
				early[batch{f, day}] += line.Grams
			}
		}
		for b, grams := range early {
			c.atMost(who, fmt.Sprintf("most of %s by day %d", b.food.Name, b.day), grams, d.may[b.food].most*float64(b.day)/c.days())
			if b.day == c.req.Days {
				c.atMost(who, "dated "+b.food.Name, grams, d.grams(b.food))
			}
		}
	}
	for b, grams := range used {
		have := 0.0
		for _, line := range c.req.Stock {
			if day, ok := c.lastDay(line); ok && day == b.day && line.Pack.Food == b.food {
				have += math.Min(math.Floor(line.Count), float64(taken[line.Pack.Key])) * c.usableG(line.Pack)
			}
		}
		c.atMost("", fmt.Sprintf("%s of day %d", b.food.Name, b.day), grams, have)
	}
	c.keepingPacks(taken)
	for _, day := range days {
		for _, d := range c.diners {
			c.daysAfter(d, day)
		}
	}
	slices.SortStableFunc(c.found, func(a, b Violation) int {
		return cmp.Or(cmp.Compare(a.Person, b.Person), cmp.Compare(a.Limit, b.Limit))
	})
}

// keepingPacks holds what is eaten of a food with dated stock, beside what comes
// out of that, to the packs that keep past the horizon.
func (c stored) keepingPacks(taken map[string]int) {
	dated := map[*foods.Food]bool{}
	keeping := map[*foods.Food]float64{}
	for _, line := range c.req.Stock {
		if c.end(line) < c.req.Days {
			dated[line.Pack.Food] = true
			continue
		}
		keeping[line.Pack.Food] += math.Min(math.Floor(line.Count), float64(taken[line.Pack.Key])) * c.usableG(line.Pack)
	}
	for _, line := range c.plan.Packs {
		if k := c.pack(line.Pack); k != nil && !line.Reserve {
			keeping[k.Food] += float64(line.Count-line.FromStock) * c.usableG(k)
		}
	}
	for _, f := range c.req.Table.Foods {
		if !dated[f] {
			continue
		}
		rest := 0.0
		for _, d := range c.diners {
			grams := d.grams(f)
			for _, line := range d.plan.ByDate {
				if line.Food == f.Name {
					grams -= line.Grams
				}
			}
			rest += d.heads * boughtPerGram(d, f) * grams
		}
		c.atMost("", f.Name+" of packs that keep", rest, keeping[f])
	}
}

// daysAfter holds the energy, the protein and an infant's milk of the days after
// one, and the energy of those up to it.
func (c stored) daysAfter(d *diner, day int) {
	var early []helping
	for _, line := range d.plan.ByDate {
		if f := c.food(line.Food); f != nil && line.Day <= day {
			early = append(early, helping{f, line.Grams})
		}
	}
	if len(early) == 0 {
		return
	}
	who, left := d.needs.Person.Name, c.days()-float64(day)
	for _, need := range d.needs.List {
		if need.Shown || need.Nutrient != nutrients.Energy && need.Nutrient != nutrients.Protein {
			continue
		}
		soon, all := content(early, need.Nutrient), content(d.eaten, need.Nutrient)
		if need.Floor != nil {
			name := fmt.Sprintf("%s after day %d", shown(need.Nutrient.Name()), day)
			c.atLeast(who, name, (all-soon)/left, c.allowed(who, name, need.Nutrient.Unit(), need.Floor.Amount))
		}
		if need.Ceiling != nil {
			c.atMost(who, fmt.Sprintf("%s by day %d", shown(need.Nutrient.Name()), day), soon/float64(day), need.Ceiling.Amount)
		}
	}
	if d.needs.Feed == nil {
		return
	}
	for _, m := range milksOf(d.needs.Feed) {
		c.atLeast(who, fmt.Sprintf("%s feed after day %d", shown(m.tag), day), (m.readyOf(d.eaten)-m.readyOf(early))/left, m.ml.Amount)
	}
}
