package rules

import (
	"testing"

	"rationwright/nutrients"
)

// TestLittleSodium: each condition by itself is enough, and so is an order that sets a
// most; an order that sets a least only is not.
func TestLittleSodium(t *testing.T) {
	order := func(low, high float64) nutrients.Orders {
		return nutrients.Orders{List: []nutrients.Order{{Of: nutrients.OrderSodium, Low: low, High: high}}}
	}
	for _, c := range []struct {
		name string
		p    nutrients.Person
		want bool
	}{
		{"nobody's", nutrients.Person{}, false},
		{"low sodium", nutrients.Person{Conditions: []nutrients.Condition{nutrients.LowSodium}}, true},
		{"kidneys", nutrients.Person{Conditions: []nutrients.Condition{nutrients.KidneyDisease}}, true},
		{"heart", nutrients.Person{Conditions: []nutrients.Condition{nutrients.HeartFailure}}, true},
		{"another condition", nutrients.Person{Conditions: []nutrients.Condition{nutrients.SoftFood}}, false},
		{"an order of at most 1,800 mg", nutrients.Person{Orders: order(0, 1800)}, true},
		{"an order of at least 1,800 mg", nutrients.Person{Orders: order(1800, 0)}, false},
	} {
		if got := LittleSodium(&c.p); got != c.want {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}
