package branch

import (
	"context"
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"rationwright/solver/linear"
)

// exactBound is what multipliers prove over the box of a program, in rational
// arithmetic, with the sizes of its terms; nil where a bound is missing.
func exactBound(p *linear.Problem, y []float64, ray bool) (bound *big.Rat, size float64) {
	rat := func(v float64) *big.Rat { return new(big.Rat).SetFloat64(v) }
	bound = new(big.Rat)
	take := func(v *big.Rat) {
		f, _ := v.Float64()
		size += math.Abs(f)
		bound.Add(bound, v)
	}
	y = append([]float64(nil), y...)
	for i, v := range y {
		at := p.Rows[i].Lower
		if v < 0 {
			at = p.Rows[i].Upper
		}
		if math.IsInf(at, 0) {
			y[i] = 0
		} else {
			take(new(big.Rat).Mul(rat(v), rat(at)))
		}
	}
	for _, c := range p.Cols {
		d := new(big.Rat)
		if !ray {
			d = rat(c.Cost)
		}
		for _, e := range c.Entries {
			d.Sub(d, new(big.Rat).Mul(rat(e.Value), rat(y[e.Row])))
		}
		at := c.Lower
		if d.Sign() < 0 {
			at = c.Upper
		}
		if d.Sign() == 0 {
			continue
		}
		if math.IsInf(at, 0) {
			return nil, 0
		}
		take(new(big.Rat).Mul(d, rat(at)))
	}
	return bound, size
}

// TestBoundIsExact holds dual bounds of random multipliers against rational
// arithmetic: never above what they prove, and below it by no more than 2e-11 of
// their terms, which is what [boundMargin] takes and rounding adds.
func TestBoundIsExact(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 9))
	proven, open := 0, 0
	for k := range 3000 {
		p := randomProblem(rng)
		p.Maximize = false
		if k%3 == 0 {
			p.Cols[rng.IntN(len(p.Cols))].Upper = inf
		}
		y := make([]float64, len(p.Rows))
		rows := make([]int, len(y))
		for i := range y {
			rows[i] = i
			if rng.IntN(3) > 0 {
				y[i] = rng.NormFloat64() * math.Pow(10, float64(rng.IntN(4)-1))
			}
		}
		ray := k%2 == 0
		g := newProgram(p)
		got := provenBound(&space{program: g}, rows, y, ray)
		want, size := exactBound(p, y, ray)
		if want == nil {
			open++
			if !math.IsInf(got, -1) {
				t.Fatalf("program %d: %v claimed though a column has no bound\n%s", k, got, p)
			}
			continue
		}
		proven++
		if math.IsInf(got, 0) {
			t.Fatalf("program %d: no bound", k)
		}
		off, _ := new(big.Rat).Sub(want, new(big.Rat).SetFloat64(got)).Float64()
		if off < 0 || off > 2e-11*size {
			t.Fatalf("program %d: bound %v is %v under what is proven, terms of %v\n%s", k, got, off, size, p)
		}
	}
	if proven < 500 || open < 100 {
		t.Errorf("%d bounds and %d without: not enough of both", proven, open)
	}
}

// provenBound is what multipliers prove over the box of the program.
func provenBound(s *space, rows []int, duals []float64, ray bool) float64 {
	reduced := make([]float64, s.n)
	s.price(rows, duals, ray, reduced)
	return s.sumUp(rows, duals, s.lower, s.upper, reduced)
}

// TestBoundOfFreeColumn holds the reduced cost that a column without bounds may
// have, 1e-9 of one plus its cost, from both sides: min 9f + x, f free, x ≥ 5,
// f + x = 2 with the multiplier 9 leaves f nothing. What it leaves otherwise is
// taken off for a column within 1,000, f = −3 here.
func TestBoundOfFreeColumn(t *testing.T) {
	p := &linear.Problem{}
	p.AddRow("r", 2, 2)
	col(p, 9, math.Inf(-1), inf, false, 1)
	col(p, 11, 5, inf, false, 1)
	g := newProgram(p)
	s := &space{program: g}
	bound := func(y float64) float64 {
		return provenBound(s, []int{0}, []float64{y}, false)
	}
	if b := bound(9); math.Abs(b-28) > 1e-9 { // 9·2 + 2·5
		t.Errorf("bound %v, want 28", b)
	}
	if b := bound(9 - 0.9e-8); math.IsInf(b, -1) || b > 28 {
		t.Errorf("bound %v with a reduced cost of 0.9e-8", b)
	}
	for _, y := range []float64{9 - 1.1e-8, 9 + 1.1e-8} {
		if b := bound(y); !math.IsInf(b, -1) {
			t.Errorf("bound %v though the free column's reduced cost is %v", b, 9-y)
		}
	}
}

// TestBoundsAreTight holds the bound of finished and of stopped searches against
// an optimum known by enumeration: at a gap of zero it is within 1e-8 of it, and
// never beyond.
func TestBoundsAreTight(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for k := range 150 * *campaign {
		p := randomProblem(rng)
		want := enumerate(t, p)
		if math.IsInf(want, 0) {
			continue
		}
		sign := 1.0
		if p.Maximize {
			sign = -1
		}
		room := 1e-8 * math.Max(1, math.Abs(want))
		for _, work := range []int64{0, 1, 5} {
			r := Solve(context.Background(), p, Options{Work: work})
			if sign*(r.Bound-want) > room || r.Status == Optimal && sign*(want-r.Bound) > 2*room {
				t.Fatalf("program %d, work %d: %v bound %v, optimum %v\n%s", k, work, r.Status, r.Bound, want, p)
			}
			if sign*(r.RootBound-want) > room {
				t.Fatalf("program %d: root bound %v beyond the optimum %v\n%s", k, r.RootBound, want, p)
			}
			if r.Status == Infeasible || r.X != nil && r.Gap < sign*(r.Value-want)/math.Max(math.Abs(r.Value), 1e-10)-1e-9 {
				t.Fatalf("program %d, work %d: %v, value %v, gap %v, optimum %v", k, work, r.Status, r.Value, r.Gap, want)
			}
		}
	}
}

// TestGapIsKept: of a search that asks for less than an optimum the bound is no better than
// any point that is known, the value no further from the bound than was asked, and the gap is
// what lies between them.
func TestGapIsKept(t *testing.T) {
	wide := 0
	for seed := uint64(6); seed < 9; seed++ {
		p := rationLike(seed, 2, 30, 8)
		p.Offset = float64(seed) * 10
		known := Solve(context.Background(), p, Options{Gap: 1e-3, Work: 4000})
		if v, ok := Check(p, known.X); !ok || math.Abs(v-known.Value) > 1e-9*math.Abs(v) {
			t.Fatalf("program %d: no point is known: %v %v", seed, known.Status, known.Why)
		}
		for _, gap := range []float64{0.01, 0.03, 0.1} {
			r := Solve(context.Background(), p, Options{Gap: gap})
			off := r.Value - r.Bound
			if r.Status != Optimal || r.Bound > known.Value*(1+1e-9) || known.Bound > r.Value*(1+1e-9) || off > gap*math.Abs(r.Value) {
				t.Fatalf("program %d within %g: %v value %v, bound %v; %v and %v are known", seed, gap, r.Status, r.Value, r.Bound, known.Value, known.Bound)
			}
			if stated := math.Max(0, off) / math.Abs(r.Value); math.Abs(r.Gap-stated) > 1e-9 {
				t.Fatalf("program %d: a gap of %v is stated, %v to %v is %v", seed, r.Gap, r.Value, r.Bound, stated)
			}
			if off > 1e-3*r.Value {
				wide++
			}
		}
	}
	if wide < 4 {
		t.Errorf("%d searches ended short of the optimum: the test shows little", wide)
	}
}

// TestOver asks when a search ends, with each state worked out by hand.
func TestOver(t *testing.T) {
	p := &linear.Problem{}
	col(p, 1, 0, 9, true)
	part := func(bound float64) *node { return &node{bound: bound, column: -1} }
	cancelled, cancel := context.WithCancel(context.Background())
	cancel()
	for _, c := range []struct {
		name   string
		state  func(s *search)
		status Status
		done   bool
	}{
		{"a part is open and there is no point", func(s *search) { s.open = queue{part(1)} }, 0, false},
		{"nothing is open and there is no point", func(s *search) {}, Infeasible, true},
		{"a part could not be solved", func(s *search) { s.stuck = []*node{part(1)} }, Numerical, true},
		{"open, far from the bound", func(s *search) { s.open, s.best = queue{part(1)}, &point{value: 100} }, 0, false},
		{"open, gap above 1 %", func(s *search) { s.open, s.best = queue{part(98.99)}, &point{value: 100} }, 0, false},
		{"open, gap under 1 %", func(s *search) { s.open, s.best = queue{part(99.01)}, &point{value: 100} }, Optimal, true},
		{"stuck, gap under 1 %", func(s *search) { s.stuck, s.best = []*node{part(99.01)}, &point{value: 100} }, Optimal, true},
		{"stuck, gap above 1 %", func(s *search) { s.stuck, s.best = []*node{part(98.99)}, &point{value: 100} }, Numerical, true},
		{"closed, leaves short of the value", func(s *search) { s.closed, s.best = 98, &point{value: 100} }, Numerical, true},
		{"work limit", func(s *search) { s.open, s.opt.Work, s.spentEarly = queue{part(1)}, 5, 5 }, Limit, true},
		{"short of the work limit", func(s *search) { s.open, s.opt.Work, s.spentEarly = queue{part(1)}, 5, 4 }, 0, false},
		{"cancelled", func(s *search) { s.open, s.ctx = queue{part(1)}, cancelled }, Limit, true},
		{"closed though cancelled", func(s *search) { s.ctx = cancelled }, Infeasible, true},
	} {
		s := &search{space: &space{program: newProgram(p)}, gap: newGapRule(Options{Gap: 0.01}), ctx: context.Background(),
			closed: inf, floor: math.Inf(-1), workers: []*worker{}}
		c.state(s)
		if status, why, done := s.over(); status != c.status || done != c.done {
			t.Errorf("%s: %v %q, done %v; want %v, %v", c.name, status, why, done, c.status, c.done)
		}
	}
}

// TestGapRule works out gaps, cutoffs and ranges by hand.
func TestGapRule(t *testing.T) {
	p := newProgram(&linear.Problem{Offset: 50})
	g := newGapRule(Options{Gap: 0.02, MinDenom: 10})
	// Value 150 outside: 2 % are 3.
	if c := g.cutoff(p, 100); math.Abs(c-97) > 1e-12 {
		t.Errorf("cutoff %v, want 97", c)
	}
	if v := g.of(p, 100, 97); math.Abs(v-0.02) > 1e-15 {
		t.Errorf("gap %v, want 3 of 150", v)
	}
	// Value 1 outside: the denominator is 10.
	if v := g.of(p, -49, -50); math.Abs(v-0.1) > 1e-15 {
		t.Errorf("gap %v, want 1 of 10", v)
	}
	if v := g.of(p, 1, 1-0.9e-8); v != 0 {
		t.Errorf("gap %v of a difference that counts as none", v)
	}
	if v := g.of(p, 1, 1-1.1e-8); v == 0 {
		t.Error("no gap at a difference that counts")
	}
	if !math.IsInf(g.of(p, inf, 1), 1) || !math.IsInf(g.of(p, 1, math.Inf(-1)), 1) {
		t.Error("a gap without value or bound is not infinite")
	}
	p.step = 5
	if c := g.cutoff(p, 100); math.Abs(c-95) > 1e-3 || c < 95 {
		t.Errorf("cutoff %v with steps of 5, want 95 and not below", c)
	}
	for _, c := range []struct{ bound, want float64 }{{11, 15}, {15, 15}, {15 + 4e-6, 15 + 4e-6}, {15 + 6e-6, 20}, {-11, -10}} {
		if got := p.roundUp(c.bound); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("bound %v rounds up to %v, want %v", c.bound, got, c.want)
		}
	}
	// d = 2, room 7: three steps of 1 at most.
	for _, c := range []struct{ lo, up, d, room, newLo, newUp float64 }{
		{0, 9, 2, 7, 0, 3}, {0, 9, 2, 6, 0, 3}, {0, 9, 2, 5.9, 0, 2}, {0, 9, -2, 7, 6, 9}, {0, 3, 2, 7, 0, 3}, {0, 9, 2, 0, 0, 0},
	} {
		if lo, up, _ := costRange(c.lo, c.up, c.d, c.room); lo != c.newLo || up != c.newUp {
			t.Errorf("[%v, %v] at %v with room %v: [%v, %v], want [%v, %v]", c.lo, c.up, c.d, c.room, lo, up, c.newLo, c.newUp)
		}
	}
	if _, _, ok := costRange(math.Inf(-1), 9, 2, 7); ok {
		t.Error("a range from a bound that is not there")
	}
}

// TestClosedTree holds the gap at which a closed tree counts as optimal, 1e-7 of
// the value, from both sides.
func TestClosedTree(t *testing.T) {
	p := &linear.Problem{}
	col(p, 1, 0, 9, true)
	for share, want := range map[float64]Status{0.9: Optimal, 1.1: Numerical} {
		s := &search{space: &space{program: newProgram(p)}, gap: newGapRule(Options{}), ctx: context.Background(),
			closed: 1000 * (1 - share*1e-7), floor: math.Inf(-1), workers: []*worker{}, best: &point{value: 1000}}
		if status, _, _ := s.over(); status != want {
			t.Errorf("%v of the limit: %v, want %v", share, status, want)
		}
	}
}

// TestMerge: nothing that a worker leaves open, could not solve or closed is lost to the whole:
// the least bound of what was closed counts, and the best point.
func TestMerge(t *testing.T) {
	p := &linear.Problem{}
	col(p, 1, 0, 9, true)
	part := func(bound float64) *node { return &node{bound: bound, column: -1} }
	s := &search{space: &space{program: newProgram(p)}, gap: newGapRule(Options{}), ctx: context.Background(), closed: inf, floor: math.Inf(-1), workers: []*worker{}}
	for _, w := range []*worker{
		{open: queue{part(93), part(91)}, stuck: []*node{part(92)}, leaves: []leaf{{bound: 98}}, leafBound: 98, nodes: 7, found: []*point{{value: 100}, {value: 99}, {value: 99.5}}},
		{open: queue{part(90)}, leaves: []leaf{{bound: 99}}, leafBound: 99, nodes: 2, found: []*point{{value: 99.2}}},
	} {
		s.merge(w)
	}
	if s.closed != 98 || len(s.open) != 3 || len(s.stuck) != 1 || len(s.leaves) != 2 || s.nodes != 9 || s.best == nil || s.best.value != 99 {
		t.Errorf("closed at %g, %d open, %d stuck, %d leaves, %d nodes, best %v", s.closed, len(s.open), len(s.stuck), len(s.leaves), s.nodes, s.best)
	}
	if n := s.open.take(); n.bound != 90 {
		t.Errorf("the first part has the bound %g, want 90", n.bound)
	}
}
