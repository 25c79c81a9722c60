package menu

import (
	"testing"

	"rationwright/foods"
	"rationwright/solver/ration"
)

// TestHowLongAnOpenPackKeeps: what is open is said to keep until the meal at which the last of
// it is eaten: this meal, a later one by its name, or the evening of a later day, which is
// counted on from the day of the plan from which the menu is made.
func TestHowLongAnOpenPackKeeps(t *testing.T) {
	beans := &foods.Food{Name: "beans", Keeping: &foods.Keeping{AfterOpenHours: 48, AfterOpenBasis: "safety"}}
	pack := opened{pack: &foods.Pack{Key: "beans-400g-can", Food: beans}}
	for _, c := range []struct {
		fromDay  int
		at, last int // positions in the menu
		want     string
	}{
		{1, 0*meals + atMidday, 0*meals + atMidday, "this meal"},
		{1, 0*meals + atMidday, 0*meals + atEvening, "evening"},
		{1, 0*meals + atBreakfast, 0*meals + atAfternoon, "afternoon snack"},
		{1, 0*meals + atMidday, 1*meals + atEvening, "the evening of day 2"},
		{1, 3*meals + atEvening, 5*meals + atEvening, "the evening of day 6"},
		{3, 0*meals + atMidday, 0*meals + atEvening, "evening"},
		{3, 0*meals + atMidday, 1*meals + atEvening, "the evening of day 4"},
		{9, 2*meals + atMidday, 3*meals + atEvening, "the evening of day 12"},
	} {
		s := &stocked{food: beans, days: 2, openings: []*opening{{from: c.at, last: c.last}}}
		h := &household{days: 6, of: map[*foods.Food]*stocked{beans: s}}
		w := &writer{h: h, layout: make(layout, 6*meals), menu: &Menu{FromDay: c.fromDay}}
		m := w.meal(c.at, nil, []opened{pack})
		if len(m.Keeps) != 1 || m.Keeps[0].Until != c.want || m.Keeps[0].Pack != "beans-400g-can" || !m.Keeps[0].Safety {
			t.Errorf("from day %d, opened at %d, last eaten at %d: %+v, want until %q", c.fromDay, c.at, c.last, m.Keeps, c.want)
		}
		s.days = 6 // for all days of the menu: nothing is said
		if m := w.meal(c.at, nil, []opened{pack}); len(m.Keeps) != 0 {
			t.Errorf("what keeps all days: %+v", m.Keeps)
		}
	}
}

// TestDaysOfAMenu: the days of a menu are numbered and dated from the day of the plan from
// which it is made; the plan begins on the 25th of November.
func TestDaysOfAMenu(t *testing.T) {
	for _, c := range []struct {
		fromDay     int
		first, last string
		lastDay     int
	}{{1, "2026-11-25", "2026-11-28", 4}, {2, "2026-11-26", "2026-11-29", 5}, {8, "2026-12-02", "2026-12-05", 11}} {
		req := &Request{Plan: &ration.Plan{Days: 4}, Of: &ration.Request{Start: "2026-11-25", Table: &foods.Table{}}, FromDay: c.fromDay}
		days := written(newHousehold(req), req, make(layout, 4*meals), nil).Days
		if len(days) != 4 || days[0].Day != c.fromDay || days[0].Date != c.first || days[3].Day != c.lastDay || days[3].Date != c.last {
			t.Errorf("from day %d: %+v, want day %d, %s, to day %d, %s", c.fromDay, days, c.fromDay, c.first, c.lastDay, c.last)
		}
	}
}
