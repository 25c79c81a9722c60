package branch

import (
	"fmt"
	"math"
	"math/rand/v2"

	"rationwright/solver/linear"
)

// rationLike makes a program of the shape of a ration: grams of each food for
// each person held by whole packs that all share, nutrient floors and ceilings
// per person, caps per food. The numbers are invented.
func rationLike(seed uint64, people, foods, nutrients int) *linear.Problem {
	rng := rand.New(rand.NewPCG(seed, 7))
	p := &linear.Problem{Name: fmt.Sprintf("ration %d x %d", people, foods)}
	const days = 14
	for f := range foods {
		p.AddRow(fmt.Sprintf("packs[%d]", f), -inf, 0)
	}
	content := make([][]float64, foods) // per gram
	for f := range content {
		content[f] = make([]float64, nutrients)
		for n := range content[f] {
			if rng.IntN(3) > 0 {
				content[f][n] = math.Exp(2 * rng.NormFloat64())
			}
		}
		content[f][0] = 0.5 + 4*rng.Float64() // energy: every food has some
	}
	for i := range people {
		for n := range nutrients {
			floor := days * (800 + 400*rng.Float64())
			ceiling := inf
			switch {
			case n == 0:
				ceiling = floor * 1.1
			case n%4 == 0:
				ceiling = floor * 6
			}
			p.AddRow(fmt.Sprintf("need[%d,%d]", i, n), floor, ceiling)
		}
	}
	for f := range foods {
		total := 0.0
		for i := range people {
			most := days * (50 + 150*rng.Float64())
			total += most
			j := p.AddCol(fmt.Sprintf("eat[%d,%d]", i, f), 0, 0, most, false)
			p.Set(f, j, 1)
			for n, v := range content[f] {
				p.Set(foods+i*nutrients+n, j, v)
			}
		}
		perGram := 0.001 + 0.004*rng.Float64()
		for k := range 1 + rng.IntN(2) {
			net := math.Round(100 * math.Pow(2.2, float64(k)+rng.Float64()))
			usable := math.Min(net, total)
			price := math.Round(100*(0.2+net*perGram*math.Pow(0.93, float64(k)))) / 100
			j := p.AddCol(fmt.Sprintf("buy[%d,%d]", f, k), price, 0, math.Ceil(total/usable), true)
			p.Set(f, j, -usable)
		}
	}
	return p
}
