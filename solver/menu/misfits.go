package menu

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
)

// misfits says what of the plan fits no dish and which rule of a day is not kept,
// the worst first.
func (w *writer) misfits(servings []serving) {
	h := w.h
	inDishes, all := 0.0, 0.0
	for _, e := range h.eaters {
		if e.infant {
			continue
		}
		beside := map[*stocked]float64{}
		energy := make([]float64, h.days)
		protein := make([]float64, h.days)
		for _, v := range servings {
			if v.eater != e {
				continue
			}
			kcal := v.grams * kcalPerG(v.food.food)
			energy[dayOf(v.t)] += kcal
			protein[dayOf(v.t)] += v.grams * proteinPerG(v.food.food)
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
			w.misfit(e.name, kcal, "each day beside the dishes, since none of them takes it: %s", strings.Join(names, ", "))
		}
		for d := range h.days {
			if off := energy[d]/e.kcal - 1; math.Abs(off) > EnergyRoom+1e-6 {
				w.misfit(e.name, math.Abs(off)*e.kcal/float64(h.days), "energy of day %d is %+.0f %% of the mean", d+w.menu.FromDay, 100*off)
			}
			if off := protein[d]/e.protein - 1; e.protein > 0 && math.Abs(off) > ProteinRoom+1e-6 {
				w.misfit(e.name, 0, "protein of day %d is %+.0f %% of the mean", d+w.menu.FromDay, 100*off)
			}
		}
	}
	if more := w.menu.WaterL - h.waterOfFoods(); more > 0.05 {
		w.misfit("", 0, "the dishes take %.1f L of water more than the foods by themselves, for which the plan stores water", more)
	}
	none := 0
	for t := range w.layout {
		lacks := func(e *eater) bool { return !e.infant && w.layout[t].mainOf(e) == nil }
		if !isSnack(mealOf(t)) && slices.ContainsFunc(h.eaters, lacks) {
			none++
		}
	}
	if none > 0 {
		w.misfit("", 0, "at %d main meals somebody has no dish: what there is, is eaten by itself", none)
	}
	slices.SortStableFunc(w.menu.Misfits, func(a, b Misfit) int { return cmp.Compare(b.Kcal, a.Kcal) })
	if all > 0 {
		w.menu.InDishes = inDishes / all
	}
	w.menu.Notice = w.notice(none)
	w.menu.Cautions = append(w.steady(servings), kitchenRules...)
}

// notice is the worst of a menu in one sentence.
func (w *writer) notice(none int) string {
	off := 0
	for _, m := range w.menu.Misfits {
		if strings.HasPrefix(m.Text, "energy") || strings.HasPrefix(m.Text, "protein") {
			off++
		}
	}
	beside := 100 * (1 - w.menu.InDishes)
	switch {
	case none > 0:
		return fmt.Sprintf("At %d of %d main meals somebody has no dish, and %.0f %% of the energy is eaten beside the dishes: this plan was made without dishes in mind.", none, len(mainMeals)*w.h.days, beside)
	case off > 0:
		return fmt.Sprintf("On %d of a person's days energy or protein is further from the mean than it should be; %.0f %% of the energy is eaten beside the dishes.", off, beside)
	case beside >= 1:
		return fmt.Sprintf("Every main meal has a dish; %.0f %% of the energy fits none and is eaten beside them, as said below.", beside)
	}
	return "Every main meal has a dish, and the dishes take the whole plan."
}

// kitchenRules hold on every day. Sources stand in them.
var kitchenRules = []string{
	"What is opened without a refrigerator is finished by the meal named beside it, or thrown away: food that spoils stands no longer than two hours between 4 and 60 °C (USDA FSIS).",
	"Nothing wet with milk, egg, juice, fruit, fish or meat stands for over an hour before it is eaten; powder is mixed with safe water when it is drunk.",
	"A pack that bulges, leaks, spurts or smells wrong is thrown away untasted (USDA FSIS).",
	"Weights are of the food as packed, dry or drained as its row says; a cup holds 240 mL. Labels, a clinician's word and local authorities come first.",
}

// waterOfFoods is the water in litres that the foods take as each is prepared.
func (h *household) waterOfFoods() float64 {
	ml := 0.0
	for _, s := range h.foods {
		ml += s.grams * waterPerG(s.food)
	}
	return ml / 1000
}

// leastBesideKcal is the energy a day from which a food beside the dishes is named.
const leastBesideKcal = 5

func (w *writer) misfit(person string, kcal float64, format string, args ...any) {
	w.menu.Misfits = append(w.menu.Misfits, Misfit{Person: person, Text: fmt.Sprintf(format, args...), Kcal: kcal})
}
