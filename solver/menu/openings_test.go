package menu

import (
	"testing"

	"rationwright/foods"
)

// TestOpenInTurn: packs that keep some days once open are opened one behind the other;
// none is open for longer than it keeps, no two at once, and where packs reach none of
// the days is without.
func TestOpenInTurn(t *testing.T) {
	for _, c := range []struct{ days, packs, keeps int }{{14, 7, 2}, {14, 14, 2}, {14, 3, 3}, {14, 5, 3}, {7, 2, 4}, {10, 1, 2}, {21, 40, 5}} {
		h := &household{days: c.days}
		s := &stocked{food: &foods.Food{Keeping: &foods.Keeping{AfterOpenHours: 24 * float64(c.keeps)}}}
		for range c.packs {
			s.packs = append(s.packs, opened{&foods.Pack{NetG: 200}, noDate})
		}
		h.open(s)
		if s.days != c.keeps || s.meal {
			t.Errorf("%v: keeps %d days, a meal only %v", c, s.days, s.meal)
		}
		packs, open := 0, make([]int, c.days*meals)
		for _, o := range s.openings {
			packs += len(o.packs)
			if n := o.last - o.from + 1; o.from < 0 || o.from%meals != 0 || n > c.keeps*meals || o.last >= len(open) {
				t.Errorf("%v: open from %d to %d, %d meals a day", c, o.from, o.last, meals)
				continue
			}
			for at := o.from; at <= o.last; at++ {
				open[at]++
			}
		}
		without := 0
		for at, n := range open {
			if n > 1 {
				t.Errorf("%v: %d openings at once at %d", c, n, at)
			}
			if n == 0 {
				without++
			}
		}
		if want := max(0, c.days-c.packs*c.keeps) * meals; packs != c.packs || without > want && c.packs*c.keeps >= c.days {
			t.Errorf("%v: %d packs opened, %d meals without, want %d", c, packs, without, want)
		}
	}
}

// TestOpenByTheHour: what keeps under three hours is finished at its meal, what keeps a
// day within the day, and what keeps all days is in no openings.
func TestOpenByTheHour(t *testing.T) {
	for _, c := range []struct {
		hours    float64
		meal     bool
		days     int
		openings bool
	}{{2, true, 0, true}, {2.9, true, 0, true}, {3, false, 0, true}, {24, false, 0, true}, {25, false, 1, true}, {48, false, 2, true}, {24*14 - 1, false, 13, true}, {24 * 14, false, 14, false}} {
		h := &household{days: 14}
		s := &stocked{food: &foods.Food{Keeping: &foods.Keeping{AfterOpenHours: c.hours}}, packs: []opened{{&foods.Pack{NetG: 200}, noDate}}, grams: 200}
		h.open(s)
		if s.meal != c.meal || s.days != c.days || (len(s.openings) > 0) != c.openings {
			t.Errorf("keeps %g h: a meal only %v, %d days, %d openings, want %+v", c.hours, s.meal, s.days, len(s.openings), c)
		}
	}
}

// TestWhatNobodyEatsStaysClosed: a carton from which nobody has anything is said to stay
// closed; it was opened at a meal that was then not written, so that it was nowhere.
func TestWhatNobodyEatsStaysClosed(t *testing.T) {
	o := &opening{from: atMorning, last: atMorning, packs: []opened{{pack: &foods.Pack{Key: "milk-1l-carton"}}}}
	milk := &stocked{food: &foods.Food{Name: "milk"}, meal: true, openings: []*opening{o}}
	maja := &eater{name: "Maja", count: 1}
	for _, grams := range []float64{0, 200} {
		w := writer{h: &household{days: 1, foods: []*stocked{milk}}, layout: make(layout, meals), menu: &Menu{}}
		at := w.opens([]serving{{eater: maja, t: atMorning, food: milk, grams: grams}})
		opened, closed := len(at[atMorning]), 0
		for _, l := range w.menu.Leftovers {
			closed += l.Count
		}
		if want := map[float64]int{200: 1}[grams]; opened != want || closed != 1-want {
			t.Errorf("%g g drunk: %d opened, %d stay closed", grams, opened, closed)
		}
	}
}
