package withmenu

import (
	"math"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/search"
)

// Two of the same needs eat the same: what one may eat the other may, every row of a person
// is a convex one, so that half of what both eat keeps them all. One of another size eats
// by that size where their needs allow it, and what all eat together, the packs and the
// cost stay what they are.
func TestThoseOfAPartyEatAlike(t *testing.T) {
	one, two := rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Astrid", 30, nutrients.Female)
	m, err := model.Build(rationtest.Request(t, one, two))
	if err != nil {
		t.Fatal(err)
	}
	r := search.Run(t.Context(), m.Problem, search.Options{Gap: 0.05, MinDenom: 1, Work: 20_000})
	if r.X == nil {
		t.Fatalf("no point: %s", r.Why)
	}
	party := &model.Party{}
	for _, e := range m.Eaters {
		party.Eaters = append(party.Eaters, e)
	}
	cost := r.Value
	x, err := alike(t.Context(), m, []*model.Party{party}, r.X, cost+1e-6)
	if err != nil {
		t.Fatal(err)
	}
	if broken, err := m.Problem.Check(x, ration.CheckTolerance); err != nil || len(broken) > 0 {
		t.Errorf("broken rows %v, %v", broken, err)
	}
	before, apart := 0.0, 0
	for li, lf := range m.Larder {
		a, inA := m.Eaters[0].Eating(li)
		b, inB := m.Eaters[1].Eating(li)
		if inA != inB {
			t.Fatalf("%s is for one of two alike", lf.Food.Name)
		}
		if !inA {
			continue
		}
		before += math.Abs(r.X[a.Col] - r.X[b.Col])
		if math.Abs(x[a.Col]-x[b.Col]) > 0.01 {
			apart++
			t.Errorf("%s: %.2f and %.2f g", lf.Food.Name, x[a.Col], x[b.Col])
		}
		if sum, was := x[a.Col]+x[b.Col], r.X[a.Col]+r.X[b.Col]; math.Abs(sum-was) > 0.01 {
			t.Errorf("%s: %.2f g together, %.2f before", lf.Food.Name, sum, was)
		}
	}
	if before < 10 {
		t.Errorf("they ate alike to %.1f g before: nothing was tried", before)
	}
	for j := range m.Cols {
		if m.Problem.Cols[j].Integer && math.Abs(x[j]-r.X[j]) > 1e-6 {
			t.Errorf("pack %d: %g, before %g", j, x[j], r.X[j])
		}
	}
}

// TestFairPartsAreByHeads: of what a party eats of a food each has by the size of their
// servings, and a row of several people is so many: what is fair for all heads together is
// what they eat. Of two rows of the same needs each head has the same, whoever of them has
// how many heads.
func TestFairPartsAreByHeads(t *testing.T) {
	for _, counts := range [][2]int{{1, 1}, {2, 1}, {1, 3}, {4, 4}} {
		for _, sex := range []nutrients.Sex{nutrients.Female, nutrients.Male} {
			one, two := rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Arvid", 30, sex)
			one.Count, two.Count = counts[0], counts[1]
			m, err := model.Build(rationtest.Request(t, one, two))
			if err != nil {
				t.Fatal(err)
			}
			li, a, b := 0, -1, -1
			for ; a < 0 || b < 0; li++ {
				x, inA := m.Eaters[0].Eating(li)
				y, inB := m.Eaters[1].Eating(li)
				if a, b = -1, -1; inA && inB {
					a, b = x.Col, y.Col
				}
			}
			li--
			x := make([]float64, len(m.Cols))
			x[a], x[b] = 100, 400
			n := [2]float64{float64(counts[0]), float64(counts[1])}
			all := n[0]*100 + n[1]*400
			p := m.Problem.Clone()
			rows := len(p.Rows)
			evenOut(p, m, &model.Party{Eaters: m.Eaters}, li, x)
			// In order: all of it, then of each of the two what is fair and the least of it.
			if len(p.Rows) != rows+5 {
				t.Fatalf("%d rows are added, want 5", len(p.Rows)-rows)
			}
			if r := p.Rows[rows]; r.Lower != all || r.Upper != all {
				t.Errorf("%v: %g to %g g of all, want %g", counts, r.Lower, r.Upper, all)
			}
			of := func(row, col int) (v float64) {
				for _, e := range p.Cols[col].Entries {
					if e.Row == row {
						v += e.Value
					}
				}
				return v
			}
			if of(rows, a) != n[0] || of(rows, b) != n[1] {
				t.Errorf("%v: of all are %g and %g times what one eats", counts, of(rows, a), of(rows, b))
			}
			fair := [2]float64{p.Rows[rows+1].Lower, p.Rows[rows+3].Lower}
			if sum := n[0]*fair[0] + n[1]*fair[1]; math.Abs(sum-all) > 1e-9*all {
				t.Errorf("%v, %s: fair are %g and %g g, %g of all, which is %g", counts, sex, fair[0], fair[1], sum, all)
			}
			energy := func(i int) float64 {
				for _, need := range m.Eaters[i].Needs.List {
					if need.Nutrient == nutrients.Energy {
						return need.Floor.Amount
					}
				}
				t.Fatal("no need of energy")
				return 0
			}
			if got, want := fair[0]/fair[1], energy(0)/energy(1); math.Abs(got-want) > 1e-9 {
				t.Errorf("%v, %s: fair are %g and %g g, by energy it is as %g to 1", counts, sex, fair[0], fair[1], want)
			}
		}
	}
}
