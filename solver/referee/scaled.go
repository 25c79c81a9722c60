package referee

import (
	"math"
	"slices"

	"rationwright/solver/linear"
)

// scaled is the standard form as gonum gets it: caps in force as rows, dense,
// and scaled by powers of two (so that scaling itself rounds nothing):
//
//	a = R A C,   b = β R rhs ≥ 0,   c = γ C cost
//
// z = C z' / β recovers the columns, y = R y' / γ the multipliers, where y' and
// z' belong to a, b and c. A row whose right-hand side was negative has a
// negative factor in R.
type scaled struct {
	m, n        int
	a           [][]float64 // column by column
	b, c        []float64
	rowScale    []float64
	colScale    []float64
	beta, gamma float64
}

// scale makes the scaled form of s with the caps of the columns in capped as
// further rows, each with a slack of its own behind the columns of s.
func (s *standard) scale(capped []int) *scaled {
	d := &scaled{m: len(s.rows) + len(capped), n: len(s.cols) + len(capped)}
	d.b = make([]float64, d.m)
	d.c = make([]float64, d.n)
	entries := make([][]linear.Entry, d.n)
	for i, r := range s.rows {
		d.b[i] = r.rhs
	}
	for k, c := range s.cols {
		d.c[k] = c.cost
		entries[k] = append([]linear.Entry(nil), c.entries...)
	}
	for n, k := range capped {
		row := len(s.rows) + n
		d.b[row] = s.cols[k].cap
		entries[k] = append(entries[k], linear.Entry{Row: row, Value: 1})
		entries[len(s.cols)+n] = []linear.Entry{{Row: row, Value: 1}}
	}
	d.factors(entries)
	d.a = make([][]float64, d.n)
	for k := range entries {
		d.a[k] = make([]float64, d.m)
		for _, e := range entries[k] {
			d.a[k][e.Row] = e.Value * d.rowScale[e.Row] * d.colScale[k]
		}
		d.c[k] *= d.colScale[k]
	}
	for i := range d.b {
		d.b[i] *= d.rowScale[i]
	}
	d.beta, d.gamma = normalise(d.b), normalise(d.c)
	for i := range d.b {
		if d.b[i] < 0 {
			d.b[i], d.rowScale[i] = -d.b[i], -d.rowScale[i]
			for k := range d.a {
				d.a[k][i] = -d.a[k][i]
			}
		}
	}
	return d
}

// scalePasses is how often rows and columns are scaled in turn; after a few
// passes of the geometric mean nothing moves any more.
const scalePasses = 4

// factors sets rowScale and colScale so that the largest and the smallest
// coefficient of each row and column lie about evenly around one.
func (d *scaled) factors(entries [][]linear.Entry) {
	d.rowScale, d.colScale = slices.Repeat([]float64{1}, d.m), slices.Repeat([]float64{1}, d.n)
	low, high := make([]float64, d.m), make([]float64, d.m)
	for range scalePasses {
		for i := range low {
			low[i], high[i] = math.Inf(1), 0
		}
		for k := range entries {
			small, large := math.Inf(1), 0.0
			for _, e := range entries[k] {
				v := math.Abs(e.Value)
				small, large = math.Min(small, v*d.rowScale[e.Row]), math.Max(large, v*d.rowScale[e.Row])
			}
			if large > 0 {
				d.colScale[k] = powerOfTwo(1 / math.Sqrt(small*large))
			}
			for _, e := range entries[k] {
				v := math.Abs(e.Value) * d.colScale[k]
				low[e.Row], high[e.Row] = math.Min(low[e.Row], v), math.Max(high[e.Row], v)
			}
		}
		for i := range low {
			if high[i] > 0 {
				d.rowScale[i] = powerOfTwo(1 / math.Sqrt(low[i]*high[i]))
			}
		}
	}
}

// normalise scales v to a largest entry of about one and returns the factor.
func normalise(v []float64) float64 {
	size := largest(v)
	if size <= 0 {
		return 1
	}
	f := powerOfTwo(1 / size)
	for i := range v {
		v[i] *= f
	}
	return f
}

// largest returns the size of the largest entry of v.
func largest(v []float64) float64 {
	top := 0.0
	for _, x := range v {
		top = math.Max(top, math.Abs(x))
	}
	return top
}

func powerOfTwo(v float64) float64 { return math.Exp2(math.Round(math.Log2(v))) }

// columns returns the values of the columns of s for the point z' of d.
func (d *scaled) columns(z []float64) []float64 {
	v := make([]float64, d.n)
	for k := range v {
		v[k] = z[k] * d.colScale[k] / d.beta
	}
	return v
}

// multipliers returns the multipliers of the original rows for y' of d. Rows
// that were dropped get zero; those of caps are left out, as the column bounds
// imply them.
func (s *standard) multipliers(d *scaled, y []float64, factor float64) []float64 {
	dual := make([]float64, len(s.p.Rows))
	for i, r := range s.rows {
		dual[r.origin] = factor * y[i] * d.rowScale[i]
	}
	return dual
}
