package branch

import "rationwright/solver/simplex"

// warm is a basis in global terms: it can be loaded into the relaxation of
// another worker.
type warm struct {
	cols, rows []simplex.Place
}

// basis returns the basis in hand.
func (r *relax) basis() *warm {
	b := r.lp.Basis()
	w := &warm{cols: make([]simplex.Place, r.n), rows: make([]simplex.Place, r.m+len(r.cuts))}
	for i := range w.rows {
		w.rows[i] = simplex.Basic
	}
	for k, j := range r.colGlobal {
		w.cols[j] = b[k]
	}
	for k, i := range r.rowGlobal {
		w.rows[i] = b[len(r.colGlobal)+k]
	}
	return w
}

// load warm-starts from w.
func (r *relax) load(w *warm) {
	for j, p := range w.cols {
		if r.colLocal[j] < 0 && (p == simplex.Basic || p != simplex.AtLower && r.space.lower[j] < r.space.upper[j]) {
			r.bring(j)
		}
	}
	for i, p := range w.rows {
		if p != simplex.Basic && (i >= len(r.rowLocal) || r.rowLocal[i] < 0) {
			r.appendRow(i)
		}
	}
	b := make(simplex.Basis, len(r.colGlobal)+len(r.rowGlobal))
	for k, j := range r.colGlobal {
		b[k] = w.cols[j]
	}
	for k, i := range r.rowGlobal {
		at := simplex.Basic
		if i < len(w.rows) {
			at = w.rows[i]
		}
		b[len(r.colGlobal)+k] = at
	}
	if r.lp.SetBasis(b) != nil {
		r.lp.SetSlackBasis() // the shapes always fit; a cold start is right all the same
	}
}
