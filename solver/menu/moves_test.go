package menu

import (
	"context"
	"math"
	"slices"
	"testing"

	"rationwright/solver/simplex"
)

// TestPacksAreMoved: three packs are opened at one meal, and each at a meal after the first
// costs 10 there: they end at three meals. Another food's packs, two at a meal where they
// cost nothing, stay.
func TestPacksAreMoved(t *testing.T) {
	p := &hosting{program: &program{}}
	place := func(all, meal int, free, cost float64) {
		z := p.col(0, 3)
		p.Set(all, z, 1)
		over := p.goal(math.Inf(-1), free, cost)
		p.Set(over, z, 1)
		p.opens = append(p.opens, packsAt{t: meal, col: z, all: all})
	}
	beans, fish := p.row(3, 3), p.row(2, 2)
	for meal := range 4 {
		place(beans, meal, 1, 10)
	}
	place(fish, 0, 2, 10)
	place(fish, 1, 0, 10)
	s, err := simplex.New(p.problem())
	if err != nil {
		t.Fatal(err)
	}
	for i, packs := range []float64{3, 0, 0, 0, 2, 0} {
		s.SetBounds(p.opens[i].col, packs, packs)
	}
	r := s.Solve(context.Background(), simplex.Limits{})
	if r.Status != simplex.Optimal || r.Value != 20 {
		t.Fatalf("%v, costs %g, want 20", r.Status, r.Value)
	}
	x := p.moved(context.Background(), s, r)
	var got []float64
	for _, v := range p.opens {
		got = append(got, x[v.col])
	}
	slices.Sort(got[:4])
	if want := []float64{0, 1, 1, 1, 2, 0}; !slices.Equal(got, want) {
		t.Errorf("packs at the meals, those of beans sorted: %v, want %v", got, want)
	}
}

// TestOverMost: of 300 g in two servings of at most 100 g, one of which costs a tenth less
// a gram, that one is let to 140 g, and what is beyond that costs more in either.
func TestOverMost(t *testing.T) {
	p := &program{}
	all := p.row(300, 300)
	var cols []int
	for _, cost := range []float64{0.9, 1} {
		row := p.row(math.Inf(-1), 100)
		p.overMost(row, 100, cost)
		j := p.col(0, inf)
		p.Set(all, j, 1)
		p.Set(row, j, 1)
		cols = append(cols, j)
	}
	for _, c := range []struct{ grams, first float64 }{{230, 130}, {260, 140}} {
		s, err := simplex.New(p.problem())
		if err != nil {
			t.Fatal(err)
		}
		s.SetRowBounds(all, c.grams, c.grams)
		r := s.Solve(context.Background(), simplex.Limits{})
		if r.Status != simplex.Optimal || math.Abs(r.X[cols[0]]-c.first) > 1e-6 {
			t.Errorf("of %g g: %v, %g g in the cheaper one, want %g", c.grams, r.Status, r.X[cols[0]], c.first)
		}
	}
}

// TestMealsInRounds: each of eight days has one meal before any has two, and the first two
// are four days apart, the next two between them.
func TestMealsInRounds(t *testing.T) {
	var list []int
	for d := range 8 {
		list = append(list, d*meals+atMidday, d*meals+atEvening)
	}
	got := inRounds(list)
	var days []int
	for i, at := range got {
		days = append(days, dayOf(at))
		if want := atMidday; i < 8 && mealOf(at) != want {
			t.Errorf("place %d is meal %d, want %d", i, mealOf(at), want)
		}
	}
	once := []int{0, 4, 2, 6, 1, 5, 3, 7} // bits reversed: the sequence of van der Corput in base 2
	if want := append(slices.Clone(once), once...); !slices.Equal(days, want) {
		t.Errorf("days %v, want %v", days, want)
	}
}
