package menu

import (
	"cmp"
	"math/bits"
	"slices"

	"rationwright/foods/dishes"
)

// meatFirst gives an infant dishes of meat on as many days as there are jars of it, as far
// from one another as these allow, and returns the meals that are left.
func meatFirst(h *household, l layout, e *eater, lacking []int, list []*choice, left map[*stocked]float64) []int {
	jars := 0
	for _, s := range h.foods {
		if s.food.IsInfantMeat() && e.eats(s.food) {
			jars += len(s.packs)
		}
	}
	isMeat := func(p candidatePart) bool {
		return !p.part.Optional && slices.ContainsFunc(p.options, func(o dishes.Option) bool { return o.Food.IsInfantMeat() })
	}
	meat := slices.DeleteFunc(slices.Clone(list), func(c *choice) bool { return !slices.ContainsFunc(c.parts, isMeat) })
	for jar := range min(jars, h.days) {
		for _, m := range []int{atMidday, atEvening} {
			t := jar*h.days/min(jars, h.days)*meals + m
			if i := slices.Index(lacking, t); i >= 0 && h.instead(l, t, e, meat, left, bareShare) {
				lacking = slices.Delete(lacking, i, i+1)
				break
			}
		}
	}
	return lacking
}

// inRounds orders meals so that each day has one before any has two, and the days of a round
// lie far from one another: in the order of their bits reversed (van der Corput, 1935). What
// an infant has is not all on the first days.
func inRounds(list []int) []int {
	round := map[int]int{} // of each meal: how many of its day come before it
	of := map[int]int{}
	for _, t := range list {
		round[t] = of[dayOf(t)]
		of[dayOf(t)]++
	}
	out := slices.Clone(list)
	slices.SortStableFunc(out, func(a, b int) int {
		return cmp.Or(cmp.Compare(round[a], round[b]), cmp.Compare(bits.Reverse8(uint8(dayOf(a))), bits.Reverse8(uint8(dayOf(b)))))
	})
	return out
}
