package menucheck_test

import (
	"context"
	"encoding/json"
	"errors"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"rationwright/nutrients"
	"rationwright/solver/menu"
	"rationwright/solver/menucheck"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// furthest is how far a day of who takes a medicine that asks for an even intake may lie
// from the mean in a menu, as a share of it: own planning rule, the medicines' texts name
// no figure (nutrients/data/medicines.csv).
const furthest = 0.40

// TestEvenIntakeOfRandomHouseholds: in a menu made after its plan, every day of who takes
// a medicine that asks for it is near the mean of all days.
func TestEvenIntakeOfRandomHouseholds(t *testing.T) {
	rng := rand.New(rand.NewPCG(31, 2026))
	table, book := shop(t)
	medicines := []nutrients.Condition{nutrients.Warfarin, nutrients.PotassiumSparing, nutrients.Lithium}
	people, days, off := map[nutrients.Condition]int{}, map[nutrients.Condition]int{}, map[nutrients.Condition]int{}
	worst := 0.0
	for n := range 3 * *rationtest.Campaign {
		req := &ration.Request{
			People: rationtest.Kitchen(rng), Table: table, Start: "2026-01-05", Within: 0.1, Work: 3000, Slack: 0.03, Time: time.Minute,
			Least: []ration.Least{ration.LeastCost, ration.LeastWeight, ration.LeastVolume}[rng.IntN(3)],
			Cook:  []ration.Cook{ration.CookBoil, ration.CookNone, ration.CookSimmer}[rng.IntN(3)],
			Days:  []int{14, 7, 21}[rng.IntN(3)],
		}
		for i := range req.People {
			if p := &req.People[i]; p.AgeMonths >= 12*19 && !slices.Contains(p.Conditions, nutrients.LowSodium) {
				p.Conditions = append(p.Conditions, medicines[rng.IntN(len(medicines))])
			}
		}
		p, err := plan.Make(context.Background(), req, nil)
		if errors.Is(err, ration.ErrNoPlan) || err == nil && p.Totals == nil {
			continue
		}
		if err != nil {
			t.Errorf("household %d: %v", n, err)
			continue
		}
		m, err := menu.Make(context.Background(), &menu.Request{Plan: p, Of: req, Book: book})
		if err != nil {
			t.Errorf("household %d: %v", n, err)
			continue
		}
		text, err := json.Marshal(m)
		if err != nil {
			t.Fatal(err)
		}
		found, err := menucheck.Check(text, p, req, book)
		if err != nil {
			t.Fatal(err)
		}
		for _, q := range req.People {
			for _, c := range q.Conditions {
				if slices.Contains(medicines, c) {
					people[c]++
					days[c] += p.Days
				}
			}
		}
		for _, f := range found {
			if f.Rule == menucheck.Steady {
				t.Logf("household %d, %s, cook %s: %s", n, req.Least, req.Cook, f)
				for _, q := range req.People {
					for _, c := range q.Conditions {
						if slices.Contains(medicines, c) && f.Person == q.Name {
							off[c]++
						}
					}
				}
				worst = max(worst, f.Amount)
				if f.Amount > furthest {
					t.Errorf("household %d: %s, beyond %g", n, f, furthest)
				}
			}
		}
	}
	if len(people) == 0 {
		t.Fatal("nobody takes such a medicine: the test shows nothing")
	}
	for _, c := range medicines {
		t.Logf("%s: %d people, %d days, %d beyond %.0f %% of the mean", c, people[c], days[c], off[c], 100*menucheck.SteadyRoom)
	}
	t.Logf("worst %.0f %%", 100*worst)
}
