package conflict

import (
	"context"
	"slices"
	"testing"

	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/simplex"
)

// CheckConflict wants the limits that the plan names to conflict, and, where
// they are said to be proven, the rest to be possible as soon as any one of them
// is given up. It solves each program anew, every row in force, by the simplex
// method alone: without limits on totals whole packs add nothing, as they may
// be rounded up. It reports whether the conflict is proven.
func CheckConflict(t *testing.T, req *ration.Request, plan *ration.Plan) bool {
	t.Helper()
	who := rationtest.Described(req)
	if len(plan.Conflict) == 0 || plan.Proven == nil {
		t.Errorf("%s: nothing fits, and no conflict is named", who)
		return false
	}
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	f := newFinder(m)
	set, ok := f.find(context.Background())
	if !ok {
		t.Errorf("%s: no conflict found again", who)
		return false
	}
	if named := f.inWords(set); !slices.Equal(named, plan.Conflict) {
		t.Errorf("%s: the plan names %v, the search %v", who, plan.Conflict, named)
	}
	possible := func(kept []conflictLimit) simplex.Status {
		s, err := simplex.New(withOnly(t, f, kept))
		if err != nil {
			t.Fatal(err)
		}
		return s.Solve(context.Background(), simplex.Limits{}).Status
	}
	if got := possible(set.limits); got != simplex.Infeasible {
		t.Errorf("%s: all of %v together: %v, want infeasible", who, plan.Conflict, got)
	}
	if !*plan.Proven {
		return false
	}
	for k := range set.limits {
		rest := slices.Delete(slices.Clone(set.limits), k, k+1)
		if got := possible(rest); got != simplex.Optimal && got != simplex.Unbounded {
			t.Errorf("%s: without %v of %v: %v, want possible", who, f.words(set.limits[k]), plan.Conflict, got)
		}
	}
	return true
}
