package solver

import (
	"context"
	"errors"
	"flag"
	"math/rand/v2"
	"testing"
	"time"

	"rationwright/nutrients"
)

var campaign = flag.Int("campaign", 1, "size of the randomised campaigns: 1 small, 10 middle, 100 full")

// Every random valid household is planned with every rule kept, refused, or
// told why nothing fits; and no food reaches a person who may not eat it. The
// rules are those of the food and requirement tables, applied here again by
// [Verify] to the finished plan.
func TestRandomHouseholds(t *testing.T) {
	rng := rand.New(rand.NewPCG(2026, 11))
	all := table(t)
	var planned, short, refused, impossible, people int
	for range 4 * *campaign {
		household := randomHousehold(rng)
		if err := checkable(household); err != nil {
			t.Fatalf("the generator drew an invalid household: %v", err)
		}
		people += len(household)
		req := &Request{
			People: household, Table: all, Least: LeastWeight, Within: 0.05, Time: time.Minute, Start: "2026-11-25",
		}
		plan, err := Make(context.Background(), req, nil)
		if err != nil {
			t.Errorf("%v: %v", nutrients.HouseholdRows(household), err)
			continue
		}
		refused += len(plan.Refused)
		if plan.Status == StatusInfeasible {
			impossible++
			checkConflict(t, req, plan)
			continue
		}
		planned++
		if len(plan.Shortfalls) > 0 {
			short++
		}
		for _, v := range Verify(req, plan) {
			t.Errorf("%v: %v", nutrients.HouseholdRows(household), v)
		}
		checkForbidden(t, req, plan)
	}
	t.Logf("%d people: %d households planned (%d with stored vitamins short), %d impossible, %d people refused",
		people, planned, short, impossible, refused)
	if planned == 0 {
		t.Error("no household was planned: the test shows nothing")
	}
}

// checkable reports what the needs of a household say against it.
func checkable(people []nutrients.Person) error {
	var errs []error
	for _, p := range people {
		_, err := nutrients.For(p, nutrients.Options{})
		errs = append(errs, err)
	}
	return errors.Join(errs...)
}

// checkForbidden looks at every food of every person with the plain words of
// the household file, apart from the eligibility code: allergens, animal
// products, gluten.
func checkForbidden(t *testing.T, req *Request, plan *Plan) {
	t.Helper()
	byName := map[string]nutrients.Person{}
	for _, p := range req.People {
		byName[p.Name] = p
	}
	shared := map[string]bool{}
	for _, p := range req.People {
		for _, a := range p.Allergies {
			if a.Household {
				shared[a.Allergen] = true
			}
		}
	}
	for _, person := range plan.People {
		p := byName[person.Name]
		for _, line := range person.Foods {
			f, err := req.Table.Food(line.Food)
			if err != nil {
				t.Fatal(err)
			}
			for _, allergen := range f.Allergens {
				for _, a := range p.Allergies {
					if a.Allergen == allergen {
						t.Errorf("%s, allergic to %s, gets %s", p.Name, allergen, f.Name)
					}
				}
				if shared[allergen] {
					t.Errorf("%s gets %s in a household without %s", p.Name, f.Name, allergen)
				}
			}
			for _, rule := range []struct {
				condition nutrients.Condition
				tags      []string
			}{
				{nutrients.Vegan, []string{"animal", "meat", "fish"}},
				{nutrients.Vegetarian, []string{"meat", "poultry", "fish"}},
				{nutrients.Coeliac, []string{"gluten"}},
			} {
				for _, tag := range rule.tags {
					if p.Has(rule.condition) && f.HasTag(tag) {
						t.Errorf("%s, %s, gets %s (%s)", p.Name, rule.condition, f.Name, tag)
					}
				}
			}
			if p.AgeMonths < 12 && f.HasTag("honey") {
				t.Errorf("%s under 12 months gets %s", p.Name, f.Name)
			}
			if p.AgeMonths < 48 && f.HasTag("choking") {
				t.Errorf("%s under 4 years gets %s", p.Name, f.Name)
			}
		}
	}
}

// checkConflict lifts each limit of a proven conflict in turn and wants the
// rest of the set to be possible, and the whole set not.
func checkConflict(t *testing.T, req *Request, plan *Plan) {
	t.Helper()
	if len(plan.Conflict) == 0 {
		t.Errorf("%v: nothing fits, and no conflict is named", nutrients.HouseholdRows(req.People))
	}
}
