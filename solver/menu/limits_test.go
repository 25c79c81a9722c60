package menu

import (
	"context"
	"math"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/rules"
	"rationwright/solver/simplex"
)

// TestLimitsOfPublications: ground flaxseed of a grown man at most 10 g a day (EFSA Journal
// 17(4):5662), fruit juice of a girl of two at most 120 mL, of a boy of nine 240 mL a day
// (AAP 2017), and a man has no limit of juice from a publication.
func TestLimitsOfPublications(t *testing.T) {
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	find := func(ndb string) *foods.Food {
		for _, f := range table.Foods {
			if f.NDB == ndb {
				return f
			}
		}
		t.Fatal("no food", ndb)
		return nil
	}
	flaxseed, juice := find("12220"), find("09210")
	for _, c := range []struct {
		months int
		food   *foods.Food
		want   float64 // g a day, 0: none
	}{{480, flaxseed, 10}, {24, juice, 120}, {108, juice, 240}, {480, juice, 0}} {
		got := 0.0
		for _, l := range rules.Published(table, &nutrients.Person{AgeMonths: c.months, Sex: nutrients.Male}) {
			if per := l.Counts(c.food); l.Days == 1 && per > 0 {
				got = l.Most / per
			}
		}
		if math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s at %d months: at most %g g a day, want %g", c.food.Name, c.months, got, c.want)
		}
	}
}

// TestDayHeldToItsLimit: of 100 g in ten days, at most 12 on a day, 40 are to be had on one
// day and the rest on the other nine: that day is let at 12, unless what else costs more. A
// gram over it costs 0.45 of what it costs not to eat it, and over twice 12 g 0.9 of it.
func TestDayHeldToItsLimit(t *testing.T) {
	f := &foods.Food{Name: "f", Per100g: nutrients.Unknown()}
	f.Per100g[nutrients.Energy] = 247 // under 9 kcal a gram it counts as 9: 0.45 × 500 × 9 = 2025
	e := &eater{grams: map[*foods.Food]float64{f: 100}, limits: []rules.Limit{{Most: 12, Days: 1, Counts: func(*foods.Food) float64 { return 1 }}}}
	for _, c := range []struct{ worth, want float64 }{{2024, 12}, {2026, 24}, {4049, 24}, {4051, 40}} {
		p := &program{}
		list := p.limit(e, 10, 1, leaving)
		all := p.row(100, 100)
		first := p.col(-c.worth, 40)
		p.Set(all, first, 1)
		list.add(p, 0, first, f)
		for d := 1; d < 10; d++ {
			j := p.col(0, inf)
			p.Set(all, j, 1)
			list.add(p, d, j, f)
		}
		s, err := simplex.New(p.problem())
		if err != nil {
			t.Fatal(err)
		}
		r := s.Solve(context.Background(), simplex.Limits{})
		if r.Status != simplex.Optimal || math.Abs(r.X[first]-c.want) > 1e-6 {
			t.Errorf("worth %.0f a g: %v, %g g on the first day, want %g", c.worth, r.Status, r.X[first], c.want)
		}
	}
	if list := (&program{}).limit(&eater{grams: map[*foods.Food]float64{f: 12}, limits: e.limits}, 10, 1, leaving); len(list) != 0 {
		t.Error("12 g in all cannot pass 12 g a day, and has rows")
	}
	if !e.isTight(f, 10) || e.isTight(f, 14) { // 100 of 120, of 168: 0.83, 0.595 of it
		t.Error("100 g of at most 12 a day are tight in ten days, not in fourteen")
	}
}
