package referee

import "math"

// dropDependent removes equations that follow from others, which gonum takes
// for a singular matrix. Rows with a slack depend on nothing, so only original
// equations are looked at: Gaussian elimination with full pivoting, on rows
// scaled to a largest coefficient of one. An equation of which nothing is left
// but its right-hand side contradicts the others.
func (s *standard) dropDependent() (op Opinion, settled bool) {
	hasSlack := make([]bool, len(s.rows))
	for _, c := range s.cols {
		if c.origin < 0 {
			hasSlack[c.entries[0].Row] = true
		}
	}
	var equations []int
	place := make([]int, len(s.rows))
	for i := range s.rows {
		if !hasSlack[i] {
			place[i] = len(equations)
			equations = append(equations, i)
		}
	}
	if len(equations) == 0 {
		return Opinion{}, false
	}
	width := len(s.cols) + 1 // the last is the right-hand side
	t := make([][]float64, len(equations))
	for e, i := range equations {
		t[e] = make([]float64, width)
		t[e][width-1] = s.rows[i].rhs
	}
	for k, c := range s.cols {
		for _, e := range c.entries {
			if !hasSlack[e.Row] {
				t[place[e.Row]][k] = e.Value
			}
		}
	}
	for e := range t {
		size := largest(t[e][:width-1])
		for k := range t[e] {
			t[e][k] /= size
		}
	}
	drop := make([]bool, len(s.rows))
	for _, e := range eliminate(t) {
		if rest := math.Abs(t[e][width-1]); rest > Tolerance*math.Max(1, rhsSize(t)) {
			origin := s.rows[equations[e]].origin
			return Opinion{Verdict: Infeasible, Why: "equation " + s.p.Rows[origin].Name + " contradicts others"}, true
		}
		drop[equations[e]] = true
	}
	s.keepRows(drop)
	return Opinion{}, false
}

func rhsSize(t [][]float64) float64 {
	largest := 0.0
	for _, r := range t {
		largest = math.Max(largest, math.Abs(r[len(r)-1]))
	}
	return largest
}

// eliminate reduces t in place and returns the rows that turned out to depend
// on the others. The last entry of each row takes no part in pivoting.
func eliminate(t [][]float64) (dependent []int) {
	left := make([]int, len(t))
	for e := range t {
		left[e] = e
	}
	for len(left) > 0 {
		at, col, largest := 0, 0, 0.0
		for n, e := range left {
			for k, v := range t[e][:len(t[e])-1] {
				if math.Abs(v) > largest {
					at, col, largest = n, k, math.Abs(v)
				}
			}
		}
		if largest < rankTolerance {
			return left
		}
		pivot := t[left[at]]
		left = append(left[:at], left[at+1:]...)
		for _, e := range left {
			f := t[e][col] / pivot[col]
			if f == 0 {
				continue
			}
			for k := range pivot {
				t[e][k] -= f * pivot[k]
			}
			t[e][col] = 0
		}
	}
	return nil
}

// keepRows removes the rows marked in drop.
func (s *standard) keepRows(drop []bool) {
	at := make([]int, len(s.rows))
	var rows []row
	for i, r := range s.rows {
		at[i] = len(rows)
		if !drop[i] {
			rows = append(rows, r)
		}
	}
	s.rows = rows
	for k := range s.cols {
		kept := s.cols[k].entries[:0]
		for _, e := range s.cols[k].entries {
			if !drop[e.Row] {
				e.Row = at[e.Row]
				kept = append(kept, e)
			}
		}
		s.cols[k].entries = kept
	}
}
