package aim

import (
	"context"
	"math"
	"slices"

	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// bound is proven of the second aim over all foods: no plan within the slack has
// less. It is that of the relaxation of the program without its columns for
// portions, crumbs, sizes and remnants, which in the relaxation are as cheap as what
// is eaten of each food is part of the most,
//
//	u_f ≥ y_pf / cap_pf,  u_f ≥ x_k / U_k,  e_f ≤ u_f,  half·e_f ≤ Σ_p y_pf / o_pf
//
// −∞ where the relaxation is not solved. buys are the foods that it buys: they may
// come in.
func (p *program) bound(ctx context.Context, slack float64) (value float64, buys []int) {
	m := p.model
	q := &program{Problem: m.Problem.Clone(), model: m, weights: p.weights, best: p.best, bought: make([]int, len(m.Larder))}
	q.addSlack(p.best, slack)
	q.addAmounts()
	for li, lf := range m.Larder {
		if q.bought[li] = -1; p.bought[li] < 0 {
			continue
		}
		u := q.AddCol("bought["+lf.Food.Name+"]", p.weights.Of(ration.AimProduct), 0, 1, false)
		q.bought[li] = u
		for _, k := range lf.Buy {
			q.most("bought["+k.Pack.Key+"]", 0, true, term(k.Col, 1), term(u, -q.Cols[k.Col].Upper))
		}
		if len(lf.Stock) > 0 {
			continue
		}
		for _, e := range m.Eaters {
			if y, ok := e.Eating(li); ok && e.Needs.Feed == nil {
				q.most("of["+e.Person.Name+","+lf.Food.Name+"]", 0, true, term(y.Col, 1), term(u, -y.CapG))
			}
		}
	}
	for _, w := range p.twins {
		over := q.AddCol("twins", w.weight, 0, math.Inf(1), false)
		terms := []linear.Entry{term(over, -1)}
		for _, li := range w.foods {
			terms = append(terms, term(q.bought[li], 1))
		}
		q.most("twins", w.most, false, terms...)
	}
	q.boundVariety(p)
	lp, err := search.Relax(q.Problem)
	if err != nil {
		return math.Inf(-1), nil
	}
	r := lp.Solve(ctx)
	if r.Status != simplex.Optimal || !r.HasBound {
		return math.Inf(-1), nil
	}
	for li, lf := range m.Larder {
		if slices.ContainsFunc(lf.Buy, func(k model.PackCol) bool { return r.X[k.Col] > model.Dust }) {
			buys = append(buys, li)
		}
	}
	return r.Bound, buys
}

// boundVariety adds what is missing to variety.
func (q *program) boundVariety(p *program) {
	counts := map[int]int{}
	count := func(li int) int {
		if e, ok := counts[li]; ok {
			return e
		}
		e := q.AddCol("counts["+q.model.Larder[li].Food.Name+"]", 0, 0, 1, false)
		counts[li] = e
		var eaten []linear.Entry
		for ei, one := range q.model.Eaters {
			if _, may := p.eats[ei][li]; may {
				y, _ := one.Eating(li)
				eaten = append(eaten, term(y.Col, -1/p.leastOf(ei, li)))
			}
		}
		half := math.Ceil(float64(len(eaten)) / 2)
		q.most("counts["+q.model.Larder[li].Food.Name+"]", 0, false, append(eaten, term(e, half))...)
		if u := q.bought[li]; u >= 0 && len(q.model.Larder[li].Stock) == 0 {
			q.most("counts-bought["+q.model.Larder[li].Food.Name+"]", 0, false, term(e, 1), term(u, -1))
		}
		return e
	}
	for _, v := range p.varieties {
		missing := q.AddCol("variety", v.weight, 0, v.least, false)
		terms := []linear.Entry{term(missing, -1)}
		for _, li := range v.foods {
			terms = append(terms, term(count(li), -1))
		}
		q.most("variety", -v.least, false, terms...)
	}
}
