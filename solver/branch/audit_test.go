package branch

import (
	"context"
	"math"
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"
)

// TestAuditConfirms audits searches that end in all the ways there are.
func TestAuditConfirms(t *testing.T) {
	p := rationLike(6, 2, 30, 8)
	for name, opt := range map[string]Options{
		"within one per cent": {Gap: 0.01},
		"stopped by work":     {Gap: 1e-6, Work: 8000},
		"one worker":          {Gap: 0.01, Workers: 1},
	} {
		opt.Audit = true
		r := Solve(context.Background(), p, opt)
		a := Audit(context.Background(), p, r)
		if !confirmed(a) || !a.ValueOK || a.LeavesOK != a.Leaves {
			t.Errorf("%s: %+v", name, a)
		}
	}
	r := Solve(context.Background(), p, Options{Gap: 0.01})
	if a := Audit(context.Background(), p, r); a.Kept || confirmed(a) || !a.ValueOK || !a.RootOK {
		t.Errorf("without Options.Audit: %+v", a)
	}
}

// TestAuditCatches spoils one thing at a time in what a search kept: the audit
// must not confirm it.
func TestAuditCatches(t *testing.T) {
	p := rationLike(6, 2, 30, 8)
	solve := func() Result {
		r := Solve(context.Background(), p, Options{Gap: 1e-4, Work: 20000, Audit: true})
		if len(r.trail.leaves) < 2 || len(r.trail.cuts) == 0 {
			t.Fatalf("%d leaves and %d cuts are too few for this test", len(r.trail.leaves), len(r.trail.cuts))
		}
		return r
	}
	for name, spoil := range map[string]func(r *Result){
		"bound stated too high": func(r *Result) { r.Bound *= 1.0001 },
		"value stated too low":  func(r *Result) { r.Value *= 0.9999 },
		"a leaf missing": func(r *Result) {
			r.trail.leaves = r.trail.leaves[1:]
		},
		"a leaf's box too small": func(r *Result) {
			for k := range r.trail.leaves {
				if c := r.trail.leaves[k].box; c != nil && c.why == whyBranch && c.lower < c.upper {
					d := *c
					d.upper--
					r.trail.leaves[k].box = &d
					return
				}
			}
			t.Fatal("no leaf fits")
		},
		"duals of another sign": func(r *Result) {
			for k, l := range r.trail.leaves {
				if l.proof != nil && !l.proof.ray {
					c := *l.proof
					c.duals = slices.Clone(c.duals)
					for i := range c.duals {
						c.duals[i] = -c.duals[i]
					}
					r.trail.leaves[k].proof = &c
					r.trail.root = nil
					return
				}
			}
		},
		"a leaf's bound stated too high": func(r *Result) {
			for k, l := range r.trail.leaves {
				if l.proof != nil && !math.IsInf(l.bound, 0) {
					r.trail.leaves[k].bound += 1e-4 * math.Abs(l.bound)
					return
				}
			}
			t.Fatal("no leaf fits")
		},
		"root duals scaled": func(r *Result) {
			r.RootDual = slices.Clone(r.RootDual)
			for i := range r.RootDual {
				r.RootDual[i] *= 1.01
			}
		},
		"cuts tightened": func(r *Result) {
			cuts := slices.Clone(r.trail.cuts)
			for k := range cuts {
				c := *cuts[k]
				c.upper -= 1e-3 * math.Max(1, math.Abs(c.upper))
				cuts[k] = &c
			}
			r.trail.cuts = cuts
		},
		"a column fixed without reason": func(r *Result) {
			j := p.Cols[len(p.Cols)-1]
			r.trail.log = append(slices.Clone(r.trail.log), reduction{kind: dualFixed, col: len(p.Cols) - 1, lower: j.Upper, upper: j.Upper})
		},
	} {
		r := solve()
		if a := Audit(context.Background(), p, r); !confirmed(a) || !a.ValueOK {
			t.Fatalf("unspoilt: %+v", a)
		}
		spoil(&r)
		if a := Audit(context.Background(), p, r); confirmed(a) && a.ValueOK && a.LeavesOK == a.Leaves {
			t.Errorf("%s: confirmed: %+v", name, a)
		}
	}
}

// TestIntervalHoldsExact multiplies, adds and divides numbers that binary
// fractions cannot hold: the interval must hold both neighbours of the rounded
// result.
func TestIntervalHoldsExact(t *testing.T) {
	third := exactly(1).over(exactly(3))
	if !(third.lo < 1.0/3 && third.hi > 1.0/3) {
		t.Errorf("1/3 = %v", third)
	}
	one := third.times(exactly(3))
	if !(one.lo < 1 && one.hi > 1) {
		t.Errorf("3·(1/3) = %v, want an interval around 1", one)
	}
	sum := exactly(0.1).plus(exactly(0.2))
	if !(sum.lo <= 0.3 && sum.hi >= 0.30000000000000004) { // the exact sum of the two floats lies between
		t.Errorf("0.1 + 0.2 = %v, want an interval around 0.3", sum)
	}
	if z := exactly(0).times(interval{math.Inf(-1), math.Inf(1)}); z != (interval{}) {
		t.Errorf("0·[−∞, ∞] = %v, want 0", z)
	}
	if d := exactly(2).minus(interval{-1, 3}); d.lo > -1 || d.hi < 3 {
		t.Errorf("2 − [−1, 3] = %v", d)
	}
}

// TestIntervalsHoldAll: whatever two numbers of two intervals are, their sum, difference,
// product and quotient are in the interval of it, in rational arithmetic; and it is no wider
// than the outermost of them but for rounding.
func TestIntervalsHoldAll(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 28))
	number := func() float64 {
		switch rng.IntN(5) {
		case 0:
			return float64(rng.IntN(5) - 2)
		case 1:
			return 1
		}
		return rng.NormFloat64() * math.Pow(10, float64(rng.IntN(5)-2))
	}
	rat := func(v float64) *big.Rat { return new(big.Rat).SetFloat64(v) }
	for range 4000 {
		var in [2]interval
		for k := range in {
			in[k] = interval{number(), number()}
			if in[k].lo > in[k].hi || rng.IntN(4) == 0 {
				in[k].hi = in[k].lo
			}
		}
		a, b := in[0], in[1]
		for name, op := range map[string]struct {
			got interval
			do  func(z, x, y *big.Rat) *big.Rat
		}{"+": {a.plus(b), (*big.Rat).Add}, "-": {a.minus(b), (*big.Rat).Sub}, "·": {a.times(b), (*big.Rat).Mul}, "/": {a.over(b), (*big.Rat).Quo}} {
			if name == "/" && b.lo <= 0 && b.hi >= 0 {
				continue
			}
			least, most := math.Inf(1), math.Inf(-1)
			for _, x := range []float64{a.lo, a.hi} {
				for _, y := range []float64{b.lo, b.hi} {
					z := op.do(new(big.Rat), rat(x), rat(y))
					if z.Cmp(rat(op.got.lo)) < 0 || z.Cmp(rat(op.got.hi)) > 0 {
						t.Fatalf("%v %s %v = %v does not hold %g %s %g", a, name, b, op.got, x, name, y)
					}
					v, _ := z.Float64()
					least, most = math.Min(least, v), math.Max(most, v)
				}
			}
			if room := 1e-15 * math.Max(math.Abs(least), math.Abs(most)); op.got.lo < least-room-1e-300 || op.got.hi > most+room+1e-300 {
				t.Fatalf("%v %s %v = %v, want %g to %g", a, name, b, op.got, least, most)
			}
		}
	}
}

// confirmed says whether everything was confirmed without trusting anything.
func confirmed(r AuditReport) bool {
	return r.Kept && r.RootOK && r.Covered && r.BoundOK && r.CutsTrusted == 0 && r.ReductionsOK == r.Reductions
}
