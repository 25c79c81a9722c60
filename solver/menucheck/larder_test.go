package menucheck_test

import (
	"slices"
	"testing"

	"rationwright/foods"
	"rationwright/solver/menucheck"
	"rationwright/solver/ration"
)

// TestGramsOfThePlan: what is eaten is what the plan gives to a thousandth of it, of each food
// and person; of what it does not give nothing, and as many days as it has.
func TestGramsOfThePlan(t *testing.T) {
	for _, c := range []struct {
		first, second float64 // g of rice of 100 g
		sugar         float64 // not in the plan
		days          int
		sums, theirs  int
	}{{60, 40, 0, 2, 0, 0}, {60, 40.09, 0, 2, 0, 0}, {60, 40.11, 0, 2, 1, 0}, {60, 39.91, 0, 2, 0, 0}, {60, 39.89, 0, 2, 1, 0}, {60, 40, 1, 2, 0, 1}, {60, 40, 0, 3, 1, 0}, {100, 0, 0, 2, 0, 0}} {
		s := newSmall(t, 2)
		s.plan.Days = c.days
		s.plan.People[0].Foods = []ration.PersonFood{{Food: s.food(rice).Name, Grams: 100}}
		s.meal(1, "midday", 13, nil, nil, s.eats(rice, c.first, ""))
		s.meal(2, "midday", 13, nil, nil, s.eats(rice, c.second, ""), s.eats("sugar-454g-bag", c.sugar, "")) // no grams are not a food that is theirs
		if c.sugar == 0 {
			s.plan.People[0].Foods = append(s.plan.People[0].Foods, ration.PersonFood{Food: s.food("sugar-454g-bag").Name, Grams: 0})
		}
		if got := s.found(menucheck.Sums); len(got) != c.sums {
			t.Errorf("%+v: sums off by %v", c, got)
		}
		if got := s.found(menucheck.NotTheirs); len(got) != c.theirs || c.theirs > 0 && s.whose[0] != "A" {
			t.Errorf("%+v: not theirs %v", c, got)
		}
	}
}

// TestOutOfTheOldestPack: of two cans that keep 48 hours, one opened on the first and one on the
// third day, what is eaten comes out of the first while it is good. 100 g more than is open is
// not opened; where all that is lacking is in the stale can it is spoiled. Milk is fed from
// half past seven on.
func TestOutOfTheOldestPack(t *testing.T) {
	const can = "tomatoes-411g-can"
	for _, c := range []struct {
		name               string
		first, third, late float64 // g, on the first day, the third at the hour of the first, half an hour later
		opens              int     // on the third day
		spoiled, notOpened int
	}{
		{"all of one can", 411, 0, 0, 0, 0, 0}, {"in two days", 200, 211, 0, 0, 0, 0}, {"too late", 200, 0, 211, 0, 1, 0},
		{"too late, and more than there was", 200, 0, 311, 0, 0, 1}, {"out of the second", 200, 211, 411, 1, 0, 0}, {"more than both", 200, 211, 412, 1, 0, 1}, {"more than one", 412, 0, 0, 0, 0, 1},
	} {
		s := newSmall(t, 4)
		f := s.food(can)
		if f.Keeping == nil || f.Keeping.AfterOpenHours != 24 && f.Keeping.AfterOpenHours >= 48 {
			t.Fatal("tomatoes keep otherwise: the test shows nothing")
		}
		day := 1 + int(f.Keeping.AfterOpenHours/24)
		at := 8 + f.Keeping.AfterOpenHours - 24*float64(day-1)
		for day > 4 || at > 23 {
			t.Fatal("tomatoes keep too long for the test")
		}
		s.plan.Packs = []ration.PlanPack{{Pack: can, Count: 1 + c.opens}}
		s.meal(1, "breakfast", 8, nil, []string{can}, s.eats(can, c.first, ""))
		var opens []string
		for range c.opens {
			opens = append(opens, can)
		}
		s.meal(day, "a meal", at, nil, opens, s.eats(can, c.third, ""))
		s.meal(day, "a later meal", at+0.5, nil, nil, s.eats(can, c.late, ""))
		if got := s.found(menucheck.Spoiled); len(got) != c.spoiled {
			t.Errorf("%s: spoiled %v", c.name, got)
		}
		if got := s.found(menucheck.NotOpened); len(got) != c.notOpened {
			t.Errorf("%s: not opened %v", c.name, got)
		}
	}
}

// TestPacksByTheirDates: of packs alike those that expire first are opened first: of three
// with dates of the first and the third day and none, opened on the first, third and fourth,
// none is late; opened a day later, each of the two with a date is.
func TestPacksByTheirDates(t *testing.T) {
	for _, c := range []struct {
		days []int
		want []float64 // days late
	}{{[]int{1, 3, 4}, nil}, {[]int{2, 3, 4}, []float64{1}}, {[]int{2, 5, 5}, []float64{1, 2}}, {[]int{1, 1, 5}, nil}} {
		s := newSmall(t, 5)
		for d := range s.days {
			s.days[d]["date"] = []string{"2026-01-05", "2026-01-06", "2026-01-07", "2026-01-08", "2026-01-09"}[d]
		}
		for _, d := range c.days {
			s.meal(d, "midday", 13, nil, []string{rice})
		}
		s.ask = func(req *ration.Request) {
			for _, k := range s.table.Packs {
				if k.Key == rice {
					req.Stock = []foods.StockLine{{Pack: k, Count: 1, BestBefore: "2026-01-07"}, {Pack: k, Count: 1}, {Pack: k, Count: 1, BestBefore: "2026-01-05"}}
				}
			}
		}
		if got := s.found(menucheck.Dated); !slices.Equal(got, c.want) {
			t.Errorf("opened on %v: late by %v days, want %v", c.days, got, c.want)
		}
	}
}

// TestFeedsAreMadeInTheMorning: the first feed of a day is made at half past seven: of a milk
// that keeps 24 hours the pack of one day's feeds does for the next day's, not for the
// breakfast at eight of that.
func TestFeedsAreMadeInTheMorning(t *testing.T) {
	for _, c := range []struct {
		hour float64 // on the second day, 0 the feeds
		want int
	}{{0, 0}, {7.5, 0}, {8, 1}} {
		s := newSmall(t, 2)
		var pack string
		for _, k := range s.table.Packs {
			if k.Food.Keeping != nil && k.Food.Keeping.AfterOpenHours == 24 {
				pack = k.Key
			}
		}
		if pack == "" {
			t.Fatal("no food keeps for 24 hours: the test shows nothing")
		}
		s.meal(1, "feeds", 0, nil, []string{pack}, s.eats(pack, 1, ""))
		s.meal(2, "feeds", c.hour, nil, nil, s.eats(pack, 1, ""))
		if got := s.found(menucheck.Spoiled); len(got) != c.want {
			t.Errorf("opened for the feeds of the first day, eaten at %g: %v", c.hour, got)
		}
	}
}

// TestPacksOfNoPlan: a pack that is opened and not in the plan, and one that there is not, are
// found as not opened for it: that is a rule of safety.
func TestPacksOfNoPlan(t *testing.T) {
	for pack, want := range map[string]int{rice: 0, "sugar-454g-bag": 1, "no-such-pack": 2} { // not in the plan, and no pack
		s := newSmall(t, 1)
		s.plan.Packs = []ration.PlanPack{{Pack: rice, Count: 1}}
		s.meal(1, "midday", 13, nil, []string{pack})
		if got := s.found(menucheck.NotOpened); len(got) != want {
			t.Errorf("%s is opened: %v, want %d", pack, got, want)
		}
	}
	for rule, want := range map[menucheck.Rule]bool{menucheck.NotTheirs: true, menucheck.Spoiled: true, menucheck.NotOpened: true, menucheck.Packs: false, menucheck.Cold: false, menucheck.Sums: false} {
		if rule.Safety() != want {
			t.Errorf("%s is a rule of safety: %v", rule, !want)
		}
	}
}
