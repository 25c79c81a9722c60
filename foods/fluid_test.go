package foods

import (
	"math"
	"slices"
	"testing"
)

// What a clinician counts as fluid: drinks, juice, soup, bouillon, milk and what is
// mixed into a drink (common practice, no source); not fruit, sauce or porridge.
func TestFluid(t *testing.T) {
	tab := load(t)
	for name, want := range map[string]bool{
		"orange juice, canned": true, "tomato juice": true, "instant coffee": true, "tomato soup, condensed": true,
		"whole milk, vitamin D, long-life": true, "evaporated milk, vitamin D": true, "cranberry juice cocktail": true,
		"peaches in juice, canned": false, "tomato sauce": false, "rolled oats": false, "white rice, long grain, enriched": false,
	} {
		f, err := tab.Food(name)
		if err != nil {
			t.Fatal(err)
		}
		if f.IsFluid() != want {
			t.Errorf("%s: fluid %v, want %v", name, f.IsFluid(), want)
		}
	}
	bouillon := 0
	for _, f := range tab.Foods {
		if f.Form == "bouillon" {
			bouillon++
			if !f.IsFluid() {
				t.Errorf("%s is a drink when made ready", f.Name)
			}
		}
	}
	if bouillon == 0 {
		t.Error("the table has no bouillon")
	}
}

// Iron-rich food of an infant (infant_feeding.csv, iron; racc.csv R212): 15 g of dry
// cereal or 55 g of strained meat or poultry are a serving; a dinner of meat and
// vegetables is none, nor is the household's meat.
func TestIronServings(t *testing.T) {
	tab := load(t)
	infant := person(months(8), fed("formula"))
	for name, perServing := range map[string]float64{
		"infant rice cereal, dry": 15, "infant oat cereal, dry": 15,
		"infant beef, strained": 55, "infant chicken, strained": 55, "infant turkey, strained": 55,
		"infant vegetables and beef, strained": 0, "chicken, canned, drained": 0, "infant pears, strained": 0,
	} {
		f, err := tab.Food(name)
		if err != nil {
			t.Fatal(err)
		}
		want := 0.0
		if perServing > 0 {
			want = 1 / perServing
		}
		if got := IronServings(&infant, f); math.Abs(got-want) > 1e-12 {
			t.Errorf("%s: %g servings a gram, want %g", name, got, want)
		}
	}
	// Plain is nine tenths of an ounce-equivalent an ounce of 28.35 g at least: 3.175 in 100 g.
	for protein, plain := range map[float64]bool{3.17: false, 3.18: true} {
		f, err := tab.Food("infant beef, strained")
		if err != nil {
			t.Fatal(err)
		}
		meat := *f
		meat.Serves = slices.Clone(f.Serves)
		meat.Serves[slices.IndexFunc(meat.Serves, func(s Serving) bool { return s.Group == "protein" })].Per100g = protein
		if meat.IsInfantMeat() != plain || (IronServings(&infant, &meat) > 0) != plain {
			t.Errorf("%g ounce-equivalents in 100 g: plain meat %v", protein, !plain)
		}
	}
	adult := person()
	if f, err := tab.Food("infant beef, strained"); err != nil || IronServings(&adult, f) != 0 {
		t.Errorf("strained beef counts for an adult (%v)", err)
	}
}

// Fruit or vegetables for infants are a puree, with meat or poultry or without fruit and
// vegetables they are none; meat for infants is plain from 0.9 oz-eq of protein an ounce of
// 28.349523125 g, 3.17 in 100 g, on: a dinner of it with vegetables is under a half.
func TestInfantFoods(t *testing.T) {
	serving := func(group string, per100g float64) []Serving { return []Serving{{group, per100g}} }
	for _, test := range []struct {
		tags         []string
		serves       []Serving
		puree, plain bool
	}{
		{[]string{TagInfantFood}, serving("fruits", 0.4), true, false},
		{[]string{TagInfantFood}, serving("vegetables", 0.4), true, false},
		{[]string{TagInfantFood}, serving("grains", 0.4), false, false},
		{[]string{TagInfantFood}, nil, false, false},
		{nil, serving("fruits", 0.4), false, false},
		{[]string{TagInfantFood, TagMeat}, serving("vegetables", 0.4), false, false},
		{[]string{TagInfantFood, TagPoultry}, serving("vegetables", 0.4), false, false},
		{[]string{TagInfantFood, TagMeat}, serving("protein", 3.18), false, true},
		{[]string{TagInfantFood, TagPoultry}, serving("protein", 3.18), false, true},
		{[]string{TagInfantFood, TagMeat}, serving("protein", 3.17), false, false},
		{[]string{TagInfantFood}, serving("protein", 3.5), false, false},
		{[]string{TagMeat}, serving("protein", 3.5), false, false},
	} {
		f := &Food{Tags: test.tags, Serves: test.serves}
		if f.IsPuree() != test.puree || f.IsInfantMeat() != test.plain {
			t.Errorf("%v %v: puree %v, plain meat %v, want %v and %v", test.tags, test.serves, f.IsPuree(), f.IsInfantMeat(), test.puree, test.plain)
		}
	}
}
