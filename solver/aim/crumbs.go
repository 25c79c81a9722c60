package aim

import (
	"cmp"
	"context"
	"math"
	"slices"

	"rationwright/solver/model"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// crumbRounds is how often what people eat is weighed anew before crumbs are given up
// one by one: the less somebody has of a food, the more a gram of it counts, so that
// small amounts go and few foods are left.
const crumbRounds = 4

// portioned shares the packs of x out so that few amounts are crumbs: none of a food
// or at least a portion.
func (p *program) portioned(ctx context.Context, x []float64, most float64) []float64 {
	m := p.model
	q := m.CopyProblem()
	m.FixPacks(q, x)
	row := q.AddRow("slack", math.Inf(-1), most)
	out := make([]bool, len(q.Cols))
	for j := range q.Cols {
		if c := m.Problem.Cols[j].Cost; c != 0 {
			q.Set(row, j, c)
		}
		q.Cols[j].Cost = 0
	}
	m.CloseEmpty(q)
	for j, c := range q.Cols {
		out[j] = c.Lower == 0 && c.Upper == 0
	}
	lp, err := search.RelaxWithout(q, out)
	if err != nil {
		return x
	}
	type share struct {
		col        int
		least, cap float64
	}
	var shares []share
	for ei, e := range m.Eaters {
		for _, y := range e.Eats {
			if _, ok := p.eats[ei][y.Food]; ok && !out[y.Col] {
				shares = append(shares, share{y.Col, p.leastOf(ei, y.Food), y.CapG})
			}
		}
	}
	keep := p.varied(x)
	held := map[int]bool{}
	for k, j := range keep.cols {
		held[j] = true
		lp.SetBounds(j, keep.lower[k], keep.upper[k])
	}
	best := x
	for range crumbRounds {
		for _, s := range shares {
			lp.SetCost(s.col, 1/(best[s.col]+s.least/10))
		}
		r := lp.Solve(ctx)
		if r.Status != simplex.Optimal {
			break
		}
		best = r.X
	}
	crumbs := func() []share {
		list := slices.DeleteFunc(slices.Clone(shares), func(s share) bool { return best[s.col] <= model.Dust || best[s.col] >= s.least*(1-1e-7) })
		slices.SortStableFunc(list, func(a, b share) int { return cmp.Compare(best[a.col]/a.least, best[b.col]/b.least) })
		return list
	}
	done := held
	for ctx.Err() == nil {
		list := slices.DeleteFunc(crumbs(), func(s share) bool { return done[s.col] })
		if len(list) == 0 {
			break
		}
		s := list[0]
		done[s.col] = true
		for _, b := range [][2]float64{{0, 0}, {s.least, s.cap}} {
			lp.SetBounds(s.col, b[0], b[1])
			if r := lp.Solve(ctx); r.Status == simplex.Optimal {
				best = r.X
				break
			}
			lp.SetBounds(s.col, 0, s.cap)
		}
	}
	point := slices.Clone(best[:len(m.Cols)])
	for j := range point {
		if m.Problem.Cols[j].Integer {
			point[j] = math.Round(x[j])
		}
	}
	return point
}
