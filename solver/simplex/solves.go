package simplex

import (
	"math"
	"slices"
)

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
	for _, p := range slices.Backward(order) {
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
	for k, p := range slices.Backward(f.rPivot) {
		if x := w[p]; x != 0 {
			index, value := f.rRows.at(k)
			value = value[:len(index)]
			for t, i := range index {
				w[i] += x * value[t]
			}
		}
	}
	for k, p := range slices.Backward(f.lPivot) {
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
