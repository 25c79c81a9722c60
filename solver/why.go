package solver

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"rationwright/solver/simplex"
)

// PackPrice says at what price a pack enters or leaves the relaxation.
type PackPrice struct {
	Pack   string   `json:"pack"`
	Food   string   `json:"food"`
	Price  float64  `json:"price"`            // now, in the unit of the objective
	Chosen float64  `json:"chosen,omitempty"` // packs in the relaxation, may be a fraction
	Enters *float64 `json:"enters,omitempty"` // not chosen: enters below about this price
	Leaves *float64 `json:"leaves,omitempty"` // chosen: leaves above about this price
}

// chosenTolerance is the part of a pack under which the relaxation does not
// choose it: the simplex method's feasibility tolerance, with room.
const chosenTolerance = 1e-6

// PriceRanges solves the relaxation of the request without cuts and says, for
// every pack of the table that the model holds, at what objective coefficient
// it would enter or leave. A pack that the relaxation leaves out is in an
// optimum exactly when its coefficient is at most what its contents are worth
// at the other rows' prices, coefficient − reduced cost, of the relaxation
// without it; so both figures are that worth, found for a chosen pack by
// solving the relaxation with the pack taken away. Where an optimum is
// degenerate several prices are right; these are those of the basis found.
func PriceRanges(ctx context.Context, req *Request) ([]PackPrice, error) {
	r, err := Build(req)
	if err != nil {
		return nil, err
	}
	s, err := simplex.New(r.Problem)
	if err != nil {
		return nil, err
	}
	root := s.Solve(ctx, simplex.Limits{})
	if root.Status != simplex.Optimal {
		return nil, fmt.Errorf("%w: the relaxation ended %s", ErrNoPlan, root.Why)
	}
	basis := slices.Clone(s.Basis())
	var list []PackPrice
	for _, lf := range r.larder {
		for _, k := range lf.buy {
			p := PackPrice{
				Pack: k.pack.Key, Food: lf.food.Name,
				Price: r.Problem.Cols[k.col].Cost, Chosen: root.X[k.col],
			}
			if p.Chosen <= chosenTolerance {
				p.Chosen = 0
				worth := p.Price - root.Reduced[k.col]
				p.Enters = &worth
				list = append(list, p)
				continue
			}
			worth, ok := r.worthWithout(ctx, s, basis, k)
			if !ok {
				return nil, fmt.Errorf("%w: %s", ErrNumerical, p.Pack)
			}
			if !math.IsInf(worth, 1) {
				p.Leaves = &worth
			}
			list = append(list, p)
		}
	}
	slices.SortStableFunc(list, func(a, b PackPrice) int { return cmp.Compare(a.Food, b.Food) })
	return list, nil
}

// worthWithout takes pack k away, solves again and returns what its contents
// are worth there: +Inf when nothing fits without it.
func (r *Ration) worthWithout(ctx context.Context, s *simplex.Solver, basis simplex.Basis, k packCol) (float64, bool) {
	low, high := s.Bounds(k.col)
	s.SetBounds(k.col, 0, 0)
	result := s.Solve(ctx, simplex.Limits{})
	s.SetBounds(k.col, low, high)
	if err := s.SetBasis(basis); err != nil {
		return 0, false
	}
	switch result.Status {
	case simplex.Optimal:
		return r.Problem.Cols[k.col].Cost - result.Reduced[k.col], true
	case simplex.Infeasible:
		return math.Inf(1), true
	default:
		return 0, false
	}
}
