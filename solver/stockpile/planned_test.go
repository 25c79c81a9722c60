package stockpile

import (
	"testing"

	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/plantest"
	"rationwright/solver/rationtest"
)

// TestPlannedContainer: the kind of container that the plan counts with stands first and
// is the one that is said to be counted.
func TestPlannedContainer(t *testing.T) {
	req := rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female))
	plan := plantest.MustMake(t, req)
	s, err := Of(req, plan, StockpileOptions{})
	if err != nil {
		t.Fatal(err)
	}
	want := stores.PlanContainer(nil).Key
	for k, c := range s.Water.Containers {
		if c.Planned != (c.Container.Key == want) || c.Planned != (k == 0) {
			t.Errorf("place %d, %s: counted in the plan %v, want %s first", k, c.Container.Key, c.Planned, want)
		}
		if c.Heavy != (c.Container.GrossG() > stores.LiftKg*1000) {
			t.Errorf("%s of %g g is too heavy to lift: %v", c.Container.Key, c.Container.GrossG(), c.Heavy)
		}
	}
	if len(s.Water.Containers) < 3 {
		t.Errorf("%d kinds of container", len(s.Water.Containers))
	}
}
