package solver

import (
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/simplex"
	"rationwright/solver/verify"
)

var campaign = flag.Int("campaign", 1, "size of the randomised campaigns: 1 small, 10 middle, 100 full")

// Every random valid household is planned with every rule kept, refused, or
// told why nothing fits by limits that really conflict; and no food reaches a
// person who may not eat it. The rules are those of the food and requirement
// tables, applied here again by [Verify] to the finished plan.
func TestRandomHouseholds(t *testing.T) {
	rng := rand.New(rand.NewPCG(2026, 11))
	all := table(t)
	var planned, open, short, refused, everyone, impossible, proven, people int
	for i := range 4 * *campaign {
		household := randomHousehold(rng)
		people += len(household)
		req := &ration.Request{
			People: household, Table: all, Least: ration.LeastWeight, Within: 0.05, Time: time.Minute, Start: "2026-11-25",
		}
		if i%4 == 3 {
			ask(rng, req)
		}
		plan, err := Make(context.Background(), req, nil)
		if err != nil {
			t.Errorf("%s: %v", described(req), err)
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
			if checkConflict(t, req, plan) {
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
			t.Errorf("%s: %v", described(req), v)
		}
		checkForbidden(t, req, plan)
		checkReserveUneaten(t, plan)
		checkStoredOnly(t, plan)
	}
	t.Logf("%d households of %d rows: %d planned (%d not within 5 %%, %d with stored vitamins short), %d nothing fits (%d conflicts proven), %d all refused; %d rows refused",
		4**campaign, people, planned, open, short, impossible, proven, everyone, refused)
	if planned == 0 {
		t.Error("no household was planned: the test shows nothing")
	}
}

// ask draws what else a request may say: cooking, days, standard, climate, and
// limits on water and heat.
func ask(rng *rand.Rand, req *ration.Request) {
	req.Cook = oneOf(rng, ration.CookNone, ration.CookWarm, ration.CookBoil, ration.CookSimmer)
	req.Days = oneOf(rng, 3, 7, 14, 14, 21)
	req.Standard = oneOf(rng, nutrients.StandardRDA, nutrients.StandardRDA, nutrients.StandardEAR, nutrients.StandardBasic)
	req.Hot = chance(rng, 6)
	req.EasyOpen = chance(rng, 4)
	heads := 0.0
	for _, p := range req.People {
		heads += float64(p.Count)
	}
	if chance(rng, 3) {
		litres := float64(req.Days) * heads * (1.5 + 3*rng.Float64())
		req.Limits.WaterL = &litres
	}
	if chance(rng, 3) {
		heat := heads * float64(req.Days) * 0.3 * rng.Float64()
		req.Limits.HeatMJ = &heat
	}
}

// described is a request in one line, to be built again.
func described(req *ration.Request) string {
	text := fmt.Sprintf("%q, cook %s, %d days, %s, hot %v, easy-open %v", nutrients.HouseholdRows(req.People)[1:], req.Cook, req.Days, req.Standard, req.Hot, req.EasyOpen)
	if w := req.Limits.WaterL; w != nil {
		text += fmt.Sprintf(", at most %g L", *w)
	}
	if h := req.Limits.HeatMJ; h != nil {
		text += fmt.Sprintf(", at most %g MJ", *h)
	}
	return text
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

// checkForbidden looks at every food of every person of a plan with the plain
// words of [barred], apart from the eligibility code.
func checkForbidden(t *testing.T, req *ration.Request, plan *ration.Plan) {
	t.Helper()
	byName := map[string]*nutrients.Person{}
	for i := range req.People {
		byName[req.People[i].Name] = &req.People[i]
	}
	for _, person := range plan.People {
		for _, line := range person.Foods {
			f, err := req.Table.Food(line.Food)
			if err != nil {
				t.Fatal(err)
			}
			if why := barred(byName[person.Name], req.People, f); why != "" {
				t.Errorf("%s gets %s: %s", person.Name, f.Name, why)
			}
		}
	}
}

// containsText reports whether part stands in text, whatever the case.
func containsText(text, part string) bool {
	return strings.Contains(strings.ToLower(text), strings.ToLower(part))
}

// checkConflict wants the limits that the plan names to conflict, and, where
// they are said to be proven, the rest to be possible as soon as any one of them
// is given up. It solves each program anew, every row in force, by the simplex
// method alone: without limits on totals whole packs add nothing, as they may
// be rounded up. It reports whether the conflict is proven.
func checkConflict(t *testing.T, req *ration.Request, plan *ration.Plan) bool {
	t.Helper()
	who := described(req)
	if len(plan.Conflict) == 0 || plan.Proven == nil {
		t.Errorf("%s: nothing fits, and no conflict is named", who)
		return false
	}
	r, err := Build(req)
	if err != nil {
		t.Fatal(err)
	}
	f := newConflictFinder(r)
	set, ok := f.find(context.Background())
	if !ok {
		t.Errorf("%s: no conflict found again", who)
		return false
	}
	if named := f.inWords(set); !slices.Equal(named, plan.Conflict) {
		t.Errorf("%s: the plan names %v, the search %v", who, plan.Conflict, named)
	}
	possible := func(kept []conflictLimit) simplex.Status {
		_, p, err := f.program(kept)
		if err != nil {
			t.Fatal(err)
		}
		for i := range p.Rows {
			p.Rows[i].Lazy = false
		}
		s, err := simplex.New(p)
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
