package solver

import (
	"strings"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/plantest"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/verify"
)

// copyPlan returns a plan that may be spoilt.
func copyPlan(t testing.TB) (*ration.Plan, *ration.Request) {
	t.Helper()
	made, err := plantest.OnePlan()
	if err != nil {
		t.Fatal(err)
	}
	p := *made
	p.Packs = append([]ration.PlanPack(nil), made.Packs...)
	p.People = append([]ration.PlanPerson(nil), made.People...)
	for i := range p.People {
		p.People[i].Foods = append([]ration.PersonFood(nil), made.People[i].Foods...)
		p.People[i].Needs = append([]ration.PersonNeed(nil), made.People[i].Needs...)
	}
	totals := *made.Totals
	p.Totals = &totals
	return &p, rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female))
}

func TestVerifyPassesAPlan(t *testing.T) {
	p, req := copyPlan(t)
	if found := verify.Check(req, p); len(found) > 0 {
		t.Errorf("Verify of a made plan reports %v, want nothing", found)
	}
}

// Every way of spoiling a plan must be reported, or the check is worth nothing.
func TestVerifyReports(t *testing.T) {
	heaviest := func(p *ration.Plan) *ration.PersonFood {
		most := &p.People[0].Foods[0]
		for i := range p.People[0].Foods {
			if f := &p.People[0].Foods[i]; f.Grams > most.Grams {
				most = f
			}
		}
		return most
	}
	for _, c := range []struct {
		name  string
		spoil func(*ration.Plan, *ration.Request)
		want  string
	}{
		{"a pack fewer", func(p *ration.Plan, _ *ration.Request) { p.Packs[0].Count-- }, "of food as printed"},
		{"less eaten", func(p *ration.Plan, _ *ration.Request) { heaviest(p).Grams *= 0.9 }, "as printed"},
		{"more eaten than the packs hold", func(p *ration.Plan, _ *ration.Request) { heaviest(p).Grams *= 1.5 }, "packs of"},
		{"a negative amount", func(p *ration.Plan, _ *ration.Request) { p.People[0].Foods[0].Grams = -1 }, "negative"},
		{"a food that is not in the table", func(p *ration.Plan, _ *ration.Request) { p.People[0].Foods[0].Food = "moon cheese" }, "not in the table"},
		{"a figure made up", func(p *ration.Plan, _ *ration.Request) { p.People[0].Needs[0].Amount += 100 }, "as printed"},
		{"a nutrient left out", func(p *ration.Plan, _ *ration.Request) { p.People[0].Needs = p.People[0].Needs[1:] }, "missing from the plan"},
		{"nobody", func(p *ration.Plan, _ *ration.Request) { p.People = nil }, "missing from the plan"},
		{"too little water", func(p *ration.Plan, _ *ration.Request) { p.Totals.WaterL -= 1 }, "stored water"},
		{"too little heat", func(p *ration.Plan, _ *ration.Request) { p.Totals.HeatMJ -= 1 }, "heat"},
		{"less drunk", func(p *ration.Plan, _ *ration.Request) { p.People[0].DrinkLPerDay *= 0.5 }, "water"},
		{"a lower weight", func(p *ration.Plan, _ *ration.Request) { p.Totals.WeightKg *= 0.99 }, "weight"},
		{"a lower cost", func(p *ration.Plan, _ *ration.Request) { p.Totals.Cost *= 0.99 }, "cost"},
		{"a lower value", func(p *ration.Plan, _ *ration.Request) { v := *p.Value * 0.9; p.Value = &v }, "value"},
		{"past the budget", func(_ *ration.Plan, r *ration.Request) { b := 1.0; r.Limits.Budget = &b }, "budget"},
		{"past the shelf", func(_ *ration.Plan, r *ration.Request) { b := 1.0; r.Limits.VolumeL = &b }, "shelf"},
		{"past the water", func(_ *ration.Plan, r *ration.Request) { b := 1.0; r.Limits.WaterL = &b }, "stored water"},
		{"an exclusion", func(p *ration.Plan, r *ration.Request) { r.Without = []string{p.People[0].Foods[0].Food} }, "without"},
		{"two of her", func(_ *ration.Plan, r *ration.Request) { r.People[0].Count = 2 }, "is missing from the plan"},
		{"a longer time", func(_ *ration.Plan, r *ration.Request) { r.Days = 15 }, "as printed"},
		{"pregnant after all", func(_ *ration.Plan, r *ration.Request) { r.People[0].State = nutrients.Pregnant2 }, "folate"},
		{"from stock that is not there", func(p *ration.Plan, _ *ration.Request) { p.Packs[0].FromStock = 1 }, "stock"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, req := copyPlan(t)
			c.spoil(p, req)
			found := verify.Check(req, p)
			if len(found) == 0 {
				t.Fatal("Verify reports nothing")
			}
			for _, v := range found {
				if strings.Contains(v.String(), c.want) {
					return
				}
			}
			t.Errorf("Verify reports %v, want something about %q", found, c.want)
		})
	}
}
