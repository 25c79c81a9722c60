package linear

import (
	"fmt"
	"math"
)

// A DualPoint is what row multipliers prove about the optimum of a [Problem]
// without integrality, by weak duality: for a minimisation no feasible x costs
// less than Bound, for a maximisation none earns more.
//
// With d = c − Aᵀy, a minimisation has for every feasible x
//
//	c·x = y·Ax + d·x ≥ Σ_i y_i (y_i > 0 ? L_i : U_i) + Σ_j d_j (d_j > 0 ? l_j : u_j)
//
// and a maximisation the same with the sides changed.
type DualPoint struct {
	Bound   float64
	Reduced []float64 // d, one per column

	// A multiplier that leans on a side without a bound is taken as zero before
	// d is computed, which costs bound but not truth. Dropped is the largest.
	Dropped float64

	// A reduced cost that leans on a missing bound would make Bound infinite.
	// It is left out of Bound instead and shown here: the largest of them, and
	// its column (−1: none). Bound is a proof only if Residual is zero, and good
	// to about Residual·|x| of that column otherwise.
	Residual float64
	WorstCol int
}

// Dual computes what the row multipliers y prove. It returns an error if y has
// not one finite value per row.
func (p *Problem) Dual(y []float64) (DualPoint, error) {
	y, dropped, err := p.leaning(y, p.Maximize)
	if err != nil {
		return DualPoint{}, err
	}
	dp := DualPoint{Reduced: p.Price(y), Dropped: dropped, WorstCol: -1}
	sign := 1.0
	if p.Maximize {
		sign = -1
	}
	var bound sum
	bound.add(p.Offset)
	for i, v := range y {
		if v != 0 {
			bound.addProduct(v, side(sign*v > 0, p.Rows[i].Lower, p.Rows[i].Upper))
		}
	}
	for j, d := range dp.Reduced {
		if d == 0 {
			continue
		}
		b := side(sign*d > 0, p.Cols[j].Lower, p.Cols[j].Upper)
		if math.IsInf(b, 0) {
			if math.Abs(d) > dp.Residual {
				dp.Residual, dp.WorstCol = math.Abs(d), j
			}
			continue
		}
		bound.addProduct(d, b)
	}
	dp.Bound = bound.total()
	return dp, nil
}

// Price returns the reduced costs c − Aᵀy, one per column, for one multiplier
// per row.
func (p *Problem) Price(y []float64) []float64 {
	d := make([]float64, len(p.Cols))
	for j := range p.Cols {
		var s sum
		s.add(p.Cols[j].Cost)
		for _, e := range p.Cols[j].Entries {
			s.addProduct(-e.Value, y[e.Row])
		}
		d[j] = s.total()
	}
	return d
}

// FarkasMargin says by how much the row multipliers y prove that p, even
// without integrality, has no feasible point. The rows say that
// y·Ax ≥ Σ_i y_i (y_i > 0 ? L_i : U_i); the column bounds say what y·Ax can
// reach at most. The margin is the first minus the second, divided by
// the sum of the sizes of the terms (at least 1e-300): positive means proven,
// up to rounding of about 1e-15. Coefficients of y·A below 1e-12 of the terms
// they are the sum of count as the rounding they are when the bound they need
// is missing; a larger one makes the margin −Inf. y is not compared with −y.
// It returns an error if y has not one finite value per row.
func (p *Problem) FarkasMargin(y []float64) (float64, error) {
	y, _, err := p.leaning(y, false)
	if err != nil {
		return 0, err
	}
	const rounding = 1e-12
	var gap sum
	size := 0.0
	for i, v := range y {
		if v != 0 {
			b := side(v > 0, p.Rows[i].Lower, p.Rows[i].Upper)
			gap.addProduct(v, b)
			size += math.Abs(v * b)
		}
	}
	for j := range p.Cols {
		c := &p.Cols[j]
		var s sum
		terms := 0.0
		for _, e := range c.Entries {
			s.addProduct(e.Value, y[e.Row])
			terms += math.Abs(e.Value * y[e.Row])
		}
		g := s.total()
		b := side(g < 0, c.Lower, c.Upper)
		switch {
		case g == 0:
		case !math.IsInf(b, 0):
			gap.addProduct(-g, b)
			size += math.Abs(g * b)
		case math.Abs(g) > rounding*terms:
			return -Inf, nil
		}
	}
	return gap.total() / math.Max(size, 1e-300), nil
}

// leaning returns a copy of y in which a multiplier that leans on a missing row
// bound is zero, and the size of the largest so dropped.
func (p *Problem) leaning(y []float64, maximize bool) (leans []float64, dropped float64, err error) {
	if len(y) != len(p.Rows) {
		return nil, 0, fmt.Errorf("linear: %d multipliers for %d rows", len(y), len(p.Rows))
	}
	leans = append([]float64(nil), y...)
	for i, v := range leans {
		if !finite(v) {
			return nil, 0, fmt.Errorf("linear: multiplier of row %d %q is %v", i, p.Rows[i].Name, v)
		}
		if math.IsInf(side((v > 0) != maximize, p.Rows[i].Lower, p.Rows[i].Upper), 0) {
			dropped = math.Max(dropped, math.Abs(v))
			leans[i] = 0
		}
	}
	return leans, dropped, nil
}

func side(low bool, lower, upper float64) float64 {
	if low {
		return lower
	}
	return upper
}
