package menu

import (
	"fmt"
	"math"

	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// steady says, of those whose medicine asks for it, between what amounts a nutrient
// goes up and down over the days of the menu. It is no dose and changes none.
func (w *writer) steady(servings []serving) []string {
	var list []string
	for _, e := range w.h.eaters {
		needs, err := nutrients.For(*e.person, nutrients.Options{})
		if err != nil {
			continue
		}
		for _, n := range needs.Steady {
			day := make([]float64, w.h.days)
			for _, v := range servings {
				if v.eater == e {
					day[dayOf(v.t)] += v.grams / 100 * v.food.food.Per100g.Known(n)
				}
			}
			low, high, all := math.Inf(1), 0.0, 0.0
			for _, amount := range day {
				low, high, all = math.Min(low, amount), math.Max(high, amount), all+amount
			}
			list = append(list, fmt.Sprintf("%s, %s: between %.0f and %.0f %s a day in this menu, %.0f on average. Where a day is far from that, exchange a dish of it with another day's, and tell the prescriber.",
				e.name, ration.PlainName(n), low, high, n.Unit(), all/float64(w.h.days)))
		}
	}
	return list
}
