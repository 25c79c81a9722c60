package foods

import (
	"slices"
	"strings"
	"testing"

	"rationwright/foods/kinds"
	"rationwright/nutrients"
)

// TestKindCapsCount checks that every food under a cap counts something towards
// it, so that no unit is silently without effect.
func TestKindCapsCount(t *testing.T) {
	tab := load(t)
	for _, r := range tab.caps.Rows {
		switch r.Measure {
		case kinds.Sitting, kinds.Day, kinds.Week:
		default:
			continue
		}
		members := tab.ofKind(r.Kind)
		if len(members) == 0 {
			t.Errorf("%s %s binds no food", r.Kind, r.Measure)
		}
		for _, f := range members {
			sweet := r.Unit == kinds.CupEq && slices.Contains(f.Kinds, "condensed milk") // serves no cup, and has a cap in grams
			if f.Counts(r.Unit) <= 0 && !sweet {
				t.Errorf("%s counts nothing towards %s %s in %s", f.Name, r.Kind, r.Measure, r.Unit)
			}
		}
	}
}

// One cup of fluid milk weighs 244 g (USDA weights: whole milk, 1 cup), and instant
// coffee is counted with 30 mg caffeine a gram.
func TestCounts(t *testing.T) {
	tab := load(t)
	milk, coffee := food(t, tab, "01077"), food(t, tab, "14214")
	if got := 244 * milk.Counts(kinds.CupEq); got < 0.97 || got > 1.03 {
		t.Errorf("244 g of milk count %g cups, want 1", got)
	}
	if got := coffee.Counts(kinds.MgCaffeine); got != 30 {
		t.Errorf("a gram of instant coffee counts %g mg caffeine, want 30", got)
	}
	if got := milk.Counts("days"); got != 0 {
		t.Errorf("milk counts %g days", got)
	}
}

func TestReadKindCaps(t *testing.T) {
	tab, other := load(t), load(t)
	if _, err := tab.ReadKindCaps("own.csv", strings.NewReader("kind,measure,value\noats,day,33\n")); err != nil {
		t.Fatal(err)
	}
	p := person()
	has := func(tab *Table) bool {
		return slices.ContainsFunc(tab.KindCaps(&p), func(c kinds.Cap) bool { return c.Kind == "oats" && c.Measure == kinds.Day && c.Value == 33 })
	}
	if !has(tab) || has(other) {
		t.Errorf("oats at 33 g: %v in this table, %v in another", has(tab), has(other))
	}
}

// Whom a cap on a kind of food is about: each state and condition brings its own rows of
// kind_caps.csv, and no other person has them.
func TestKindCapsOfWhom(t *testing.T) {
	tab := load(t)
	cap := func(p nutrients.Person, kind, measure string) (float64, bool) {
		for _, c := range tab.KindCaps(&p) {
			if c.Kind == kind && string(c.Measure) == measure {
				return c.Value, true
			}
		}
		return 0, false
	}
	for _, test := range []struct {
		name          string
		p             nutrients.Person
		kind, measure string
		value         float64
		binds         bool
	}{
		{"pregnant", person(in("pregnant-1")), "liver pate", "week", 0, true},
		{"nursing", person(in("lactating-1")), "caffeine foods", "day", 200, true},
		{"kidney disease", person(with(nutrients.KidneyDisease)), "candy", "day", 0, true},
		{"kidney disease and another", person(with(nutrients.Coeliac), with(nutrients.KidneyDisease)), "dried fruit", "day", 20, true},
		{"low sodium", person(with(nutrients.LowSodium)), "stock cubes", "day", 0, true},
		{"diabetes", person(with(nutrients.Diabetes1)), "fruit juice", "day", 125, true},
		{"kidney disease under one year", person(months(11), with(nutrients.KidneyDisease)), "candy", "day", 0, false},
	} {
		got, ok := cap(test.p, test.kind, test.measure)
		if test.binds && (!ok || got != test.value) {
			t.Errorf("%s: %s a %s %g, %v, want %g (kind_caps.csv)", test.name, test.kind, test.measure, got, ok, test.value)
		}
		if other, ok2 := cap(person(), test.kind, test.measure); test.binds && ok2 && other <= test.value {
			t.Errorf("%s a %s binds everybody to %g, not only the %s", test.kind, test.measure, other, test.name)
		}
		if !test.binds && ok && got == test.value {
			t.Errorf("%s: %s a %s is held to %g", test.name, test.kind, test.measure, got)
		}
	}
}
