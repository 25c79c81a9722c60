package conflict

import (
	"context"

	"rationwright/solver/answer"
	"rationwright/solver/elastic"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
	"rationwright/solver/verify"
)

// limitOf returns the limit of the request that is on something.
func limitOf(l *ration.Limits, on model.LimitOn) **float64 {
	switch on {
	case model.OnBudget:
		return &l.Budget
	case model.OnWeight:
		return &l.WeightKg
	case model.OnVolume:
		return &l.VolumeL
	case model.OnWater:
		return &l.WaterL
	default:
		return &l.HeatMJ
	}
}

// replan plans req anew within a fixed amount of work; ok is false when no plan
// was found that passes the independent check.
func replan(ctx context.Context, req *ration.Request, start []float64) (plan *ration.Plan, ok bool) {
	m, err := model.Build(req)
	if err != nil || len(m.Eaters) == 0 {
		return nil, false
	}
	result := search.SearchOnce(ctx, m, search.ReplanGap, search.WayOutWork, start)
	var shortfalls []ration.Shortfall
	if result.Status == search.Infeasible {
		if eased, short, start := elastic.EaseStoredVitamins(ctx, m); eased != nil {
			m, shortfalls = eased, short
			result = search.SearchOnce(ctx, m, search.ReplanGap, search.WayOutWork, start)
		}
	}
	if result.X == nil {
		return nil, false
	}
	plan = answer.Write(m, result.X)
	plan.Shortfalls = answer.Gets(plan, shortfalls)
	return plan, len(verify.Check(m.Request, plan)) == 0
}
