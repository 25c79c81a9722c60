package branch

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// TestPartHoldsTheSamePoints: a smaller program over a smaller box has those points of the
// whole that are in the box, with their values, and no others but by rows that nothing is left
// of, which the whole holds a point against; where there is none it may say
// so, and a column that it decides has no other value at any of them.
func TestPartHoldsTheSamePoints(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 28))
	points, decided, closed := 0, 0, 0
	for k := range 600 {
		p := randomProblem(rng)
		crossed := false
		for j := range p.Cols {
			p.Cols[j].Integer = true
			crossed = crossed || p.Cols[j].Lower > p.Cols[j].Upper
		}
		if crossed {
			continue
		}
		s := &space{program: newProgram(p)}
		lower, upper := make([]float64, s.n), make([]float64, s.n)
		for j := range lower {
			lower[j], upper[j] = s.lower[j], s.upper[j]
			if room := int(upper[j] - lower[j]); rng.IntN(2) == 0 {
				lower[j] += float64(rng.IntN(room + 1))
				upper[j] = lower[j] + float64(rng.IntN(int(upper[j]-lower[j])+1))
			}
		}
		boxed := p.Clone()
		for j := range boxed.Cols {
			boxed.Cols[j].Lower, boxed.Cols[j].Upper = lower[j], upper[j]
		}
		q := s.restrict(lower, upper)
		if q == nil {
			closed++
		} else {
			decided += s.n - len(q.cols)
		}
		eachPoint(boxed, func(x []float64) {
			value, ok := Check(p, x)
			if q == nil {
				if ok {
					t.Fatalf("program %d: %v is in a box without points\n%s", k, x, boxed)
				}
				return
			}
			y := make([]float64, len(q.cols))
			for n, j := range q.cols {
				y[n] = x[j]
			}
			same := true
			for j, v := range q.whole(y) {
				same = same && v == x[j]
			}
			part, fits := Check(q.orig, y)
			if ok != (same && fits) && !(same && fits && brokenByDecided(s, q, x)) {
				t.Fatalf("program %d: %v is a point %v; of the part %v, what is decided agrees %v\n%s\n%s", k, x, ok, fits, same, boxed, q.orig)
			}
			if ok {
				if points++; math.Abs(part-s.inside(value)) > 1e-9 {
					t.Fatalf("program %d: %v has the value %g, of the part %g\n%s", k, x, s.inside(value), part, boxed)
				}
			}
		})
	}
	if points < 1000 || decided < 100 || closed < 20 {
		t.Errorf("%d points, %d columns decided, %d boxes closed: the test shows little", points, decided, closed)
	}
}

// brokenByDecided says whether x breaks a row of which the part has decided every column.
func brokenByDecided(s *space, q *part, x []float64) bool {
	for i, terms := range s.rows {
		sum, left := 0.0, false
		for _, t := range terms {
			sum += t.value * x[t.col]
			left = left || slices.Contains(q.cols, t.col)
		}
		if !left && (sum < s.rowLower[i]-1e-6 || sum > s.rowUpper[i]+1e-6) {
			return true
		}
	}
	return false
}
