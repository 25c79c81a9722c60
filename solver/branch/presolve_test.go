package branch

import (
	"context"
	"testing"
	"time"

	"rationwright/solver/linear"
)

// presolved builds and presolves a program.
func presolved(t *testing.T, build func(p *linear.Problem)) *program {
	t.Helper()
	p := &linear.Problem{}
	build(p)
	g := newProgram(p)
	if !g.presolve(context.Background()) {
		t.Fatal("presolve calls the program infeasible")
	}
	return g
}

// TestTightenPackCoefficient holds 300 g that may be eaten against packs of
// 1,000 g: one pack is as good as 300 g, and the bound is one pack.
func TestTightenPackCoefficient(t *testing.T) {
	g := presolved(t, func(p *linear.Problem) {
		p.AddRow("packs", -inf, 0)
		p.AddRow("need", 100, inf)
		col(p, 0, 0, 300, false, 1, 1)
		col(p, 5, 0, inf, true, -1000)
	})
	if v := coefficientOf(g.rows[0], 1); v != -300 {
		t.Errorf("coefficient %v, want −300", v)
	}
}

// TestTightenKnapsackCoefficient is example 1.2 of the method in small: 10x + y
// ≤ 10 with y ≤ 3 leaves 3x + y ≤ 3: x = 1 forces y = 0, x = 0 leaves y free.
func TestTightenKnapsackCoefficient(t *testing.T) {
	g := presolved(t, func(p *linear.Problem) {
		p.Maximize = true
		p.AddRow("r", -inf, 10)
		col(p, 1, 0, 1, true, 10)
		col(p, 1, 0, 3, false, 1)
	})
	if a, b := coefficientOf(g.rows[0], 0), g.rowUpper[0]; a != 3 || b != 3 {
		t.Errorf("%v·x + y ≤ %v, want 3x + y ≤ 3", a, b)
	}
}

// TestBoundsFromRows: 2x + 3y ≤ 12 and x ≥ 2.5 integer give x ≥ 3, y ≤ 2, x ≤ 6.
func TestBoundsFromRows(t *testing.T) {
	g := presolved(t, func(p *linear.Problem) {
		p.Maximize = true
		p.AddRow("r", -inf, 12)
		col(p, 1, 2.5, inf, true, 2)
		col(p, 1, 0, inf, true, 3)
	})
	if g.lower[0] != 3 || g.upper[0] != 6 || g.upper[1] != 2 {
		t.Errorf("x in [%v, %v], y ≤ %v, want [3, 6], 2", g.lower[0], g.upper[0], g.upper[1])
	}
}

// TestDominatedPack: two tins of 300 g at 1.40 do all that a tin of 500 g at 3.00
// does; without a cap the big tin goes, with a cap of one small tin it stays.
func TestDominatedPack(t *testing.T) {
	for _, c := range []struct {
		most float64
		gone bool
	}{{inf, true}, {1, false}} {
		g := presolved(t, func(p *linear.Problem) {
			p.AddRow("grams", 800, inf)
			col(p, 3, 0, 9, true, 500)
			col(p, 1.4, 0, c.most, true, 300)
		})
		if gone := g.fixed(0); gone != c.gone {
			t.Errorf("small tins capped at %v: the big one gone is %v, want %v", c.most, gone, c.gone)
		}
	}
}

// TestRedundantSides: x + y ≤ 9 says nothing with x, y ≤ 4; x + y ≥ 1 does.
func TestRedundantSides(t *testing.T) {
	g := presolved(t, func(p *linear.Problem) {
		p.AddRow("r", 1, 9)
		col(p, 1, 0, 4, false, 1)
		col(p, 1, 0, 4, false, 1)
	})
	if g.rowUpper[0] != inf || g.rowLower[0] != 1 {
		t.Errorf("sides [%v, %v], want [1, ∞]", g.rowLower[0], g.rowUpper[0])
	}
}

// TestObjectiveStep: costs 6 and 9.6 on integers make multiples of 1.2; a
// continuous column with a cost makes none.
func TestObjectiveStep(t *testing.T) {
	for _, c := range []struct {
		integer bool
		want    float64
	}{{true, 1.2}, {false, 0}} {
		g := presolved(t, func(p *linear.Problem) {
			p.AddRow("r", 3, inf)
			col(p, 6, 0, 5, true, 1)
			col(p, 9.6, 0, 5, c.integer, 2)
		})
		if g.step != c.want {
			t.Errorf("integer %v: step %v, want %v", c.integer, g.step, c.want)
		}
	}
}

// TestLongRow presolves a row of 100,000 columns. In time that grows with the
// square of its length that took 40 seconds; it takes a tenth of one.
func TestLongRow(t *testing.T) {
	const n = 100_000
	p := &linear.Problem{}
	p.AddRow("need", n, inf)
	for j := range n {
		col(p, float64(50+j%151), 0, float64(1+j%9), true, float64(50+j*7%151))
	}
	g, began := newProgram(p), time.Now()
	if !g.presolve(context.Background()) {
		t.Fatal("called infeasible")
	}
	if took := time.Since(began); took > 10*time.Second {
		t.Errorf("took %v", took)
	}
}
