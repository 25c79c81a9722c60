package answer

import (
	"math"
	"slices"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/search"
	"rationwright/solver/verify"
)

// TestSecondBesideFirst: the plan of the second aim tells the part by which it costs more
// than the best found, and its gap is to the bound of that; where nothing gladder was
// found, or what was found does not pass the check, it is the first, which costs nothing
// more.
func TestSecondBesideFirst(t *testing.T) {
	req := rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female))
	req.Least = ration.LeastCost
	m, err := model.Build(ration.Filled(req))
	if err != nil {
		t.Fatal(err)
	}
	best := search.SearchOnce(t.Context(), m, 0.1, 2000, nil)
	if best.X == nil {
		t.Fatal("no plan")
	}
	write := func() *ration.Plan {
		p := Complete(m, Write(m, best.X))
		p.Judge(best.Bound, 0.5)
		return p
	}
	more := append([]float64(nil), best.X...) // a pack more of what is bought
	for _, lf := range m.Larder {
		for _, k := range lf.Buy {
			if more[k.Col] == best.X[k.Col] && more[k.Col] > 0 && m.ValueOf(more) == m.ValueOf(best.X) {
				more[k.Col]++
			}
		}
	}
	first := write()
	if len(verify.Check(m.Request, first)) > 0 || m.ValueOf(more) <= m.ValueOf(best.X) {
		t.Fatal("there is no plan to set another beside")
	}
	dearer := (m.ValueOf(more) - m.ValueOf(best.X)) / m.ValueOf(best.X)
	spoilt := make([]float64, len(best.X))
	for _, c := range []struct {
		name   string
		found  Gladder
		price  float64
		weight float64
	}{
		{"a pack more", Gladder{X: more, Value: 7, Before: 9, Bound: 5}, dearer, 7},
		{"nothing gladder", Gladder{Value: 9, Before: 9, Bound: math.Inf(-1)}, 0, 9},
		{"what does not pass", Gladder{X: spoilt, Value: 1, Before: 9, Bound: 0.5}, 0, 9},
	} {
		before := write()
		p := Second(m, before, c.found)
		if math.Abs(*p.Eatable.Price-c.price) > 1e-9 || *p.Eatable.Weight != c.weight {
			t.Errorf("%s: costs %g more, weighs %g, want %g and %g", c.name, *p.Eatable.Price, *p.Eatable.Weight, c.price, c.weight)
		}
		if p.First == nil || p.First.Value != m.ValueOf(best.X) && math.Abs(p.First.Value-m.ValueOf(best.X)) > 1e-6 || p.First.Gap == nil || math.Abs(*p.Gap-ration.GapOf(*p.Value, best.Bound, 0.01)) > 1e-9 || p.Status != before.Status {
			t.Errorf("%s: first %+v, gap %v, status %s", c.name, p.First, p.Gap, p.Status)
		}
		if (p.Eatable.Bound == nil) != math.IsInf(c.found.Bound, 0) {
			t.Errorf("%s: bound %v", c.name, p.Eatable.Bound)
		}
	}
}

// TestRowsOfANutrient: rows of a need over all days and of one after a date are about a
// nutrient; shares, limits and rows of other nutrients are not.
func TestRowsOfANutrient(t *testing.T) {
	for _, c := range []struct {
		info   model.RowInfo
		energy bool
		stored bool
	}{
		{model.RowInfo{Kind: model.RowNutrient, Nutrient: nutrients.Energy}, true, false}, {model.RowInfo{Kind: model.RowAfter, Nutrient: nutrients.Energy}, true, false},
		{model.RowInfo{Kind: model.RowNutrient, Nutrient: nutrients.Protein}, false, false}, {model.RowInfo{Kind: model.RowAfter, Nutrient: nutrients.Protein}, false, false},
		{model.RowInfo{Kind: model.RowShare, Nutrient: nutrients.Energy}, false, false}, {model.RowInfo{Kind: model.RowLimit, Nutrient: nutrients.Energy}, false, false}, {model.RowInfo{Kind: model.RowPattern, Nutrient: nutrients.Energy}, false, false},
		{model.RowInfo{Kind: model.RowNutrient, Nutrient: nutrients.VitaminD}, false, true}, {model.RowInfo{Kind: model.RowShare, Nutrient: nutrients.VitaminD}, false, false}, {model.RowInfo{Kind: model.RowNutrient, Nutrient: nutrients.VitaminC}, false, false},
	} {
		if got := c.info.IsOf(nutrients.Energy); got != c.energy {
			t.Errorf("%+v is about energy: %v", c.info, got)
		}
		if got, want := c.info.HasAmount(), c.info.Kind != model.RowShare; got != want {
			t.Errorf("%+v has an amount of its own: %v", c.info, got)
		}
		if got := c.info.Stored(); got != c.stored {
			t.Errorf("%+v is of a stored vitamin: %v", c.info, got)
		}
	}
}

// TestLittleSodiumTogether, by hand: what those who are to have little sodium have of it
// together is what each of them has times how many they are; what others have is not in it,
// nor of a row that says nothing of it.
func TestLittleSodiumTogether(t *testing.T) {
	row := func(name string, count int, conditions ...nutrients.Condition) nutrients.Person {
		p := rationtest.Adult(name, 50, nutrients.Male)
		p.Count, p.Conditions = count, conditions
		return p
	}
	for _, c := range []struct {
		people []nutrients.Person
		sodium []float64 // mg a day of each, -1 not told
		want   float64
		names  []string
	}{
		{[]nutrients.Person{row("Odd", 1, nutrients.LowSodium)}, []float64{1200}, 1200, []string{"Odd"}},
		{[]nutrients.Person{row("Odd", 3, nutrients.LowSodium)}, []float64{1200}, 3600, []string{"Odd"}},
		{[]nutrients.Person{row("Ask", 4), row("Odd", 2, nutrients.LowSodium), row("Signe", 1, nutrients.LowSodium)}, []float64{3000, 1200, 1500}, 2*1200 + 1500, []string{"Odd", "Signe"}},
		{[]nutrients.Person{row("Odd", 2, nutrients.LowSodium), row("Signe", 5, nutrients.LowSodium)}, []float64{1000, -1}, 2000, []string{"Odd", "Signe"}},
		{[]nutrients.Person{row("Ask", 4)}, []float64{3000}, 0, nil},
	} {
		m, err := model.Build(ration.Filled(rationtest.Basics(t, c.people...)))
		if err != nil {
			t.Fatal(err)
		}
		p := &ration.Plan{}
		for i, who := range c.people {
			person := ration.PlanPerson{Name: who.Name, Count: who.Count}
			if c.sodium[i] >= 0 {
				person.Needs = append(person.Needs, ration.PersonNeed{Nutrient: nutrients.Sodium.Name(), Amount: c.sodium[i]})
			}
			p.People = append(p.People, person)
		}
		got := LittleSodium(m, p, 7)
		if math.Abs(got.Amount-c.want) > 1e-9 || got.Least != 7 || !slices.Equal(got.People, c.names) {
			t.Errorf("%v: %+v, want %g mg of %v", c.sodium, got, c.want, c.names)
		}
	}
}
