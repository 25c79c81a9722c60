package referee

import "fmt"

// Verdict is what the referee says of a program.
type Verdict int

// The verdicts.
const (
	Silent     Verdict = iota // no opinion; Why says why
	Optimal                   // X is the best point
	Infeasible                // no point meets all rows and bounds
	Unbounded                 // the objective has no best value
)

// String returns the verdict in lower case.
func (v Verdict) String() string {
	return [...]string{Silent: "no opinion", Optimal: "optimal", Infeasible: "infeasible", Unbounded: "unbounded"}[v]
}

// An Opinion is what the referee says of the linear relaxation of a program.
// All values are in the terms of the program itself, in its own sense.
type Opinion struct {
	Verdict Verdict

	// Proven is true when the verdict has been checked against the program's
	// own figures: for Optimal, X misses no row or bound by more than Tolerance
	// (relative) and the bound that Dual proves is within Tolerance of Value;
	// for Infeasible, Ray has a positive Farkas margin. Unbounded is never
	// proven. Without it the verdict is gonum's word alone.
	Proven bool

	Value    float64
	X        []float64 // one per column; Optimal only
	Residual float64   // the most by which X misses a row or bound, relative as in linear.Problem.Check

	// HasDual says that Dual, Reduced and Bound are there: multipliers per row,
	// reduced costs per column, and what they prove about the optimum.
	HasDual       bool
	Dual, Reduced []float64
	Bound         float64

	Ray []float64 // multipliers per row that show infeasibility; nil if none was found

	Rows, Cols int    // size of the standard form that gonum solved last
	Why        string // in plain words: the reason for Silent, a remark otherwise
}

// String returns one line for a report.
func (o Opinion) String() string {
	text := o.Verdict.String()
	switch {
	case o.Verdict == Silent:
	case o.Proven:
		text += ", proven"
	default:
		text += ", unproven"
	}
	if o.Verdict == Optimal {
		text += fmt.Sprintf(", value %.10g", o.Value)
	}
	if o.Why != "" {
		text += ": " + o.Why
	}
	return text
}
