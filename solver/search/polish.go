package search

import (
	"context"
	"math"

	"rationwright/solver/branch"
	"rationwright/solver/model"
	"rationwright/solver/ration"
)

// Limits of the polish: it never decides the value, so it may be cut short, but
// by work, so that the same request gives the same plan on a slow machine.
const (
	polishWork  = 3000 // simplex iterations
	polishGap   = 1e-3
	PolishSlack = 1e-9 // relative room for the last digits of the value
)

// Tidied takes packs out that are hardly touched, then polishes the plan.
func Tidied(ctx context.Context, m *model.Model, x []float64) []float64 {
	return Polish(ctx, m, withoutCrumbs(ctx, m, x))
}

// crumb is the part of a pack's usable content up to which the pack is hardly
// touched: what is eaten of it can come from elsewhere.
const crumb = 0.1

// withoutCrumbs takes away one pack of every food of which the last pack bought
// is hardly touched, where the needs are met without it at no higher value.
func withoutCrumbs(ctx context.Context, m *model.Model, x []float64) []float64 {
	p := m.CopyProblem()
	m.FixPacks(p, x)
	m.CloseEmpty(p)
	best, value := x, m.ValueOf(x)
	for li, lf := range m.Larder {
		left := 0.0 // of the packs when all have eaten
		for _, k := range lf.Supply() {
			left += k.Usable * math.Round(x[k.Col])
		}
		for _, e := range m.Eaters {
			if y, ok := e.Eating(li); ok {
				left -= e.Count * y.Spare * x[y.Col]
			}
		}
		for _, k := range lf.Buy {
			if math.Round(x[k.Col]) < 1 || left < (1-crumb)*k.Usable || ctx.Err() != nil {
				continue
			}
			p.Cols[k.Col].Lower--
			p.Cols[k.Col].Upper--
			if found := Fill(ctx, m, p); found != nil && m.ValueOf(found) <= value {
				best, value = found, m.ValueOf(found)
				break
			}
			p.Cols[k.Col].Lower++
			p.Cols[k.Col].Upper++
		}
	}
	return best
}

// Polish looks for a plan of no higher value that weighs less, within a fixed
// amount of work, and returns the better of the two points.
func Polish(ctx context.Context, m *model.Model, x []float64) []float64 {
	if m.Request.Least == ration.LeastWeight {
		return x
	}
	value := 0.0
	for j := range m.Cols {
		value += m.Problem.Cols[j].Cost * x[j]
	}
	trial := m.CopyProblem()
	row := trial.AddRow("value", math.Inf(-1), value+PolishSlack*math.Abs(value))
	for j := range trial.Cols {
		trial.Set(row, j, trial.Cols[j].Cost)
		trial.Cols[j].Cost = m.Coefficient(j, ration.LeastWeight)
	}
	result := branch.Solve(ctx, trial, branch.Options{
		Gap: polishGap, MinDenom: ration.SmallestStep(ration.LeastWeight), Work: polishWork, Start: x,
	})
	if result.X == nil || result.ByClock {
		return x
	}
	return result.X
}
