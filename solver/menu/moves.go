package menu

import (
	"context"
	"math"

	"rationwright/solver/simplex"
)

// moved betters a point with whole packs by taking them from one meal to another, one at a
// time: local search. What all else comes to is convex in the packs, so that the reduced
// costs of their columns bound what a move can bring; the one that may bring most is tried
// first.
func (p *hosting) moved(ctx context.Context, s *simplex.Solver, r simplex.Result) []float64 {
	fix := func(col int, more float64) {
		packs := math.Round(r.X[col]) + more
		s.SetBounds(col, packs, packs)
	}
	for _, v := range p.opens {
		fix(v.col, 0)
	}
	m := moves{opens: p.opens, failed: map[[2]int]bool{}, weak: make([]float64, len(p.opens))}
	for work := moveWork; work > 0; {
		from, to, ok := m.best(r)
		if !ok {
			break
		}
		shift := func(packs float64) {
			fix(p.opens[from].col, -packs)
			fix(p.opens[to].col, packs)
		}
		shift(1)
		most := r.Value * (1 - moveGain)
		next := s.Solve(ctx, simplex.Limits{Iterations: shareWork, HasCutoff: true, Cutoff: most})
		work -= next.Iterations + 1
		if next.Status == simplex.Optimal && next.Value < most {
			r = next
			clear(m.failed)
			continue
		}
		shift(0)
		m.failed[[2]int{from, to}] = true
		m.weak[from]++
		m.weak[to]++
	}
	return r.X
}

// moves are the moves of packs, by index in opens.
type moves struct {
	opens  []packsAt
	failed map[[2]int]bool // from the point as it is
	weak   []float64       // how often one with this meal brought nothing
}

// best is the move that may bring most at the reduced costs of r, of those that may bring
// enough.
func (m *moves) best(r simplex.Result) (from, to int, ok bool) {
	most := 0.0
	for a, v := range m.opens {
		if r.X[v.col] < 1-wholePack {
			continue
		}
		for b, w := range m.opens {
			gain := r.Reduced[v.col] - r.Reduced[w.col]
			if w.all != v.all || gain < moveGain*r.Value || m.failed[[2]int{a, b}] {
				continue
			}
			if gain *= math.Pow(moveWeak, m.weak[a]+m.weak[b]); gain > most {
				from, to, ok, most = a, b, true, gain
			}
		}
	}
	return from, to, ok
}
