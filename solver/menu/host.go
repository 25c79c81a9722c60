package menu

import (
	"slices"

	"rationwright/foods"
	"rationwright/foods/dishes"
)

// host says at which meals the packs are opened that do not keep: where a dish takes
// the food, first where nothing else makes a part of it, spread over the days; at
// other main meals where no dish is left.
func (h *household) host(l layout) {
	made := map[int]map[*candidatePart]bool{} // parts for which something is opened
	for _, s := range h.foods {
		if len(s.openings) == 0 || s.openings[0].from >= 0 {
			continue
		}
		var at []int
		if s.meal {
			at = h.mealsFor(l, s, made)
		} else {
			at = h.daysFor(l, s, made)
		}
		for i, o := range s.openings {
			o.from = at[i]
			o.last = at[i]
			for !s.meal && mealOf(o.last) < meals-1 && clock[mealOf(o.last)+1].hour <= clock[mealOf(o.from)].hour+s.food.Keeping.AfterOpenHours {
				o.last++
			}
		}
	}
}

// takers are the parts of what is on the table at t, for anyone who eats f, that f
// makes.
func (h *household) takers(l layout, t int, f *foods.Food) []*candidatePart {
	var list []*candidatePart
	for _, e := range h.eaters {
		if !e.eats(f) {
			continue
		}
		for _, c := range l.table(t, e) {
			for i := range c.parts {
				if _, ok := c.parts[i].part.Makes(f); ok && !slices.Contains(list, &c.parts[i]) {
					list = append(list, &c.parts[i])
				}
			}
		}
	}
	return list
}

// at returns what is on the table at t, the main dish first.
func (l layout) at(t int) []*choice {
	if l[t].main == nil {
		return l[t].drinks
	}
	return append([]*choice{l[t].main}, l[t].drinks...)
}

// mealsFor returns the meals at which s is opened, in order.
func (h *household) mealsFor(l layout, s *stocked, made map[int]map[*candidatePart]bool) []int {
	rank := make([]int, len(l)) // lower is better; 9 not at all
	for t := range l {
		rank[t] = 9
		if h.cold[dayOf(t)] && !eatenCold(s.food) {
			continue
		}
		for _, part := range h.takers(l, t, s.food) {
			switch {
			case made[t][part]:
				rank[t] = min(rank[t], 3)
			case !part.part.Optional && onlyMeals(h, *part):
				rank[t] = 0
			case !part.part.Optional:
				rank[t] = min(rank[t], 1)
			default:
				rank[t] = min(rank[t], 2)
			}
		}
		if rank[t] == 9 && !isSnack(mealOf(t)) {
			rank[t] = 4
			if len(made[t]) > 0 {
				rank[t]++
			}
			if mealOf(t) == atBreakfast {
				rank[t] += 2
			}
		}
	}
	n := len(s.openings)
	var at []int
	onDay := make([]int, h.days)
	for quota := (n + h.days - 1) / h.days; len(at) < n; quota++ {
		for r := 0; r <= 9 && len(at) < n; r++ {
			var free []int
			for t := range l {
				if rank[t] == r && onDay[dayOf(t)] < quota && !slices.Contains(at, t) {
					free = append(free, t)
				}
			}
			need := min(n-len(at), len(free))
			for i := range need {
				if t := free[i*len(free)/need]; onDay[dayOf(t)] < quota {
					at = append(at, t)
					onDay[dayOf(t)]++
				}
			}
		}
	}
	slices.Sort(at)
	for _, t := range at {
		if made[t] == nil {
			made[t] = map[*candidatePart]bool{}
		}
		for _, part := range h.takers(l, t, s.food) {
			made[t][part] = true
		}
	}
	return at
}

// keepsAny reports whether a food that makes the part keeps for days once opened.
func keepsAny(h *household, part candidatePart) bool {
	return slices.ContainsFunc(part.options, func(o dishes.Option) bool { return h.of[o.Food].days > 0 })
}

// daysFor returns for each opening of s the first meal at which it is eaten, on days
// spread over those on which a dish takes it.
func (h *household) daysFor(l layout, s *stocked, made map[int]map[*candidatePart]bool) []int {
	var must, good, other []int // where nothing else makes a part, where a dish takes it, where none does
	for d := range h.days {
		first, needed := -1, -1
		for m := range meals {
			t := d*meals + m
			for _, part := range h.takers(l, t, s.food) {
				if first < 0 {
					first = t
				}
				if needed < 0 && !part.part.Optional && !made[t][part] && !keepsAny(h, *part) {
					needed = t
				}
			}
		}
		switch {
		case needed >= 0:
			must = append(must, needed)
		case first >= 0:
			good = append(good, first)
		default:
			other = append(other, d*meals+atBreakfast)
		}
	}
	n := len(s.openings)
	var at []int
	for _, list := range [][]int{must, good, other} {
		need := min(n-len(at), len(list))
		for i := range need {
			at = append(at, list[i*len(list)/need])
		}
	}
	for _, t := range at {
		if made[t] == nil {
			made[t] = map[*candidatePart]bool{}
		}
		for _, part := range h.takers(l, t, s.food) {
			made[t][part] = true
		}
	}
	slices.Sort(at)
	return at
}
