package menu

import (
	"math"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/rules"
)

// freeGrams is the model whose columns say what each person eats.
type freeGrams struct {
	model  *model.Model
	point  []float64
	foods  map[*foods.Food]*stocked // that may be on a plate
	most   float64                  // of the first aim
	stored int                      // row of the stored water
}

// waterBeyondL is the stored water in L that a gram of f takes in a part beyond what it
// takes by itself, spare included.
func (g *freeGrams) waterBeyondL(p *dishes.Part, f *foods.Food) float64 {
	return rules.WaterFigure().SpillFactor * math.Max(0, beyondL(p, f))
}

// beyondL is the water in L that a gram of f takes in a part beyond what it takes by
// itself, less than nothing where it takes less.
func beyondL(p *dishes.Part, f *foods.Food) float64 {
	added, _ := p.Water(f, 1)
	return added/1000 - rules.WaterTakenLPerG(f)
}

// problem is the model's program with its packs, milk feeds and what is eaten by a
// date as they are at the point.
func (g *freeGrams) problem() *linear.Problem {
	p := g.model.CopyProblem()
	g.model.FixPacks(p, g.point)
	g.model.CloseEmpty(p)
	for _, e := range g.model.Eaters {
		for _, y := range e.Eats {
			switch f := g.model.Larder[y.Food].Food; {
			case isMilkFeed(f):
				p.Cols[y.Col].Lower, p.Cols[y.Col].Upper = g.point[y.Col], g.point[y.Col]
			case g.foods[f] == nil:
				p.Cols[y.Col].Upper = 0
			}
		}
	}
	for _, v := range g.model.ByDate {
		p.Cols[v.Col].Lower, p.Cols[v.Col].Upper = g.point[v.Col], g.point[v.Col]
	}
	row := p.AddRow("most", -inf, g.most)
	for j := range p.Cols {
		p.Set(row, j, p.Cols[j].Cost)
	}
	return p
}

func isMilkFeed(f *foods.Food) bool {
	return f.HasTag(foods.TagInfantFormula) || f.HasTag(foods.TagHumanMilk)
}

// column is what e eats of f.
func (g *freeGrams) column(e *eater, f *foods.Food) int {
	for _, one := range g.model.Eaters {
		if one.Person.Name != e.name {
			continue
		}
		for _, y := range one.Eats {
			if g.model.Larder[y.Food].Food == f {
				return y.Col
			}
		}
	}
	return -1
}
