package foods

import (
	"slices"
	"strings"
	"testing"

	"rationwright/foods/kinds"
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
