package menu

import "rationwright/solver/model"

// feedDay is the milk of infants on one day: the packs opened for it, and what part of all
// the milk is fed.
type feedDay struct {
	packs []opened
	part  float64
}

// fresh reports whether s is milk that does not keep until the next day.
func (s *stocked) fresh() bool {
	return s.feed && (s.food.Keeping == nil || s.food.Keeping.AfterOpenHours < model.DayHours)
}

// feedDays deals the packs of a milk that does not keep until the next day over the days.
// Each day has the same, and what is left over is opened for feeds that are thrown away.
// Where whole packs do not go into the days so, as where a day needs a little over three
// bottles, every day has as many packs as another or one more, and on those with fewer they
// are fed empty.
func (s *stocked) feedDays(days int) []feedDay {
	list := make([]feedDay, days)
	need := s.grams / float64(days)
	next := 0
	for d := range list {
		list[d].part = 1 / float64(days)
		for left := 0.0; left+1e-6 < need && next < len(s.packs); next++ {
			list[d].packs = append(list[d].packs, s.packs[next])
			left += s.packs[next].pack.NetG
		}
	}
	if contentOf(list[days-1].packs)+1e-6 >= need {
		for i, p := range s.packs[next:] {
			list[i%days].packs = append(list[i%days].packs, p)
		}
		return list
	}
	all := 0.0
	for d := range list {
		list[d].packs = s.packs[d*len(s.packs)/days : (d+1)*len(s.packs)/days]
		all += contentOf(list[d].packs)
	}
	if all < s.grams {
		return list
	}
	low, high := 0.0, s.grams // what is fed on a day with enough
	for range 60 {
		level, fed := (low+high)/2, 0.0
		for d := range list {
			fed += min(contentOf(list[d].packs), level)
		}
		if fed < s.grams {
			low = level
		} else {
			high = level
		}
	}
	for d := range list {
		list[d].part = min(contentOf(list[d].packs), high) / s.grams
	}
	return list
}

// contentOf is what is in packs, in g.
func contentOf(packs []opened) float64 {
	sum := 0.0
	for _, p := range packs {
		sum += p.pack.NetG
	}
	return sum
}
