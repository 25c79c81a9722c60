package simplex

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
