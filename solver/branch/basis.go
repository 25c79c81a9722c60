package branch

import "rationwright/solver/simplex"

// Basis is the place of every column and of the slack of every row of a space: it can be
// loaded into the relaxation of another worker.
type Basis struct{ Cols, Rows []simplex.Place }

// basis returns the basis in hand.
func (r *relaxation) basis() *Basis {
	b := r.lp.Basis()
	w := &Basis{Cols: make([]simplex.Place, r.n), Rows: make([]simplex.Place, r.m+len(r.cuts))}
	for i := range w.Rows {
		w.Rows[i] = simplex.Basic
	}
	for k, j := range r.colGlobal {
		w.Cols[j] = b[k]
	}
	for k, i := range r.rowGlobal {
		w.Rows[i] = b[len(r.colGlobal)+k]
	}
	return w
}

// load warm-starts from w.
func (r *relaxation) load(w *Basis) {
	for j, p := range w.Cols {
		if r.colLocal[j] < 0 && (p == simplex.Basic || p != simplex.AtLower && r.space.lower[j] < r.space.upper[j]) {
			r.bring(j)
		}
	}
	for i, p := range w.Rows {
		if p != simplex.Basic && (i >= len(r.rowLocal) || r.rowLocal[i] < 0) {
			r.appendRow(i)
		}
	}
	b := make(simplex.Basis, len(r.colGlobal)+len(r.rowGlobal))
	for k, j := range r.colGlobal {
		b[k] = w.Cols[j]
	}
	for k, i := range r.rowGlobal {
		at := simplex.Basic
		if i < len(w.Rows) {
			at = w.Rows[i]
		}
		b[len(r.colGlobal)+k] = at
	}
	if r.lp.SetBasis(b) != nil {
		r.lp.SetSlackBasis() // the shapes always fit; a cold start is right all the same
	}
}
