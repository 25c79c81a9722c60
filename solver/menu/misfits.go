package menu

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// misfits says what of the plan fits no dish, the worst first.
func (w *writer) misfits(servings []serving) {
	h := w.h
	inDishes, all := 0.0, 0.0
	for _, e := range h.eaters {
		if e.infant {
			continue
		}
		beside := map[*stocked]float64{}
		for _, v := range servings {
			if v.eater != e {
				continue
			}
			kcal := v.grams * kcalPerG(v.food.food)
			all += e.count * kcal
			if v.of == nil {
				beside[v.food] += v.grams / float64(h.days)
				continue
			}
			inDishes += e.count * kcal
		}
		var names []string
		kcal := 0.0
		for _, s := range h.foods {
			if g := beside[s]; g*kcalPerG(s.food) > leastBesideKcal {
				names = append(names, fmt.Sprintf("%s %.0f g", s.food.Name, g))
				kcal += g * kcalPerG(s.food)
			}
		}
		if len(names) > 0 {
			text := "each day beside the dishes, since none of them takes it: " + strings.Join(names, ", ")
			w.menu.Misfits = append(w.menu.Misfits, Misfit{Person: e.name, Text: text, Kcal: kcal})
		}
	}
	slices.SortStableFunc(w.menu.Misfits, func(a, b Misfit) int { return cmp.Compare(b.Kcal, a.Kcal) })
	if all > 0 {
		w.menu.InDishes = inDishes / all
	}
	w.menu.Cautions = slices.Concat(w.steady(servings), w.h.milkless, kitchenRules)
}

// kitchenRules hold on every day. Sources stand in them.
var kitchenRules = []string{
	"What is opened without a refrigerator is finished by the meal named beside it, or thrown away: food that spoils stands no longer than two hours between 4 and 60 °C (USDA FSIS).",
	"Nothing wet with milk, egg, juice, fruit, fish or meat stands for over an hour before it is eaten; powder is mixed with safe water when it is drunk.",
	"A pack that bulges, leaks, spurts or smells wrong is thrown away untasted (USDA FSIS).",
	"Weights are of the food as packed, dry or drained as its row says; a cup holds 240 mL. Labels, a clinician's word and local authorities come first.",
}

// leastBesideKcal is the energy a day from which a food beside the dishes is named.
const leastBesideKcal = 5
