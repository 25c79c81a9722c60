package plan

import (
	"context"
	"fmt"

	"rationwright/solver/aim"
	"rationwright/solver/answer"
	"rationwright/solver/conflict"
	"rationwright/solver/elastic"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
)

// Make builds the model of req, solves it to the asked gap, polishes the plan,
// checks it with [verify.Check] and returns it. When nothing fits, the plan has
// status infeasible and says what conflicts. It returns an error for input that
// cannot be planned, and [ErrNoPlan], [ErrNumerical] or [ErrUnverified].
func Make(ctx context.Context, req *ration.Request, progress func(search.Progress)) (*ration.Plan, error) {
	req, err := conflict.SetAside(ctx, req)
	if err != nil {
		return nil, err
	}
	m, err := model.Build(req)
	if err != nil {
		return nil, err
	}
	if len(m.Request.Shelves) > 0 {
		return makeOnShelves(ctx, m, progress, fitOf)
	}
	return MakeModel(ctx, m, progress)
}

// MakeModel is [Make] for a model, wherever its shelves are.
func MakeModel(ctx context.Context, m *model.Model, progress func(search.Progress)) (*ration.Plan, error) {
	return MakeModelWith(ctx, m, progress, nil, search.Tidied)
}

// MakeModelWith makes the plan and lets after improve the point found, a point of the
// model that it is given: that of the request, or one in which something gave way. The
// floors of stored vitamins of m are those of shortfalls.
func MakeModelWith(
	ctx context.Context, m *model.Model, progress func(search.Progress), shortfalls []ration.Shortfall,
	after func(context.Context, *model.Model, []float64) []float64,
) (*ration.Plan, error) {
	if len(m.Eaters) == 0 {
		p := answer.EmptyPlan(m)
		p.Status = ration.StatusInfeasible
		p.Conflict = []ration.ConflictLimit{{Limit: "a clinician must plan for everyone in this household"}}
		return answer.Complete(m, p), nil
	}
	timed, stop := search.Part(ctx, partOfSearch(m)) // the start is sought in the same time
	var result search.Found
	if own := m.OwnLimit(); own >= 0 {
		result = search.SolveUnderOwn(timed, m, progress, own)
	} else {
		result = search.Solve(timed, m, progress, nil)
	}
	stop()
	if result.Status == search.Infeasible {
		eased, short, start, err := Ease(ctx, m)
		if err != nil {
			return nil, err
		}
		if m, shortfalls = eased, short; start != nil {
			result = search.WithPart(ctx, partOfSearch(m), func(ctx context.Context) search.Found { return search.Solve(ctx, m, progress, start) })
		}
	}
	switch {
	case result.X != nil:
		x := after(ctx, m, result.X)
		p, err := answer.Finish(ctx, m, x, result.Result, shortfalls)
		if err != nil || m.Request.Slack == 0 {
			return p, err
		}
		left, stop := search.Part(ctx, search.SearchPart)
		defer stop()
		found, err := aim.Seek(left, m, x, *p.Value, result.Result) // spends the slack on what people eat gladly
		if err != nil {
			return nil, err
		}
		return answer.Second(m, p, found), nil
	case result.Status == search.Infeasible:
		return conflict.Explain(ctx, m, result)
	case result.Status == search.Limit:
		why := result.Why
		if result.ByClock {
			why += ", by the clock: a longer --time may find one"
		}
		return nil, fmt.Errorf("%w: %s%s", ration.ErrNoPlan, why, result.NearMiss)
	default:
		return nil, fmt.Errorf("%w: %s", ration.ErrNumerical, result.Why)
	}
}

// partOfSearch is the part of the first search.
func partOfSearch(m *model.Model) float64 {
	switch {
	case m.Request.Audit:
		return search.AuditedPart
	case m.Request.Slack > 0 && aim.Harmed(m):
		return search.HarmedPart
	case m.Request.Slack > 0:
		return search.FirstPart
	}
	return search.SearchPart
}

// Ease gives way where nothing fits: first this program's own planning rules, then
// the vitamins that the body stores, and with these the planning rules again; at last all
// of the planning rules, those that bar a food too. start is a point of the model
// returned, nil where nothing of that is enough: the model is then that of needs and
// safety alone.
func Ease(ctx context.Context, m *model.Model) (eased *model.Model, shortfalls []ration.Shortfall, start []float64, err error) {
	if m.HasPlanning() {
		if eased, start, ok := loosen(ctx, m, nil); ok {
			return eased, nil, start, nil
		}
		if less, shortfalls, point := easeVitamins(ctx, model.WithoutPlanningLimits(m)); less != nil {
			if eased, start, ok := loosen(ctx, model.WithStoredOf(m, less), point); ok {
				return eased, shortfalls, start, nil
			}
		}
		if m, err = m.WithoutPlanning(); err != nil {
			return nil, nil, nil, err
		}
	}
	if less, shortfalls, point := easeVitamins(ctx, m); less != nil {
		return less, shortfalls, point, nil
	}
	return m, nil, nil, nil
}

func easeVitamins(ctx context.Context, m *model.Model) (eased *model.Model, shortfalls []ration.Shortfall, point []float64) {
	ctx, stop := search.Part(ctx, search.VitaminPart)
	defer stop()
	return elastic.EaseStoredVitamins(ctx, m)
}

func loosen(ctx context.Context, m *model.Model, from []float64) (eased *model.Model, start []float64, ok bool) {
	ctx, stop := search.Part(ctx, search.LoosenPart)
	defer stop()
	return elastic.Loosen(ctx, m, from)
}
