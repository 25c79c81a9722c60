package answer

import (
	"context"

	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
)

// audit goes through the proof of a search on the program.
func audit(ctx context.Context, m *model.Model, result search.Result) (*ration.Audit, error) {
	rep := search.WithPart(ctx, search.ProofPart, func(ctx context.Context) search.Report { return search.Audit(ctx, m.Problem, result) })
	opinions, err := search.SecondOpinions(ctx, m.Request)
	if err != nil {
		return nil, err
	}
	return &ration.Audit{Opinions: opinions, Proof: &ration.Proof{
		ValueOK: rep.ValueOK, RootBound: rep.RootBound, RootOK: rep.RootOK,
		Reductions: rep.Reductions, ReductionsOK: rep.ReductionsOK,
		Cuts: rep.Cuts, CutsDerived: rep.CutsDerived, CutsTrusted: rep.CutsTrusted,
		Parts: rep.Leaves, PartsOK: rep.LeavesOK, Covered: rep.Covered,
		Bound: rep.Bound, BoundOK: rep.BoundOK, Unconfirmed: rep.Unconfirmed,
	}}, nil
}
