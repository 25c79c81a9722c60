package simplex

import "math"

// factor is a factorisation of the basis with updates.
type factor struct {
	m    int
	lu   []float64 // dense, column by column
	perm []int32
	etas []eta
	// What build could not pivot: variables, and rows left without one.
	lost, without []int32
}

type eta struct {
	r   int
	col []float64
}

func (f *factor) build(a *matrix, head []int32) []int32 {
	m := a.rows
	f.m, f.etas = m, nil
	f.lu = make([]float64, m*m)
	f.perm = make([]int32, m)
	f.lost, f.without = nil, nil
	order := append([]int32(nil), head...)
	done := make([]bool, m)
	rank := make([]int, m)
	for i := range rank {
		rank[i] = m
	}
	cols := make([][]float64, m)
	// Left-looking with row partial pivoting; position = pivot row.
	var seq []int32
	for _, k := range order {
		w := make([]float64, m)
		if int(k) >= a.cols {
			w[int(k)-a.cols] = -1
		} else {
			index, value := a.column(int(k))
			for t, i := range index {
				w[i] = value[t]
			}
		}
		for _, p := range seq {
			if v := w[p]; v != 0 {
				for i, l := range cols[p] {
					if rank[i] > rank[p] {
						w[i] -= v * l
					}
				}
			}
		}
		best, size := -1, 1e-9
		for i, v := range w {
			if !done[i] && math.Abs(v) > size {
				best, size = i, math.Abs(v)
			}
		}
		if best < 0 {
			f.lost = append(f.lost, k)
			continue
		}
		for i := range w {
			if !done[i] && i != best {
				w[i] /= w[best]
			}
		}
		cols[best] = w
		done[best] = true
		rank[best] = len(seq)
		head[best] = k
		seq = append(seq, int32(best))
	}
	for i := range done {
		if !done[i] {
			f.without = append(f.without, int32(i))
			w := make([]float64, m)
			for j := range w {
				w[j] = 0
			}
			w[i] = -1
			cols[i] = w
			seq = append(seq, int32(i))
		}
	}
	f.perm = seq
	for i := range cols {
		copy(f.lu[i*m:], cols[i])
	}
	return f.lost
}

func (f *factor) ftran(w []float64, keep bool) {
	m := f.m
	pending := make([]bool, m)
	for i := range pending {
		pending[i] = true
	}
	for _, p := range f.perm {
		pending[p] = false
		if v := w[p]; v != 0 {
			for i, l := range f.lu[int(p)*m : int(p)*m+m] {
				if pending[i] {
					w[i] -= v * l
				}
			}
		}
	}
	for k := m - 1; k >= 0; k-- {
		p := f.perm[k]
		col := f.lu[int(p)*m : int(p)*m+m]
		if w[p] == 0 {
			continue
		}
		w[p] /= col[p]
		for _, q := range f.perm[:k] {
			w[q] -= w[p] * col[q]
		}
	}
	for _, e := range f.etas {
		v := w[e.r] / e.col[e.r]
		if v != 0 {
			for i, x := range e.col {
				w[i] -= v * x
			}
		}
		w[e.r] = v
	}
}

func (f *factor) btran(w []float64, keep bool) {
	for t := len(f.etas) - 1; t >= 0; t-- {
		e := f.etas[t]
		s := w[e.r]
		for i, x := range e.col {
			if i != e.r {
				s -= x * w[i]
			}
		}
		w[e.r] = s / e.col[e.r]
	}
	m := f.m
	for k, p := range f.perm {
		col := f.lu[int(p)*m : int(p)*m+m]
		s := w[p]
		for _, q := range f.perm[:k] {
			s -= col[q] * w[q]
		}
		w[p] = s / col[p]
	}
	for k := m - 1; k >= 0; k-- {
		p := f.perm[k]
		col := f.lu[int(p)*m : int(p)*m+m]
		for _, q := range f.perm[k+1:] {
			w[p] -= col[q] * w[q]
		}
	}
}

func (f *factor) update(r int, col []float64) bool {
	f.etas = append(f.etas, eta{r, append([]float64(nil), col...)})
	return true
}

func (f *factor) updates() int { return len(f.etas) }

func (f *factor) copyFrom(o *factor) {
	f.m = o.m
	f.lu = append(f.lu[:0], o.lu...)
	f.perm = append(f.perm[:0], o.perm...)
	f.etas = append(f.etas[:0], o.etas...)
}
