package stores

import (
	"math"
	"slices"
	"time"
)

// MonthState is one month of a simulated store of one kind of pack.
type MonthState struct {
	Month  string `json:"month"`  // first day, ISO
	Wasted int    `json:"wasted"` // found out of date at its beginning and thrown away
	Bought int    `json:"bought"` // at its beginning
	Eaten  int    `json:"eaten"`  // in its course, oldest first
	Tight  int    `json:"tight"`  // of Eaten: their day falls inside the month, so they are eaten by it and not just by its end
	Least  int    `json:"least"`  // packs in store at its end, when they are fewest
	Next   string `json:"next"`   // soonest last day of use in store at its end; "" when empty
}

// Simulation is a store of one kind of pack followed month by month.
type Simulation struct {
	Months []MonthState `json:"months"`
	Bought int          `json:"bought"`
	Eaten  int          `json:"eaten"`
	Tight  int          `json:"tight"`
	Wasted int          `json:"wasted"`
	Least  int          `json:"least"` // packs in store at the lowest
	Cost   float64      `json:"cost"`  // of what was bought
}

// Simulate follows the line for months months from start (ISO): at the
// beginning of each month what is out of date is thrown away and the store is
// bought up to the target and to what the month will eat; in its course the
// oldest packs are eaten, by the steady rhythm and as many more as the dates
// of those in store force, but never more than the household eats. A month
// begins on the day of the month of start, at latest on the 28th. The error
// wraps [ErrDay].
func Simulate(l *ProgrammeLine, start string, months int) (Simulation, error) {
	first, err := parseDay(start)
	if err != nil {
		return Simulation{}, err
	}
	item := l.Item
	var store []DatedPacks // by date
	if item.Stock == nil {
		store = add(store, DatedPacks{item.Target, first.AddDate(0, 0, l.KeepDays)})
	}
	for _, d := range item.Stock {
		store = add(store, d)
	}
	s := Simulation{}
	for m := range months {
		begin, end := monthStart(first, m), monthStart(first, m+1)
		state := MonthState{Month: isoDay(begin)}
		for len(store) > 0 && store[0].UseBy.Before(begin) {
			state.Wasted += store[0].Count
			store = store[1:]
		}
		eat := max(l.turned(m), forced(store, item.EatPerMonth, m, first))
		if item.EatPerMonth > 0 {
			// A month behind is made up for, but no month eats more than one can.
			evenly := int(math.Ceil(item.EatPerMonth*float64(m+1)-roundingSlack)) - s.Eaten
			eat = max(0, min(eat, evenly, int(math.Ceil(item.EatPerMonth-roundingSlack))))
		}
		state.Bought = max(0, item.Target+eat-packs(store))
		store = add(store, DatedPacks{state.Bought, begin.AddDate(0, 0, l.KeepDays)})
		for eat > 0 && len(store) > 0 {
			n := min(eat, store[0].Count)
			if store[0].UseBy.Before(end.AddDate(0, 0, -1)) {
				state.Tight += n
			}
			state.Eaten += n
			eat -= n
			if store[0].Count -= n; store[0].Count == 0 {
				store = store[1:]
			}
		}
		state.Least = packs(store)
		if len(store) > 0 {
			state.Next = isoDay(store[0].UseBy)
		}
		if m == 0 || state.Least < s.Least {
			s.Least = state.Least
		}
		s.Months = append(s.Months, state)
		s.Bought += state.Bought
		s.Eaten += state.Eaten
		s.Tight += state.Tight
		s.Wasted += state.Wasted
	}
	s.Cost = float64(s.Bought) * item.Price
	return s, nil
}

// monthStart is the first day of month m from the start.
func monthStart(first time.Time, m int) time.Time {
	if m == 0 {
		return first
	}
	return time.Date(first.Year(), first.Month()+time.Month(m), min(first.Day(), 28), 0, 0, 0, 0, time.UTC)
}

// farMonths is how far ahead a date can force anything: a century.
const farMonths = 1200

// forced returns how many packs must be eaten in month m so that everything in
// store can be eaten by its day with the household eating all it can in later
// months: the largest excess of what is due by the end of a month over what
// the months between can eat.
func forced(store []DatedPacks, eatPerMonth float64, m int, first time.Time) int {
	need, due := 0, 0
	for _, d := range store {
		due += d.Count
		// The last month that ends on the day or before it; when there is none
		// left, this one.
		j := m
		for j-m < farMonths && !monthStart(first, j+2).AddDate(0, 0, -1).After(d.UseBy) {
			j++
		}
		switch {
		case eatPerMonth > 0:
			need = max(need, due-mostEaten(eatPerMonth, m+1, j))
		case j == m:
			need = due
		}
	}
	return need
}

// mostEaten returns the whole packs that a household eating perMonth eats in
// months from to inclusive, counted evenly from the start.
func mostEaten(perMonth float64, from, to int) int {
	if to < from {
		return 0
	}
	return int(math.Floor(perMonth*float64(to+1)+roundingSlack)) - int(math.Floor(perMonth*float64(from)+roundingSlack))
}

// add puts packs into a store that is sorted by date.
func add(store []DatedPacks, d DatedPacks) []DatedPacks {
	if d.Count <= 0 {
		return store
	}
	at := len(store)
	for at > 0 && store[at-1].UseBy.After(d.UseBy) {
		at--
	}
	return slices.Insert(store, at, d)
}

func packs(store []DatedPacks) int {
	n := 0
	for _, d := range store {
		n += d.Count
	}
	return n
}
