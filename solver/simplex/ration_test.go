package simplex

import (
	"fmt"
	"math"
	"math/rand/v2"

	"rationwright/solver/linear"
)

// ration returns an invented program of the shape this package is made for:
// people eat grams of foods that are bought in whole packs. Every person has
// rows for nutrients, every food a balance row, and packs are cheap per gram
// the larger they are.
//
//	minimise  Σ_k price_k·x_k
//	          Σ_p y_pf − Σ_k net_k·x_k ≤ 0          for every food f
//	          floor_pn ≤ Σ_f a_nf·y_pf ≤ ceiling_pn  for every person p, nutrient n
//	          0 ≤ y_pf ≤ cap_f, 0 ≤ x_k ≤ bound_k
func ration(people, foods int, seed uint64) *linear.Problem {
	r := rand.New(rand.NewPCG(seed, 7))
	const nutrients, days = 40, 14
	p := &linear.Problem{Name: fmt.Sprintf("ration-%d-%d", people, foods)}
	// Contents per gram; a nutrient is in two thirds of the foods, and in some
	// a hundred times more than in others.
	content := make([][]float64, nutrients)
	for n := range content {
		content[n] = make([]float64, foods)
		for f := range content[n] {
			if r.IntN(3) > 0 {
				content[n][f] = math.Exp(1.5 * r.NormFloat64())
			}
		}
	}
	for n := range content { // energy and the like are in all foods
		if n < 3 {
			for f := range content[n] {
				content[n][f] = 1 + 3*r.Float64()
			}
		}
	}
	need := make([]int, 0, people*nutrients)
	for range people {
		size := 0.6 + 0.8*r.Float64()
		for n := range nutrients {
			mean := 0.0
			for _, v := range content[n] {
				mean += v / float64(foods)
			}
			floor := 600 * size * mean * (0.5 + 0.4*r.Float64()) * days
			ceiling := math.Inf(1)
			if n%3 == 0 {
				ceiling = floor * (1.2 + 2*r.Float64())
			}
			need = append(need, p.AddRow(fmt.Sprintf("need%d", len(p.Rows)), floor, ceiling))
		}
	}
	balance := make([]int, foods)
	for f := range balance {
		balance[f] = p.AddRow(fmt.Sprintf("balance%d", f), math.Inf(-1), 0)
	}
	most := make([]float64, foods)
	for f := range foods {
		most[f] = days * (30 + 150*r.Float64())
	}
	for q := range people {
		for f := range foods {
			if r.IntN(10) == 0 {
				continue // not eaten by this person
			}
			j := p.AddCol(fmt.Sprintf("y%d_%d", q, f), 0, 0, most[f], false)
			for n := range nutrients {
				p.Set(need[q*nutrients+n], j, content[n][f])
			}
			p.Set(balance[f], j, 1)
		}
	}
	for f := range foods {
		unit := math.Exp(0.7*r.NormFloat64()) / 100
		for k := range 1 + r.IntN(3) {
			net := 100 * math.Pow(4, float64(k)) * (0.7 + 0.6*r.Float64())
			all := most[f] * float64(people)
			price := math.Round(100*unit*net*math.Pow(net/100, -0.15)) / 100
			j := p.AddCol(fmt.Sprintf("x%d_%d", f, k), price, 0, math.Ceil(all/net), true)
			p.Set(balance[f], j, -min(net, all))
		}
	}
	return p
}
