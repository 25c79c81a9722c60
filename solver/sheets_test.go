package solver

import (
	"slices"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/plantest"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// ofCare is the plan of one person of the household of testdata/examples/care.csv, and
// the grams a day of what in is true of.
func ofCare(t *testing.T, name string) (person *ration.PlanPerson, gramsOf func(in func(*foods.Food) bool) map[string]float64) {
	t.Helper()
	people := slices.DeleteFunc(rationtest.Demo(t, "care.csv"), func(p nutrients.Person) bool { return p.Name != name })
	req := rationtest.Request(t, people...)
	req.Within, req.Work, req.Least = 0.1, 5000, ration.LeastCost
	req.Slack = 0.03
	plan := plantest.MustMake(t, req)
	if len(plan.People) != 1 {
		t.Fatalf("%s is not planned: %+v", name, plan.Refused)
	}
	if plan.Eatable != nil && len(plan.Eatable.Loosened) > 0 {
		t.Fatalf("own rules were loosened: %+v", plan.Eatable.Loosened)
	}
	return &plan.People[0], func(in func(*foods.Food) bool) map[string]float64 {
		got := map[string]float64{}
		for _, line := range plan.People[0].Foods {
			f, err := req.Table.Food(line.Food)
			if err != nil {
				t.Fatal(err)
			}
			if in(f) {
				got[f.Name] = line.Grams / float64(plan.Days)
			}
		}
		return got
	}
}

func total(of map[string]float64) float64 {
	sum := 0.0
	for _, g := range of {
		sum += g
	}
	return sum
}

func ofKind(kind string) func(*foods.Food) bool {
	return func(f *foods.Food) bool { return slices.Contains(f.Kinds, kind) }
}

// Somebody with kidney disease is not filled up with drinks made rich in calcium (own
// planning rules: a carton a day, half a cup of milk, little dried fruit), since added
// phosphate is taken up almost whole; gets no drink made for diabetes; and is told of
// phosphates in packs and of salt substitutes (KDOQI 2020).
func TestKidneyPatientIsNotFedOnDrinks(t *testing.T) {
	p, gramsOf := ofCare(t, "Aud")
	for kind, most := range map[string]float64{"plant drinks": 200, "dried fruit": 20, "fruit juice": 125} {
		if got := total(gramsOf(ofKind(kind))); got > most+1e-6 {
			t.Errorf("%s: %g g a day, want at most %g", kind, got, most)
		}
	}
	if got := gramsOf(func(f *foods.Food) bool { return f.NDB == "01250" }); len(got) > 0 {
		t.Errorf("gets %v", got)
	}
	if calcium := p.Need("calcium"); calcium.Ceiling == nil || *calcium.Ceiling >= 2000 {
		t.Errorf("calcium %+v, want a most under the upper level of 2,000 mg over 50 (IOM 2011)", calcium)
	}
	if !isTold(p, "salt substitute") || !isTold(p, "phosphate") {
		t.Error("the sheet does not tell of salt substitutes and phosphates")
	}
}

func isTold(p *ration.PlanPerson, word string) bool {
	return slices.ContainsFunc(p.Rules, func(r ration.RuleNote) bool { return rationtest.ContainsText(r.Text, word) })
}

// With diabetes of type 1 there is no glass of juice a day: half of one at most (own
// planning rule), and the doses against a low stay apart.
func TestDiabetesWithoutAGlassOfJuice(t *testing.T) {
	_, gramsOf := ofCare(t, "Torleif")
	if got := total(gramsOf(ofKind("fruit juice"))); got > 125+1e-6 {
		t.Errorf("%g g of juice a day, want at most 125", got)
	}
}

// An infant of eight months eats with a spoon what brings iron, of more than one kind:
// plain meat and cereal, rice being no more than half of it, and at least three fruits
// and vegetables, each with two fifths at most (own planning rules); 11 mg of iron
// (IOM 2001) and two servings of iron-rich food (AAP and CDC).
func TestInfantGetsIronAndVariety(t *testing.T) {
	p, gramsOf := ofCare(t, "Liv")
	if meat := total(gramsOf((*foods.Food).IsInfantMeat)); meat < 18-1e-6 {
		t.Errorf("%g g of meat a day, want at least 18", meat)
	}
	pureed := gramsOf((*foods.Food).IsPuree)
	if all := total(pureed); len(pureed) < 3 || all < 40-1e-6 {
		t.Errorf("%v, want three fruits and vegetables and 40 g", pureed)
	} else {
		for name, g := range pureed {
			if g > 0.4*all+1e-6 {
				t.Errorf("%s is %.0f %% of the fruit and vegetables", name, 100*g/all)
			}
		}
	}
	cereal := gramsOf(ofKind("infant cereal"))
	if rice := cereal["infant rice cereal, dry"]; rice > total(cereal)/2+1e-6 {
		t.Errorf("rice is %g g of %g g of cereal", rice, total(cereal))
	}
	if iron := p.Need("iron"); iron.Amount < 11 {
		t.Errorf("%g mg of iron", iron.Amount)
	}
}
