package withmenu

import (
	"context"
	"math"

	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// alike returns the point x of m, with the same packs, shared out so that those of a party
// eat the same foods as nearly as their needs allow: one of them with all the bulgur and
// another with all the rice cannot sit down to the same dish. Let y be grams of food f that
// person p eats, s_p the size of their servings, t_f the grams of the party
// over the size of its servings:
//
//	min Σ kcal_f·n_p·|y_pf − s_p·t_f|   within the rows of m, and more under halfFair of it
//	Σ_p n_p·y_pf as at x                each party and food
//	cost ≤ most
//
// Where that is not found x is returned as it is.
func alike(ctx context.Context, m *model.Model, parties []*model.Party, x []float64, most float64) ([]float64, error) {
	p := m.Problem.Clone()
	m.FixPacks(p, x)
	m.CloseEmpty(p)
	for _, v := range m.ByDate {
		p.Cols[v.Col].Lower, p.Cols[v.Col].Upper = x[v.Col], x[v.Col]
	}
	cost := p.AddRow("most", math.Inf(-1), most)
	for j := range p.Cols {
		p.Set(cost, j, p.Cols[j].Cost)
		p.Cols[j].Cost = 0
	}
	for _, g := range parties {
		for li := range m.Larder {
			evenOut(p, m, g, li, x)
		}
	}
	s, err := search.Relax(p)
	if err != nil {
		return nil, err
	}
	r := s.SolveWithin(ctx, alikeWork)
	if r.Status != simplex.Optimal {
		return x, nil
	}
	return r.X[:len(m.Cols)], nil
}

// Who eats less than halfFair of their part of a food counts underHalf times as much: from
// there on a dish of it is no dish, see bareAim of the menu. leastKcal is what a gram counts
// as beside its energy. Own planning rules, no source.
const (
	halfFair  = 0.6
	underHalf = 5
	leastKcal = 0.5
)

// evenOut adds the goal that those of g eat food li by the size of their servings, of as
// much as the party eats at x.
func evenOut(p *linear.Problem, m *model.Model, g *model.Party, li int, x []float64) {
	total, heads := 0.0, 0.0
	for _, e := range g.Eaters {
		if y, ok := e.Eating(li); ok && p.Cols[y.Col].Upper > 0 {
			total += e.Count * x[y.Col]
			heads += e.Count * e.ServingSize()
		}
	}
	if total < model.Dust || len(g.Eaters) < 2 {
		return
	}
	all := p.AddRow("", total, total)
	kcal := m.Larder[li].Food.Per100g.Known(nutrients.Energy) / 100
	for _, e := range g.Eaters {
		y, ok := e.Eating(li)
		if !ok || p.Cols[y.Col].Upper <= 0 {
			continue
		}
		p.Set(all, y.Col, e.Count)
		fair := e.ServingSize() * total / heads
		for _, goal := range []struct{ least, most, cost float64 }{{fair, fair, kcal}, {halfFair * fair, math.Inf(1), underHalf * (kcal + leastKcal)}} {
			row := p.AddRow("", goal.least, goal.most)
			p.Set(row, y.Col, 1)
			p.Set(row, p.AddCol("", e.Count*goal.cost, 0, math.Inf(1), false), 1)
			if !math.IsInf(goal.most, 1) {
				p.Set(row, p.AddCol("", e.Count*goal.cost, 0, math.Inf(1), false), -1)
			}
		}
	}
}
