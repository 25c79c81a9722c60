package referee

import (
	"math"

	"rationwright/solver/linear"
)

// standard is a program in standard form, before the upper bounds ("caps") of
// its columns are made rows:
//
//	minimise cost·z   subject to   A z = b,  0 ≤ z ≤ cap
//
// Column j of the original is x_j = shift_j + Σ sign_k z_k over its columns k.
type standard struct {
	p     *linear.Problem
	sense float64 // +1 if the original minimises, −1 if it maximises
	shift []float64
	cols  []column
	rows  []row
}

// column is a column of the standard form.
type column struct {
	origin  int // original column, −1 for a slack
	sign    float64
	cost    float64
	cap     float64 // +Inf for none
	entries []linear.Entry
}

// row is an equation of the standard form: that of an original row.
type row struct {
	origin int
	rhs    float64
}

// standardise brings p to standard form. If that alone settles the question,
// or leaves nothing for gonum, it returns an opinion and settled is true.
func standardise(p *linear.Problem) (s *standard, op Opinion, settled bool) {
	s = &standard{p: p, sense: 1, shift: make([]float64, len(p.Cols))}
	if p.Maximize {
		s.sense = -1
	}
	keep := make([]bool, len(p.Rows)) // rows that bound something
	for i, r := range p.Rows {
		keep[i] = !math.IsInf(r.Lower, 0) || !math.IsInf(r.Upper, 0)
	}
	runaway := -1 // a column without rows that improves the objective for ever
	for j := range p.Cols {
		if !s.addColumns(j, keep) && runaway < 0 {
			runaway = j
		}
	}
	if op, settled = s.addRows(keep); settled {
		return s, op, true
	}
	if op, settled = s.dropDependent(); settled {
		return s, op, true
	}
	if runaway >= 0 {
		// Unbounded if anything is feasible at all: ask that, without costs.
		for k := range s.cols {
			s.cols[k].cost = 0
		}
		op.Why = "column " + p.Cols[runaway].Name + " is in no row and has no bound on its cheap side"
	}
	return s, op, false
}

// addColumns adds the columns that stand for original column j. It returns
// false if j is in no row and could improve the objective for ever.
func (s *standard) addColumns(j int, keep []bool) bool {
	c := &s.p.Cols[j]
	cost := s.sense * c.Cost
	var entries []linear.Entry
	for _, e := range c.Entries {
		if keep[e.Row] {
			entries = append(entries, e)
		}
	}
	below, above := !math.IsInf(c.Lower, 0), !math.IsInf(c.Upper, 0)
	if len(entries) == 0 {
		switch {
		case below && (cost >= 0 || !above):
			s.shift[j] = c.Lower
		case above:
			s.shift[j] = c.Upper
		}
		return cost == 0 || (cost > 0 && below) || (cost < 0 && above)
	}
	add := func(sign, cap float64) {
		col := column{origin: j, sign: sign, cost: sign * cost, cap: cap}
		for _, e := range entries {
			col.entries = append(col.entries, linear.Entry{Row: e.Row, Value: sign * e.Value})
		}
		s.cols = append(s.cols, col)
	}
	switch {
	case below && above && c.Upper-c.Lower <= 0:
		s.shift[j] = c.Lower
	case below:
		s.shift[j] = c.Lower
		add(1, c.Upper-c.Lower)
	case above:
		s.shift[j] = c.Upper
		add(-1, linear.Inf)
	default:
		add(1, linear.Inf)
		add(-1, linear.Inf)
	}
	return true
}

// addRows makes equations of the rows to keep, with slacks for inequalities,
// and checks those that no column is left in.
func (s *standard) addRows(keep []bool) (op Opinion, settled bool) {
	at := make([]int, len(s.p.Rows)) // original row → equation, −1 none
	used := make([]bool, len(s.p.Rows))
	for _, c := range s.cols {
		for _, e := range c.entries {
			used[e.Row] = true
		}
	}
	fixed, err := s.p.Evaluate(s.shift)
	if err != nil {
		return Opinion{Why: err.Error()}, true
	}
	for i, r := range s.p.Rows {
		at[i] = -1
		if !keep[i] {
			continue
		}
		lower, upper := less(r.Lower, fixed.Activity[i], fixed.Size[i]), less(r.Upper, fixed.Activity[i], fixed.Size[i])
		if !used[i] {
			slack := Tolerance * math.Max(1, fixed.Size[i])
			if lower > slack || upper < -slack {
				ray := make([]float64, len(s.p.Rows))
				ray[i] = math.Copysign(1, lower)
				return s.infeasible(ray, "row "+r.Name+" has no free column and is not met"), true
			}
			continue
		}
		at[i] = len(s.rows)
		if math.IsInf(lower, 0) {
			s.rows = append(s.rows, row{i, upper})
			s.addSlack(at[i], 1, linear.Inf)
			continue
		}
		s.rows = append(s.rows, row{i, lower})
		if r.Lower < r.Upper {
			s.addSlack(at[i], -1, upper-lower)
		}
	}
	for k := range s.cols {
		c := &s.cols[k]
		if c.origin < 0 {
			continue
		}
		for n := range c.entries {
			c.entries[n].Row = at[c.entries[n].Row]
		}
	}
	return Opinion{}, false
}

// less returns bound − activity, and zero where that is only the rounding of
// the figures: scaling would make a right-hand side of what is left. size is
// Σ|a·x| behind the activity.
func less(bound, activity, size float64) float64 {
	const rounding = 1e-14
	rest := bound - activity
	if math.Abs(rest) <= rounding*(math.Abs(bound)+size) && !math.IsInf(bound, 0) {
		return 0
	}
	return rest
}

func (s *standard) addSlack(row int, sign, cap float64) {
	s.cols = append(s.cols, column{origin: -1, sign: sign, cap: cap, entries: []linear.Entry{{Row: row, Value: sign}}})
}

// point returns x for values z of the columns.
func (s *standard) point(z []float64) []float64 {
	x := append([]float64(nil), s.shift...)
	for k, c := range s.cols {
		if c.origin >= 0 {
			x[c.origin] += c.sign * z[k]
		}
	}
	return x
}

// infeasible is the opinion that no point exists, proven if ray shows it.
func (s *standard) infeasible(ray []float64, why string) Opinion {
	op := Opinion{Verdict: Infeasible, Why: why}
	if margin, err := s.p.FarkasMargin(ray); err == nil && margin > farkasMargin {
		op.Proven, op.Ray = true, ray
	}
	return op
}

// farkasMargin is what a ray's margin must pass: the arithmetic behind it is
// good to about 1e-15, its figures to more than this.
const farkasMargin = 1e-9
