package simplex

import (
	"math"
	"math/rand/v2"
	"testing"
)

// randomMatrix returns a scaled m × n matrix with about fill entries a column; some
// columns are copies of others or empty, so that bases are often singular.
func randomMatrix(r *rand.Rand, m, n int, fill float64) *matrix {
	columns := make([]sparse, n)
	for j := range columns {
		if j > 0 && r.IntN(20) == 0 {
			columns[j] = columns[r.IntN(j)]
			continue
		}
		for i := range m {
			if r.Float64()*float64(m) < fill {
				columns[j].index = append(columns[j].index, int32(i))
				columns[j].value = append(columns[j].value, r.NormFloat64()*math.Pow(10, float64(r.IntN(3))))
			}
		}
	}
	a := newMatrix(m, columns)
	s := newScaling(a, make([]float64, n))
	return a.scaled(s.row, s.col)
}

// multiply returns B·x for the basis in head.
func multiply(a *matrix, head []int32, x []float64) []float64 {
	y := make([]float64, a.rows)
	for p, k := range head {
		if int(k) >= a.cols {
			y[int(k)-a.cols] -= x[p]
			continue
		}
		index, value := a.column(int(k))
		for t, i := range index {
			y[i] += value[t] * x[p]
		}
	}
	return y
}

// dot returns column k of [A, −I] times y.
func dot(a *matrix, k int32, y []float64) float64 {
	if int(k) >= a.cols {
		return -y[int(k)-a.cols]
	}
	s := 0.0
	index, value := a.column(int(k))
	for t, i := range index {
		s += value[t] * y[i]
	}
	return s
}

// largestOf returns the size of the largest entry of v.
func largestOf(v []float64) float64 {
	top := 0.0
	for _, x := range v {
		top = max(top, math.Abs(x))
	}
	return top
}

// checkSolves compares ftran and btran with products by B.
func checkSolves(t *testing.T, r *rand.Rand, a *matrix, f *factor, head []int32) {
	t.Helper()
	m := a.rows
	b, w := make([]float64, m), make([]float64, m)
	for i := range b {
		if r.IntN(3) == 0 {
			b[i] = r.NormFloat64()
		}
	}
	norm := largestOf(a.colVal)
	copy(w, b)
	f.ftran(w, false)
	for i, v := range multiply(a, head, w) {
		if math.Abs(v-b[i]) > 1e-8*(1+norm*largestOf(w)) {
			t.Fatalf("ftran: row %d of B·x is %g, want %g", i, v, b[i])
		}
	}
	copy(w, b)
	f.btran(w, false)
	for p, k := range head {
		if v := dot(a, k, w); math.Abs(v-b[p]) > 1e-8*(1+norm*largestOf(w)) {
			t.Fatalf("btran: position %d of Bᵀ·y is %g, want %g", p, v, b[p])
		}
	}
}

func TestFactor(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for trial := range 300 * *campaign {
		m := 1 + r.IntN(60)
		n := 1 + r.IntN(90)
		a := randomMatrix(r, m, n, 1+4*r.Float64())
		head := make([]int32, 0, m)
		for _, k := range r.Perm(n + m)[:m] {
			head = append(head, int32(k))
		}
		var f factor
		before := append([]int32(nil), head...)
		f.build(a, head)
		if len(f.lost) != len(f.without) {
			t.Fatalf("trial %d: %d variables lost, %d rows without", trial, len(f.lost), len(f.without))
		}
		in := map[int32]bool{}
		for t, i := range f.without {
			head[i] = int32(n) + i
			in[f.lost[t]] = true
		}
		for _, k := range head {
			in[k] = true
		}
		for _, k := range before {
			if !in[k] {
				t.Fatalf("trial %d: variable %d vanished", trial, k)
			}
		}
		checkSolves(t, r, a, &f, head)
		basic := map[int32]bool{}
		for _, k := range head {
			basic[k] = true
		}
		spike, row := make([]float64, m), make([]float64, m)
		for range 40 {
			q := int32(r.IntN(n + m))
			if basic[q] {
				continue
			}
			clear(spike)
			if int(q) >= n {
				spike[int(q)-n] = -1
			} else {
				index, value := a.column(int(q))
				for t, i := range index {
					spike[i] = value[t]
				}
			}
			f.ftran(spike, true)
			p := r.IntN(m)
			top := largestOf(spike)
			for math.Abs(spike[p]) < 0.1*top {
				p = (p + 1) % m
			}
			if top < 0.01 {
				continue
			}
			clear(row)
			row[p] = 1
			f.btran(row, true)
			if !f.update(p, spike[p]) {
				f.build(a, head)
				continue
			}
			delete(basic, head[p])
			basic[q] = true
			head[p] = q
			checkSolves(t, r, a, &f, head)
		}
	}
}
