package menu

import (
	"slices"

	"rationwright/foods"
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
			at = h.daysFor(l, s)
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

// takers are the parts of what is on the table at t that f makes.
func (l layout) takers(t int, f *foods.Food) []*candidatePart {
	var list []*candidatePart
	for _, c := range l.at(t) {
		for i := range c.parts {
			if _, ok := c.parts[i].part.Makes(f); ok {
				list = append(list, &c.parts[i])
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
		for _, part := range l.takers(t, s.food) {
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
	for r := 0; r <= 9 && len(at) < n; r++ {
		var free []int
		for t := range l {
			if rank[t] == r {
				free = append(free, t)
			}
		}
		need := min(n-len(at), len(free))
		for i := range need {
			at = append(at, free[i*len(free)/need])
		}
	}
	slices.Sort(at)
	for _, t := range at {
		if made[t] == nil {
			made[t] = map[*candidatePart]bool{}
		}
		for _, part := range l.takers(t, s.food) {
			made[t][part] = true
		}
	}
	return at
}

// daysFor returns for each opening of s the first meal at which it is eaten, on days
// spread over those on which a dish takes it.
func (h *household) daysFor(l layout, s *stocked) []int {
	var good, other []int
	for d := range h.days {
		first := -1
		for m := range meals {
			if len(l.takers(d*meals+m, s.food)) > 0 {
				first = d*meals + m
				break
			}
		}
		if first < 0 {
			other = append(other, d*meals+atBreakfast)
		} else {
			good = append(good, first)
		}
	}
	n := len(s.openings)
	var at []int
	for i := range min(n, len(good)) {
		at = append(at, good[i*len(good)/min(n, len(good))])
	}
	need := n - len(at)
	for i := range need {
		at = append(at, other[i*len(other)/need])
	}
	slices.Sort(at)
	return at
}
