package verify

import (
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
)

// TestPlainBar: each of the gravest rules by itself, from both sides, without the rules of
// the table beside it: what holds an allergen, what may hold it, in this person and in the
// house (allergy levels of household.csv); ages of honey (CDC: 12 months) and of what may
// choke (4 years); diets; mercury (FDA advice, by class).
func TestPlainBar(t *testing.T) {
	const bars = "" // a food that nobody is refused
	adult := func(conditions ...nutrients.Condition) nutrients.Person {
		return nutrients.Person{Name: "Signe", AgeMonths: 400, Conditions: conditions}
	}
	aged := func(months int, conditions ...nutrients.Condition) nutrients.Person {
		p := adult(conditions...)
		p.AgeMonths = months
		return p
	}
	allergic := func(level nutrients.AllergyLevel) nutrients.Person {
		p := adult()
		p.Allergies = []nutrients.Allergy{{Allergen: "peanut", Level: level}}
		return p
	}
	tagged := func(tags ...string) *foods.Food { return &foods.Food{Name: "food", Tags: tags} }
	holding := func(allergens ...string) *foods.Food { return &foods.Food{Name: "food", Allergens: allergens} }
	may := &foods.Food{Name: "food", MayContain: []string{"peanut"}}
	texture := func(word string) *foods.Food { return &foods.Food{Name: "food", Texture: word} }
	mercury := func(word string) *foods.Food { return &foods.Food{Name: "food", Mercury: word} }
	for _, c := range []struct {
		name  string
		who   nutrients.Person
		other *nutrients.Person
		food  *foods.Food
		why   string
	}{
		{"nothing is wrong", adult(), nil, tagged(), bars},
		{"it holds the allergen", allergic(nutrients.AllergyStrict), nil, holding("milk", "peanut"), "it holds peanut"},
		{"it holds another", allergic(nutrients.AllergyStrict), nil, holding("milk"), bars},
		{"it may hold it", allergic(nutrients.AllergyStrict), nil, may, "it may hold peanut"},
		{"traces are allowed", allergic(nutrients.AllergyTraces), nil, may, bars},
		{"traces are allowed, and it holds it", allergic(nutrients.AllergyTraces), nil, holding("peanut"), "it holds peanut"},
		{"another keeps it out of the house: it holds it", adult(), ptr(allergic(nutrients.AllergyHousehold)), holding("peanut"), "keeps out"},
		{"another keeps it out of the house: it may hold it", adult(), ptr(allergic(nutrients.AllergyHousehold)), may, "keeps out"},
		{"another keeps it out of the house: it holds another", adult(), ptr(allergic(nutrients.AllergyHousehold)), holding("milk"), bars},
		{"another is allergic, for himself", adult(), ptr(allergic(nutrients.AllergyStrict)), holding("peanut"), bars},
		{"honey at 11 months", aged(11), nil, tagged(foods.TagHoney), "honey"},
		{"honey at 12 months", aged(12), nil, tagged(foods.TagHoney), bars},
		{"choking at 47 months", aged(47), nil, tagged(foods.TagChoking), "choking"},
		{"choking at 48 months", aged(48), nil, tagged(foods.TagChoking), bars},
		{"wheat and coeliac disease", adult(nutrients.Coeliac), nil, holding("wheat"), "wheat"},
		{"wheat", adult(), nil, holding("wheat"), bars},
		{"milk and coeliac disease", adult(nutrients.Coeliac), nil, holding("milk"), bars},
		{"nuts, vegan", adult(nutrients.Vegan), nil, holding("tree-nut"), bars},
		{"meat, vegetarian", adult(nutrients.Vegetarian), nil, tagged(foods.TagMeat), "meat"},
		{"poultry, vegetarian", adult(nutrients.Vegetarian), nil, tagged(foods.TagPoultry), "poultry"},
		{"fish, vegetarian", adult(nutrients.Vegetarian), nil, holding("fish"), "fish"},
		{"shellfish, vegetarian", adult(nutrients.Vegetarian), nil, holding("shellfish"), "fish"},
		{"milk, vegetarian", adult(nutrients.Vegetarian), nil, holding("milk"), bars},
		{"meat, vegan", adult(nutrients.Vegan), nil, tagged(foods.TagMeat), "meat"},
		{"meat", adult(), nil, tagged(foods.TagMeat), bars},
		{"milk, vegan", adult(nutrients.Vegan), nil, holding("milk"), "milk or egg"},
		{"egg, vegan", adult(nutrients.Vegan), nil, holding("egg"), "milk or egg"},
		{"milk, vegan of 12 months", aged(12, nutrients.Vegan), nil, holding("milk"), "milk or egg"},
		{"milk, vegan of 11 months: formula", aged(11, nutrients.Vegan), nil, holding("milk"), bars},
		{"hard food where it must be soft", adult(nutrients.SoftFood), nil, texture("hard"), "not soft"},
		{"regular food where it must be soft", adult(nutrients.SoftFood), nil, texture("regular"), "not soft"},
		{"soft food where it must be soft", adult(nutrients.SoftFood), nil, texture("soft"), bars},
		{"hard food", adult(), nil, texture("hard"), bars},
		{"mercury to avoid", adult(), nil, mercury("avoid"), "mercury"},
		{"a good choice, under 11 years", aged(11*12 - 1), nil, mercury("good"), "mercury"},
		{"a good choice, from 11 years", aged(11 * 12), nil, mercury("good"), bars},
		{"the best choice, under 11 years", aged(60), nil, mercury("best"), bars},
	} {
		household := []nutrients.Person{c.who}
		if c.other != nil {
			household = append(household, *c.other)
		}
		got := plainBar(&c.who, household, c.food)
		if (got == "") != (c.why == "") || !strings.Contains(got, c.why) {
			t.Errorf("%s: %q, want %q", c.name, got, c.why)
		}
	}
}

func ptr(p nutrients.Person) *nutrients.Person { return &p }
