package simplex

import "math"

// nucleus is the work space of build: the basis by row, and the part of it that
// is eliminated after Markowitz. Columns go by their index in the head.
type nucleus struct {
	// The basis by row.
	rowStart, rowCol []int32
	rowVal           []float64

	colAlive, rowAlive []bool
	colCount, rowCount []int32 // living entries; in the nucleus colCount is the list a column is in
	pivotOf            []int32 // pivot row of each column
	queue              []int32

	// Active columns with values, active rows without.
	cols segments
	rows segments
	top  []float64 // largest entry of each active column, −1 if not known

	byColCount, byRowCount rings

	multiplier []float64 // dense, by row
	seen       []int32   // by row: the stamp of the column that met it last
	stamp      int32
}

// dense returns a zero vector by row.
func (w *nucleus) dense(m int) []float64 {
	if len(w.multiplier) != m {
		w.multiplier = make([]float64, m)
	}
	return w.multiplier
}

// rings holds the members 0 … n−1 in doubly linked lists, one per count.
type rings struct {
	first, next, previous []int32
}

func (r *rings) reset(members, counts int) {
	r.first = filled(r.first, counts, -1)
	r.next, r.previous = zeroed(r.next, members), zeroed(r.previous, members)
}

func (r *rings) link(k, count int32) {
	f := r.first[count]
	r.next[k], r.previous[k] = f, -1
	if f >= 0 {
		r.previous[f] = k
	}
	r.first[count] = k
}

func (r *rings) unlink(k, count int32) {
	n, p := r.next[k], r.previous[k]
	if p >= 0 {
		r.next[p] = n
	} else {
		r.first[count] = n
	}
	if n >= 0 {
		r.previous[n] = p
	}
}

// eliminate pivots the nucleus by Gauss elimination.
func (f *factor) eliminate(a *matrix, head []int32) {
	w := &f.work
	if !w.activate(a, head) {
		return
	}
	for {
		i, j := w.choose()
		if j < 0 {
			return
		}
		f.step(i, j)
	}
}

// activate copies the living part of the basis and links it by counts; it
// reports whether there is any.
func (w *nucleus) activate(a *matrix, head []int32) bool {
	m := a.rows
	w.cols.reset(m)
	w.rows.reset(m)
	w.top = zeroed(w.top, m)
	w.seen, w.stamp = zeroed(w.seen, m), 0
	w.byColCount.reset(m, m+1)
	w.byRowCount.reset(m, m+1)
	any := false
	for j, alive := range w.colAlive {
		if !alive {
			continue
		}
		any = true
		w.cols.open(int32(j))
		index, value := a.column(int(head[j]))
		for t, i := range index {
			if w.rowAlive[i] {
				w.cols.index = append(w.cols.index, i)
				w.cols.value = append(w.cols.value, value[t])
			}
		}
		w.cols.close(int32(j))
		w.top[j] = -1
		w.colCount[j] = w.cols.length[j]
		w.byColCount.link(int32(j), w.colCount[j])
	}
	for i, alive := range w.rowAlive {
		if !alive {
			continue
		}
		w.rows.open(int32(i))
		for t := w.rowStart[i]; t < w.rowStart[i+1]; t++ {
			if w.colAlive[w.rowCol[t]] {
				w.rows.index = append(w.rows.index, w.rowCol[t])
			}
		}
		w.rows.close(int32(i))
		w.byRowCount.link(int32(i), w.rows.length[i])
	}
	w.rows.value = extended(w.rows.value[:0], len(w.rows.index))
	return any
}

// largest returns the size of the largest entry of active column j.
func (w *nucleus) largest(j int32) float64 {
	if w.top[j] < 0 {
		_, value := w.cols.at(j)
		w.top[j] = largest(value)
	}
	return w.top[j]
}

// choose returns the pivot with the least (row count − 1)·(column count − 1)
// among those of at least threshold times their column's largest entry, having
// looked into a few of the shortest columns and rows; −1, −1 if no entry is
// left that could be a pivot.
//
// H. M. Markowitz (1957), The elimination form of the inverse and its
// application to linear programming, Management Science 3.
func (w *nucleus) choose() (row, col int32) {
	row, col = -1, -1
	best := int64(math.MaxInt64)
	searched := 0
	for count := int32(1); int(count) < len(w.byColCount.first); count++ {
		if int64(count-1)*int64(count-1) >= best {
			break
		}
		for j := w.byColCount.first[count]; j >= 0; {
			following := w.byColCount.next[j]
			enough := threshold * w.largest(j)
			if w.largest(j) < singularTol {
				// Nothing to pivot on: the column leaves the search.
				w.relink(j, 0)
				j = following
				continue
			}
			index, value := w.cols.at(j)
			for t, i := range index {
				merit := int64(count-1) * int64(w.rows.length[i]-1)
				if merit < best && math.Abs(value[t]) >= enough {
					best, row, col = merit, i, j
				}
			}
			searched++
			if searched >= searchLimit && col >= 0 || best <= int64(count-1)*int64(count-1) {
				return row, col
			}
			j = following
		}
		if int64(count)*int64(count-1) >= best {
			break
		}
		for i := w.byRowCount.first[count]; i >= 0; i = w.byRowCount.next[i] {
			index, _ := w.rows.at(i)
			for _, j := range index {
				merit := int64(count-1) * int64(w.cols.length[j]-1)
				if merit >= best {
					continue
				}
				top := w.largest(j)
				if top < singularTol || math.Abs(w.entry(i, j)) < threshold*top {
					continue
				}
				best, row, col = merit, i, j
			}
			searched++
			if searched >= searchLimit && col >= 0 {
				return row, col
			}
		}
	}
	return row, col
}

// entry returns the value in row i of active column j.
func (w *nucleus) entry(i, j int32) float64 {
	index, value := w.cols.at(j)
	for t, k := range index {
		if k == i {
			return value[t]
		}
	}
	return 0
}

// step pivots in row i and column j: row i goes to U, column j to L, and every
// other active column loses its multiple.
func (f *factor) step(i, j int32) {
	w := &f.work
	w.byColCount.unlink(j, w.colCount[j])
	w.byRowCount.unlink(i, w.rows.length[i])
	pivot := w.entry(i, j)
	f.pivot(j, i, pivot)

	multiplier := w.dense(f.m)
	index, value := w.cols.at(j)
	for t, c := range index {
		if c == i {
			continue
		}
		w.dropFromRow(c, j)
		v := value[t] / pivot
		multiplier[c] = v
		f.lCols.add(c, v)
	}
	f.lPivot = append(f.lPivot, i)
	f.lCols.close()
	lo := f.lCols.start[len(f.lPivot)-1]
	targets := f.lCols.index[lo:]

	f.uRows.open(i)
	members, _ := w.rows.at(i)
	for _, c := range members {
		if c == j {
			continue
		}
		v := w.entry(i, c)
		w.cols.remove(c, i)
		f.uRows.index = append(f.uRows.index, c)
		f.uRows.value = append(f.uRows.value, v)
		w.subtract(c, v, targets, f.lCols.value[lo:])
	}
	f.uRows.close(i)
	for _, c := range targets {
		multiplier[c] = 0
	}
}

// dropFromRow takes column j out of the pattern of active row i.
func (w *nucleus) dropFromRow(i, j int32) {
	w.byRowCount.unlink(i, w.rows.length[i])
	w.rows.remove(i, j)
	w.byRowCount.link(i, w.rows.length[i])
}

// subtract takes by times the pivot column, whose rows and multipliers are
// given, from active column c, and links c again.
func (w *nucleus) subtract(c int32, by float64, rows []int32, factors []float64) {
	w.stamp++
	met := 0
	multiplier, seen := w.multiplier, w.seen
	index, value := w.cols.at(c)
	value = value[:len(index)]
	vanished := false
	for t, i := range index {
		l := multiplier[i]
		if l == 0 {
			continue
		}
		met++
		seen[i] = w.stamp
		value[t] -= by * l
		vanished = vanished || math.Abs(value[t]) <= tiny
	}
	if met < len(rows) {
		for t, i := range rows {
			if seen[i] == w.stamp {
				continue
			}
			w.cols.add(c, i, -by*factors[t])
			w.byRowCount.unlink(i, w.rows.length[i])
			w.rows.add(i, c, 0)
			w.byRowCount.link(i, w.rows.length[i])
		}
	}
	if vanished {
		w.sweep(c)
	}
	w.top[c] = -1
	w.relink(c, w.cols.length[c])
}

// sweep drops the entries of active column c that have become rounding.
func (w *nucleus) sweep(c int32) {
	lo := w.cols.start[c]
	for t := lo + w.cols.length[c] - 1; t >= lo; t-- {
		if math.Abs(w.cols.value[t]) <= tiny {
			i := w.cols.index[t]
			w.cols.remove(c, i)
			w.dropFromRow(i, c)
		}
	}
}

// relink puts active column j into the list of another count; list 0 is for
// those the search has put aside.
func (w *nucleus) relink(j, count int32) {
	w.byColCount.unlink(j, w.colCount[j])
	w.colCount[j] = count
	w.byColCount.link(j, count)
}
