package menu

import (
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/solver/rules"
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

// limited are the limits of one eater with their rows, one for each day or week.
type limited []limitRows

type limitRows struct {
	rules.Limit
	rows []int
}

// limit adds the rows of the limits of e, of those that all that the plan gives them, or
// what they may have, could pass in one day or week. uneaten is what it costs not to eat a
// gram.
func (p *program) limit(e *eater, days int, weight float64, uneaten func(*foods.Food) float64) limited {
	var list limited
	for _, l := range e.limits {
		all, cost := 0.0, costLimit/l.Most
		count := func(f *foods.Food, grams float64) {
			if each := l.Counts(f); each > 0 {
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
		if l.Most <= 0 || all <= l.Most*(1+1e-9) { // sums in no order: what the arithmetic leaves decides nothing
			continue
		}
		one := limitRows{Limit: l}
		for from := 0; from < days; from += l.Days {
			row := p.row(-inf, l.Most)
			p.over(row, cost*weight, l.Most, costFarLimit)
			one.rows = append(one.rows, row)
		}
		list = append(list, one)
	}
	return list
}

// add counts what a column of f on day d adds.
func (list limited) add(p *program, d, col int, f *foods.Food) {
	for _, l := range list {
		if each := l.Counts(f); each > 0 {
			p.Set(l.rows[d/l.Days], col, each)
		}
	}
}

// dayMost is the most of f that the limits of e let be eaten in a day, in g.
func (e *eater) dayMost(f *foods.Food) float64 {
	most := inf
	for _, l := range e.limits {
		if each := l.Counts(f); l.Days == 1 && each > 0 {
			most = math.Min(most, l.Most/each)
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
	return slices.ContainsFunc(e.limits, func(l rules.Limit) bool {
		if l.Days > 1 || l.Counts(f) <= 0 {
			return false
		}
		all := 0.0
		for g, grams := range e.grams {
			all += grams * l.Counts(g)
		}
		return all > tightPart*l.Most*float64(days)
	})
}
