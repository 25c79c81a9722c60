package simplex

import (
	"context"
	"flag"
	"math"
	"math/rand/v2"
	"testing"

	"rationwright/solver/linear"
)

var campaign = flag.Int("campaign", 1, "size of the randomised campaigns: 1 small, 10 middle, 100 full")

// enumerate finds the optimum of a small program with finite column bounds by
// visiting every basis of [A, −I]: an independent, exponential method. It
// returns false if no vertex is feasible.
func enumerate(p *linear.Problem) (float64, bool) {
	n, m := len(p.Cols), len(p.Rows)
	lower, upper := make([]float64, n+m), make([]float64, n+m)
	dense := make([][]float64, m)
	for i := range dense {
		dense[i] = make([]float64, n+m)
		dense[i][n+i] = -1
		lower[n+i], upper[n+i] = p.Rows[i].Lower, p.Rows[i].Upper
	}
	for j, c := range p.Cols {
		lower[j], upper[j] = c.Lower, c.Upper
		for _, e := range c.Entries {
			dense[e.Row][j] = e.Value
		}
	}
	best, found := math.Inf(1), false
	basic := make([]int, 0, m)
	var choose func(k int)
	try := func() {
		in := make([]bool, n+m)
		for _, k := range basic {
			in[k] = true
		}
		var out []int
		for k := range n + m {
			if !in[k] {
				out = append(out, k)
			}
		}
		x := make([]float64, n+m)
		var set func(t int)
		set = func(t int) {
			if t == len(out) {
				if v, ok := vertex(p, dense, basic, x, lower, upper); ok {
					found = true
					best = min(best, v)
				}
				return
			}
			k := out[t]
			if !math.IsInf(lower[k], 0) {
				x[k] = lower[k]
				set(t + 1)
			}
			if !math.IsInf(upper[k], 0) && upper[k] != lower[k] {
				x[k] = upper[k]
				set(t + 1)
			}
			if math.IsInf(lower[k], 0) && math.IsInf(upper[k], 0) {
				x[k] = 0
				set(t + 1)
			}
		}
		set(0)
	}
	choose = func(k int) {
		if len(basic) == m {
			try()
			return
		}
		if k == n+m {
			return
		}
		basic = append(basic, k)
		choose(k + 1)
		basic = basic[:len(basic)-1]
		choose(k + 1)
	}
	choose(0)
	return best, found
}

// vertex solves for the basic values by Gauss elimination and returns the
// objective if they are within bounds.
func vertex(p *linear.Problem, dense [][]float64, basic []int, x, lower, upper []float64) (float64, bool) {
	m := len(basic)
	w := make([][]float64, m)
	for i := range w {
		w[i] = make([]float64, m+1)
		in := map[int]bool{}
		for t, k := range basic {
			w[i][t] = dense[i][k]
			in[k] = true
		}
		for k, v := range dense[i] {
			if !in[k] {
				w[i][m] -= v * x[k]
			}
		}
	}
	for t := range m {
		big := t
		for i := t; i < m; i++ {
			if math.Abs(w[i][t]) > math.Abs(w[big][t]) {
				big = i
			}
		}
		if math.Abs(w[big][t]) < 1e-9 {
			return 0, false
		}
		w[t], w[big] = w[big], w[t]
		for i := range m {
			if i == t {
				continue
			}
			f := w[i][t] / w[t][t]
			for k := t; k <= m; k++ {
				w[i][k] -= f * w[t][k]
			}
		}
	}
	y := append([]float64(nil), x...)
	for t, k := range basic {
		y[k] = w[t][m] / w[t][t]
		if y[k] < lower[k]-1e-9 || y[k] > upper[k]+1e-9 {
			return 0, false
		}
	}
	v := p.Offset
	for j, c := range p.Cols {
		v += c.Cost * y[j]
	}
	return v, true
}

// small returns a random program of up to 4 rows and 5 columns with small whole
// coefficients, so that ties and degenerate vertices are common.
func small(r *rand.Rand) *linear.Problem {
	p := &linear.Problem{}
	m, n := r.IntN(4), 1+r.IntN(4)
	for range m {
		lo, up := math.Inf(-1), math.Inf(1)
		v := float64(r.IntN(9) - 3)
		switch r.IntN(4) {
		case 0:
			lo = v
		case 1:
			up = v
		case 2:
			lo, up = v, v
		case 3:
			lo, up = v, v+float64(r.IntN(4))
		}
		p.AddRow("", lo, up)
	}
	for j := range n {
		lo := float64(r.IntN(4) - 2)
		p.AddCol("", float64(r.IntN(9)-4), lo, lo+float64(r.IntN(5)), false)
		for i := range m {
			if r.IntN(3) > 0 {
				p.Set(i, j, float64(r.IntN(7)-3))
			}
		}
	}
	return p
}

func TestRandomAgainstEnumeration(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for trial := range 2000 * *campaign {
		p := small(r)
		want, feasible := enumerate(p)
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		got := s.Solve(context.Background(), Limits{})
		switch {
		case feasible && (got.Status != Optimal || math.Abs(got.Value-want) > 1e-6):
			t.Errorf("trial %d: %v %g (%s), want optimal %g", trial, got.Status, got.Value, got.Why, want)
		case feasible && (!got.HasBound || math.Abs(got.Bound-want) > 1e-6):
			t.Errorf("trial %d: bound %g, %v, want %g", trial, got.Bound, got.HasBound, want)
		case !feasible && got.Status != Infeasible:
			t.Errorf("trial %d: %v %g (%s), want infeasible", trial, got.Status, got.Value, got.Why)
		}
	}
}
