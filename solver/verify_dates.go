package solver

import (
	"fmt"
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// checkDates holds what is eaten out of stock whose date falls within the horizon:
// there is that much of it, nobody eats ahead of the days, and there is enough
// for the days that are left.
func (c *checker) checkDates() {
	taken := map[string]int{}
	for _, line := range c.plan.Packs {
		taken[line.Pack] += line.FromStock
	}
	type batch struct {
		food *foods.Food
		day  int
	}
	used := map[batch]float64{}
	var batches []batch
	var days []int
	for i := range c.eaters {
		e := &c.eaters[i]
		of := map[*foods.Food]float64{}
		for _, d := range e.plan.ByDate {
			f := foodNamed(c.req.Table, d.Food)
			if f == nil || d.Day < 1 || d.Day >= c.req.Days || d.Grams < 0 {
				c.report(e.person.Name, fmt.Sprintf("dated %s, day %d", d.Food, d.Day), d.Grams, 0)
				continue
			}
			if !slices.Contains(days, d.Day) {
				days = append(days, d.Day)
			}
			of[f] += d.Grams
			b := batch{f, d.Day}
			if !slices.Contains(batches, b) {
				batches = append(batches, b)
			}
			used[b] += float64(e.person.Count) * spareFactor(&e.needs, f) * d.Grams
			byThen := 0.0
			for _, other := range e.plan.ByDate {
				if other.Food == d.Food && other.Day <= d.Day {
					byThen += other.Grams
				}
			}
			c.atMost(e.person.Name, fmt.Sprintf("most of %s by day %d", f.Name, d.Day), byThen, e.may[f].capG*float64(d.Day)/c.days())
		}
		for _, p := range e.eaten {
			c.atMost(e.person.Name, "dated "+p.food.Name, of[p.food], p.grams)
			delete(of, p.food)
		}
		if len(of) > 0 {
			c.report(e.person.Name, "dated food that is not eaten", float64(len(of)), 0)
		}
	}
	for _, b := range batches {
		have := 0.0
		for _, line := range c.req.Stock {
			if day, ok := lastDay(c.req, line); line.Pack.Food == b.food && ok && day == b.day {
				have += math.Min(math.Floor(line.Count), float64(taken[line.Pack.Key])) * c.usable(line.Pack)
			}
		}
		c.atMost("", fmt.Sprintf("%s of day %d", b.food.Name, b.day), used[b], have)
	}
	// What is not of a date must come out of packs that keep.
	for _, f := range c.req.Table.Foods {
		if !c.hasDated(f) {
			continue
		}
		rest, keeping := 0.0, 0.0
		for i := range c.eaters {
			e := &c.eaters[i]
			grams := e.grams(f)
			for _, d := range e.plan.ByDate {
				if d.Food == f.Name {
					grams -= d.Grams
				}
			}
			rest += float64(e.person.Count) * spareFactor(&e.needs, f) * grams
		}
		for _, line := range c.plan.Packs {
			if k := ration.FindPack(c.req, line.Pack); k != nil && k.Food == f && !line.Reserve {
				keeping += float64(line.Count-line.FromStock) * c.usable(k)
			}
		}
		for _, line := range c.req.Stock {
			if day, ok := lastDay(c.req, line); line.Pack.Food == f && (!ok || day >= c.req.Days) {
				keeping += math.Min(math.Floor(line.Count), float64(taken[line.Pack.Key])) * c.usable(line.Pack)
			}
		}
		c.atMost("", f.Name+" of packs that keep", rest, keeping)
	}
	for _, day := range days {
		for i := range c.eaters {
			c.checkDaysAfter(&c.eaters[i], day)
		}
	}
}

func (c *checker) hasDated(f *foods.Food) bool {
	for _, line := range c.req.Stock {
		if day, ok := lastDay(c.req, line); line.Pack.Food == f && ok && day < c.req.Days {
			return true
		}
	}
	return false
}

// checkDaysAfter holds the energy and protein of the days after one, and the
// energy of those before.
func (c *checker) checkDaysAfter(e *checkedEater, day int) {
	var early []portion
	for _, d := range e.plan.ByDate {
		if f := foodNamed(c.req.Table, d.Food); f != nil && d.Day <= day {
			early = append(early, portion{f, d.Grams})
		}
	}
	if len(early) == 0 {
		return
	}
	left := c.days() - float64(day)
	for _, need := range e.needs.List {
		if need.Shown || need.Nutrient != nutrients.Energy && need.Nutrient != nutrients.Protein {
			continue
		}
		soon, _ := intake(early, need.Nutrient, 1)
		all, _ := intake(e.eaten, need.Nutrient, 1)
		if need.Floor != nil {
			name := fmt.Sprintf("%s after day %d", ration.PlainName(need.Nutrient), day)
			c.atLeast(e.person.Name, name, (all-soon)/left, c.allowance(e.person.Name, name, need.Nutrient.Unit(), need.Floor.Amount))
		}
		if need.Ceiling != nil {
			c.atMost(e.person.Name, fmt.Sprintf("%s by day %d", ration.PlainName(need.Nutrient), day), soon/float64(day), need.Ceiling.Amount)
		}
	}
	if e.needs.Feed == nil {
		return
	}
	for tag, ml := range map[string]*nutrients.Limit{foods.TagInfantFormula: e.needs.Feed.FormulaML, foods.TagHumanMilk: e.needs.Feed.HumanMilkML} {
		if ml == nil {
			continue
		}
		rest := 0.0
		for _, p := range e.eaten {
			if p.food.HasTag(tag) {
				rest += readyMLPerGram(p.food) * p.grams
			}
		}
		for _, p := range early {
			if p.food.HasTag(tag) {
				rest -= readyMLPerGram(p.food) * p.grams
			}
		}
		c.atLeast(e.person.Name, fmt.Sprintf("%s feed after day %d", ration.Spaced(tag), day), rest/left, ml.Amount)
	}
}
