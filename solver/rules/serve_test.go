package rules_test

import (
	"math"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/rules"
)

// TestWhoIsServedWhat: under six months an infant has its milk and no other food, from six
// months food beside its milk (WHO: complementary feeding), and nobody else has formula.
func TestWhoIsServedWhat(t *testing.T) {
	for _, c := range []struct {
		person     nutrients.Person
		milk, food bool
	}{
		{rationtest.Infant("Liv", 0, 4, nutrients.FormulaFed), true, false},
		{rationtest.Infant("Liv", 5, 7, nutrients.FormulaFed), true, false},
		{rationtest.Infant("Liv", 6, 8, nutrients.FormulaFed), true, true},
		{rationtest.Infant("Liv", 11, 9, nutrients.FormulaFed), true, true},
		{rationtest.Adult("Siri", 6, nutrients.Female), false, true},
		{rationtest.Adult("Odd", 40, nutrients.Male), false, true},
	} {
		req := ration.Filled(rationtest.Request(t, c.person))
		needs, err := nutrients.For(req.People[0], rules.NeedOptions(req))
		if err != nil {
			t.Fatal(err)
		}
		kitchen, err := rules.OpenKitchen(req, false)
		if err != nil {
			t.Fatal(err)
		}
		list, _, err := kitchen.Serve(&needs)
		if err != nil {
			t.Fatal(err)
		}
		var milk, food int
		for _, a := range list {
			if rules.IsMilkFeed(a.Food) {
				milk++
			} else {
				food++
			}
		}
		if (milk > 0) != c.milk || (food > 0) != c.food {
			t.Errorf("%s of %d months is served %d kinds of milk and %d foods, want some: %v, %v", c.person.Name, c.person.AgeMonths, milk, food, c.milk, c.food)
		}
	}
}

// TestServedADay: of a food nobody has more than what is eaten of it a day times the days,
// nor in one opening more than in all; as much on each of one day as of a fortnight.
func TestServedADay(t *testing.T) {
	siri := rationtest.Adult("Siri", 6, nutrients.Female)
	for _, days := range []int{1, 5, 14} {
		req := rationtest.Request(t, siri)
		req.Days, req.IgnoreEatable = days, true
		needs, err := nutrients.For(siri, rules.NeedOptions(req))
		if err != nil {
			t.Fatal(err)
		}
		kitchen, err := rules.OpenKitchen(req, false)
		if err != nil {
			t.Fatal(err)
		}
		list, _, err := kitchen.Serve(&needs)
		if err != nil {
			t.Fatal(err)
		}
		if len(list) < 50 {
			t.Fatalf("%d foods are served: the test shows nothing", len(list))
		}
		for _, a := range list {
			_, day, _ := foods.Cap(&siri, a.Food)
			if want := day * float64(days); math.Abs(a.CapG-want) > 1e-9*want || a.WindowG > a.CapG || a.WindowG > foods.WindowG(&siri, a.Food, days) {
				t.Errorf("%s in %d days: %g g, %g g of an opening, want %g g of %g g a day", a.Food.Name, days, a.CapG, a.WindowG, want, day)
			}
		}
	}
}
