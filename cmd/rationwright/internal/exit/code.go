package exit

import (
	"errors"

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

// OfPlan is the code that a plan ends with.
func OfPlan(p *ration.Plan) int {
	switch {
	case p.Status == ration.StatusInfeasible:
		return NoRation
	case len(p.People) == 0 && len(p.Refused) > 0:
		return NoRation
	case p.Value != nil:
		return Done
	case p.Status == ration.StatusLimit:
		return Limit
	}
	return Fault
}

// OfError is the code of a request that no plan was made of.
func OfError(err error) int {
	switch {
	case err == nil:
		return Done
	case errors.Is(err, ration.ErrNoPlan):
		return Limit
	case errors.Is(err, ration.ErrNumerical), errors.Is(err, ration.ErrUnverified):
		return Fault
	}
	return BadInput
}
