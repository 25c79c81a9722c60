package report

import (
	"testing"

	"rationwright/solver/ration"
	"rationwright/solver/swap"
)

// A swap that leaves vitamins short names them, and never says that everyone gets
// every need.
func TestSwapNamesWhatIsShort(t *testing.T) {
	short := func(who string, amount float64) ration.Shortfall {
		return ration.Shortfall{Person: who, Nutrient: "vitamin_d", Unit: "µg", Amount: amount, Target: 15}
	}
	for _, c := range []struct {
		short []ration.Shortfall
		want  string
	}{
		{nil, "Everyone still gets every need."},
		{[]ration.Shortfall{short("Maja", 1.5)}, "NOT EVERY NEED IS MET. Short: vitamin D for Maja (gets 10 % of it)."},
		{[]ration.Shortfall{short("Maja", 1.5), short("Emil", 0.9)}, "NOT EVERY NEED IS MET. Short: vitamin D for all 2 (at worst Emil, with 6 % of it)."},
	} {
		if got := keptNeeds(&ration.Plan{People: make([]ration.PlanPerson, 2), Shortfalls: c.short}); got != c.want {
			t.Errorf("%v: %q, want %q", c.short, got, c.want)
		}
	}
	floor := 15.0
	s := &swap.Swap{Plan: &ration.Plan{Shortfalls: []ration.Shortfall{short("Maja", 14.9)}}, Needs: []swap.NeedChange{
		{Person: "Maja", Nutrient: "vitamin_d", Unit: "µg", Before: 14.9, After: 14.9, Floor: &floor},
	}}
	if g := needChanges(s).Table; len(g.Rows()) == 0 || g.Rows()[0][6] != "SHORT" {
		t.Errorf("a need that is short and changes little is not shown: %v", g.Rows())
	}
}
