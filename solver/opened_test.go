package solver

import (
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// The last day of an open pack is the same in a plan and in the rotation of
// the store: opened on 5 January, 24 h open are 5 January in both, 48 h the 6th.
func TestOpenPackHasOneLastDay(t *testing.T) {
	start := time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC)
	for _, test := range []struct {
		hours float64
		want  string
	}{{2, "2026-01-05"}, {23, "2026-01-05"}, {24, "2026-01-05"}, {47, "2026-01-05"}, {48, "2026-01-06"}, {168, "2026-01-11"}} {
		keeping := &foods.Keeping{AfterOpenHours: test.hours, AfterOpenBasis: "safety"}
		pack := &foods.Pack{Key: "test", Food: &foods.Food{Keeping: keeping}}
		day, ok := rules.LastDay(&ration.Request{Start: "2026-01-05", Days: 14}, foods.StockLine{Pack: pack, Count: 1, Opened: "2026-01-05"})
		if got := start.AddDate(0, 0, day-1).Format(time.DateOnly); !ok || got != test.want {
			t.Errorf("%g h: a plan eats it until %s, want %s", test.hours, got, test.want)
		}
		due, err := (&stores.Batch{Opened: "2026-01-05", Keeping: keeping}).DueOn(start, 21)
		if got := due.Day.Format(time.DateOnly); err != nil || !due.Known || got != test.want {
			t.Errorf("%g h: the rotation uses it until %s (%v), want %s", test.hours, got, err, test.want)
		}
	}
}
