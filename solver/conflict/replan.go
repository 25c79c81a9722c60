package conflict

import (
	"context"

	"rationwright/solver/answer"
	"rationwright/solver/branch"
	"rationwright/solver/elastic"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
	"rationwright/solver/verify"
)

// named returns the limit behind a row, by the row's name.
func named(l *ration.Limits, row string) **float64 {
	switch row {
	case "budget":
		return &l.Budget
	case "max-weight":
		return &l.WeightKg
	case "max-litres":
		return &l.VolumeL
	case "max-water":
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
	if result.Status == branch.Infeasible {
		if shortfalls, start, ok = elastic.RelaxStoredVitamins(ctx, m); ok {
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
