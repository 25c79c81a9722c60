package simplex

import (
	"context"
	"math"
	"testing"
)

// The zoo: small programs, each a trap. Optima are worked by hand in the story:
// a point and duals with the same value.
var zoo = []struct {
	name, story, program string
	status               Status
	value                float64
}{
	{"nothing", "No rows, no columns: the optimum is the constant.", `
		min 0 + 7`, Optimal, 7},
	{"no rows", "Every column goes to the bound its cost wants: −1 and 5.", `
		min 2 x - 3 y
		x in [-1, 4]
		y in [0, 5]`, Optimal, -17},
	{"no rows, no end", "y costs −1 and has no upper bound.", `
		min 2 x - y`, Unbounded, 0},
	{"empty row", "Nothing is within −1 and 1.", `
		min x
		r: -1 <= 0 x <= 1
		x in [3, 4]`, Optimal, 3},
	{"empty row asks for something", "Nothing is not at least 1: y = 1 proves it.", `
		min x
		r: 0 x >= 1`, Infeasible, 0},
	{"empty column", "z is in no row; its cost alone moves it.", `
		max x + z
		r: x <= 2
		z in [0, 9]`, Optimal, 11},
	{"free column without cost", "z is free, in no row, costs nothing: it rests at zero.", `
		min x
		r: x >= 2
		z free`, Optimal, 2},
	{"free column everywhere", "min |x| as two rows: x free, t ≥ ±(x − 3) and x ≤ 1: t = 2 at x = 1.", `
		min t
		a: t - x >= -3
		b: t + x >= 3
		c: x <= 1
		x free`, Optimal, 2},
	{"free column pays either way", "x free with a cost, held by an equality: x = 4 − y, y ≤ 1.", `
		min x
		a: x + y = 4
		x free
		y in [0, 1]`, Optimal, 3},
	{"beale",
		"E. M. L. Beale (1955), Cycling in the dual simplex algorithm, Naval Research Logistics Quarterly 2: the textbook " +
			"rules cycle. x1 = 1/25, x3 = 1 gives −3/100 − 2/100; duals (0, −3/2, −1/20) prove it.", `
		min -0.75 x1 + 150 x2 - 0.02 x3 + 6 x4
		a: 0.25 x1 - 60 x2 - 0.04 x3 + 9 x4 <= 0
		b: 0.5 x1 - 90 x2 - 0.02 x3 + 3 x4 <= 0
		c: x3 <= 1`, Optimal, -0.05},
	{"kuhn", "H. W. Kuhn's cycling example: (2, 0, 2, 0) costs −2 and −1 times row c is the objective itself.", `
		min -2 x1 - 3 x2 + x3 + 12 x4
		a: -2 x1 - 9 x2 + x3 + 9 x4 <= 0
		b: 0.333333333333333333 x1 + x2 - 0.333333333333333333 x3 - 2 x4 <= 0
		c: 2 x1 + 3 x2 - x3 - 12 x4 <= 2`, Optimal, -2},
	{"klee minty", "V. Klee, G. J. Minty (1972): a cube that the largest coefficient visits corner by corner. x3 alone is best.", `
		max 100 x1 + 10 x2 + x3
		a: x1 <= 1
		b: 20 x1 + x2 <= 100
		c: 200 x1 + 20 x2 + x3 <= 10000`, Optimal, 10000},
	{"opposed rows", "a − b says 0 ≥ 1.", `
		min x
		a: x + y >= 2
		b: x + y <= 1`, Infeasible, 0},
	{"bounds too tight", "x + y reaches 2 at most.", `
		min x
		a: x + y >= 3
		x in [0, 1]
		y in [0, 1]`, Infeasible, 0},
	{"free columns cancel", "The sum of the rows is 0 ≥ 2; every coefficient must cancel, for x and y are free.", `
		min x
		a: x - y >= 1
		b: y - x >= 1
		x free
		y free`, Infeasible, 0},
	{"free columns cancel in thirds", "The same with coefficients that do not cancel in binary: the ray proves it but for rounding.", `
		min x
		a: 0.1 x - 0.3 y >= 1
		b: 0.9 y - 0.3 x >= 1
		x free
		y free`, Infeasible, 0},
	{"crossed column", "3 ≤ x ≤ 2 before any row is looked at.", `
		min x
		r: x >= 0
		x in [3, 2]`, Infeasible, 0},
	{"crossed row", "3 ≤ x + y ≤ 2.", `
		min x
		r: 3 <= x + y <= 2`, Infeasible, 0},
	{"nearly infeasible", "x must be 1 and 1 + 1e-12: within every tolerance, so there is an optimum.", `
		min x
		a: x >= 1.000000000001
		x in [0, 1]`, Optimal, 1},
	{"hardly infeasible", "1e-5 is beyond every tolerance: no optimum may be claimed.", `
		min x
		a: x >= 1.00001
		x in [0, 1]`, Infeasible, 0},
	{"hardly infeasible in the sum", "a + b says 2 x ≥ 2 + 1e-6 with x ≤ 1; each row alone is fine.", `
		min y
		a: x + y >= 1.000001
		b: x - y >= 1
		x in [0, 1]
		y free`, Infeasible, 0},
	{"endless on a line", "x = y may both grow for ever.", `
		min 0 - x - y
		a: x - y = 0`, Unbounded, 0},
	{"endless downwards", "x has no lower bound, and y follows it.", `
		min x
		a: x + y = 5
		x in [-inf, 2]
		y free`, Unbounded, 0},
	{"endless and infeasible", "Both it and its dual have no point: a + b is 0 ≤ −2. Infeasible comes first.", `
		min 0 - x - y
		a: x - y <= -1
		b: y - x <= -1`, Infeasible, 0},
	{"endless only without the slack row", "x + y may not grow, x − y may: along (1, −1).", `
		max x - y
		a: x + y <= 3
		b: x + y >= -3
		x free
		y free`, Unbounded, 0},
	{"all fixed", "Nothing can move, and it fits.", `
		min x + 2 y
		a: x + y = 5
		x in [2, 2]
		y in [3, 3]`, Optimal, 8},
	{"all fixed wrongly", "Nothing can move, and 2 + 3 is not 6.", `
		min x + 2 y
		a: x + y = 6
		x in [2, 2]
		y in [3, 3]`, Infeasible, 0},
	{"row said twice", "b is twice a: the basis of both equations is singular.", `
		min x + 2 y + 4 z
		a: x + y + z = 3
		b: 2 x + 2 y + 2 z = 6
		x in [0, 2]`, Optimal, 4},
	{"row contradicted", "b is twice a but for the right-hand side.", `
		min x
		a: x + y = 3
		b: 2 x + 2 y = 7`, Infeasible, 0},
	{"sum of rows", "c = a + b, all equations: rank two of three. x = 1 + z, y = 2 − z, so 1 + z + 2·2 − 2z + 3z is least at z = 0.", `
		min x + 2 y + 3 z
		a: x - z = 1
		b: y + z = 2
		c: x + y = 3`, Optimal, 5},
	{"negative upper bound", "x ≤ −2 without a lower bound.", `
		max x
		a: x >= -7
		x in [-inf, -2]`, Optimal, -2},
	{"range row", "Both sides of one row are reached in turn: −2 at the lower, and 5 − 0 at the upper would be worse.", `
		min x - y
		r: -2 <= x - y <= 5
		x in [0, 10]
		y in [0, 10]`, Optimal, -2},
	{"flips alone",
		"Every column is boxed and wrong at first; flipping them all is the whole solution, no pivot needed.", `
		max 3 x + 2 y + z
		r: x + y + z <= 30
		x in [0, 10]
		y in [0, 10]
		z in [0, 10]`, Optimal, 60},
	{"flip to the very end",
		"Flipping x takes row b exactly to its bound. A ratio test that asks for more than that finds no pivot and called " +
			"it infeasible.", `
		min 2 x
		a: x <= 1
		b: -3 x = 0
		c: 0 x = 0
		x in [-2, 0]`, Optimal, 0},
	{"wide units",
		"Grams and tonnes: coefficients over twelve powers of ten. y alone, 1e-6, would cost 1e-2; x = 1e6 costs 1e-3.", `
		min 1e-9 x + 1e4 y
		a: 1e-6 x + 1e6 y >= 1
		b: x <= 5e6`, Optimal, 1e-3},
	{"price apart", "Costs over eighteen powers of ten: y first, x for the rest.", `
		min 1e9 x + 1e-9 y
		a: x + y >= 3
		y in [0, 2]`, Optimal, 1e9},
	{"small pivot", "x can be moved only by way of its coefficient 1e-7: y = 1 − 1e-7 · 1.", `
		min y
		a: 1e-7 x + y = 1
		x in [0, 1]`, Optimal, 1 - 1e-7},
	{"nearly parallel", "Two rows differ by 1e-6 in one coefficient: x + y = 2 and 1e-6 y = 1e-6 leave (1, 1).", `
		min x
		a: x + y = 2
		b: x + 1.000001 y = 2.000001`, Optimal, 1},
	{"tied transport", "Every cost is 1 and supply equals demand, so every vertex is optimal and degenerate.", `
		min a1 + a2 + a3 + b1 + b2 + b3 + c1 + c2 + c3
		s1: a1 + a2 + a3 = 2
		s2: b1 + b2 + b3 = 2
		s3: c1 + c2 + c3 = 2
		d1: a1 + b1 + c1 = 2
		d2: a2 + b2 + c2 = 2
		d3: a3 + b3 + c3 = 2`, Optimal, 6},
	{"constant", "The constant is part of the value, for a maximum too.", `
		max 2 x - 5
		a: x <= 4`, Optimal, 3},
	{"only the cone", "All right-hand sides are zero: the origin is the only vertex, and no direction helps.", `
		min x + y
		a: x - y >= 0
		b: 2 x - y <= 0`, Optimal, 0},
	{"all costs zero", "Feasibility alone: any point will do.", `
		min 0 x
		a: x + 2 y = 4
		b: 3 x - y >= 1`, Optimal, 0},
}

func TestZoo(t *testing.T) {
	for _, z := range zoo {
		t.Run(z.name, func(t *testing.T) {
			p := parse(t, z.program)
			s, err := New(p)
			if err != nil {
				t.Fatal(err)
			}
			r := s.Solve(context.Background(), Limits{})
			if r.Status != z.status {
				t.Fatalf("%v (%s), want %v\n%s\n%v", r.Status, r.Why, z.status, z.story, p)
			}
			if r.Status == Optimal && math.Abs(r.Value-z.value) > 1e-9*(1+math.Abs(z.value)) {
				t.Errorf("value %.12g, want %.12g\n%s\n%v", r.Value, z.value, z.story, p)
			}
			verify(t, p, r)
		})
	}
}
