package simplex

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"rationwright/solver/linear"
)

// same reports whether two answers to one program say the same.
func same(a, b Result) bool {
	return a.Status == b.Status &&
		(a.Status != Optimal || math.Abs(a.Value-b.Value) <= verifyTol*(1+math.Abs(b.Value)))
}

// solveFresh solves p from the slacks.
func solveFresh(t testing.TB, p *linear.Problem) Result {
	t.Helper()
	s, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	return s.Solve(context.Background(), Limits{})
}

func TestFamilies(t *testing.T) {
	for _, f := range families {
		t.Run(f.name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(11, uint64(len(f.name))))
			count := map[Status]int{}
			for range 40 * *campaign {
				p := f.make(r)
				got := solveFresh(t, p)
				count[got.Status]++
				verify(t, p, got)
				if t.Failed() {
					return
				}
			}
			t.Log(count)
		})
	}
}

// edit changes p and s alike.
func edit(r *rand.Rand, p *linear.Problem, s *Solver) {
	switch r.IntN(7) {
	case 0, 1, 2: // as branching does
		j := r.IntN(len(p.Cols))
		c := &p.Cols[j]
		switch {
		case c.Upper-c.Lower > 1 && !math.IsInf(c.Lower, 0) && r.IntN(2) == 0:
			c.Upper = math.Floor((c.Lower + min(c.Upper, c.Lower+8)) / 2)
		case c.Upper-c.Lower > 1 && !math.IsInf(c.Lower, 0):
			c.Lower = math.Ceil((c.Lower + min(c.Upper, c.Lower+8)) / 2)
		default:
			c.Lower, c.Upper = bounds(r)
		}
		s.SetBounds(j, c.Lower, c.Upper)
	case 3:
		if len(p.Rows) == 0 {
			return
		}
		i := r.IntN(len(p.Rows))
		w := &p.Rows[i]
		by := float64(r.IntN(5) - 2)
		w.Lower, w.Upper = w.Lower+by, w.Upper+by
		s.SetRowBounds(i, w.Lower, w.Upper)
	case 4:
		j := r.IntN(len(p.Cols))
		p.Cols[j].Cost = float64(r.IntN(11) - 5)
		s.SetCost(j, p.Cols[j].Cost)
	case 5:
		for range 1 + r.IntN(3) {
			var cols []int
			var values []float64
			for j := range p.Cols {
				if r.IntN(4) == 0 {
					cols = append(cols, j)
					values = append(values, float64(1+r.IntN(4)))
				}
			}
			lower, upper := sides(r, float64(r.IntN(9)))
			i := p.AddRow("", lower, upper)
			for t, j := range cols {
				p.Set(i, j, values[t])
			}
			s.AddRow(lower, upper, cols, values)
		}
	case 6:
		lower, upper := bounds(r)
		j := p.AddCol("", float64(r.IntN(9)-3), lower, upper, false)
		for i := range p.Rows {
			if r.IntN(4) == 0 {
				p.Set(i, j, float64(r.IntN(7)-3))
			}
		}
		if _, err := s.AddCol(p.Cols[j]); err != nil {
			panic(err)
		}
	}
}

// TestWarm edits programs again and again and compares every warm answer with
// a cold one and with the program's own figures.
func TestWarm(t *testing.T) {
	for _, f := range families {
		t.Run(f.name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(12, uint64(len(f.name))))
			for range 4 * *campaign {
				p := f.make(r)
				s, err := New(p)
				if err != nil {
					t.Fatal(err)
				}
				var first Basis
				for step := range 15 {
					got := s.Solve(context.Background(), Limits{})
					verify(t, p, got)
					if cold := solveFresh(t, p); !same(got, cold) {
						t.Errorf("step %d: warm %v %g, cold %v %g\n%v", step, got.Status, got.Value, cold.Status, cold.Value, p)
					}
					if step == 0 {
						first = s.Basis()
					}
					if t.Failed() {
						return
					}
					edit(r, p, s)
					if r.IntN(6) == 0 && len(first) <= len(p.Cols)+len(p.Rows) && len(first) >= len(p.Cols) {
						if err := s.SetBasis(first); err != nil {
							t.Fatal(err)
						}
					}
					if r.IntN(6) == 0 {
						s = s.Clone()
					}
				}
			}
		})
	}
}
