package answer

import (
	"math"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestCrumbs: two portions, each half of what is eaten at one sitting (own planning
// rule), are worth storing; a gram less is a crumb. What infants are fed is none.
func TestCrumbs(t *testing.T) {
	for _, c := range []struct {
		name   string
		person nutrients.Person
		off    float64 // g from what is eaten at one sitting
		want   int
	}{
		{"a gram less", rationtest.Adult("Signe", 30, nutrients.Female), -1, 1},
		{"a sitting", rationtest.Adult("Signe", 30, nutrients.Female), 0, 0},
		{"half a sitting less", rationtest.Adult("Signe", 30, nutrients.Female), math.Inf(-1), 1},
		{"a child, a gram less", rationtest.Adult("Siri", 6, nutrients.Female), -1, 1},
		{"a child", rationtest.Adult("Siri", 6, nutrients.Female), 0, 0},
		{"an infant", rationtest.Infant("Liv", 8, 8, nutrients.FormulaFed), -1, 0},
	} {
		m, err := model.Build(rationtest.Request(t, c.person))
		if err != nil {
			t.Fatal(err)
		}
		rice, err := m.Request.Table.Food("white-rice-907g-bag")
		if err != nil {
			t.Fatal(err)
		}
		sitting, _, _ := foods.Cap(&c.person, rice)
		grams := math.Max(sitting/2, sitting+c.off)
		p := EmptyPlan(m)
		p.Totals = &ration.Totals{}
		p.People = []ration.PlanPerson{{Name: c.person.Name, Count: 1, Foods: []ration.PersonFood{{Food: rice.Name, Grams: grams}}}}
		if got := Eatable(m, p).Crumbs; got != c.want {
			t.Errorf("%s: %d crumbs of %g g, a sitting is %g g, want %d", c.name, got, grams, sitting, c.want)
		}
	}
}

// TestEatableCounts: foods, their sizes and the largest share of energy of one food,
// by hand: 300 g of rice and 100 g of oil are 300·rice : 100·oil of the energy. What is
// set aside is no food to eat.
func TestEatableCounts(t *testing.T) {
	woman := rationtest.Adult("Signe", 30, nutrients.Female)
	m, err := model.Build(rationtest.Request(t, woman))
	if err != nil {
		t.Fatal(err)
	}
	rice, err := m.Request.Table.Food("white-rice-907g-bag")
	if err != nil {
		t.Fatal(err)
	}
	oil, err := m.Request.Table.Food("sunflower-oil-0.5l-bottle")
	if err != nil {
		t.Fatal(err)
	}
	p := EmptyPlan(m)
	p.Totals = &ration.Totals{}
	p.Packs = []ration.PlanPack{{Pack: "a", Food: rice.Name, Count: 3}, {Pack: "b", Food: rice.Name, Count: 1}, {Pack: "c", Food: oil.Name, Count: 1}, {Pack: "d", Food: "sugar", Count: 9, Reserve: true}}
	p.People = []ration.PlanPerson{{Name: "Signe", Count: 1, Foods: []ration.PersonFood{{Food: rice.Name, Grams: 300}, {Food: oil.Name, Grams: 100}}}}
	got := Eatable(m, p)
	share := 300 * rationtest.Kcal(rice) / (300*rationtest.Kcal(rice) + 100*rationtest.Kcal(oil))
	share = math.Max(share, 1-share)
	if got.Products != 2 || got.MostSizes != 2 || math.Abs(got.LargestFoodShare-share) > 1e-9 {
		t.Errorf("%d products, %d sizes, a share of %g, want 2, 2, %g", got.Products, got.MostSizes, got.LargestFoodShare, share)
	}
}

// TestMainsOfHalfTheTable: a main can be made of what at least half of those who eat have
// two portions of, and of no less; an infant with a feed does not count.
func TestMainsOfHalfTheTable(t *testing.T) {
	people := []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Odd", 40, nutrients.Male), rationtest.Adult("Aud", 50, nutrients.Female)}
	for _, c := range []struct {
		eaters, having int
		infant         bool
		mains          bool
	}{{1, 1, false, true}, {1, 0, false, false}, {2, 1, false, true}, {2, 0, false, false}, {3, 1, false, false}, {3, 2, false, true}, {2, 1, true, true}} {
		household := people[:c.eaters:c.eaters]
		if c.infant {
			household = append(household, rationtest.Infant("Liv", 4, 6.5, nutrients.FormulaFed))
		}
		m, err := model.Build(rationtest.Request(t, household...))
		if err != nil {
			t.Fatal(err)
		}
		p := EmptyPlan(m)
		p.Totals = &ration.Totals{}
		for i, e := range household {
			person := ration.PlanPerson{Name: e.Name, Count: 1}
			if i < c.having {
				for _, f := range m.Request.Table.Foods {
					person.Foods = append(person.Foods, ration.PersonFood{Food: f.Name, Grams: LeastPortionG(&household[i], f)})
				}
			}
			p.People = append(p.People, person)
		}
		if got := Eatable(m, p).Mains; (got > 0) != c.mains {
			t.Errorf("%d of %d have everything, an infant beside them %v: %d mains, want some %v", c.having, c.eaters, c.infant, got, c.mains)
		}
	}
}

// TestLargestKind: canned chicken and canned turkey are canned poultry and meat, which have no
// share of their own, so that their energy is added up. Pancake mix is more, but is a kind of
// one food only, and the flours and baking goods that it belongs to have a share of their own
// (foods/kinds/data/kind_caps.csv).
func TestLargestKind(t *testing.T) {
	m, err := model.Build(rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female)))
	if err != nil {
		t.Fatal(err)
	}
	p := EmptyPlan(m)
	p.Totals = &ration.Totals{}
	p.People = []ration.PlanPerson{{Name: "Signe", Count: 1}}
	var poultry, all float64
	for name, grams := range map[string]float64{"pancake mix, complete": 400, "chicken, canned, drained": 150, "turkey, canned, with broth": 200} {
		f, err := m.Request.Table.Food(name)
		if err != nil {
			t.Fatal(err)
		}
		p.People[0].Foods = append(p.People[0].Foods, ration.PersonFood{Food: name, Grams: grams})
		if all += grams * rationtest.Kcal(f); name != "pancake mix, complete" {
			poultry += grams * rationtest.Kcal(f)
		}
	}
	if got := Eatable(m, p); math.Abs(got.LargestKindShare-poultry/all) > 1e-9 || math.Abs(got.LargestFoodShare-(1-poultry/all)) > 1e-9 {
		t.Errorf("largest kind %g, largest food %g, want %g of poultry and %g of pancakes", got.LargestKindShare, got.LargestFoodShare, poultry/all, 1-poultry/all)
	}
}
