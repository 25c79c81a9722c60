package branch

import (
	"time"

	"rationwright/solver/simplex"
)

// Status says why a search stopped.
type Status = simplex.Status

// What a search may end in.
const (
	Numerical  = simplex.Numerical
	Optimal    = simplex.Optimal    // within the asked gap, proven
	Infeasible = simplex.Infeasible // proven
	Unbounded  = simplex.Unbounded
	Limit      = simplex.Limit // stopped by work, clock or cancellation; X may be nil
)

// Options steer a search. The zero value asks for a proven optimum within
// DefaultGap, without limits.
type Options struct {
	Gap      float64             // relative gap asked, e.g. 0.01
	MinDenom float64             // gap = |value − bound| ÷ max(|value|, MinDenom); 0 means 1e-10
	Work     int64               // most simplex iterations over all workers, looked at between rounds: deterministic; 0 = none
	Workers  int                 // 0 means 2, whatever the machine
	Start    []float64           // a feasible point to start from, one value per column; may be nil
	Basis    *Basis              // for the relaxation at the root to start from; may be nil
	Progress func(Progress)      // may be nil
	Until    func(Progress) bool // ends the search as soon as it holds; may be nil
	Audit    bool                // keep what an audit needs: leaves with their duals, cuts with their multipliers
}

// Progress is the state of a search at one moment.
type Progress struct {
	Value    float64 // best plan so far; HasValue false = none yet
	HasValue bool
	Bound    float64
	Gap      float64
	Nodes    int
	Work     int64
	Elapsed  time.Duration
}

// Result is the outcome of a search.
type Result struct {
	Status  Status
	X       []float64 // best integer-feasible point, nil if none
	Value   float64
	Bound   float64 // proven bound on the optimum
	Gap     float64 // |Value − Bound| ÷ max(|Value|, MinDenom); +Inf without a point
	Nodes   int
	Work    int64
	ByClock bool // stopped by the deadline or the cancelling of its context, not by Until: may differ next time
	Why     string
	// Root relaxation, original rows without cuts.
	RootBound   float64
	RootDual    []float64 // per original row
	RootReduced []float64 // per column
	Ray         []float64 // for Infeasible at the root: verified Farkas ray

	trail *trail // with Options.Audit
}
