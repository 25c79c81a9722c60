package conflict_test

import (
	"context"
	"math/rand/v2"
	"testing"
	"time"

	"rationwright/solver/conflict"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/verify"
)

// Every random valid household is planned with every rule kept, refused, or
// told why nothing fits by limits that really conflict; and no food reaches a
// person who may not eat it. The rules are those of the food and requirement
// tables, applied here again by [Verify] to the finished plan.
func TestRandomHouseholds(t *testing.T) {
	rng := rand.New(rand.NewPCG(2026, 11))
	all := rationtest.Table(t)
	var planned, open, short, refused, everyone, impossible, proven, people int
	for i := range 4 * *rationtest.Campaign {
		household := rationtest.RandomHousehold(rng)
		people += len(household)
		req := &ration.Request{
			People: household, Table: all, Least: ration.LeastWeight, Within: 0.05, Time: time.Minute, Start: "2026-11-25",
		}
		if i%4 == 3 {
			rationtest.Ask(rng, req)
		}
		plan, err := plan.Make(context.Background(), req, nil)
		if err != nil {
			t.Errorf("%s: %v", rationtest.Described(req), err)
			continue
		}
		refused += len(plan.Refused)
		if len(plan.Refused) == len(household) {
			everyone++
			checkNobody(t, plan)
			continue
		}
		if plan.Status == ration.StatusInfeasible {
			impossible++
			if conflict.CheckConflict(t, req, plan) {
				proven++
			}
			continue
		}
		planned++
		if plan.Status != ration.StatusOptimal {
			open++
		}
		if len(plan.Shortfalls) > 0 {
			short++
		}
		for _, v := range verify.Check(req, plan) {
			t.Errorf("%s: %v", rationtest.Described(req), v)
		}
		rationtest.CheckForbidden(t, req, plan)
		rationtest.CheckReserveUneaten(t, plan)
		checkStoredOnly(t, plan)
	}
	t.Logf("%d households of %d rows: %d planned (%d not within 5 %%, %d with stored vitamins short), %d nothing fits (%d conflicts proven), %d all refused; %d rows refused",
		4**rationtest.Campaign, people, planned, open, short, impossible, proven, everyone, refused)
	if planned == 0 {
		t.Error("no household was planned: the test shows nothing")
	}
}

// checkNobody wants a plan for a household that is refused altogether to feed
// nobody and to say so.
func checkNobody(t *testing.T, plan *ration.Plan) {
	t.Helper()
	if plan.Status != ration.StatusInfeasible || len(plan.Packs) > 0 || len(plan.People) > 0 || plan.Notice == "" {
		t.Errorf("everyone refused, but %s with %d packs for %d people, notice %q", plan.Status, len(plan.Packs), len(plan.People), plan.Notice)
	}
}

// checkStoredOnly wants no vitamin short but those that the body stores.
func checkStoredOnly(t *testing.T, plan *ration.Plan) {
	t.Helper()
	for _, s := range plan.Shortfalls {
		if s.Nutrient != "vitamin_a" && s.Nutrient != "vitamin_d" && s.Nutrient != "vitamin_b12" {
			t.Errorf("%s is short of %s", s.Person, s.Nutrient)
		}
	}
}
