package menu

import (
	"math"
	"slices"
	"testing"

	"rationwright/foods"
)

// TestPartiesTakeEverything: of many people each is in one party, no party is larger than
// it may be, and what the parties have of an opening is what is in it.
func TestPartiesTakeEverything(t *testing.T) {
	for _, people := range []int{1, 8, 9, 17, 60} {
		h := &household{days: 14}
		all, few := &stocked{food: &foods.Food{NDB: "1"}}, &stocked{food: &foods.Food{NDB: "2"}}
		h.foods = []*stocked{all, few}
		for i := range people {
			e := &eater{count: float64(1 + i%3), grams: map[*foods.Food]float64{all.food: float64(100 + i)}}
			if i == 0 {
				e.grams[few.food] = 50
			}
			for _, s := range h.foods {
				s.grams += e.count * e.grams[s.food]
			}
			h.eaters = append(h.eaters, e)
		}
		all.openings, few.openings = []*opening{{grams: 400}, {grams: 300}}, []*opening{{grams: 50}}
		seen := map[*eater]int{}
		had := map[*opening]float64{}
		for _, party := range h.parties() {
			if len(party) > partyMost {
				t.Errorf("%d people: a party of %d", people, len(party))
			}
			for _, e := range party {
				seen[e]++
			}
			for o, grams := range portion(h.foods, party) {
				had[o] += grams
			}
		}
		for i, e := range h.eaters {
			if seen[e] != 1 {
				t.Errorf("%d people: number %d is in %d parties", people, i, seen[e])
			}
		}
		for _, s := range h.foods {
			for _, o := range s.openings {
				if math.Abs(had[o]-o.grams) > 1e-9*o.grams {
					t.Errorf("%d people: the parties have %g g of %g g", people, had[o], o.grams)
				}
			}
		}
	}
}

// TestStandInsEatEverything: those who stand for many eat together what the many eat, and
// are no more than a party.
func TestStandInsEatEverything(t *testing.T) {
	a, b := &foods.Food{NDB: "1"}, &foods.Food{NDB: "2"}
	h := &household{days: 14}
	want := map[*foods.Food]float64{}
	for i := range 21 {
		e := &eater{count: float64(1 + i%2), size: 1, grams: map[*foods.Food]float64{a: float64(10 * i)}}
		if i%5 == 0 {
			e.grams[b] = 7
		}
		for f, grams := range e.grams {
			want[f] += e.count * grams
		}
		h.eaters = append(h.eaters, e)
	}
	dish := &choice{}
	l := make(layout, 14*meals)
	l[0].instead = map[*eater]*choice{h.eaters[3]: dish}
	l[2].own = []ownDish{{h.eaters[3], dish}}
	few, table := h.standIns(l)
	if len(few.eaters) != partyMost {
		t.Errorf("%d stand for 21", len(few.eaters))
	}
	for f, grams := range want {
		got := 0.0
		for _, e := range few.eaters {
			got += e.count * e.grams[f]
		}
		if math.Abs(got-grams) > 1e-9*grams {
			t.Errorf("food %s: they eat %g g, the many %g g", f.NDB, got, grams)
		}
	}
	for k := range table { // nobody but those who stand for them has a dish of their own
		for e := range table[k].instead {
			if !slices.Contains(few.eaters, e) {
				t.Errorf("meal %d: somebody who is not there has another dish", k)
			}
		}
		for _, o := range table[k].own {
			if !slices.Contains(few.eaters, o.eater) {
				t.Errorf("meal %d: somebody who is not there has an own dish", k)
			}
		}
	}
	if len(h.eaters) != 21 || l[0].instead[h.eaters[3]] != dish {
		t.Error("the household or its layout is changed")
	}
}
