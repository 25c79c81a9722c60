package verify

import (
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// TestReserveAndSmallChildren: honey is set aside from the first birthday of the youngest on
// (CDC: no honey under 12 months), what may choke from the fourth; what is left out, or no
// quick sugar, never.
func TestReserveAndSmallChildren(t *testing.T) {
	sugar := func(tags ...string) *foods.Food {
		f := &foods.Food{Name: "sweet", Per100g: nutrients.Unknown(), Tags: append(tags, foods.TagFastSugar)}
		f.Per100g[nutrients.Sugars] = 80
		return f
	}
	honey, sweets, plain := sugar(foods.TagHoney), sugar(foods.TagChoking), sugar()
	for _, c := range []struct {
		months int
		food   *foods.Food
		may    bool
	}{
		{11, honey, false}, {12, honey, true}, {13, honey, true}, {47, sweets, false}, {48, sweets, true}, {11, sweets, false}, {47, honey, true}, {0, plain, true},
		{400, &foods.Food{Name: "salt", Per100g: nutrients.Unknown()}, false},
	} {
		req := &ration.Request{People: []nutrients.Person{{Name: "Signe", AgeMonths: 400}, {Name: "Odd", AgeMonths: c.months}}}
		s := stored{&checker{req: req}}
		if why := s.notReserve(c.food); (why == "") != c.may {
			t.Errorf("%s with a child of %d months: %q", c.food.Name, c.months, why)
		}
	}
	s := stored{&checker{req: &ration.Request{}, without: map[*foods.Food]string{plain: "without sugar"}}}
	if s.notReserve(plain) != "without sugar" {
		t.Error("what is left out is set aside")
	}
}
