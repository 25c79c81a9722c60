//go:build solvers

package solver

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/solver/branch"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// What growth costs: twice the people, twice the foods, 40 people, 1,000 foods.
// It prints times and ratios of one run; see DEVELOPERS.md for the command. It
// fails only where no plan is found.
func TestGrowth(t *testing.T) {
	all := rationtest.Table(t)
	var out strings.Builder
	fmt.Fprintf(&out, "\n%-24s %6s %6s %8s %9s %9s %7s\n", "model", "rows", "cols", "seconds", "value", "bound", "gap")
	measure := func(name string, people int, foods *foods.Table, gap float64) float64 {
		m, err := model.Build(&ration.Request{People: rationtest.Crowd(people), Table: foods, Least: ration.LeastWeight, Start: "2026-11-25"})
		if err != nil {
			t.Fatal(err)
		}
		start := time.Now()
		ctx, stop := context.WithTimeout(t.Context(), 3*time.Minute)
		defer stop()
		result := branch.Solve(ctx, m.Problem, branch.Options{Gap: gap, MinDenom: 0.001})
		seconds := time.Since(start).Seconds()
		if result.X == nil {
			t.Errorf("%s: no plan", name)
		}
		fmt.Fprintf(&out, "%-24s %6d %6d %8.2f %9.2f %9.2f %6.2f%%\n", name, len(m.Problem.Rows), len(m.Problem.Cols),
			seconds, result.Value, result.Bound, 100*result.Gap)
		return seconds
	}
	five := measure("5 people", 5, all, 0.01)
	ten := measure("10 people", 10, all, 0.01)
	double := measure("5 people, foods x2", 5, rationtest.MoreFoods(all, 2*len(all.Foods)), 0.01)
	measure("40 people", 40, all, 0.01)
	measure("5 people, 1,000 foods", 5, rationtest.MoreFoods(all, 1000), 0.01)
	fmt.Fprintf(&out, "people x2: time x%.1f; foods x2: time x%.1f\n", ten/five, double/five)
	t.Log(out.String())
}
