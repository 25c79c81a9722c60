package simplex

import (
	"context"
	"testing"
)

// BenchmarkKernel times the parts of one iteration at the optimal basis of a
// ration for five people.
func BenchmarkKernel(b *testing.B) {
	s, err := New(ration(5, 167, 1))
	if err != nil {
		b.Fatal(err)
	}
	if r := s.Solve(context.Background(), Limits{}); r.Status != Optimal {
		b.Fatal(r.Status, r.Why)
	}
	c := s.core
	c.factorise()
	b.Run("factorise", func(b *testing.B) {
		for b.Loop() {
			c.factorise()
		}
	})
	b.Run("ftran", func(b *testing.B) {
		for k := 0; b.Loop(); k++ {
			for c.pos[k%c.n] >= 0 {
				k++
			}
			clear(c.spike)
			c.column(k%c.n, c.spike)
			c.factor.ftran(c.spike, true)
		}
	})
	b.Run("btran", func(b *testing.B) {
		for k := 0; b.Loop(); k++ {
			clear(c.rho)
			c.rho[k%c.m] = 1
			c.factor.btran(c.rho, true)
		}
	})
	b.Run("row", func(b *testing.B) {
		for k := 0; b.Loop(); k++ {
			clear(c.rho)
			c.rho[k%c.m] = 1
			c.factor.btran(c.rho, true)
			c.priceRow()
		}
	})
	b.Run("values", func(b *testing.B) {
		for b.Loop() {
			c.computeX()
			c.computeD()
		}
	})
	b.Run("certificate", func(b *testing.B) {
		for b.Loop() {
			var r Result
			s.fill(&r)
			s.certify(&r)
		}
	})
}
