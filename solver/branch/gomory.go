package branch

import (
	"cmp"
	"math"
	"slices"

	"rationwright/solver/simplex"
)

// gomory returns mixed-integer rounding cuts of the tableau rows of fractional
// basic integer columns (R. E. Gomory, An algorithm for the mixed integer problem,
// RAND RM-2597, 1960). The multipliers of the
// tableau row are applied to the rows of the space, so that columns left out of
// the relaxation get their coefficients too.
func (r *relaxation) gomory(w *workspace, x []float64, limit int) []*cut {
	basis := r.lp.Basis()
	n := len(r.colGlobal)
	type fraction struct {
		row  int
		away float64
	}
	var rows []fraction
	for row := range r.rowGlobal {
		k := r.lp.BasicIn(row)
		if k >= n || !r.integer[r.colGlobal[k]] {
			continue
		}
		v := x[r.colGlobal[k]]
		away := math.Abs(v - math.Round(v))
		if away > cutAway {
			rows = append(rows, fraction{row, away})
		}
	}
	slices.SortStableFunc(rows, func(a, b fraction) int { return cmp.Compare(b.away, a.away) })
	var found []*cut
	var mult []float64
	for _, f := range rows[:min(limit, len(rows))] {
		mult = r.lp.TableauRow(f.row, mult)
		largest := 0.0
		for _, m := range mult {
			largest = math.Max(largest, math.Abs(m))
		}
		c := &combination{}
		for k, m := range mult {
			place := basis[n+k]
			if place == simplex.Basic || math.Abs(m) < 1e-11*largest {
				continue
			}
			_, lo, up := r.rowTerms(r.rowGlobal[k])
			c.add(r.rowGlobal[k], m, place == simplex.AtUpper || lo == up || math.IsInf(lo, -1))
		}
		if len(c.rows) == 0 {
			continue
		}
		if cut := r.round(w, c, 1, x, 0); cut != nil {
			found = append(found, cut)
		}
	}
	return found
}
