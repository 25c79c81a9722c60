package menu

import (
	"math"

	"rationwright/foods"
	"rationwright/solver/model"
)

// mealHours is the hours that a pack keeps once opened, under which it is finished at the
// same meal: the shortest way between two meals is three hours. Up to [model.DayHours] it is
// finished within the day, from there on within whole days.
const mealHours = 3

// open says how the packs of s are opened. What keeps all days is opened when the
// pack before it is empty; everything else in openings.
func (h *household) open(s *stocked) {
	hours := 0.0
	if s.food.Keeping != nil {
		hours = s.food.Keeping.AfterOpenHours
	}
	whole := int(hours / model.DayHours)
	switch {
	case len(s.packs) == 0 || whole >= h.days || s.feed:
		s.days = h.days
	case hours > model.DayHours:
		s.days = whole
		h.openInTurn(s)
	default:
		s.meal = hours < mealHours
		s.group(h.openingsNeeded(s))
	}
}

// group puts the packs of s into n openings of like content, in order of their dates.
func (s *stocked) group(n int) {
	total := contentOf(s.packs)
	s.openings = nil
	next := 0
	for k := range n {
		o := &opening{from: -1, last: -1}
		left := len(s.packs) - next - (n - k - 1) // each later one needs a pack
		for ; left > 0 && (len(o.packs) == 0 || k == n-1 || o.grams+s.packs[next].pack.NetG/2 < total/float64(n-k)); left-- {
			o.packs = append(o.packs, s.packs[next])
			o.grams += s.packs[next].pack.NetG
			next++
		}
		total -= o.grams
		s.openings = append(s.openings, o)
	}
}

// readyShare is how much of what all may eat at a sitting is taken for granted when
// openings are counted: nobody is to eat the most at every sitting.
const readyShare = 0.75

// openingsNeeded is the fewest openings in which everyone can eat their share of s
// with no one over what is eaten at a sitting, or in a day for what keeps a day.
func (h *household) openingsNeeded(s *stocked) int {
	n, together := 1.0, 0.0
	for _, e := range h.eaters {
		if !e.eats(s.food) {
			continue
		}
		most := e.mostOf(s)
		n = max(n, math.Ceil(e.grams[s.food]/most))
		together += e.count * most
	}
	n = max(n, math.Round(s.grams/(readyShare*together)))
	places := h.days
	if s.meal {
		places *= meals
	}
	most := float64(min(len(s.packs), places))
	return int(min(n, most))
}

// mostOf is the most of s that e eats from one opening of it, in g.
func (e *eater) mostOf(s *stocked) float64 {
	occasion, day, _ := foods.Cap(e.person, s.food)
	if !s.meal {
		occasion = day
	}
	if occasion <= 0 {
		occasion = s.grams
	}
	return math.Min(occasion, e.dayMost(s.food))
}

// keepsTheDay reports whether what is opened of s for breakfast keeps until the evening.
func (s *stocked) keepsTheDay() bool {
	return !s.meal && s.food.Keeping != nil && clock[atBreakfast].hour+s.food.Keeping.AfterOpenHours >= clock[atEvening].hour
}

// openInTurn opens the packs of s, which keep some days but not all, one behind the
// other over the days.
func (h *household) openInTurn(s *stocked) {
	n := min(len(s.packs), h.days)
	if s.days*n > h.days { // as few as cover all days, where that takes all packs
		n = min(n, max(1, int(math.Ceil(float64(h.days)/float64(s.days)))))
	}
	s.group(n)
	for k, o := range s.openings {
		first := k * h.days / n
		end := min((k+1)*h.days/n, first+s.days)
		o.from, o.last = first*meals, end*meals-1
	}
}

// within returns the opening of s out of which is eaten at position t, nil when
// there is none.
func (s *stocked) within(t int) *opening {
	for _, o := range s.openings {
		if o.from >= 0 && o.from <= t && t <= o.last {
			return o
		}
	}
	return nil
}
