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
	r.first = zeroed(r.first, counts)
	for i := range r.first {
		r.first[i] = -1
	}
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

// build factorises the columns of head and permutes head so that the variable
// of position p pivots in row p. If the columns are dependent, it fills up with
// slacks and names in lost the variables without a pivot and in without the
// rows whose slack took over; the caller must change head there. It returns
// lost.
//
// Slacks, then singleton columns, then singleton rows are pivoted without any
// arithmetic; what remains is the nucleus.
func (f *factor) build(a *matrix, head []int32) []int32 {
	m := a.rows
	f.m = m
	f.lPivot, f.rPivot = f.lPivot[:0], f.rPivot[:0]
	f.lCols.reset()
	f.rRows.reset()
	f.diag = zeroed(f.diag, m)
	f.uRows.reset(m)
	f.order = f.order[:0]
	f.lost, f.without = f.lost[:0], f.without[:0]
	w := &f.work
	w.load(a, head)

	for j, k := range head {
		if int(k) >= a.cols {
			f.pivotSlack(int32(j), k-int32(a.cols))
		}
	}
	f.pivotColumnSingletons(a, head)
	f.pivotRowSingletons(a, head)
	f.eliminate(a, head)

	for j := range w.pivotOf {
		if w.pivotOf[j] < 0 {
			f.lost = append(f.lost, head[j])
		}
	}
	for i, alive := range w.rowAlive {
		if alive {
			f.without = append(f.without, int32(i))
			f.diag[i] = -1
			f.order = append(f.order, int32(i))
		}
	}
	f.finish(head)
	return f.lost
}

// load copies the basis by row and counts its entries.
func (w *nucleus) load(a *matrix, head []int32) {
	m := a.rows
	w.rowStart = zeroed(w.rowStart, m+1)
	w.colCount, w.rowCount = zeroed(w.colCount, m), zeroed(w.rowCount, m)
	w.colAlive, w.rowAlive = zeroed(w.colAlive, m), zeroed(w.rowAlive, m)
	w.pivotOf = zeroed(w.pivotOf, m)
	total := 0
	for j, k := range head {
		w.colAlive[j], w.rowAlive[j] = true, true
		w.pivotOf[j] = -1
		if int(k) >= a.cols {
			continue
		}
		index, _ := a.column(int(k))
		for _, i := range index {
			w.rowCount[i]++
		}
		w.colCount[j] = int32(len(index))
		total += len(index)
	}
	for i, n := range w.rowCount {
		w.rowStart[i+1] = w.rowStart[i] + n
	}
	w.rowCol, w.rowVal = extended(w.rowCol[:0], total), extended(w.rowVal[:0], total)
	w.queue = append(w.queue[:0], w.rowStart[:m]...)
	next := w.queue
	for j, k := range head {
		if int(k) >= a.cols {
			continue
		}
		index, value := a.column(int(k))
		for t, i := range index {
			w.rowCol[next[i]], w.rowVal[next[i]] = int32(j), value[t]
			next[i]++
		}
	}
}

// pivot notes that column j pivots in row i with the given value.
func (f *factor) pivot(j, i int32, value float64) {
	f.work.colAlive[j], f.work.rowAlive[i] = false, false
	f.work.pivotOf[j] = i
	f.diag[i] = value
	f.order = append(f.order, i)
}

// keepRow makes the living part of row i of the basis a row of U and takes it
// out of the counts of its columns.
func (f *factor) keepRow(i int32) {
	w := &f.work
	f.openRow(i)
	for t := w.rowStart[i]; t < w.rowStart[i+1]; t++ {
		if j := w.rowCol[t]; w.colAlive[j] {
			f.uRows.index = append(f.uRows.index, j)
			f.uRows.value = append(f.uRows.value, w.rowVal[t])
			w.colCount[j]--
		}
	}
	f.closeRow(i)
}

func (f *factor) openRow(i int32) { f.uRows.start[i] = int32(len(f.uRows.index)) }

func (f *factor) closeRow(i int32) {
	n := int32(len(f.uRows.index)) - f.uRows.start[i]
	f.uRows.length[i], f.uRows.room[i] = n, n
}

// pivotSlack pivots the slack of row i in column j. Two slacks never share a
// row.
func (f *factor) pivotSlack(j, i int32) {
	f.pivot(j, i, -1)
	f.keepRow(i)
}

// pivotColumnSingletons pivots columns with one entry in the living rows as
// long as there are any.
func (f *factor) pivotColumnSingletons(a *matrix, head []int32) {
	w := &f.work
	w.queue = w.queue[:0]
	for j, alive := range w.colAlive {
		if alive && w.colCount[j] == 1 {
			w.queue = append(w.queue, int32(j))
		}
	}
	for k := 0; k < len(w.queue); k++ {
		j := w.queue[k]
		if w.colCount[j] != 1 {
			continue
		}
		index, value := a.column(int(head[j]))
		for t, i := range index {
			if !w.rowAlive[i] {
				continue
			}
			if math.Abs(value[t]) < singularTol {
				break
			}
			f.pivot(j, i, value[t])
			f.keepRow(i)
			for u := f.uRows.start[i]; u < int32(len(f.uRows.index)); u++ {
				if c := f.uRows.index[u]; w.colCount[c] == 1 {
					w.queue = append(w.queue, c)
				}
			}
			break
		}
	}
}

// pivotRowSingletons pivots rows with one entry in the living columns as long
// as there are any. The rest of the column becomes a step of L.
func (f *factor) pivotRowSingletons(a *matrix, head []int32) {
	w := &f.work
	w.queue = w.queue[:0]
	for i, alive := range w.rowAlive {
		if !alive {
			continue
		}
		n := int32(0)
		for t := w.rowStart[i]; t < w.rowStart[i+1]; t++ {
			if w.colAlive[w.rowCol[t]] {
				n++
			}
		}
		w.rowCount[i] = n
		if n == 1 {
			w.queue = append(w.queue, int32(i))
		}
	}
	for k := 0; k < len(w.queue); k++ {
		i := w.queue[k]
		if w.rowCount[i] != 1 {
			continue
		}
		t := w.rowStart[i]
		for !w.colAlive[w.rowCol[t]] {
			t++
		}
		j, pivot := w.rowCol[t], w.rowVal[t]
		if math.Abs(pivot) < singularTol {
			continue
		}
		f.pivot(j, i, pivot)
		f.openRow(i)
		f.closeRow(i)
		index, value := a.column(int(head[j]))
		for t, c := range index {
			if !w.rowAlive[c] {
				continue
			}
			f.lCols.add(c, value[t]/pivot)
			if w.rowCount[c]--; w.rowCount[c] == 1 {
				w.queue = append(w.queue, c)
			}
		}
		f.lPivot = append(f.lPivot, i)
		f.lCols.close()
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
	w.byColCount.reset(m, m+1)
	w.byRowCount.reset(m, m+1)
	any := false
	for j, alive := range w.colAlive {
		if !alive {
			continue
		}
		any = true
		w.cols.start[j] = int32(len(w.cols.index))
		index, value := a.column(int(head[j]))
		for t, i := range index {
			if w.rowAlive[i] {
				w.cols.index = append(w.cols.index, i)
				w.cols.value = append(w.cols.value, value[t])
			}
		}
		n := int32(len(w.cols.index)) - w.cols.start[j]
		w.cols.length[j], w.cols.room[j] = n, n
		w.top[j] = -1
		w.colCount[j] = n
		w.byColCount.link(int32(j), n)
	}
	for i, alive := range w.rowAlive {
		if !alive {
			continue
		}
		w.rows.start[i] = int32(len(w.rows.index))
		for t := w.rowStart[i]; t < w.rowStart[i+1]; t++ {
			if w.colAlive[w.rowCol[t]] {
				w.rows.index = append(w.rows.index, w.rowCol[t])
			}
		}
		n := int32(len(w.rows.index)) - w.rows.start[i]
		w.rows.length[i], w.rows.room[i] = n, n
		w.byRowCount.link(int32(i), n)
	}
	w.rows.value = extended(w.rows.value[:0], len(w.rows.index))
	return any
}

// largest returns the size of the largest entry of active column j.
func (w *nucleus) largest(j int32) float64 {
	if w.top[j] < 0 {
		_, value := w.cols.at(j)
		top := 0.0
		for _, v := range value {
			top = max(top, math.Abs(v))
		}
		w.top[j] = top
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

	f.openRow(i)
	members, _ := w.rows.at(i)
	for _, c := range members {
		if c == j {
			continue
		}
		v := w.take(i, c)
		f.uRows.index = append(f.uRows.index, c)
		f.uRows.value = append(f.uRows.value, v)
		w.subtract(c, v, targets, f.lCols.value[lo:])
	}
	f.closeRow(i)
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

// take removes row i from active column c and returns the value.
func (w *nucleus) take(i, c int32) float64 {
	v := w.entry(i, c)
	w.cols.remove(c, i)
	return v
}

// subtract takes by times the pivot column from active column c, whose targets
// and multipliers are given, and links c again.
func (w *nucleus) subtract(c int32, by float64, targets []int32, factors []float64) {
	lo := w.cols.start[c]
	for t := lo; t < lo+w.cols.length[c]; {
		i := w.cols.index[t]
		if l := w.multiplier[i]; l != 0 {
			v := w.cols.value[t] - by*l
			w.multiplier[i] = 0
			if math.Abs(v) <= tiny {
				w.cols.remove(c, i)
				w.dropFromRow(i, c)
				continue
			}
			w.cols.value[t] = v
		}
		t++
	}
	for t, i := range targets {
		if w.multiplier[i] != 0 {
			if v := -by * factors[t]; math.Abs(v) > tiny {
				w.cols.add(c, i, v)
				w.byRowCount.unlink(i, w.rows.length[i])
				w.rows.add(i, c, 0)
				w.byRowCount.link(i, w.rows.length[i])
			}
		}
		w.multiplier[i] = factors[t]
	}
	w.top[c] = -1
	w.relink(c, w.cols.length[c])
}

// relink puts active column j into the list of another count; list 0 is for
// those the search has put aside.
func (w *nucleus) relink(j, count int32) {
	w.byColCount.unlink(j, w.colCount[j])
	w.colCount[j] = count
	w.byColCount.link(j, count)
}

// finish permutes head, turns columns of U into positions and makes the copies
// by the other direction.
func (f *factor) finish(head []int32) {
	w := &f.work
	m := f.m
	f.where = zeroed(f.where, m)
	for t, p := range f.order {
		f.where[p] = int32(t)
	}
	// Entries of U in columns that found no pivot go with them.
	for i := range int32(m) {
		lo := f.uRows.start[i]
		n := lo
		for t := lo; t < lo+f.uRows.length[i]; t++ {
			if p := w.pivotOf[f.uRows.index[t]]; p >= 0 {
				f.uRows.index[n], f.uRows.value[n] = p, f.uRows.value[t]
				n++
			}
		}
		f.uRows.length[i] = n - lo
	}
	w.queue = append(w.queue[:0], head...)
	for j, k := range w.queue {
		if p := w.pivotOf[j]; p >= 0 {
			head[p] = k
		}
	}

	f.uCols.reset(m)
	total := int32(0)
	for i := range int32(m) {
		index, _ := f.uRows.at(i)
		for _, j := range index {
			f.uCols.room[j]++
		}
		total += int32(len(index))
	}
	at := int32(0)
	for j, n := range f.uCols.room {
		f.uCols.start[j] = at
		at += n
	}
	f.uCols.index, f.uCols.value = extended(f.uCols.index, int(total)), extended(f.uCols.value, int(total))
	f.top = 0
	for i := range int32(m) {
		f.top = max(f.top, math.Abs(f.diag[i]))
		index, value := f.uRows.at(i)
		for t, j := range index {
			f.top = max(f.top, math.Abs(value[t]))
			to := f.uCols.start[j] + f.uCols.length[j]
			f.uCols.index[to], f.uCols.value[to] = i, value[t]
			f.uCols.length[j]++
		}
	}
	f.transposeL()
	f.built = int(total) + len(f.lCols.index)
}

// transposeL fills lRows: for every step k, the entries that earlier steps have
// in row lPivot[k].
func (f *factor) transposeL() {
	w := &f.work
	steps := len(f.lPivot)
	// Step of every row; rows that are no pivot of L have entries too, but the
	// solve must use them, so they become steps without a column of their own.
	w.rowCount = zeroed(w.rowCount, f.m)
	for i := range w.rowCount {
		w.rowCount[i] = -1
	}
	for k, p := range f.lPivot {
		w.rowCount[p] = int32(k)
	}
	for _, i := range f.lCols.index {
		if w.rowCount[i] < 0 {
			w.rowCount[i] = int32(len(f.lPivot))
			f.lPivot = append(f.lPivot, i)
			f.lCols.close()
		}
	}
	n := len(f.lPivot)
	f.lRows.reset()
	f.lRows.start = zeroed(f.lRows.start, n+1)
	total := len(f.lCols.index)
	f.lRows.index, f.lRows.value = extended(f.lRows.index, total), extended(f.lRows.value, total)
	for _, i := range f.lCols.index {
		f.lRows.start[w.rowCount[i]+1]++
	}
	for k := range n {
		f.lRows.start[k+1] += f.lRows.start[k]
	}
	w.queue = append(w.queue[:0], f.lRows.start[:n]...)
	for k := range steps {
		index, value := f.lCols.at(k)
		for t, i := range index {
			to := w.queue[w.rowCount[i]]
			w.queue[w.rowCount[i]]++
			f.lRows.index[to], f.lRows.value[to] = f.lPivot[k], value[t]
		}
	}
}
