package menu

import (
	"fmt"
	"math"

	"rationwright/solver/ration"
)

// steady says, of those whose medicine asks for it, between what amounts a nutrient
// goes up and down over the days of the menu. It is no dose and changes none.
func (w *writer) steady(servings []serving) []string {
	var list []string
	for _, e := range w.h.eaters {
		for _, s := range e.steady {
			day := make([]float64, w.h.days)
			for _, v := range servings {
				if v.eater == e {
					day[dayOf(v.t)] += v.grams / 100 * v.food.food.Per100g.Known(s.of)
				}
			}
			low, high, all, far := math.Inf(1), 0.0, 0.0, 0
			for d, amount := range day {
				low, high, all = math.Min(low, amount), math.Max(high, amount), all+amount
				if math.Abs(amount-s.mean) > math.Abs(day[far]-s.mean) {
					far = d
				}
			}
			text := fmt.Sprintf("%s, %s: between %.0f and %.0f %s a day in this menu, %.0f on average", e.name, ration.PlainName(s.of), low, high, s.of.Unit(), all/float64(w.h.days))
			if s.mean > 0 && math.Abs(day[far]/s.mean-1) > SteadyRoom {
				text += fmt.Sprintf("; day %d is furthest from it, by %+.0f %%: exchange a dish of it with another day's, and tell the prescriber", far+w.menu.FromDay, 100*(day[far]/s.mean-1))
			}
			list = append(list, text+".")
		}
	}
	return list
}
