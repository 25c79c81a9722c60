package foods

import (
	"testing"

	"rationwright/nutrients"
)

func dislikes(names ...string) func(*nutrients.Person) {
	return func(p *nutrients.Person) { p.Dislikes = names }
}

func ruled(kind nutrients.RuleKind, food string, g float64) func(*nutrients.Person) {
	return func(p *nutrients.Person) {
		p.Rules = []nutrients.Rule{{Kind: kind, Food: food, Low: g, Text: string(kind) + " " + food}}
	}
}

// Milk is a main food from 12 to 23 months (Dietary Guidelines 2020-2025, toddler pattern). A
// child of that age may have none by an allergy to milk, its own or one that keeps milk out of
// the house, as a vegan, by dislike or rule, or where nobody gets any; another allergy, a
// lactose limit or one milk less leaves it milk. Under 12 months a child is fed by other rules.
func TestNoMilk(t *testing.T) {
	tab := load(t)
	milk := func(level nutrients.AllergyLevel) func(*nutrients.Person) { return allergic("milk", level) }
	sister := person(months(60), milk(nutrients.AllergyHousehold))
	named := func(name string) []*Food {
		found, err := tab.Named(name)
		if err != nil {
			t.Fatal(err)
		}
		return found
	}
	for _, c := range []struct {
		name    string
		child   nutrients.Person
		others  []nutrients.Person
		without []*Food
		want    bool
	}{
		{"11 months", person(months(11), fed("breast"), milk(nutrients.AllergyStrict)), nil, nil, false},
		{"12 months", person(months(12), milk(nutrients.AllergyStrict)), nil, nil, true},
		{"23 months", person(months(23), milk(nutrients.AllergyStrict)), nil, nil, true},
		{"24 months", person(months(24), milk(nutrients.AllergyStrict)), nil, nil, false},
		{"traces allowed", person(months(20), milk(nutrients.AllergyTraces)), nil, nil, true},
		{"milk kept out", person(months(20), milk(nutrients.AllergyHousehold)), nil, nil, true},
		{"kept out for a sister", person(months(20)), []nutrients.Person{sister}, nil, true},
		{"a sister who is allergic", person(months(20)), []nutrients.Person{person(months(60), milk(nutrients.AllergyStrict))}, nil, false},
		{"vegan", person(months(20), with(nutrients.Vegan)), nil, nil, true},
		{"a vegan mother", person(months(20)), []nutrients.Person{person(with(nutrients.Vegan))}, nil, false},
		{"vegetarian", person(months(20), with(nutrients.Vegetarian)), nil, nil, false},
		{"dislike", person(months(20), dislikes("milk")), nil, nil, true},
		{"dislike of one milk", person(months(20), dislikes("evaporated milk")), nil, nil, false},
		{"rule", person(months(20), ruled(nutrients.RuleNo, "milk", 0)), nil, nil, true},
		{"at most nothing of it", person(months(20), ruled(nutrients.RuleMost, "milk", 0)), nil, nil, true},
		{"at most a sip of it", person(months(20), ruled(nutrients.RuleMost, "milk", 1)), nil, nil, false},
		{"nobody gets milk", person(months(20)), nil, named("milk"), true},
		{"nobody gets long-life milk", person(months(20)), nil, named("long-life milk"), false},
		{"a father without milk", person(months(480), dislikes("milk")), nil, nil, false},
		{"allergic to soy", person(months(20), allergic("soy", nutrients.AllergyHousehold)), nil, nil, false},
		{"allergic to egg", person(months(20), allergic("egg", nutrients.AllergyStrict)), nil, nil, false},
		{"lactose", person(months(20), with(nutrients.Lactose)), nil, nil, false},
		{"nothing", person(months(20)), nil, nil, false},
	} {
		got, err := NoMilk(tab, c.child, append(c.others, c.child), c.without)
		if err != nil || got != c.want {
			t.Errorf("%s: %v, want %v; %v", c.name, got, c.want, err)
		}
	}
	if _, err := NoMilk(tab, person(months(20), dislikes("moonmilk")), nil, nil); err == nil {
		t.Error("a name that means nothing is taken")
	}
	if none, err := NoMilk(&Table{}, person(months(20), milk(nutrients.AllergyStrict)), nil, nil); err != nil || none {
		t.Errorf("of a table without milk: %v, %v", none, err)
	}
}
