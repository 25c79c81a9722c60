package ration_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// A request at each limit is built; one more is refused with the way out. The README
// says the limits: 60 rows of people, 1,000 foods and 20,000 of people times foods.
func TestSizeOfARequest(t *testing.T) {
	all := rationtest.Table(t)
	for _, c := range []struct {
		people, foods int
		says          string // "" where it is built
	}{
		{60, 333, ""}, // 19,980
		{61, 200, "count"},
		{60, 334, "times"}, // 20,040
		{20, 1000, ""},
		{1, 1001, "foods"},
	} {
		req := &ration.Request{People: rationtest.Crowd(c.people), Table: rationtest.MoreFoods(all, c.foods), Start: "2026-11-25"}
		_, err := model.Build(req)
		switch {
		case c.says == "" && err != nil:
			t.Errorf("%d people, %d foods: %v", c.people, c.foods, err)
		case c.says != "" && (!errors.Is(err, ration.ErrTooLarge) || !strings.Contains(err.Error(), c.says)):
			t.Errorf("%d people, %d foods: %v, want a refusal that says %q", c.people, c.foods, err, c.says)
		}
	}
}

// The command contract: two weeks, within 1 %, in 10 s; at most a year.
func TestWhatASilentRequestMeans(t *testing.T) {
	r := ration.Filled(&ration.Request{Table: rationtest.Table(t)})
	if r.Days != 14 || r.Within != 0.01 || r.Time != 10*time.Second || ration.MostDays != 365 {
		t.Errorf("%d days, within %g, in %v; at most %d days", r.Days, r.Within, r.Time, ration.MostDays)
	}
}
