package simplex

import "math"

// updates returns the number of updates since build.
func (f *factor) updates() int { return len(f.rPivot) }

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
	index, _ := f.uRows.at(p)
	for _, j := range index {
		f.uCols.remove(j, p)
	}
	f.uRows.length[p] = 0
	index, _ = f.uCols.at(p)
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
