package ration

import (
	"errors"
	"math"
)

// ErrNobody is returned when a request has no one to plan for, or names someone
// who is not in it.
var ErrNobody = errors.New("nobody to plan for")

// ErrNoBoiling is returned when drinking water must be boiled and nothing can
// boil it.
var ErrNoBoiling = errors.New("drinking water cannot be boiled")

// PlanVersion is the version of the plan's JSON form.
const PlanVersion = "1"

// The words of [Plan.Status].
const (
	StatusOptimal    = "optimal"    // proven within the asked gap
	StatusLimit      = "limit"      // a plan, with its gap as it stands
	StatusInfeasible = "infeasible" // proven: no ration meets the limits
)

// Infeasible reports whether no ration meets the limits of p: there is no list, and the
// conflict and the ways out stand in its place.
func (p *Plan) Infeasible() bool { return p.Status == StatusInfeasible }

// Errors of [Make] that are not about the input.
var (
	// ErrNoPlan: a limit stopped the search before any plan was found.
	ErrNoPlan = errors.New("the search ended before any plan was found")
	// ErrNumerical: the arithmetic broke down and nothing could be certified.
	ErrNumerical = errors.New("the arithmetic broke down; nothing could be certified")
	// ErrUnverified: the plan found failed the independent check.
	ErrUnverified = errors.New("the plan found fails the independent check and is not shown")
)

// SmallestStep is the least amount of the objective that matters: a cent, a gram,
// a millilitre.
func SmallestStep(least Least) float64 {
	if least == LeastCost {
		return 0.01
	}
	return 0.001
}

// GapOf is the relative gap, never negative: the bound may pass the value by
// the last digits of the arithmetic.
func GapOf(value, bound, least float64) float64 {
	return math.Max(0, (value-bound)/math.Max(math.Abs(value), least))
}

// ErrNoRation is wrapped by the refusal of a plan in which nothing fits, where a
// ration is needed.
var ErrNoRation = errors.New("the plan holds no ration, since none meets its limits")

// ErrTampered is wrapped by the refusal of a plan that does not hold what its own
// request asks for, or what it says of itself.
var ErrTampered = errors.New("the plan is not as it was made")

// ErrChangedRequest is wrapped, beside [ErrTampered], by the refusal of a plan whose
// request was changed: what it asks for is another plan.
var ErrChangedRequest = errors.New("its request was changed, and a changed request is a new plan")

// Judge sets the status, the bound and the gap of a plan that has a value, by what
// is proven: an infinite bound is none. within is the gap asked for.
func (p *Plan) Judge(bound, within float64) {
	p.Status, p.Bound, p.Gap = StatusLimit, nil, nil
	if math.IsInf(bound, 0) {
		return
	}
	gap := GapOf(*p.Value, bound, SmallestStep(p.Least))
	p.Bound, p.Gap = &bound, &gap
	if gap <= within {
		p.Status = StatusOptimal
	}
}

// Proof is the gap that the status is judged by: of the best found of the first aim,
// before any slack was spent; nil where no bound is known.
func (p *Plan) Proof() *float64 {
	if p.First != nil {
		return p.First.Gap
	}
	return p.Gap
}
