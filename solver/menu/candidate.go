package menu

import (
	"slices"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
)

// candidate is a dish that can be made from the foods of the plan.
type candidate struct {
	dish  *dishes.Dish
	parts []candidatePart
	cold  bool // can be made on a cold day
}

// candidatePart is a part of a dish and the foods of the plan that make it.
type candidatePart struct {
	part    *dishes.Part
	options []dishes.Option
	heads   float64 // Σ count × size of those who have any of the options
}

// candidates are the dishes for the whole household, in the order of the book.
func (h *household) candidates() []*candidate {
	var list []*candidate
	for _, d := range h.book.Dishes {
		if d.UnderMonths > 0 || !h.cooks(d) {
			continue
		}
		if c := h.candidate(d); c != nil {
			list = append(list, c)
		}
	}
	return list
}

// partOf is the part p of d, of those foods that there are.
func partOf(d *dishes.Dish, p *dishes.Part, has func(*foods.Food) bool) candidatePart {
	lacks := func(o dishes.Option) bool { return !has(o.Food) || !p.Cooks(d, o.Food) }
	return candidatePart{part: p, options: slices.DeleteFunc(slices.Clone(p.Options), lacks)}
}

// cooks reports whether d is made in the household: nothing in it is cooked further than may
// be, and what is better hot is eaten cold only where something must be.
func (h *household) cooks(d *dishes.Dish) bool {
	return ration.CookRank[d.Cooking] <= ration.CookRank[string(h.cook)] &&
		(!d.ColdOnly || h.cook == ration.CookNone || len(h.cold) > 0)
}

// candidate returns the dish with the foods that the plan has for it, nil where it
// lacks a part for too many.
func (h *household) candidate(d *dishes.Dish) *candidate {
	c := &candidate{dish: d, cold: d.Cooking == "none" || d.Cooking == "warm"}
	for _, p := range d.Parts {
		part := partOf(d, p, func(f *foods.Food) bool { return h.of[f] != nil })
		for _, e := range h.eaters {
			if e.atTable(d) && part.openTo(e) {
				part.heads += e.count * e.size
			}
		}
		if part.heads < model.LeastAtTable*h.heads {
			if !p.Optional {
				return nil
			}
			if part.heads == 0 {
				continue
			}
		}
		if d.Cooking == "warm" && slices.ContainsFunc(part.options, func(o dishes.Option) bool { return !eatenCold(o.Food) }) {
			c.cold = false
		}
		c.parts = append(c.parts, part)
	}
	return c
}

// eatenCold reports whether f may be eaten without heat.
func eatenCold(f *foods.Food) bool {
	return f.Preparation == nil || f.Preparation.ColdOK || f.Preparation.Class == "none"
}

// openTo reports whether e has any food of the part.
func (p *candidatePart) openTo(e *eater) bool {
	return slices.ContainsFunc(p.options, func(o dishes.Option) bool { return e.eats(o.Food) })
}

// atTable reports whether e is served the dish.
func (e *eater) atTable(d *dishes.Dish) bool { return !e.infant && d.ServedTo(e.person.AgeMonths) }

// kcalPerG is the energy of a gram of f, 0 where unknown.
func kcalPerG(f *foods.Food) float64 { return f.Per100g.Known(nutrients.Energy) / 100 }

func proteinPerG(f *foods.Food) float64 { return f.Per100g.Known(nutrients.Protein) / 100 }

func carbohydratePerG(f *foods.Food) float64 { return f.Per100g.Known(nutrients.Carbohydrate) / 100 }
