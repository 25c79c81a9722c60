package exit

import (
	"errors"
	"slices"

	"rationwright/solver/ration"
)

// The exit codes.
const (
	Done        = 0
	Fault       = 1
	Usage       = 2
	BadInput    = 3
	NoRation    = 4
	Short       = 5
	Limit       = 6
	Interrupted = 130
)

// Outcome is one way in which a question ends.
type Outcome struct {
	Status   string // its word in JSON and csv; "" where no answer is written
	Code     int    // of plan, and of every command that asks for a ration
	Solve    int    // the code of solve, whose proven statuses are all answers
	Sentence string // what people read of it at the head of the answer; "" where nothing is wrong
	Counted  string // how a register counts its households: "3 not fed within the limits"
	Help     string // what its code means, in the help; once a code
}

// The outcomes, a row each: whoever writes a status, a code or its words has them from
// here.
var (
	Optimal    = Outcome{Status: ration.StatusOptimal, Code: Done, Solve: Done, Help: "done"}
	WithGap    = Outcome{Status: ration.StatusLimit, Code: Done, Solve: Limit, Sentence: "The search was stopped before it reached the gap asked for"}
	Unbounded  = Outcome{Status: "unbounded", Code: Fault, Solve: Done}
	Numerical  = Outcome{Status: "numerical", Code: Fault, Solve: Fault, Counted: "without a plan after the work", Help: "internal fault; solve: no answer could be certified"}
	Misused    = Outcome{Code: Usage, Solve: Usage, Help: "usage: a flag or an argument is wrong"}
	Unread     = Outcome{Status: "unread", Code: BadInput, Solve: BadInput, Counted: "not read or not planned as they are", Help: "bad input: a file or a value in it, or a place that cannot be written to"}
	Infeasible = Outcome{Status: ration.StatusInfeasible, Code: NoRation, Solve: Done, Sentence: "No ration meets all of these limits.", Counted: "not fed within the limits", Help: "no ration meets the limits, or everyone is refused"}
	StockShort = Outcome{Code: Short, Sentence: "THIS STOCK IS SHORT of a balanced ration for %s.", Help: "check found the stock short"} // %s: how long
	Unplanned  = Outcome{Status: ration.StatusLimit, Code: Limit, Solve: Limit, Counted: "without a plan after the work", Help: "stopped by a limit without a plan"}
	Stopped    = Outcome{Code: Interrupted, Solve: Interrupted, Help: "interrupted without a plan"}
)

// Outcomes are all of them, by their codes.
func Outcomes() []Outcome {
	return []Outcome{Optimal, WithGap, Unbounded, Numerical, Misused, Unread, Infeasible, StockShort, Unplanned, Stopped}
}

// OfPlan is how a plan ended. Where everyone is refused there is no ration either.
func OfPlan(p *ration.Plan) Outcome {
	switch {
	case p.Infeasible(), len(p.People) == 0 && len(p.Refused) > 0:
		return Infeasible
	case p.Value != nil && p.Status == ration.StatusLimit:
		return WithGap
	case p.Value != nil:
		return Optimal
	case p.Status == ration.StatusLimit:
		return Unplanned
	}
	return Numerical
}

// OfError is how a request ended of which no plan was made.
func OfError(err error) Outcome {
	switch {
	case err == nil:
		return Optimal
	case errors.Is(err, ration.ErrNoPlan):
		return Unplanned
	case errors.Is(err, ration.ErrNumerical), errors.Is(err, ration.ErrUnverified):
		return Numerical
	}
	return Unread
}

// OfSolve is how a program ended whose search says status: limit, numerical, and
// else what is proven.
func OfSolve(status string) Outcome {
	for _, o := range Outcomes() {
		if o.Status == status && status != "" {
			return o
		}
	}
	return Numerical
}

// Worst is the code that many households end with together: of what can be mended in
// the register first.
func Worst(codes ...int) int {
	return slices.MaxFunc(append([]int{Done}, codes...), func(a, b int) int { return rank[a] - rank[b] })
}

var rank = map[int]int{Fault: 1, Limit: 2, NoRation: 3, BadInput: 4}
