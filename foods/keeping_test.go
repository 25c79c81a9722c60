package foods

import (
	"testing"
	"time"
)

// What keeps 24 h once open and was opened on 5 January, at an hour that nobody
// wrote down, is safe on 5 January only: opened just after midnight it is past
// its time on the 6th. Each limit with a near miss on both sides.
func TestLastOpenDay(t *testing.T) {
	opened := time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC)
	for _, test := range []struct {
		hours float64
		want  string
	}{
		{0, "2026-01-05"}, {2, "2026-01-05"}, {23, "2026-01-05"}, {24, "2026-01-05"}, {25, "2026-01-05"}, {47, "2026-01-05"},
		{48, "2026-01-06"}, {71, "2026-01-06"}, {72, "2026-01-07"}, {168, "2026-01-11"}, {720, "2026-02-03"},
	} {
		k := &Keeping{AfterOpenHours: test.hours}
		last := k.LastOpenDay(opened)
		if got := last.Format(time.DateOnly); got != test.want {
			t.Errorf("%g h: last day %s, want %s", test.hours, got, test.want)
		}
		// Eaten at the end of the last day, opened at the start of the first.
		if end := last.AddDate(0, 0, 1); test.hours >= 24 && end.Sub(opened).Hours() > test.hours {
			t.Errorf("%g h: the last day ends %.0f h after opening", test.hours, end.Sub(opened).Hours())
		}
	}
	var none *Keeping
	if got := none.LastOpenDay(opened); !got.Equal(opened) {
		t.Errorf("without a rule: %v, want the day of opening", got)
	}
}
