package withmenu_test

import (
	"encoding/json"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/menucheck"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestInfantHasMeatEveryDayOrNever: a jar of strained meat holds half of what an infant has
// of protein in a day, and is finished on it. So there is one on all days but two, or none,
// and by the check of the menu no day is further from the mean than half as far again as
// the rule says.
func TestInfantHasMeatEveryDayOrNever(t *testing.T) {
	req := &ration.Request{
		People: []nutrients.Person{
			rationtest.Adult("Ida", 33, nutrients.Female),
			{Name: "Kai", AgeMonths: 10, Sex: nutrients.Male, Feeding: nutrients.FormulaFed, Activity: nutrients.LowActive, Count: 1},
		},
		Table: rationtest.Table(t), Start: "2026-01-05", WithMenu: true,
	}
	p, book := withDishes(t, req)
	days := 0
	for _, d := range p.Menu.Days {
		meat := false
		for _, m := range d.Meals {
			for _, s := range m.People {
				for _, a := range s.Foods {
					f, err := req.Table.Food(a.Food)
					if err != nil {
						t.Fatal(err)
					}
					meat = meat || s.Name == "Kai" && f.IsInfantMeat()
				}
			}
		}
		if meat {
			days++
		}
	}
	if days > 0 && days < p.Days-2 {
		t.Errorf("meat on %d of %d days", days, p.Days)
	}
	text, err := json.Marshal(p.Menu)
	if err != nil {
		t.Fatal(err)
	}
	found, err := menucheck.Check(text, p, ration.Filled(req), book)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range found {
		if f.Rule == menucheck.Protein && f.Amount > 0.3 {
			t.Error(f)
		}
	}
}
