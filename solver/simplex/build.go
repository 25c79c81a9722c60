package simplex

import "math"

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
			i := k - int32(a.cols) // two slacks never share a row
			f.pivot(int32(j), i, -1)
			f.keepRow(i)
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
	f.uRows.open(i)
	for t := w.rowStart[i]; t < w.rowStart[i+1]; t++ {
		if j := w.rowCol[t]; w.colAlive[j] {
			f.uRows.index = append(f.uRows.index, j)
			f.uRows.value = append(f.uRows.value, w.rowVal[t])
			w.colCount[j]--
		}
	}
	f.uRows.close(i)
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
		f.uRows.open(i)
		f.uRows.close(i)
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
	w.rowCount = filled(w.rowCount, f.m, -1)
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
