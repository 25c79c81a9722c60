package solver

import (
	"context"
	"math"
	"strings"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/conflicttest"
	"rationwright/solver/model"
	"rationwright/solver/plan"
	"rationwright/solver/plantest"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/verify"
)

// ordered is a household of a file: what a clinician ordered is read as users
// write it.
func ordered(t testing.TB, rows ...string) *ration.Request {
	t.Helper()
	text := "name,age_years,sex,weight_kg,conditions,orders\n" + strings.Join(rows, "\n") + "\n"
	people, _, err := nutrients.ReadHousehold("home.csv", strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	req := rationtest.Request(t, people...)
	req.Start = "2026-11-25"
	return req
}

// kidney is a person planned by orders only.
const kidney = `Aud,60,f,70,kidney-disease,"protein 55-60 g; sodium at most 1800 mg; potassium at most 2500 mg; phosphorus at most 900 mg; fluid at most 1.3 L; energy 1800-2000 kcal; texture soft; by Dr Ardal, 2026-06-01"`

// What a clinician orders is what the plan gives, both ways, by the USDA table
// read apart from the program; in the heat and by the lowest standard as well.
// Fluid is what is drunk with milk, juice and soup: their water by the table.
func TestOrdersAreObeyedBothWays(t *testing.T) {
	usda := usdaRows(t)
	for _, change := range []func(*ration.Request){
		func(*ration.Request) {},
		func(r *ration.Request) { r.Hot = true },
		func(r *ration.Request) { r.Standard, r.Least = nutrients.StandardBasic, ration.LeastWeight },
	} {
		req := ordered(t, kidney)
		req.Within = 0.1
		change(req)
		plan := plantest.MustMake(t, req)
		p := plan.People[0]
		for _, want := range []struct {
			column      string
			least, most float64
		}{{"protein_g", 55, 60}, {"sodium_mg", 0, 1800}, {"potassium_mg", 0, 2500}, {"phosphorus_mg", 0, 900}, {"energy_kcal", 1800, 2000}} {
			if got := perDay(t, usda, p, want.column); got < want.least-1e-3 || got > want.most+1e-3 {
				t.Errorf("%s: %g a day, ordered %g to %g", want.column, got, want.least, want.most)
			}
		}
		fluid := p.DrinkLPerDay
		for _, line := range p.Foods {
			f, err := req.Table.Food(line.Food)
			if err != nil {
				t.Fatal(err)
			}
			if f.Texture != "soft" && f.Texture != "puree" {
				t.Errorf("%s is %s, soft is ordered", f.Name, f.Texture)
			}
			if f.Form == "uht_milk_carton" || f.Group == "juice" { // drunk as packed: their water alone
				fluid += usda[f.NDB]["water_g"] * line.Grams / 100 / 14 / 1000
			}
		}
		if fluid > 1.3+1e-6 {
			t.Errorf("at least %g L of fluid a day, at most 1.3 are ordered", fluid)
		}
		if !strings.HasPrefix(p.Rules[0].Text, "By order of Dr Ardal, 2026-06-01: protein 55-60 g") {
			t.Errorf("the sheet begins with %q", p.Rules[0].Text)
		}
	}
}

// A floor of fluid is what is ordered, not twice that in the heat.
func TestHeatRaisesNoOrder(t *testing.T) {
	req := ordered(t, `Aud,60,f,70,,"fluid 1.9-2 L; by Dr Ardal, 2026-06-01"`)
	req.Hot, req.Standard, req.Within = true, nutrients.StandardBasic, 0.2
	p := plantest.MustMake(t, req).People[0]
	if p.DrinkLPerDay > 2+1e-6 {
		t.Errorf("drinks %g L, at most 2 are ordered", p.DrinkLPerDay)
	}
}

// Orders that cannot all be kept leave their person out, with the orders that
// conflict and by whom they are; the others are planned as if alone, and the water of
// all is stored. A gram of protein gives at least 4 kcal (general Atwater factor), so
// that 150 g a day are not had in 500 kcal. What is so decided is read back with the plan.
func TestWhoseOrdersConflictIsLeftOut(t *testing.T) {
	const odd = "Odd,40,m,,,"
	req := ordered(t, `Aud,60,f,70,kidney-disease,"protein at least 150 g; energy 450-500 kcal; by Dr Ardal, 2026-06-01"`, odd)
	req.Within = 0.2
	both := plantest.MustMake(t, req)
	if both.Notice != "THIS PLAN DOES NOT FEED AUD" || len(both.Refused) != 1 || len(both.People) != 1 || both.People[0].Name != "Odd" {
		t.Fatalf("notice %q, refused %+v, %d people planned", both.Notice, both.Refused, len(both.People))
	}
	for _, word := range []string{"Dr Ardal, 2026-06-01", "protein at least 150 g a day", "energy at most 500 kcal a day"} {
		if !strings.Contains(both.Refused[0].Reason, word) {
			t.Errorf("the reason %q does not say %q", both.Refused[0].Reason, word)
		}
	}
	alone := ordered(t, odd)
	alone.Within = 0.2
	// At least the drinks of a second adult, whose AI of total water is 2.7 L with about
	// 0.8 of it drunk (IOM 2004), for 14 days.
	if more := both.Totals.WaterL - plantest.MustMake(t, alone).Totals.WaterL; more < 14*0.8*2.7*0.9 {
		t.Errorf("%g L of water more for whom it does not feed", more)
	}
	again, err := both.Request.Load()
	if err != nil || again.People[0].Unplanned == nil || again.People[1].Unplanned != nil {
		t.Fatalf("read back: %+v, %v", again.People, err)
	}
	for _, asked := range []*ration.Request{req, again} {
		if found := verify.Check(asked, both); len(found) > 0 {
			t.Errorf("the check finds %v", found)
		}
	}
	both.Refused[0].Name = "Odd"
	if found := verify.Check(req, both); len(found) == 0 {
		t.Error("somebody without orders is left out, and the check finds nothing")
	}
}

// Orders that nothing fits are no plan: they are named in the conflict as they
// were given, by whom and when, and are in no way out.
func TestOrdersThatNothingFitsAreNamed(t *testing.T) {
	req := ordered(t, `Aud,60,f,70,kidney-disease,"protein at least 80 g; phosphorus at most 300 mg; by Dr Ardal, 2026-06-01"`)
	plan, err := plan.Make(context.Background(), req, nil)
	if err != nil {
		t.Fatal(err)
	}
	if plan.Status != ration.StatusInfeasible || len(plan.People) > 0 {
		t.Fatalf("status %s with %d people planned", plan.Status, len(plan.People))
	}
	named := ""
	for _, c := range plan.Conflict {
		named += c.Person + ": " + c.Limit + "\n"
	}
	if !strings.Contains(named, "Aud: order by Dr Ardal, 2026-06-01: phosphorus at most 300 mg a day") {
		t.Errorf("the conflict names\n%s", named)
	}
	if plan.Closest != nil {
		for _, n := range plan.Closest.People[0].Needs {
			if n.Nutrient == "phosphorus" && n.Amount > 300+1e-3 {
				t.Errorf("the closest ration passes the order: %g mg of phosphorus", n.Amount)
			}
		}
	}
	for _, w := range plan.WaysOut {
		conflicttest.CheckWayOut(t, "way out", req, w)
		if got := w.Request.People[0].Orders.String(); got != req.People[0].Orders.String() {
			t.Errorf("%q changes the orders to %q", w.Change, got)
		}
	}
}

// Conditions that a clinician plans for are refused without orders of their
// kind, with the reason, and so are orders over a year old or of a later day.
func TestOrdersThatDoNotHoldAreRefused(t *testing.T) {
	for _, c := range []struct{ row, why string }{
		{`Aud,60,f,70,kidney-disease,`, "clinician or renal dietitian sets"},
		{`Aud,60,f,70,heart-failure,`, "limits of fluid and sodium are individual"},
		{`Aud,60,f,70,kidney-disease,"texture soft; by Dr Ardal, 2026-06-01"`, "clinician or renal dietitian sets"},
		{`Aud,60,f,70,dysphagia,"protein 55-60 g; by Dr Ardal, 2026-06-01"`, "texture of food and drink"},
		{`Aud,60,f,70,kidney-disease,"protein 55-60 g; by Dr Ardal, 2025-06-01"`, "more than a year old"},
		{`Aud,60,f,70,kidney-disease,"protein 55-60 g; by Dr Ardal, 2027-06-01"`, "after the first day"},
	} {
		req := ordered(t, c.row, "Odd,40,m,,,")
		req.Standard, req.Within = nutrients.StandardBasic, 0.2
		plan := plantest.MustMake(t, req)
		if len(plan.Refused) != 1 || !strings.Contains(plan.Refused[0].Reason, c.why) || plan.Notice != "THIS PLAN DOES NOT FEED AUD" {
			t.Errorf("%s: refused %+v, notice %q, want %q", c.row, plan.Refused, plan.Notice, c.why)
		}
	}
}

// The check finds by itself what passes an order, and no declared shortfall or
// passing excuses it.
func TestCheckHoldsOrders(t *testing.T) {
	plan := plantest.MustMake(t, func() *ration.Request { r := ordered(t, kidney); r.Within = 0.2; return r }())
	base := ordered(t, kidney)
	for _, c := range []struct{ orders, limit string }{
		{"protein at most 50 g", "protein"}, {"protein at least 70 g", "protein"}, {"sodium at most 400 mg", "sodium"},
		{"potassium at most 900 mg", "potassium"}, {"phosphorus at most 400 mg", "phosphorus"}, {"fluid at most 0.6 L", "fluid that is ordered"},
		{"protein at most 60 g; energy at least 2300 kcal", "energy"},
	} {
		req := *base
		req.People = ordered(t, `Aud,60,f,70,kidney-disease,"`+c.orders+`; by Dr Ardal, 2026-06-01"`).People
		excused := *plan
		excused.Shortfalls = []ration.Shortfall{{Person: "Aud", Nutrient: c.limit, Amount: 0, Target: 1e6}}
		found := false
		for _, v := range verify.Check(&req, &excused) {
			found = found || v.Person == "Aud" && v.Limit == c.limit
		}
		if !found {
			t.Errorf("%s: not found", c.orders)
		}
	}
}

// A row that a clinician ordered is told apart from the program's own, and
// nothing that is ordered may be passed.
func TestRowsOfOrders(t *testing.T) {
	m, err := model.Build(ordered(t, kidney))
	if err != nil {
		t.Fatal(err)
	}
	ordered := map[string]bool{}
	for i, info := range m.Rows {
		if !info.Ordered {
			continue
		}
		ordered[m.Problem.Rows[i].Name] = true
		if m.Problem.Rows[i].Upper < model.Inf && info.Class != model.Safety || info.MayPass || info.Stored() {
			t.Errorf("%s may give", m.Problem.Rows[i].Name)
		}
	}
	for _, want := range []string{"ordered-protein[Aud]", "ordered-protein-at-most[Aud]", "ordered-sodium-at-most[Aud]", "ordered-fluid-at-most[Aud]", "ordered-energy[Aud]"} {
		if !ordered[want] {
			t.Errorf("no row %s", want)
		}
	}
}

// The sheet of an allergic person says what else in the store holds the
// allergen, by the words of the labels, and asks for utensils of their own; where
// the house keeps it out the store holds none.
func TestSheetOfAnAllergicPerson(t *testing.T) {
	for _, level := range []nutrients.AllergyLevel{nutrients.AllergyTraces, nutrients.AllergyStrict, nutrients.AllergyHousehold} {
		boy := nutrients.Person{Name: "Eskil", AgeMonths: 15 * 12, Sex: nutrients.Male, Activity: nutrients.LowActive, Count: 1}
		boy.Allergies = []nutrients.Allergy{{Allergen: "peanut", Level: level}}
		signe := rationtest.Adult("Signe", 40, nutrients.Female)
		if level != nutrients.AllergyHousehold {
			rule, _, err := nutrients.ParseRule("least peanut butter, smooth 20 g/day")
			if err != nil {
				t.Fatal(err)
			}
			signe.Rules = []nutrients.Rule{rule}
		}
		req := rationtest.Request(t, boy, signe)
		req.Within = 0.2
		plan := plantest.MustMake(t, req)
		var holding []string
		for _, line := range plan.Packs {
			f, err := req.Table.Food(line.Food)
			if err != nil {
				t.Fatal(err)
			}
			if rationtest.AllergenWords["peanut"].In(f) {
				holding = append(holding, f.Name)
			}
		}
		if level == nutrients.AllergyHousehold {
			if len(holding) > 0 || !saysRule(plan.People[0], "No food of this store holds peanut") {
				t.Errorf("kept out of the house: %v", holding)
			}
			continue
		}
		if len(holding) == 0 {
			t.Fatal("the store holds no peanut: the test shows nothing")
		}
		for _, name := range holding {
			if !saysRule(plan.People[0], name) {
				t.Errorf("level %d: the sheet does not name %s", level, name)
			}
		}
		if !saysRule(plan.People[0], "spoon of its own for the food of Eskil") || saysRule(plan.People[1], "of its own") {
			t.Errorf("level %d: utensils are asked for wrongly", level)
		}
		rationtest.CheckForbidden(t, req, plan)
	}
}

// What a supplement gives, food need not: by the USDA table the ration holds the
// rest of the RDA (vitamin D 20 µg over 70 years, IOM 2011), costs less, and says
// what it would take without.
func TestSupplementsCountInTheRation(t *testing.T) {
	usda := usdaRows(t)
	of := func(supplements ...string) (*ration.Plan, float64) {
		p := rationtest.Adult("Borghild", 75, nutrients.Female)
		p.Supplements = supplements
		req := rationtest.Request(t, p)
		req.Within = 0.002 // nearer than what the supplement saves
		plan := plantest.MustMake(t, req)
		return plan, perDay(t, usda, plan.People[0], "vitamin_d_ug")
	}
	without, all := of()
	with, rest := of("vitamin D 20 ug")
	if all < 20*(1-1e-3) && len(without.Shortfalls) == 0 || rest >= all {
		t.Errorf("vitamin D from food: %g µg without, %g with a supplement of 20", all, rest)
	}
	if *with.Value >= *without.Value {
		t.Errorf("%g with the supplement, %g without", *with.Value, *without.Value)
	}
	if len(with.Shortfalls) > 0 {
		t.Errorf("short of %v beside the supplement", with.Shortfalls)
	}
}

// Water for washing is the household's own: what is stored falls by it, and by
// nothing that is drunk; the check holds the plan to the amount.
func TestWashingIsTheHouseholdsOwn(t *testing.T) {
	of := func(litres float64) (*ration.Request, *ration.Plan) {
		req := rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Infant("Liv", 3, 5, nutrients.FormulaFed))
		req.Standard, req.Within, req.WashingL = nutrients.StandardBasic, 0.02, &litres
		return req, plantest.MustMake(t, req)
	}
	_, usual := of(1)
	_, none := of(0)
	req, half := of(0.5)
	// A litre a head and day for two people and 14 days is 28 L.
	if saved := usual.Totals.WaterL - none.Totals.WaterL; math.Abs(saved-28) > 2 {
		t.Errorf("no washing saves %g L, want about 28", saved)
	}
	if a, b := usual.People[0].DrinkLPerDay, none.People[0].DrinkLPerDay; math.Abs(a-b) > 0.2 {
		t.Errorf("drinks %g L with washing, %g without", a, b)
	}
	more := 1.0
	asks := *req
	asks.WashingL = &more
	found := false
	for _, v := range verify.Check(&asks, half) {
		found = found || v.Limit == "stored water"
	}
	if !found {
		t.Error("the check does not find water for washing that is missing")
	}
	again, err := ration.Record(ration.Filled(req)).Load()
	if err != nil || again.WashingL == nil || *again.WashingL != 0.5 {
		t.Errorf("read back: %v, %v", again, err)
	}
}

// A ceiling of protein of a household's own is kept in the ration, by the USDA table,
// not passed: the RDA of a woman of 60 kg is 48 g (IOM 2005), so that 60 g leave room.
// Under the RDA it is refused: only a clinician orders that.
func TestOwnCeilingOfProtein(t *testing.T) {
	usda := usdaRows(t)
	p := rationtest.Adult("Signe", 40, nutrients.Female)
	p.WeightKg = 60
	rule, _, err := nutrients.ParseRule("ceiling protein 60 g")
	if err != nil {
		t.Fatal(err)
	}
	p.Rules = []nutrients.Rule{rule}
	req := rationtest.Request(t, p)
	req.Within = 0.1
	plan := plantest.MustMake(t, req)
	if got := perDay(t, usda, plan.People[0], "protein_g"); got > 60+1e-3 || got < 48-1e-3 {
		t.Errorf("%g g of protein a day, the rule says at most 60 and the RDA is 48", got)
	}
	req.People[0].Rules[0].Low = 40
	if _, err := model.Build(req); err == nil || !strings.Contains(err.Error(), "48 g") {
		t.Errorf("a ceiling of 40 g, under the RDA: %v", err)
	}
}
