package menu

import (
	"math"
	"slices"

	"rationwright/foods"
	foodkinds "rationwright/foods/kinds"
	"rationwright/nutrients"
)

// costLimit is what the whole of a published amount costs beyond it, and limitPart the part
// of what it costs not to eat a gram that a gram beyond costs at most: what the plan gives is
// eaten. From twice the published amount on it is costFarLimit times that: rather two people
// or days a little beyond than one by far. Planning rules of this program, no source.
const (
	costLimit    = 50_000
	limitPart    = 0.45
	costFarLimit = 2
)

// limit is the most that a publication lets somebody have of some foods together in a day
// or in a week. A plan keeps it on average; a menu is to keep it day by day.
type limit struct {
	most   float64
	days   int // 1 or 7
	counts func(*foods.Food) float64
}

// limitsOf lists the limits of p.
func limitsOf(table *foods.Table, p *nutrients.Person) []limit {
	var list []limit
	for _, c := range foods.GroupCaps(p) {
		switch {
		case !c.Safety:
		case c.Rule == "fish-week":
			list = append(list, limit{7 * c.PerDay, 7, c.Coefficient})
		default:
			list = append(list, limit{c.PerDay, 1, c.Coefficient})
		}
	}
	for _, c := range table.KindCaps(p) {
		if !c.Safety || c.Measure != foodkinds.Day && c.Measure != foodkinds.Week {
			continue
		}
		days := 1
		if c.Measure == foodkinds.Week {
			days = 7
		}
		list = append(list, limit{c.Value, days, func(f *foods.Food) float64 {
			if !slices.Contains(f.Kinds, c.Kind) {
				return 0
			}
			return f.Counts(c.Unit)
		}})
	}
	return list
}

// limited are the limits of one eater with their rows, one for each day or week.
type limited []struct {
	limit
	rows []int
}

// limit adds the rows of the limits of e, of those that all that the plan gives them, or
// what they may have, could pass in one day or week. uneaten is what it costs not to eat a
// gram.
func (p *program) limit(e *eater, days int, weight float64, uneaten func(*foods.Food) float64) limited {
	var list limited
	for _, l := range e.limits {
		all, cost := 0.0, costLimit/l.most
		count := func(f *foods.Food, grams float64) {
			if each := l.counts(f); each > 0 {
				all += grams * each
				cost = math.Min(cost, limitPart*uneaten(f)/each)
			}
		}
		for f, grams := range e.grams {
			count(f, grams)
		}
		for f, may := range e.may {
			if may {
				count(f, inf)
			}
		}
		if l.most <= 0 || all <= l.most*(1+1e-9) { // sums in no order: what the arithmetic leaves decides nothing
			continue
		}
		one := struct {
			limit
			rows []int
		}{limit: l}
		for from := 0; from < days; from += l.days {
			row := p.row(-inf, l.most)
			p.over(row, cost*weight, l.most, costFarLimit)
			one.rows = append(one.rows, row)
		}
		list = append(list, one)
	}
	return list
}

// add counts what a column of f on day d adds.
func (list limited) add(p *program, d, col int, f *foods.Food) {
	for _, l := range list {
		if each := l.counts(f); each > 0 {
			p.Set(l.rows[d/l.days], col, each)
		}
	}
}

// dayMost is the most of f that the limits of e let be eaten in a day, in g.
func (e *eater) dayMost(f *foods.Food) float64 {
	most := inf
	for _, l := range e.limits {
		if each := l.counts(f); l.days == 1 && each > 0 {
			most = math.Min(most, l.most/each)
		}
	}
	return most
}

// tightPart is the part of a limit from which on average so much of it is eaten that small
// servings keep the days under it. Planning rule of this program, no source.
const tightPart = 0.6

// isTight reports whether the plan gives e so much of what f counts in that only small
// servings keep every day within a limit.
func (e *eater) isTight(f *foods.Food, days int) bool {
	return slices.ContainsFunc(e.limits, func(l limit) bool {
		if l.days > 1 || l.counts(f) <= 0 {
			return false
		}
		all := 0.0
		for g, grams := range e.grams {
			all += grams * l.counts(g)
		}
		return all > tightPart*l.most*float64(days)
	})
}
