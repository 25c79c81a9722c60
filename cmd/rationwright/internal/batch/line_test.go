package batch

import (
	"slices"
	"testing"

	"rationwright/solver/ration"
)

// TestLineSaysWhy: the line of a household in which nothing fits says which limits stand
// against one another, by person; where nobody is left to feed there is nothing to say.
func TestLineSaysWhy(t *testing.T) {
	proven := true
	conflict := []ration.ConflictLimit{{Limit: "energy at least 2000 kcal a day", Person: "Signe"}, {Limit: "budget at most 5"}}
	for _, c := range []struct {
		name string
		plan ration.Plan
		want []string
	}{
		{"nothing fits", ration.Plan{Status: ration.StatusInfeasible, Proven: &proven, Conflict: conflict}, []string{"no ration keeps all of these:", "energy at least 2000 kcal a day (Signe)", "budget at most 5"}},
		{"no conflict is known", ration.Plan{Status: ration.StatusInfeasible, Proven: &proven}, nil},
		{"nobody is fed", ration.Plan{Status: ration.StatusInfeasible, Conflict: conflict}, nil},
	} {
		if got := lineOf(&c.plan); !slices.Equal(got.Errors, c.want) || got.Status != c.plan.Status {
			t.Errorf("%s: %q, want %q", c.name, got.Errors, c.want)
		}
	}
}
