package rules

import (
	"testing"

	"rationwright/foods"
	"rationwright/solver/ration"
)

// The last day of a plan that begins on 25 November, worked by hand from the
// calendar: the day of a date is the last good one, so food of the 25th may be
// eaten on day 1 and food of the 24th not at all (day 0). What is open keeps the
// day on which it was opened and each further 24 hours whole: 24 h are that day,
// 48 h the next as well. The earlier of both ends holds.
func TestLastDay(t *testing.T) {
	for _, c := range []struct {
		before, opened string
		hours          float64
		want           int
		known          bool
	}{
		{"2026-11-23", "", 0, -1, true},
		{"2026-11-24", "", 0, 0, true},
		{"2026-11-25", "", 0, 1, true},
		{"2026-11-26", "", 0, 2, true},
		{"2026-12-07", "", 0, 13, true},
		{"2026-12-08", "", 0, 14, true}, // the last day of a fortnight
		{"2026-12-09", "", 0, 15, true},
		{"2028-02-29", "", 0, 462, true}, // 36 days to the end of 2026, 365, 31 and 29 of 2028, the 25th itself the first
		{"", "", 0, 0, false},
		{"", "2026-11-24", 24, 0, true},
		{"", "2026-11-25", 24, 1, true},
		{"", "2026-11-25", 2, 1, true},
		{"", "2026-11-24", 47, 0, true},
		{"", "2026-11-24", 48, 1, true},
		{"", "2026-11-25", 72, 3, true},
		{"2026-11-26", "2026-11-25", 72, 2, true},
		{"2026-11-30", "2026-11-25", 72, 3, true},
	} {
		line := foods.StockLine{BestBefore: c.before, Opened: c.opened, Pack: &foods.Pack{Food: &foods.Food{Keeping: &foods.Keeping{AfterOpenHours: c.hours}}}}
		if day, ok := LastDay(&ration.Request{Start: "2026-11-25", Days: 14}, line); day != c.want && c.known || ok != c.known {
			t.Errorf("good to %q, opened on %q, keeps %g h: day %d, %v, want %d, %v", c.before, c.opened, c.hours, day, ok, c.want, c.known)
		}
	}
}
