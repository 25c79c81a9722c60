package answer

import (
	"math"
	"strings"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/search"
)

// TestReachedAfterAll: a shortfall tells what a person gets, and is none where that
// reaches the target.
func TestReachedAfterAll(t *testing.T) {
	for gets, short := range map[float64]bool{14: true, 14.9: true, 14.999: true, 15: false, 15.1: false, 20: false} {
		p := &ration.Plan{People: []ration.PlanPerson{{Name: "Signe", Needs: []ration.PersonNeed{{Nutrient: "vitamin_d", Amount: gets}}}, {Name: "Arvid", Needs: []ration.PersonNeed{{Nutrient: "vitamin_d", Amount: 1}}}}}
		got := Gets(p, []ration.Shortfall{{Person: "Signe", Nutrient: "vitamin_d", Amount: 9, Target: 15}})
		if (len(got) == 1) != short || short && got[0].Amount != gets {
			t.Errorf("%g of 15: %+v, short %v", gets, got, short)
		}
	}
}

// TestWorthOfSupplements: at a shadow price of 0.01 of vitamin D over all days, doses of
// 10 a day for 14 days are worth 1.4; of what nobody needs more, nothing. Where that is more
// than the whole ration, 100, no figure is given.
func TestWorthOfSupplements(t *testing.T) {
	m, err := model.Build(rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female)))
	if err != nil {
		t.Fatal(err)
	}
	m.Problem, m.Rows = &linear.Problem{}, nil
	for _, n := range []nutrients.Nutrient{nutrients.VitaminD, nutrients.Iron} {
		m.Rows = append(m.Rows, model.RowInfo{Kind: model.RowNutrient, Class: model.Requirement, Nutrient: n, Text: n.Name(), PerDay: 14})
		m.Problem.AddRow(n.Name(), 1, linear.Inf)
	}
	m.Eaters[0].Needs.Supplements = []nutrients.Supplement{{Doses: []nutrients.Dose{{Column: nutrients.VitaminD, Amount: 10}, {Column: nutrients.Zinc, Amount: 5}}}}
	for _, c := range []struct {
		dual []float64
		want string
	}{{[]float64{0.01, 9}, "at least about 1.40 "}, {[]float64{0, 9}, ""}, {[]float64{-0.01, 0}, ""}, {[]float64{0.02, 0}, "at least about 2.80 "}, {[]float64{1, 0}, "more than twice as large"}} {
		got := strings.Join(withoutSupplements(m, search.Result{RootDual: c.dual, Value: 100}), "")
		if (got == "") != (c.want == "") || !strings.Contains(got, c.want) {
			t.Errorf("prices %v: %q, want %q", c.dual, got, c.want)
		}
	}
	if math.Abs(m.Days()-14) > 0 {
		t.Fatalf("%g days", m.Days())
	}
}
