package rules

import (
	"math"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// Doses of 15 g of quick sugar in a pack, by hand: whole ones only, one where it does
// not keep once it is open, none of what is no quick sugar.
func TestDosesOfAPack(t *testing.T) {
	for _, c := range []struct {
		grams, sugars, hours float64
		tag                  string
		want                 float64
	}{
		{44, 100, 8760, foods.TagFastSugar, 2}, {45, 100, 8760, foods.TagFastSugar, 3}, {46, 100, 8760, foods.TagFastSugar, 3},
		{60, 100, 8760, foods.TagFastSugar, 4}, {90, 50, 8760, foods.TagFastSugar, 3},
		{1000, 10, 24, foods.TagFastSugar, 1}, {1000, 10, 48, foods.TagFastSugar, 6}, {100, 10, 24, foods.TagFastSugar, 0}, {100, 100, 8760, "", 0},
	} {
		f := &foods.Food{Per100g: nutrients.Unknown(), Keeping: &foods.Keeping{AfterOpenHours: c.hours}, Tags: []string{c.tag}}
		f.Per100g[nutrients.Sugars] = c.sugars
		if got := Doses(&foods.Pack{Food: f, NetG: c.grams}); got != c.want {
			t.Errorf("%g g with %g %% of sugar that keeps %g h: %g doses, want %g", c.grams, c.sugars, c.hours, got, c.want)
		}
	}
}

// What weak hands open and lift: an easy lid and 1,500 g at most, own planning rule.
func TestEasyToOpen(t *testing.T) {
	for _, c := range []struct {
		easy  bool
		grams float64
		want  bool
	}{{true, 1499, true}, {true, 1500, true}, {true, 1501, false}, {false, 100, false}} {
		if got := EasyToOpen(&foods.Pack{EasyOpen: c.easy, GrossG: c.grams}); got != c.want {
			t.Errorf("an easy lid %v, %g g: %v, want %v", c.easy, c.grams, got, c.want)
		}
	}
}

// The usual allowance is a US gallon, 3.785 L, a head and day and as much a pet.
func TestAllowanceCountsHeadsAndPets(t *testing.T) {
	req := &ration.Request{Days: 14, People: []nutrients.Person{{Count: 2}, {Count: 1}}}
	people := AllowanceL(req)
	req.Pets = 2
	if got := AllowanceL(req) - people; math.Abs(got-2*14*3.785411784) > 0.02 {
		t.Errorf("two pets add %.2f L in 14 days, want %.2f", got, 2*14*3.785411784)
	}
	req.Pets, req.People[1].Count = 0, 2
	if got := AllowanceL(req) - people; math.Abs(got-people/3) > 1e-9 {
		t.Errorf("a fourth head adds %.2f L to the %.2f L of three", got, people)
	}
}
