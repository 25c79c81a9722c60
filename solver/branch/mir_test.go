package branch

import (
	"math"
	"math/rand/v2"
	"testing"

	"rationwright/solver/linear"
)

// TestWholeSlack: the slack of a row is whole where columns, coefficients and side are; of
// a cut it is never taken to be, since its figures come of rounding.
func TestWholeSlack(t *testing.T) {
	for _, c := range []struct {
		name         string
		side, factor float64
		whole        bool
		want         bool
	}{{"whole", 7, 3, true, true}, {"a side in parts", 7.5, 3, true, false}, {"a coefficient in parts", 7, 3.5, true, false}, {"a column in parts", 7, 3, false, false}} {
		p := &linear.Problem{}
		row := p.AddRow("r", -linear.Inf, c.side)
		p.Set(row, p.AddCol("x", 1, 0, 9, true), 2)
		p.Set(row, p.AddCol("y", 1, 0, 9, c.whole), c.factor)
		s := &space{program: newProgram(p)}
		if got := s.wholeSlack(0, true); got != c.want {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
		s.cuts = []*cut{{terms: []term{{0, 1}, {1, 1}}, upper: 2}, {terms: []term{{0, 1}}, upper: 1}}
		if s.wholeSlack(s.m, true) || s.wholeSlack(s.m+1, true) {
			t.Errorf("%s: the slack of a cut is taken to be whole", c.name)
		}
	}
}

// TestRoundingMeasuresFromAnyBound, by hand: half of 2x + 2y ≤ 2·(l₁ + l₂) + 3 measured from
// the lower bounds l is x' + y' ≤ 1.5, rounded x + y ≤ l₁ + l₂ + 1; half of 2x + 2y ≥
// 2·(u₁ + u₂) − 3 from the upper bounds is x + y ≥ u₁ + u₂ − 1; and one of each.
func TestRoundingMeasuresFromAnyBound(t *testing.T) {
	for _, b := range [][2]float64{{0, 0}, {1, 0}, {0, 5}, {3, 4}, {-2, 0}, {-3, -1}, {7, -7}} {
		for _, upper := range []bool{true, false} {
			p := &linear.Problem{}
			lo, up, sign := -linear.Inf, 2*(b[0]+b[1])+3, 1.0
			if !upper {
				lo, up, sign = 2*(b[0]+b[1])-3, linear.Inf, -1
			}
			row := p.AddRow("r", lo, up)
			for k, name := range []string{"x", "y"} {
				from, to := b[k], b[k]+10
				if !upper {
					from, to = b[k]-10, b[k]
				}
				p.Set(row, p.AddCol(name, 1, from, to, true), 2)
			}
			s := &space{program: newProgram(p)}
			c := &combination{}
			c.add(0, sign, upper)
			got := s.round(newWorkspace(2), c, 2, []float64{b[0] + sign*1.5, b[1]}, 0)
			want := sign*(b[0]+b[1]) + 1
			if got == nil || len(got.terms) != 2 || math.Abs(got.upper-want) > 1e-6 || got.terms[0] != (term{0, sign}) || got.terms[1] != (term{1, sign}) {
				t.Errorf("bounds %v, at most %v: %+v, want %g·(x + y) ≤ %g", b, upper, got, sign, want)
			}
		}
	}
}

// TestRoundingKeepsPoints: of random rows over boxes with bounds on either side of zero, the
// rounding by any divisor at a point that is rounded away keeps every point of the box that
// keeps the row, the column that need not be whole at both ends of what the row leaves it.
func TestRoundingKeepsPoints(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 15))
	made := map[bool]int{} // by whether a bound above zero is measured from
	for range 6000 {
		p := &linear.Problem{}
		n := 3
		row := p.AddRow("r", -linear.Inf, linear.Inf)
		var a, lo, up, x []float64
		above, activity, whole := false, 0.0, rng.IntN(2) == 0 // the first column is of parts or whole
		for j := range n {
			from := float64(rng.IntN(9) - 4)
			a, lo, up = append(a, float64(rng.IntN(15)-7)), append(lo, from), append(up, from+float64(1+rng.IntN(3)))
			at := lo[j] + rng.Float64()*(up[j]-lo[j])
			if rng.IntN(2) == 0 {
				at = lo[j]
			}
			x = append(x, at)
			activity += a[j] * at
			above = above || lo[j] > 0 && at-lo[j] <= up[j]-at
			p.Set(row, p.AddCol("", 1, lo[j], up[j], whole || j > 0), a[j])
		}
		upper := rng.IntN(2) == 0
		if upper {
			p.Rows[row].Upper = math.Ceil(activity)
		} else {
			p.Rows[row].Lower = math.Floor(activity)
		}
		s := &space{program: newProgram(p)}
		c := &combination{}
		c.add(0, float64(1-2*rng.IntN(2)), upper) // the row holds with its slack, whatever the sign
		cut := s.round(newWorkspace(n), c, float64(1+rng.IntN(7)), x, 0)
		if cut == nil {
			continue
		}
		made[above]++
		// The audit comes to the same by itself.
		audit := auditorOf(math.Inf(1), func(q *linear.Problem) { *q = *p.Clone() })
		audit.mark()
		side, ok := audit.rounding(cut)
		if !ok || math.Abs(side-cut.upper) > 1e-6 {
			t.Fatalf("%v ≤ %g: the audit proves %g, %v, of\n%s", cut.terms, cut.upper, side, ok, p.String())
		}
		wrong := *cut // a slack that is not whole may not be taken to be
		if wrong.origin.whole = []bool{true}; a[0] != 0 && !whole {
			if _, ok := audit.rounding(&wrong); ok {
				t.Fatalf("%v: the audit takes the slack to be whole, of\n%s", cut.terms, p.String())
			}
		}
		for y := lo[1]; y <= up[1]; y++ {
			for z := lo[2]; z <= up[2]; z++ {
				for _, v := range ends(a, lo[0], up[0], y, z, p.Rows[row], whole) {
					left := 0.0
					for _, t := range cut.terms {
						left += t.value * [3]float64{v, y, z}[t.col]
					}
					if left > math.Min(side, cut.upper)+1e-7 {
						t.Fatalf("%v ≤ %g cuts off (%g, %g, %g), which keeps\n%s", cut.terms, cut.upper, v, y, z, p.String())
					}
				}
			}
		}
	}
	if made[true] < 100 || made[false] < 100 {
		t.Errorf("cuts made %v, want many of both sorts", made)
	}
}

// ends are the two ends of what a row leaves the first column, with the other two given.
func ends(a []float64, lo, up, y, z float64, row linear.Row, whole bool) []float64 {
	rest := a[1]*y + a[2]*z
	if a[0] == 0 {
		if rest < row.Lower || rest > row.Upper {
			return nil
		}
		return []float64{lo, up}
	}
	from, to := (row.Lower-rest)/a[0], (row.Upper-rest)/a[0]
	if from > to {
		from, to = to, from
	}
	from, to = max(lo, from), min(up, to)
	if whole {
		from, to = math.Ceil(from-1e-9), math.Floor(to+1e-9)
	}
	if from > to {
		return nil
	}
	return []float64{from, to}
}
