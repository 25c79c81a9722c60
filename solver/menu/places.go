package menu

import (
	"cmp"
	"math"
	"slices"
)

// tooFew reports whether all, or one of them within what is published for a day, cannot eat
// what they have of s at so many places.
func (s *stocked) tooFew(h *household, places []int) bool {
	days := map[int]bool{}
	for _, t := range places {
		days[dayOf(t)] = true
	}
	most := 0.0 // of all, at one place
	for _, e := range h.eaters {
		if e.eats(s.food) {
			most += e.count * e.mostOf(s)
		}
	}
	return s.grams > most*float64(len(places)) || slices.ContainsFunc(h.eaters, func(e *eater) bool {
		return e.eats(s.food) && e.grams[s.food] > float64(len(days))*e.dayMost(s.food)
	})
}

// addOpenings adds the meals at which packs of s may be opened: those at which a dish
// takes it, or any main meal where none does.
func (p *hosting) addOpenings(s *stocked) {
	var places []int
	for t := range p.l {
		if p.h.cold[dayOf(t)] && !eatenCold(s.food) || !p.h.taken(p.l, t, s.food) {
			continue
		}
		if s.keepsTheDay() { // whoever has none of that dish may have it at another meal
			t = dayOf(t) * meals
		}
		if n := len(places); n > 0 && s.at(places[n-1]) == s.at(t) {
			continue
		}
		places = append(places, t)
	}
	add := func(at func(int) bool, key func(int) int) { // meals without such a dish
		on := map[int]bool{}
		for _, t := range places {
			on[key(t)] = true
		}
		for t := range p.l {
			if at(mealOf(t)) && !on[key(t)] && (!p.h.cold[dayOf(t)] || eatenCold(s.food)) {
				places, on[key(t)] = append(places, t), true
			}
		}
		slices.Sort(places)
	}
	if len(places) > 0 && s.tooFew(p.h, places) { // for what they may eat there
		add(isSnack, s.at)
	}
	if len(places) == 0 || s.mustBeEven(p.h.eaters) {
		add(func(m int) bool { return m == atEvening }, dayOf)
	}
	p.content[s] = map[int]int{}
	for _, t := range places {
		p.content[s][s.at(t)] = p.row(-inf, 0)
	}
	packs := map[opened]int{}
	var kinds []opened // packs alike: of one key and one date
	for _, k := range s.packs {
		if packs[k] == 0 {
			kinds = append(kinds, k)
		}
		packs[k]++
	}
	for _, k := range kinds {
		n := float64(packs[k])
		all := p.row(n, n)
		last := p.h.lastDay(k)
		for i, t := range places {
			if i > 0 && dayOf(t) > last { // by its date, where a dish takes it by then
				continue
			}
			z := p.col(0, n)
			if cmp.Or(k.bestBefore, noDate) != noDate { // what expires first is opened first
				p.Cols[z].Cost = costLater * k.pack.NetG * math.Max(kcalPerG(s.food), costGram) * float64(dayOf(t))
			}
			p.Set(all, z, 1)
			p.Set(p.content[s][s.at(t)], z, -k.pack.NetG)
			p.opens = append(p.opens, packsAt{s, k, t, z, all})
		}
	}
}
