package simplex

import (
	"context"
	"math"
	"syscall"
	"testing"

	"rationwright/solver/linear"
)

// cpu returns a function that reports the processor time since, per operation:
// on a machine that does other work too, wall time says little.
func cpu(b *testing.B) func() {
	now := func() int64 {
		var u syscall.Rusage
		if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
			b.Fatal(err)
		}
		return u.Utime.Nano() + u.Stime.Nano()
	}
	start := now()
	return func() { b.ReportMetric(float64(now()-start)/float64(b.N), "cpu-ns/op") }
}

func BenchmarkCold(b *testing.B) {
	models := []*linear.Problem{ration(1, 167, 1), ration(5, 167, 1), ration(8, 167, 1)}
	for _, name := range []string{"F60_30_20_multi4_1", "F150_30_20_ratio_1", "F100_30_20_win6_1"} {
		p := readMPS(b, name)
		p.Name = name
		models = append(models, p)
	}
	for _, p := range models {
		b.Run(p.Name, func(b *testing.B) {
			iterations := 0
			defer cpu(b)()
			for b.Loop() {
				s, err := New(p)
				if err != nil {
					b.Fatal(err)
				}
				r := s.Solve(context.Background(), Limits{})
				if r.Status != Optimal {
					b.Fatal(r.Status, r.Why)
				}
				iterations += r.Iterations
			}
			b.ReportMetric(float64(iterations)/float64(b.N), "iterations")
		})
	}
}

// BenchmarkDive re-solves after every step of dives that round one integer
// column up or down, as a tree does; one operation is one re-solve.
func BenchmarkDive(b *testing.B) {
	for _, p := range []*linear.Problem{ration(1, 167, 1), ration(5, 167, 1), ration(8, 167, 1)} {
		b.Run(p.Name, func(b *testing.B) {
			s, err := New(p)
			if err != nil {
				b.Fatal(err)
			}
			root := s.Solve(context.Background(), Limits{})
			if root.Status != Optimal {
				b.Fatal(root.Status, root.Why)
			}
			basis := s.Basis()
			r, depth, solves, iterations := root, 0, 0, 0
			defer cpu(b)()
			for b.Loop() {
				at, best := -1, 0.0
				for j, c := range p.Cols {
					frac := math.Abs(r.X[j] - math.Round(r.X[j]))
					if c.Integer && frac > best {
						at, best = j, frac
					}
				}
				v := 0.0
				if at >= 0 {
					v = math.Floor(r.X[at])
					lo, up := s.Bounds(at)
					if solves%2 == 0 {
						s.SetBounds(at, v+1, up)
					} else {
						s.SetBounds(at, lo, v)
					}
				}
				r = s.Solve(context.Background(), Limits{})
				solves++
				depth++
				iterations += r.Iterations
				if r.Status == Numerical {
					b.Fatal(r.Why)
				}
				if r.Status != Optimal || depth == 30 || best < 1e-6 {
					for j, c := range p.Cols {
						s.SetBounds(j, c.Lower, c.Upper)
					}
					s.SetBasis(basis)
					r, depth = root, 0
				}
			}
			b.ReportMetric(float64(iterations)/float64(solves), "iterations")
		})
	}
}
