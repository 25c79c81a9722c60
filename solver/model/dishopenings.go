package model

import (
	"fmt"
	"math"
	"slices"

	"rationwright/foods/dishes"
)

// DayHours is how long a pack keeps once opened, up to which it is finished within the day and
// serves one of a dish's meals: a dish is eaten once a day.
const DayHours = 24

// service is the meals at which a party has a dish as its main one, and what it eats of
// each part.
type service struct {
	dish  *dishes.Dish
	heads float64    // servings of one meal
	meals []dishTerm // columns, as meals
	cols  map[*dishes.Part][]partCol

	atTable bool // the household's dish
}

// partCol is what is eaten of a food in a part, and grams of it for one of the part.
type partCol struct {
	food, col int
	factor    float64
}

// addOpenings lets every meal of a dish have each part that the dish cannot do without:
// from a pack opened for it, which all parties share, or in its least amount of what keeps.
func (b *seater) addOpenings() {
	rows := map[int]int{} // of each column of packs
	opened := map[*dishes.Part]map[int]int{}
	short := func(v partCol) bool {
		k := b.Larder[v.food].Food.Keeping
		return k != nil && k.AfterOpenHours <= DayHours && len(b.Larder[v.food].Supply()) > 0
	}
	for _, s := range append(b.services, b.together()...) {
		for i, p := range s.dish.Parts {
			if p.Optional || len(s.meals) == 0 || !slices.ContainsFunc(s.cols[p], short) {
				continue
			}
			label := fmt.Sprintf("[%s,%d", s.dish.Key, i+1)
			need := b.addDishRow("openings"+label+"]", 0, Inf)
			for _, t := range s.meals {
				b.Problem.Set(need, t.col, -t.value)
			}
			if opened[p] == nil {
				opened[p] = map[int]int{}
			}
			counted := map[int]bool{} // packs opened: several parties may eat out of one
			for _, v := range s.cols[p] {
				least := v.factor * p.MinG * s.heads
				if !short(v) {
					b.Problem.Set(need, v.col, 1/least)
					continue
				}
				for _, k := range b.Larder[v.food].Supply() {
					if _, ok := rows[k.Col]; !ok {
						rows[k.Col] = b.addDishRow("openings["+k.Pack.Key+"]", -Inf, 0)
						b.Problem.Set(rows[k.Col], k.Col, -1)
					}
					o, ok := opened[p][k.Col]
					if !ok {
						o = b.addServings("openings"+label+","+k.Pack.Key+"]", Inf, false)
						opened[p][k.Col] = o
						b.Problem.Set(rows[k.Col], o, 1)
					}
					if !counted[o] {
						b.Problem.Set(need, o, math.Min(1, k.Pack.NetG/least))
						counted[o] = true
					}
				}
			}
		}
	}
}

// together is the services of all parties of each dish of the household as one: what is
// opened must be enough for all of them.
func (b *seater) together() []*service {
	var list []*service
	for _, seat := range b.seating.Seats {
		all := &service{dish: seat.Dish, cols: map[*dishes.Part][]partCol{}}
		for _, col := range seat.Columns() {
			all.meals = append(all.meals, dishTerm{col, 1})
		}
		parties := 0
		for _, s := range b.services {
			if s.dish != seat.Dish || !s.atTable {
				continue
			}
			parties++
			all.heads += s.heads
			for p, cols := range s.cols {
				all.cols[p] = append(all.cols[p], cols...)
			}
		}
		if parties > 1 {
			list = append(list, all)
		}
	}
	return list
}
