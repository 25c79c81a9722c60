package solver

import (
	"context"
	"errors"
	"math/rand/v2"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/verify"
)

// special makes people with needs more often than [rationtest.RandomHousehold]
// does: orders, diabetes, allergies, supplements, medicines, infants.
func special(rng *rand.Rand) []nutrients.Person {
	people := rationtest.RandomHousehold(rng)
	for i := range people {
		p := &people[i]
		if p.AgeMonths < 12 || rng.IntN(3) > 0 {
			continue
		}
		tried := *p
		switch rng.IntN(4) {
		case 0:
			tried.Conditions, tried.Rules = []nutrients.Condition{nutrients.KidneyDisease}, nil
			tried.Orders = nutrients.Orders{By: "Dr Ardal", On: "2026-06-01", List: []nutrients.Order{
				{Of: nutrients.OrderProtein, Low: float64(45 + rng.IntN(20)), High: float64(70 + rng.IntN(30))},
				{Of: nutrients.OrderSodium, High: float64(1500 + 100*rng.IntN(8))},
				{Of: nutrients.OrderPotassium, High: float64(2000 + 100*rng.IntN(20))},
			}}
		case 1:
			tried.Conditions, tried.Rules = []nutrients.Condition{nutrients.HeartFailure}, nil
			tried.Orders = nutrients.Orders{By: "Dr Ardal", On: "2026-06-01", List: []nutrients.Order{
				{Of: nutrients.OrderFluid, High: 1 + rng.Float64()}, {Of: nutrients.OrderSodium, High: 2000},
			}}
		case 2:
			tried.Conditions = append([]nutrients.Condition{nutrients.Warfarin}, tried.Conditions...)
			tried.Supplements = []string{"vitamin D 10 ug"}
		default:
			tried.Supplements = []string{"vitamin B12 10 ug"}
		}
		if _, _, err := nutrients.ReadHouseholdRows("random", nutrients.HouseholdRows([]nutrients.Person{tried})); err == nil {
			*p = tried
		}
	}
	return people
}

// Random households with special needs: each plan passes the independent check,
// gives no forbidden food, trace or texture by plain words, passes no order; where
// nothing fits the conflict is named. No internal fault. Five by default,
// five hundred with -campaign 100.
func TestSpecialNeedsOfRandomHouseholds(t *testing.T) {
	rng := rand.New(rand.NewPCG(14, 500))
	planned, ordered, nothing := 0, 0, 0
	for i := range 5 * *rationtest.Campaign {
		req := rationtest.Request(t, special(rng)...)
		req.Start, req.Within, req.Work, req.Least = "2026-11-25", 0.2, 2500, ration.LeastWeight
		plan, err := plan.Make(context.Background(), req, nil)
		switch {
		case errors.Is(err, ration.ErrNoPlan):
			continue
		case err != nil:
			t.Errorf("household %d: %v\n%+v", i, err, req.People)
			continue
		case plan.Status == ration.StatusInfeasible:
			nothing++
			if len(plan.Conflict) == 0 {
				t.Errorf("household %d: nothing fits, and no conflict is named", i)
			}
			continue
		}
		planned++
		for _, v := range verify.Check(req, plan) {
			t.Errorf("household %d: %v", i, v)
		}
		rationtest.CheckForbidden(t, req, plan)
		rationtest.CheckReserveUneaten(t, plan)
		for k := range req.People {
			if p := &req.People[k]; len(p.Orders.List) > 0 {
				ordered += obeys(t, p, plan)
			}
		}
	}
	t.Logf("%d planned, %d with orders, nothing fits %d", planned, ordered, nothing)
	if planned == 0 || ordered == 0 {
		t.Error("nothing was planned: the test shows nothing")
	}
}

// obeys holds a person of a plan to the orders by the printed amounts, which the
// check has recomputed; 1 where they are in the plan.
func obeys(t *testing.T, p *nutrients.Person, plan *ration.Plan) int {
	for i := range plan.People {
		got := &plan.People[i]
		if got.Name != p.Name {
			continue
		}
		for _, o := range p.Orders.List {
			n := got.Need(string(o.Of))
			if n == nil {
				continue // fluid and texture are the check's
			}
			if o.Low > 0 && n.Amount < o.Low*(1-1e-6) || o.High > 0 && n.Amount > o.High*(1+1e-6) {
				t.Errorf("%s: %s %g, ordered %s", p.Name, n.Nutrient, n.Amount, o)
			}
		}
		return 1
	}
	return 0
}
