package branch

import (
	"math"
	"slices"
)

// combination is a sum of rows of the space with multipliers, as an equation
//
//	Σ_j coef_j·x_j + Σ_i slackCoef_i·t_i = side
//
// where t_i ≥ 0 is the distance of row i's activity from the side it is taken
// at.
type combination struct {
	rows    []int
	mult    []float64
	atUpper []bool
}

// add appends a row, or adds to its multiplier.
func (c *combination) add(row int, mult float64, atUpper bool) {
	for k, i := range c.rows {
		if i == row && c.atUpper[k] == atUpper {
			c.mult[k] += mult
			return
		}
	}
	c.rows = append(c.rows, row)
	c.mult = append(c.mult, mult)
	c.atUpper = append(c.atUpper, atUpper)
}

// sideOf returns the side of a row and whether the row is an equation.
func (s *space) sideOf(row int, atUpper bool) (side float64, terms []term, equation bool) {
	terms, lo, up := s.rowTerms(row)
	if atUpper {
		return up, terms, lo == up
	}
	return lo, terms, lo == up
}

// wholeSlack says whether the slack of a row of the program is an integer at
// every integer point: integer columns, coefficients and side.
func (s *space) wholeSlack(row int, atUpper bool) bool {
	side, terms, _ := s.sideOf(row, atUpper)
	if side != math.Round(side) || row >= s.m {
		return false
	}
	return !slices.ContainsFunc(terms, func(t term) bool { return !s.integer[t.col] || t.value != math.Round(t.value) })
}

// round returns the mixed-integer rounding cut of the combination divided by
// divisor, or nil: with all variables measured from a bound, as x' ≥ 0,
//
//	Σ_int F(a_j)·x'_j + Σ_rest min(0, a_j)/(1−f)·x'_j ≤ ⌊b⌋
//	F(a) = ⌊a⌋ + max(0, a − ⌊a⌋ − f)/(1−f),  f = b − ⌊b⌋
//
// Nemhauser and Wolsey, A recursive procedure to generate all cuts for 0–1
// mixed integer programs, Math. Programming 46 (1990); Marchand and Wolsey,
// Aggregation and mixed integer rounding to solve MIPs, Operations Research 49
// (2001). Columns are measured from the bound nearer to x. The rounding of a
// tableau row this way is Gomory's mixed-integer cut.
//
// Only a cut that is deeper than atLeast is built.
func (s *space) round(w *workspace, c *combination, divisor float64, x []float64, atLeast float64) *cut {
	w.clear()
	side := 0.0
	for k, row := range c.rows {
		b, terms, _ := s.sideOf(row, c.atUpper[k])
		if math.IsInf(b, 0) {
			return nil
		}
		w.add(c.mult[k]/divisor, terms)
		side += c.mult[k] / divisor * b
	}
	// Measure columns from bounds.
	w.flipped = w.flipped[:0]
	for _, j := range w.touched {
		a := w.coef[j]
		if a == 0 {
			continue
		}
		from, flipped, ok := s.measuredFrom(j, x[j])
		if !ok {
			if math.Abs(a) > 1e-12 {
				return nil
			}
			w.coef[j] = 0
			continue
		}
		side -= a * from
		w.isFlipped[j] = flipped
		if flipped {
			w.flipped = append(w.flipped, int32(j))
		}
	}
	down := math.Floor(side)
	f := side - down
	if f < cutAway || f > 1-cutAway {
		return nil
	}
	upper := down
	for _, j := range w.touched {
		a := w.coef[j]
		switch {
		case a == 0:
		case w.isFlipped[j]:
			v := mirCoefficient(-a, f, s.integer[j])
			upper -= v * s.upper[j]
			w.coef[j] = -v
		default:
			v := mirCoefficient(a, f, s.integer[j])
			upper += v * s.lower[j]
			w.coef[j] = v
		}
	}
	w.whole = w.whole[:0]
	for k, row := range c.rows {
		b, terms, equation := s.sideOf(row, c.atUpper[k])
		whole := !equation && s.wholeSlack(row, c.atUpper[k])
		w.whole = append(w.whole, whole)
		if equation {
			continue
		}
		m := c.mult[k] / divisor // the slack's coefficient is +m at the upper side, −m at the lower
		if !c.atUpper[k] {
			m = -m
		}
		v := mirCoefficient(m, f, whole)
		if v == 0 {
			continue
		}
		// t = upper − a·x, or a·x − lower
		if c.atUpper[k] {
			w.add(-v, terms)
			upper -= v * b
		} else {
			w.add(v, terms)
			upper += v * b
		}
	}
	if w.depth(upper, x) <= math.Max(atLeast, cutDepth) {
		return nil
	}
	return w.take(s, upper, x, c.derivation(w, divisor))
}

// derivation records how the rounding in w was made.
func (c *combination) derivation(w *workspace, divisor float64) derivation {
	d := derivation{atUpper: slices.Clone(c.atUpper),
		whole: slices.Clone(w.whole), flipped: slices.Clone(w.flipped)}
	for k, row := range c.rows {
		d.rows = append(d.rows, int32(row))
		d.mult = append(d.mult, c.mult[k]/divisor)
	}
	return d
}

// mirCoefficient is F of [space.round] for integers, G for the rest.
func mirCoefficient(a, f float64, integer bool) float64 {
	if !integer {
		return math.Min(0, a) / (1 - f)
	}
	down := math.Floor(a)
	return down + math.Max(0, a-down-f)/(1-f)
}

// measuredFrom returns the bound that column j at value v is measured from.
// Only bounds that the relaxation has are used.
func (s *space) measuredFrom(j int, v float64) (from float64, flipped, ok bool) {
	lo, up := s.lower[j], s.upper[j]
	switch {
	case math.IsInf(lo, -1) && math.IsInf(up, 1):
		return 0, false, false
	case math.IsInf(lo, -1) || v-lo > up-v:
		return up, true, true
	}
	return lo, false, true
}
