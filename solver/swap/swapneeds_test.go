package swap

import (
	"testing"

	"rationwright/solver/ration"
)

// What falls short stands before what falls towards its floor, and that before any
// gain, however large.
func TestLossesComeBeforeGains(t *testing.T) {
	at := func(v float64) *float64 { return &v }
	list := []NeedChange{
		{Person: "gains much", Before: 9, After: 45, Floor: at(8)},
		{Person: "no floor", Before: 13, After: 44},
		{Person: "falls part of the way", Before: 20, After: 16, Floor: at(10)},
		{Person: "play of packs", Before: 10.1, After: 10, Floor: at(10)},
		{Person: "falls to its floor by little", Before: 11, After: 10 + 1e-9, Floor: at(10)},
		{Person: "falls to its floor by much", Before: 40, After: 10, Floor: at(10)},
		{Person: "a little short", Before: 15, After: 14, Floor: at(15)},
		{Person: "very short", Before: 15, After: 1, Floor: at(15)},
	}
	rankNeeds(list)
	want := []string{"very short", "a little short", "falls to its floor by much", "falls to its floor by little", "falls part of the way", "gains much", "no floor", "play of packs"}
	for k, name := range want {
		if list[k].Person != name {
			t.Errorf("place %d: %q, want %q", k+1, list[k].Person, name)
		}
	}
	if !list[0].Short() || !list[1].Short() || list[2].Short() || list[6].Short() {
		t.Error("short is what ends below its floor, and nothing else")
	}
}

// A swap that leaves someone shorter of a vitamin than before says so, even where
// as many needs are short as were.
func TestShorterThanBefore(t *testing.T) {
	plan := func(amount float64) *ration.Plan {
		return &ration.Plan{Shortfalls: []ration.Shortfall{{Person: "Signe", Nutrient: "vitamin_d", Amount: amount, Target: 15}}}
	}
	for _, c := range []struct {
		old, changed *ration.Plan
		want         bool
	}{
		{plan(9), plan(2), true}, {plan(9), plan(9), false}, {plan(2), plan(9), false},
		{&ration.Plan{}, plan(9), true}, {plan(9), &ration.Plan{}, false},
	} {
		if got := shorter(c.old, c.changed); got != c.want {
			t.Errorf("shorter(%v, %v) = %v", c.old.Shortfalls, c.changed.Shortfalls, got)
		}
	}
}
