package plantest

import (
	"context"
	"sync"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

func MustMake(t testing.TB, req *ration.Request) *ration.Plan {
	t.Helper()
	plan, err := plan.Make(context.Background(), req, nil)
	if err != nil {
		t.Fatal(err)
	}
	return plan
}

// OnePlan is a plan for a woman of 30, made once.
var OnePlan = sync.OnceValues(func() (*ration.Plan, error) {
	all, err := foods.Load()
	if err != nil {
		return nil, err
	}
	all.Sell(foods.SizesUS) // the packs that the tests name
	return plan.Make(context.Background(), &ration.Request{
		People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female)}, Table: all,
		Least: ration.LeastWeight, Within: 0.02, Time: time.Minute, Start: "2026-11-25",
	}, nil)
})
