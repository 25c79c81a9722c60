package simplex

// Tolerances of the core, all in scaled terms.
const (
	// A basic value this far outside its bounds counts as inside. Tighter than
	// the 1e-6 or 1e-7 of common practice because trees re-use the answers.
	primalTol = 1e-9
	// A reduced cost this far on the wrong side of zero counts as right.
	dualTol = 1e-9
	// Entries of a pivot row or column below this are never pivots.
	pivotTol = 1e-7
	// Pivot computed by row and by column must agree to this, relative.
	pivotAgree = 1e-7
	// Updates after which the basis is factorised afresh.
	maxUpdates = 64
	// Least dual steepest edge weight.
	minWeight = 1e-4
)
