package check

import (
	"testing"

	"rationwright/solver/ration"
)

// TestProbesOfDays: whatever is asked and however long a stock lasts, 0 to 365 days, each day
// that is tried lies between one that fits and one that does not, so that it is never past
// what a horizon may be; the days asked and twice as many come first where they may matter.
func TestProbesOfDays(t *testing.T) {
	for _, asked := range []int{1, 2, 7, 14, 100, 182, 183, 200, ration.MostDays} {
		for lasts := 0; lasts <= ration.MostDays; lasts++ {
			s := span{fits: 0, fails: ration.MostDays + 1}
			tries := 0
			for ; !s.settled(); tries++ {
				mid := nextProbe(s.fits, s.fails, asked)
				if mid <= s.fits || mid >= s.fails || tries > 20 {
					t.Fatalf("asked %d, lasts %d: between %d, which fits, and %d day %d is tried as number %d", asked, lasts, s.fits, s.fails, mid, tries+1)
				}
				if mid <= lasts {
					s.fits = mid
				} else {
					s.fails = mid
				}
			}
			if s.fits != lasts {
				t.Fatalf("asked %d: lasts %d days, %d found", asked, lasts, s.fits)
			}
		}
		if first := nextProbe(0, ration.MostDays+1, asked); first != min(asked, 183) {
			t.Errorf("asked %d days: %d are tried first", asked, first)
		}
	}
	if got := nextProbe(14, ration.MostDays+1, 14); got != 28 {
		t.Errorf("after the 14 days asked %d are tried, want 28", got)
	}
}
