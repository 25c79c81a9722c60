package branch

import (
	"context"
	"testing"

	"rationwright/solver/linear"
)

// bench solves p over and over and reports nodes and simplex iterations.
func bench(b *testing.B, p *linear.Problem, opt Options) {
	b.Helper()
	var r Result
	for b.Loop() {
		r = Solve(context.Background(), p, opt)
	}
	if r.X == nil {
		b.Fatalf("no point: %v %s", r.Status, r.Why)
	}
	b.ReportMetric(float64(r.Nodes), "nodes")
	b.ReportMetric(float64(r.Work), "iterations")
	b.ReportMetric(100*r.Gap, "gap-%")
}

// BenchmarkPublished solves the published programs to the optimum.
func BenchmarkPublished(b *testing.B) {
	for _, name := range []string{"p0033", "lseu", "flugpl", "egout", "bell5", "vpm1"} {
		b.Run(name, func(b *testing.B) { bench(b, readPublished(b, name), Options{}) })
	}
}

// BenchmarkRation brings programs of the shape of a ration within two per cent,
// with a work limit.
func BenchmarkRation(b *testing.B) {
	b.Run("1 person", func(b *testing.B) { bench(b, rationLike(1, 1, 120, 25), Options{Gap: 0.02, Work: 40000}) })
	b.Run("5 people", func(b *testing.B) { bench(b, rationLike(1, 5, 120, 25), Options{Gap: 0.02, Work: 40000}) })
}

// BenchmarkAudit audits one of them.
func BenchmarkAudit(b *testing.B) {
	p := rationLike(1, 1, 60, 15)
	r := Solve(context.Background(), p, Options{Gap: 0.02, Work: 20000, Audit: true})
	for b.Loop() {
		if a := Audit(context.Background(), p, r); !a.BoundOK {
			b.Fatal("not confirmed")
		}
	}
}
