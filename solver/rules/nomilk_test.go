package rules

import (
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// TestMilkCautions: of each child of 12 to 23 months who may have no milk (its allergy, milk
// kept out of the house for somebody else, nobody gets any), once, by name, with the source
// and its mark; of no other child, and of nobody where a name means nothing.
func TestMilkCautions(t *testing.T) {
	child := func(name string, months int, allergies ...nutrients.Allergy) nutrients.Person {
		return nutrients.Person{Name: name, AgeMonths: months, Sex: nutrients.Male, Count: 1, Feeding: nutrients.BreastFed, Allergies: allergies}
	}
	milk, house := nutrients.Allergy{Allergen: "milk"}, nutrients.Allergy{Allergen: "milk", Level: nutrients.AllergyHousehold}
	soy := nutrients.Allergy{Allergen: "soy"}
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name    string
		people  []nutrients.Person
		without []string
		want    []string
	}{
		{"11 months", []nutrients.Person{child("Bo", 11, milk)}, nil, nil},
		{"12 months", []nutrients.Person{child("Bo", 12, milk)}, nil, []string{"Bo"}},
		{"23 months", []nutrients.Person{child("Bo", 23, milk)}, nil, []string{"Bo"}},
		{"24 months", []nutrients.Person{child("Bo", 24, milk)}, nil, nil},
		{"milk is had", []nutrients.Person{child("Bo", 20)}, nil, nil},
		{"another allergy", []nutrients.Person{child("Bo", 20, soy)}, nil, nil},
		{"one of two", []nutrients.Person{child("Bo", 20, milk), child("Liv", 20)}, nil, []string{"Bo"}},
		{"out of the house for both", []nutrients.Person{child("Bo", 60, house), child("Liv", 20), child("Tor", 13)}, nil, []string{"Liv", "Tor"}},
		{"nobody gets any", []nutrients.Person{child("Bo", 20)}, []string{"rice", "milk"}, []string{"Bo"}},
		{"a name that means nothing", []nutrients.Person{child("Bo", 20)}, []string{"moonmilk"}, nil},
	} {
		got := MilkCautions(&ration.Request{People: c.people, Table: table, Without: c.without})
		if len(got) != len(c.want) {
			t.Errorf("%s: %q, want %v", c.name, got, c.want)
			continue
		}
		for i, text := range got {
			if !strings.HasPrefix(text, c.want[i]+": Milk is a main food at this age") || !strings.Contains(text, "ask the child's clinician or dietitian") ||
				!strings.HasSuffix(text, "AAP on milk allergy (from memory)).") || strings.ContainsAny(strings.SplitN(text, " (Dietary", 2)[0], "0123456789") {
				t.Errorf("%s: %q", c.name, text)
			}
		}
	}
}
