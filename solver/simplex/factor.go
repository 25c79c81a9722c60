package simplex

import "math"

// factor is a sparse factorisation of the basis B, kept up to date by the
// method of Forrest and Tomlin:
//
//	R_t ⋯ R_1 · L⁻¹ · B = U
//
// Rows and positions share one numbering: the variable in position p has its
// pivot in row p, which build arranges by permuting the head. U is then upper
// triangular in the order of pivoting kept in order.
//
// L is a product of columns (one per pivot of the nucleus, the part of B that
// is not triangular from the start) and is kept by row too, for solves with
// the transpose. Every R_t is a row. U is kept both by column and by row, both
// growing at the end as updates come, until the next build.
//
// A solve walks the whole order but skips every zero at the price of one
// comparison. At the few thousand rows this package is made for that costs a
// microsecond, less than the bookkeeping of symbolic hypersparse solves.
//
// J. J. H. Forrest, J. A. Tomlin (1972), Updated triangular factors of the
// basis to maintain sparsity in the product form simplex method, Mathematical
// Programming 2. U. H. Suhl, L. M. Suhl (1990), Computing sparse LU
// factorizations for large-scale linear programming bases, ORSA Journal on
// Computing 2.
type factor struct {
	m int

	// L: step k subtracts multiples of row lPivot[k] from the rows listed.
	lPivot []int32
	lCols  lists
	// The same by target: entries of row lPivot[k] in earlier steps, by pivot
	// row.
	lRows lists

	// R: update t adds multiples of the rows listed to row rPivot[t].
	rPivot []int32
	rRows  lists

	// U: its diagonal, and off the diagonal.
	diag  []float64
	uCols segments // rows of every column
	uRows segments // columns of every row
	order []int32  // pivots first to last, −1 where an update took one away
	where []int32  // index in order of every pivot

	// What the last ftran and btran with keep left for update: the spike
	// before the solve with U, and the row after the solve with Uᵀ.
	spikeIndex, rowIndex []int32
	spikeValue, rowValue []float64

	// What build could not pivot: variables, and as many rows.
	lost, without []int32

	built int     // entries of L and U when built
	top   float64 // largest entry of U when built
	work  nucleus
}

// lists is a growing sequence of sparse vectors, one after the other.
type lists struct {
	start []int32 // one more than there are vectors
	index []int32
	value []float64
}

func (l *lists) reset() {
	l.start = append(l.start[:0], 0)
	l.index, l.value = l.index[:0], l.value[:0]
}

func (l *lists) add(k int32, v float64) {
	l.index, l.value = append(l.index, k), append(l.value, v)
}

// close ends the vector to which entries were added.
func (l *lists) close() { l.start = append(l.start, int32(len(l.index))) }

func (l *lists) at(k int) ([]int32, []float64) {
	lo, hi := l.start[k], l.start[k+1]
	return l.index[lo:hi], l.value[lo:hi]
}

func (l *lists) copyFrom(o *lists) {
	l.start = append(l.start[:0], o.start...)
	l.index = append(l.index[:0], o.index...)
	l.value = append(l.value[:0], o.value...)
}

// segments holds m sparse vectors that grow and shrink: one that outgrows its
// room moves to the end.
type segments struct {
	start, length, room []int32
	index               []int32
	value               []float64
}

func (s *segments) reset(m int) {
	s.start, s.length, s.room = zeroed(s.start, m), zeroed(s.length, m), zeroed(s.room, m)
	s.index, s.value = s.index[:0], s.value[:0]
}

func (s *segments) at(k int32) ([]int32, []float64) {
	lo := s.start[k]
	hi := lo + s.length[k]
	return s.index[lo:hi], s.value[lo:hi]
}

// add appends an entry to vector k.
func (s *segments) add(k, i int32, v float64) {
	n := s.length[k]
	if n == s.room[k] {
		lo := s.start[k]
		s.start[k], s.room[k] = int32(len(s.index)), 2*n+4
		s.index = append(s.index, s.index[lo:lo+n]...)
		s.value = append(s.value, s.value[lo:lo+n]...)
		end := int(s.start[k] + s.room[k])
		s.index, s.value = extended(s.index, end), extended(s.value, end)
	}
	at := s.start[k] + n
	s.index[at], s.value[at] = i, v
	s.length[k] = n + 1
}

// remove takes entry i out of vector k, which has it.
func (s *segments) remove(k, i int32) {
	at, last := s.start[k], s.start[k]+s.length[k]-1
	for s.index[at] != i {
		at++
	}
	s.index[at], s.value[at] = s.index[last], s.value[last]
	s.length[k]--
}

func (s *segments) copyFrom(o *segments) {
	s.start = append(s.start[:0], o.start...)
	s.length = append(s.length[:0], o.length...)
	s.room = append(s.room[:0], o.room...)
	s.index = append(s.index[:0], o.index...)
	s.value = append(s.value[:0], o.value...)
}

// zeroed returns v with length n and all zeros, re-using its memory.
func zeroed[T int32 | float64 | bool](v []T, n int) []T {
	if cap(v) < n {
		return make([]T, n, n+n/8)
	}
	v = v[:n]
	clear(v)
	return v
}

// extended returns v with length n; what is new has no meaning yet.
func extended[T any](v []T, n int) []T {
	if n <= cap(v) {
		return v[:n]
	}
	w := make([]T, n, 2*n)
	copy(w, v)
	return w
}

// copyFrom makes f a copy of o, but for the work space.
func (f *factor) copyFrom(o *factor) {
	f.m, f.built, f.top = o.m, o.built, o.top
	f.lPivot = append(f.lPivot[:0], o.lPivot...)
	f.lCols.copyFrom(&o.lCols)
	f.lRows.copyFrom(&o.lRows)
	f.rPivot = append(f.rPivot[:0], o.rPivot...)
	f.rRows.copyFrom(&o.rRows)
	f.diag = append(f.diag[:0], o.diag...)
	f.uCols.copyFrom(&o.uCols)
	f.uRows.copyFrom(&o.uRows)
	f.order = append(f.order[:0], o.order...)
	f.where = append(f.where[:0], o.where...)
}

// updates returns the number of updates since build.
func (f *factor) updates() int { return len(f.rPivot) }

// ftran solves B·x = w in place. With keep it notes the spike for update.
func (f *factor) ftran(w []float64, keep bool) {
	w = w[:f.m]
	for k, p := range f.lPivot {
		if x := w[p]; x != 0 {
			index, value := f.lCols.at(k)
			value = value[:len(index)]
			for t, i := range index {
				w[i] -= x * value[t]
			}
		}
	}
	for k, p := range f.rPivot {
		index, value := f.rRows.at(k)
		value = value[:len(index)]
		x := w[p]
		for t, i := range index {
			x += w[i] * value[t]
		}
		w[p] = x
	}
	if keep {
		f.spikeIndex, f.spikeValue = gather(w, f.spikeIndex, f.spikeValue)
	}
	diag, order := f.diag, f.order
	for k := len(order) - 1; k >= 0; k-- {
		p := order[k]
		if p < 0 || w[p] == 0 {
			continue
		}
		x := w[p]
		if math.Abs(x) <= tiny {
			w[p] = 0
			continue
		}
		x /= diag[p]
		w[p] = x
		index, value := f.uCols.at(p)
		value = value[:len(index)]
		for t, i := range index {
			w[i] -= x * value[t]
		}
	}
}

// btran solves Bᵀ·y = w in place. With keep, w is a unit vector, and the row is
// noted for update.
func (f *factor) btran(w []float64, keep bool) {
	w = w[:f.m]
	diag := f.diag
	for _, p := range f.order {
		if p < 0 || w[p] == 0 {
			continue
		}
		x := w[p]
		if math.Abs(x) <= tiny {
			w[p] = 0
			continue
		}
		x /= diag[p]
		w[p] = x
		index, value := f.uRows.at(p)
		value = value[:len(index)]
		for t, i := range index {
			w[i] -= x * value[t]
		}
	}
	if keep {
		f.rowIndex, f.rowValue = gather(w, f.rowIndex, f.rowValue)
	}
	for k := len(f.rPivot) - 1; k >= 0; k-- {
		if x := w[f.rPivot[k]]; x != 0 {
			index, value := f.rRows.at(k)
			value = value[:len(index)]
			for t, i := range index {
				w[i] += x * value[t]
			}
		}
	}
	for k := len(f.lPivot) - 1; k >= 0; k-- {
		p := f.lPivot[k]
		x := w[p]
		if x == 0 {
			continue
		}
		if math.Abs(x) <= tiny {
			w[p] = 0
			continue
		}
		index, value := f.lRows.at(k)
		value = value[:len(index)]
		for t, i := range index {
			w[i] -= x * value[t]
		}
	}
}

// gather lists the entries of w that are not rounding, re-using the memory of
// index and value.
func gather(w []float64, index []int32, value []float64) ([]int32, []float64) {
	index, value = index[:0], value[:0]
	for i, x := range w {
		if x > tiny || x < -tiny {
			index, value = append(index, int32(i)), append(value, x)
		}
	}
	return index, value
}

// update puts the column of the last kept ftran into position r, the row of
// the last kept btran, and reports whether the factor is still accurate. pivot
// is the entry of the solved column in position r.
//
// With z the kept row, Uᵀ·z = e_r, adding z_j/z_r times row j to row r for all
// other j leaves of row r only its diagonal; so r can be moved last in the
// order and its column replaced by the spike. The new diagonal is the old one
// times pivot, which is one check of accuracy; the sizes of z_j/z_r and of the
// spike are another.
func (f *factor) update(r int, pivot float64) bool {
	p := int32(r)
	old := f.diag[p]
	for _, j := range f.uRowIndex(p) {
		f.uCols.remove(j, p)
	}
	f.uRows.length[p] = 0
	index, _ := f.uCols.at(p)
	for _, i := range index {
		f.uRows.remove(i, p)
	}

	f.diag[p] = 0
	diagonal, growth := 0.0, 0.0
	spike := f.work.dense(f.m)
	f.uCols.start[p], f.uCols.length[p], f.uCols.room[p] = int32(len(f.uCols.index)), 0, int32(len(f.spikeIndex))
	end := len(f.uCols.index) + len(f.spikeIndex)
	f.uCols.index, f.uCols.value = extended(f.uCols.index, end), extended(f.uCols.value, end)
	for t, i := range f.spikeIndex {
		v := f.spikeValue[t]
		spike[i] = v
		growth = max(growth, math.Abs(v)/f.top)
		if i == p {
			diagonal += v
			continue
		}
		f.uCols.add(p, i, v)
		f.uRows.add(i, p, v)
	}
	for t, j := range f.rowIndex {
		if j == p {
			continue
		}
		v := f.rowValue[t] * old
		f.rRows.add(j, v)
		diagonal += v * spike[j]
		growth = max(growth, math.Abs(v))
	}
	f.rRows.close()
	f.rPivot = append(f.rPivot, p)
	for _, i := range f.spikeIndex {
		spike[i] = 0
	}

	f.order[f.where[p]] = -1
	f.where[p] = int32(len(f.order))
	f.order = append(f.order, p)
	f.diag[p] = old * pivot
	return growth < maxGrowth && math.Abs(diagonal-f.diag[p]) <= updateAgree*math.Abs(f.diag[p])
}

// heavy reports whether updates have made the factor so large that a fresh one
// pays.
func (f *factor) heavy() bool {
	grown := len(f.rRows.index)
	for _, n := range f.uCols.length {
		grown += int(n)
	}
	return grown > 3*f.built+f.m
}

func (f *factor) uRowIndex(p int32) []int32 {
	index, _ := f.uRows.at(p)
	return index
}
