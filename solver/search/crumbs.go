package search

import (
	"cmp"
	"context"
	"math"
	"slices"

	"rationwright/solver/model"
	"rationwright/solver/rules"
	"rationwright/solver/simplex"
)

// WithoutCrumbs lets nobody eat a thousandth of a fish: with the packs as they are,
// it gives up what one person eats of a food where that is a crumb and the needs
// are met without it. x stays as it is where nothing can be given up.
func WithoutCrumbs(ctx context.Context, m *model.Model, x []float64) []float64 {
	if len(crumbs(m, x)) == 0 {
		return x
	}
	q, err := atPacks(m, x)
	if err != nil {
		return x
	}
	most := m.ValueOf(x)
	most += CrumbSlack * math.Abs(most)
	best := x
	if q.LP.Solve(ctx).Status != simplex.Optimal { // from whose basis few iterations lead on
		return x
	}
	basis := q.LP.Basis()
	without := func(cols ...int) bool {
		for _, j := range cols {
			q.LP.SetBounds(j, 0, 0)
		}
		result := q.LP.SolveUpTo(ctx, most)
		if result.Status == simplex.Optimal && m.ValueOf(result.X) <= most {
			best, basis = result.X, q.LP.Basis()
			return true
		}
		for _, j := range cols {
			q.LP.SetBounds(j, m.Problem.Cols[j].Lower, m.Problem.Cols[j].Upper)
		}
		q.LP.SetBasis(basis)
		return false
	}
	needed := map[int]bool{} // cannot be given up, nor when more is given up
	for range crumbRounds {  // what is eaten instead may be a crumb too
		cols := slices.DeleteFunc(crumbs(m, best), func(j int) bool { return needed[j] })
		if len(cols) == 0 || ctx.Err() != nil {
			break
		}
		if without(cols...) {
			continue
		}
		for _, j := range cols {
			needed[j] = !without(j)
		}
	}
	return packsOf(m, best, x)
}

// crumbs lists the columns of what is eaten in crumbs at x, the least first.
func crumbs(m *model.Model, x []float64) []int {
	share := map[int]float64{} // of the most that is a crumb
	var cols []int
	for _, e := range m.Eaters {
		for _, y := range e.Eats {
			most := CrumbShare * y.CapG / m.Days()
			if x[y.Col] > model.Dust && x[y.Col] < most && !rules.IsFeed(&e.Needs, m.Larder[y.Food].Food) {
				share[y.Col] = x[y.Col] / most
				cols = append(cols, y.Col)
			}
		}
	}
	slices.SortStableFunc(cols, func(a, b int) int { return cmp.Compare(share[a], share[b]) })
	return cols
}

// packsOf is point with the packs of x, to the last digit.
func packsOf(m *model.Model, point, x []float64) []float64 {
	out := slices.Clone(point[:len(m.Cols)])
	for j := range out {
		if m.Problem.Cols[j].Integer {
			out[j] = math.Round(x[j])
		}
	}
	return out
}
