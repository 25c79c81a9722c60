package menu

import (
	"math"
	"testing"

	"rationwright/foods"
)

// TestFeedDays: all milk is fed, out of what is opened on the day, and every pack is opened;
// where a day needs a little over its bottles, the days differ by less than a bottle.
func TestFeedDays(t *testing.T) {
	for _, c := range []struct {
		days, packs int
		net, grams  float64
	}{
		{7, 24, 206, 4343.3}, // a day needs 3.01 bottles
		{14, 56, 206, 11000},
		{14, 47, 206, 14 * 620.5},
		{3, 3, 946, 1800},
	} {
		s := &stocked{food: &foods.Food{}, grams: c.grams, feed: true}
		for range c.packs {
			s.packs = append(s.packs, opened{&foods.Pack{NetG: c.net}, noDate})
		}
		packs, fed := 0, 0.0
		least, most := inf, 0.0
		for d, day := range s.feedDays(c.days) {
			grams := day.part * c.grams
			packs += len(day.packs)
			fed += grams
			least, most = min(least, grams), max(most, grams)
			if grams > contentOf(day.packs)+1e-6 {
				t.Errorf("%v: day %d feeds %.2f g of %.2f g", c, d+1, grams, contentOf(day.packs))
			}
		}
		if packs != c.packs || math.Abs(fed-c.grams) > 1e-6*c.grams {
			t.Errorf("%v: %d packs opened, %.2f g fed", c, packs, fed)
		}
		if most-least > c.net {
			t.Errorf("%v: from %.1f to %.1f g a day", c, least, most)
		}
	}
}
