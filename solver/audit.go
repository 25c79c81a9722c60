package solver

import (
	"context"

	"rationwright/solver/branch"
	"rationwright/solver/ration"
)

// audit goes through the proof of a search on the program.
func (r *Ration) audit(ctx context.Context, result branch.Result) (*ration.Audit, error) {
	opinions, err := SecondOpinions(ctx, r.Request)
	if err != nil {
		return nil, err
	}
	rep := branch.Audit(r.Problem, result)
	return &ration.Audit{Opinions: opinions, Proof: &ration.Proof{
		ValueOK: rep.ValueOK, RootBound: rep.RootBound, RootOK: rep.RootOK,
		Reductions: rep.Reductions, ReductionsOK: rep.ReductionsOK,
		Cuts: rep.Cuts, CutsDerived: rep.CutsDerived, CutsTrusted: rep.CutsTrusted,
		Parts: rep.Leaves, PartsOK: rep.LeavesOK, Covered: rep.Covered,
		Bound: rep.Bound, BoundOK: rep.BoundOK, Unconfirmed: rep.Unconfirmed,
	}}, nil
}
