package simplex

// Status says why a solve stopped.
type Status int

// What a solve may end in. A breakdown is Numerical, never Infeasible.
const (
	Numerical  Status = iota // no certificate could be made
	Optimal                  // X, Dual and Reduced satisfy the residuals stated
	Infeasible               // Ray is a verified Farkas ray of the rows
	Unbounded                // Ray is a verified direction, X a feasible point
	Limit                    // iterations, work or objective cutoff reached, or cancelled
)

// String returns the status as a lower-case word.
func (s Status) String() string {
	return [...]string{
		Numerical: "numerical", Optimal: "optimal", Infeasible: "infeasible", Unbounded: "unbounded", Limit: "limit",
	}[s]
}

// Place is where a column or a row's slack stands in a basis.
type Place int8

// The places. Free non-basic columns rest at zero.
const (
	AtLower Place = iota
	AtUpper
	Basic
	AtZero
)

// Basis is a warm start: the place of every column, then of every row's slack.
// It is a value: copy it freely, keep it with a node of a tree.
type Basis []Place

// Limits bound one solve. The zero value sets none.
type Limits struct {
	Iterations int     // most simplex iterations; 0 = no limit
	Cutoff     float64 // stop with Limit once the dual bound passes it; used only if HasCutoff
	HasCutoff  bool
}

// Result is what one solve found. X has one value per column, Dual and RowValue
// one per row, Reduced one per column; all are in the terms of the original,
// unscaled problem in its own sense. For either sense
// Reduced[j] = Cost[j] − Σ_i Dual[i]·a_ij. Bound is a valid dual bound on the
// optimum whenever HasBound, also on Limit.
//
// A Farkas ray y proves infeasibility by itself: every x within the column
// bounds has Σ_j (Σ_i y_i·a_ij)·x_j strictly below the least value that Σ_i
// y_i·r_i takes over the row bounds. Where a column's or a row's own bounds
// cross, Why says so and the ray is zero but for that row.
type Result struct {
	Status                                        Status
	Value                                         float64
	Bound                                         float64
	HasBound                                      bool
	X                                             []float64
	RowValue                                      []float64
	Dual                                          []float64
	Reduced                                       []float64
	Ray                                           []float64 // per row (Infeasible) or per column (Unbounded)
	Iterations                                    int
	PrimalResidual, DualResidual, Complementarity float64
	Why                                           string // for Numerical and Limit: in plain words
}
