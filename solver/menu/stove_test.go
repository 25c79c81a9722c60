package menu

import (
	"testing"

	"rationwright/foods/dishes"
)

// TestColdDaysDoNotRun: with one cold dish for two cold days on end, it stands on one of
// them, and the household has none on the other.
func TestColdDaysDoNotRun(t *testing.T) {
	cold := &candidate{dish: &dishes.Dish{Key: "cold", Cooking: "none", Slots: []dishes.Slot{dishes.Midday}, TimesMax: 7}, cold: true}
	hot := &choice{candidate: &candidate{dish: &dishes.Dish{Key: "hot", Cooking: "boil", Slots: []dishes.Slot{dishes.Midday}}}}
	h := &household{days: 4, cold: map[int]bool{1: true, 2: true}}
	l := make(layout, h.days*meals)
	l[1*meals+atMidday].main, l[2*meals+atMidday].main = hot, hot
	h.chill(l, []*candidate{cold})
	n := 0
	for t := range l {
		if l[t].main != nil && l[t].main.dish == cold.dish {
			n++
		}
	}
	if n != 1 || l[1*meals+atMidday].main == hot || l[2*meals+atMidday].main == hot {
		t.Errorf("the cold dish stands %d times on two cold days on end, want once and no hot one", n)
	}
}

// TestMostCold: on how many of the cold days one dish can stand, never on two running.
func TestMostCold(t *testing.T) {
	for _, c := range []struct {
		days []int
		want float64
	}{{nil, 0}, {[]int{3}, 1}, {[]int{3, 4}, 1}, {[]int{3, 4, 5}, 2}, {[]int{3, 4, 6, 7}, 2}, {[]int{0, 13}, 2}} {
		cold := map[int]bool{}
		for _, d := range c.days {
			cold[d] = true
		}
		if got := mostCold(cold, 14); got != c.want {
			t.Errorf("cold days %v: %g times, want %g", c.days, got, c.want)
		}
	}
}
