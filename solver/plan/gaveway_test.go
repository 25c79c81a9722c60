package plan

import (
	"testing"
	"time"

	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/verify"
)

// A budget that only a ration without this program's own planning rules, and short of
// a vitamin that the body stores, keeps: its point is tidied in the model that gave
// way. In that of the request, which has more columns, tidying it went out of range.
func TestWhatGaveWayIsTidiedInItsOwnModel(t *testing.T) {
	if *rationtest.Campaign < 10 {
		t.Skip("takes ten seconds of processor time: -campaign 10")
	}
	budget := 130.0
	req := &ration.Request{
		People: []nutrients.Person{rationtest.Adult("Ola", 34, nutrients.Male), rationtest.Adult("Kari", 33, nutrients.Female)},
		Table:  rationtest.Table(t), Start: "2026-11-25", Limits: ration.Limits{Budget: &budget}, Time: time.Second, Terse: true,
	}
	p, err := Make(t.Context(), req, nil)
	if err != nil {
		t.Fatal(err)
	}
	if p.Value == nil || *p.Value > budget || len(p.Shortfalls) == 0 {
		t.Errorf("status %s, shortfalls %v: nothing gave way, and the test shows nothing", p.Status, p.Shortfalls)
	}
}

// Where planning rules give way, the point that shows by how little may have every pack
// there is; the search does not stay near it.
func TestWhatGaveWayIsNotBoughtWhole(t *testing.T) {
	child := rationtest.Adult("Ketil", 3, nutrients.Female)
	child.AgeMonths, child.Allergies = 43, []nutrients.Allergy{{Allergen: "tree-nut"}}
	thin := rationtest.Adult("Leif", 26, nutrients.Male)
	thin.HeightCm, thin.WeightKg, thin.Activity = 173, 58, nutrients.Active
	req := &ration.Request{
		People: []nutrients.Person{thin, child, rationtest.Adult("Oddny", 5, nutrients.Male)},
		Table:  rationtest.Table(t), Start: "2026-12-01", Time: time.Minute, Effort: time.Second / 2, Terse: true,
	}
	p, err := Make(t.Context(), req, nil)
	if err != nil {
		t.Fatal(err)
	}
	if p.Eatable == nil || len(p.Eatable.Loosened) == 0 {
		t.Error("nothing gave way: the test shows nothing")
	}
	if gap := p.Proof(); gap == nil || *gap > 0.1 {
		t.Errorf("the plan costs %.2f, proven are %.2f", *p.Value, *p.Bound)
	}
}

// Where neither the planning rules nor a stored vitamin alone are enough, both give, and
// what bars a food (no leafy greens and no salt for a small child) stays: every rule that
// gives is named, so that the independent check has nothing to find.
func TestRulesThatGiveWithVitaminsAreNamed(t *testing.T) {
	small := rationtest.Adult("Odd", 1, nutrients.Male)
	small.AgeMonths, small.Activity = 15, nutrients.Inactive
	small.Conditions, small.Allergies = []nutrients.Condition{nutrients.Warfarin}, []nutrients.Allergy{{Allergen: "milk"}}
	older := rationtest.Adult("Siri", 12, nutrients.Female)
	older.Conditions, older.Dislikes = []nutrients.Condition{nutrients.Lactose, nutrients.Vegetarian}, []string{"juice"}
	req := &ration.Request{
		People: []nutrients.Person{small, older}, Table: rationtest.Table(t), Start: "2026-11-25", Least: ration.LeastWeight, Within: 0.2, Work: 2500, Time: time.Minute,
	}
	p, err := Make(t.Context(), req, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Shortfalls) == 0 || p.Eatable == nil || len(p.Eatable.Loosened) == 0 {
		t.Fatalf("shortfalls %v, eatable %v: not both gave way, and the test shows nothing", p.Shortfalls, p.Eatable)
	}
	for _, v := range verify.Check(req, p) {
		t.Error(v)
	}
}
