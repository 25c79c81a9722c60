package answer

import (
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/foods/kinds"
	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
)

// Eatable says how far people will eat the packs and amounts of a plan: products,
// sizes, what leans on one food, crumbs, and which planning rules gave.
func Eatable(m *model.Model, p *ration.Plan) *ration.Eatable {
	e := &ration.Eatable{Loosened: m.Loosened(m.PointOf(p))}
	sizes := map[string]int{}
	for _, line := range p.Packs {
		if line.Reserve {
			continue
		}
		if sizes[line.Food] == 0 {
			e.Products++
		}
		sizes[line.Food]++
		e.MostSizes = max(e.MostSizes, sizes[line.Food])
	}
	eaters, portions := 0, map[*foods.Food]int{}
	for i := range p.People {
		person := &p.People[i]
		eater := m.Eaters[i]
		if eater.Needs.Feed != nil {
			continue
		}
		eaters++
		for _, line := range person.Foods {
			if f, err := m.Request.Table.Food(line.Food); err == nil && line.Grams >= LeastPortionG(&eater.Person, f)*(1-search.PortionTolerance) {
				portions[f]++
			}
		}
		addShares(e, m, eater, person)
	}
	e.Mains = ration.DifferentMains(m.Request.Cook, func(kind string) bool {
		for f, n := range portions {
			if 2*n >= eaters && slices.Contains(f.Kinds, kind) {
				return true
			}
		}
		return false
	})
	return e
}

// addShares adds what leans on one food and on one kind in what a person eats, and
// counts the crumbs.
func addShares(out *ration.Eatable, m *model.Model, e *model.Eater, person *ration.PlanPerson) {
	type energy struct {
		food *foods.Food
		kcal float64
	}
	var (
		all  float64
		eats []energy // in the order of the plan, so that sums come out alike each time
	)
	for _, line := range person.Foods {
		f, err := m.Request.Table.Food(line.Food)
		if err != nil {
			continue
		}
		eats = append(eats, energy{f, f.Per100g.Known(nutrients.Energy) / 100 * line.Grams})
		all += eats[len(eats)-1].kcal
		if line.Grams < LeastPortionG(&e.Person, f)*(1-search.PortionTolerance) {
			out.Crumbs++
		}
	}
	if all <= 0 {
		return
	}
	own := map[string]bool{} // kinds with a share of their own
	for _, c := range m.Request.Table.KindCaps(&e.Person) {
		own[c.Kind] = own[c.Kind] || c.Measure == kinds.Share
	}
	ofKind := map[string]float64{}
	for _, part := range eats {
		out.LargestFoodShare = math.Max(out.LargestFoodShare, part.kcal/all)
		for _, kind := range part.food.Kinds {
			if k := m.Request.Table.Kinds().Kind(kind); k != nil && len(k.Foods) > 1 && !own[kind] {
				ofKind[kind] += part.kcal
			}
		}
	}
	for _, part := range ofKind {
		out.LargestKindShare = math.Max(out.LargestKindShare, part/all)
	}
}

// portions is how many portions of a food make it worth having in a store: less
// is a crumb. A portion is half of the most at one sitting. Planning rules of this
// program, no source.
const portions = 2

// LeastPortionG is the least that a person has of a food over the horizon, in g,
// where they have any.
func LeastPortionG(p *nutrients.Person, f *foods.Food) float64 {
	sitting, _, _ := foods.Cap(p, f)
	return portions * sitting / 2
}
