package swap

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/simplex"
)

// TestWhatGoesAndComes: packs bought count as changes, of the foods that the swap is about those
// from stock too, what is set aside never; needs are told where both plans have them.
func TestWhatGoesAndComes(t *testing.T) {
	floor := 10.0
	person := func(energy, iron float64) []ration.PlanPerson {
		return []ration.PlanPerson{{Name: "Signe", Needs: []ration.PersonNeed{{Nutrient: "energy", Unit: "kcal", Amount: energy}, {Nutrient: "iron", Unit: "mg", Amount: iron, Floor: &floor}}}}
	}
	old := &ration.Plan{
		Totals: &ration.Totals{Cost: 100, WeightKg: 30, VolumeL: 50}, People: person(2000, 15),
		Packs: []ration.PlanPack{
			{Pack: "rice", Food: "rice", Count: 5, FromStock: 2}, {Pack: "beans", Food: "beans", Count: 3, FromStock: 1}, {Pack: "oil", Food: "oil", Count: 1},
			{Pack: "sugar", Food: "sugar", Count: 2}, {Pack: "sugar", Food: "sugar", Count: 4, Reserve: true}, {Pack: "oats", Food: "oats", Count: 2, FromStock: 2},
		},
	}
	is := &ration.Plan{
		Totals: &ration.Totals{Cost: 104, WeightKg: 29.5, VolumeL: 50}, People: append(person(1990, 12), ration.PlanPerson{Name: "Nils", Needs: []ration.PersonNeed{{Nutrient: "iron", Amount: 1}}}),
		Packs: []ration.PlanPack{
			{Pack: "rice", Food: "rice", Count: 5, FromStock: 1}, {Pack: "oil", Food: "oil", Count: 3}, {Pack: "sugar", Food: "sugar", Count: 2}, {Pack: "sugar", Food: "sugar", Count: 9, Reserve: true},
			{Pack: "lentils", Food: "lentils", Count: 2}, {Pack: "oats", Food: "oats", Count: 1, FromStock: 1},
		},
	}
	s := &Swap{Plan: is, Out: []PackChange{}, In: []PackChange{}}
	s.compare(old, map[*foods.Food]bool{{Name: "beans"}: true})
	if want := []PackChange{{"beans", "beans", 3}}; !slices.Equal(s.Out, want) {
		t.Errorf("out %v, want %v", s.Out, want)
	}
	if want := []PackChange{{"rice", "rice", 1}, {"oil", "oil", 2}, {"lentils", "lentils", 2}}; !slices.Equal(s.In, want) { // one more of rice is bought, the stock's is left
		t.Errorf("in %v, want %v", s.In, want)
	}
	if s.CostChange != 4 || s.WeightChange != -0.5 || s.VolumeChange != 0 {
		t.Errorf("%+g, %+g kg, %+g L, want +4, -0.5 and 0", s.CostChange, s.WeightChange, s.VolumeChange)
	}
	if len(s.Needs) != 2 || s.Needs[0] != (NeedChange{Person: "Signe", Nutrient: "iron", Unit: "mg", Before: 15, After: 12, Floor: &floor}) || s.Needs[1].Before != 2000 || s.Needs[1].After != 1990 {
		t.Errorf("%+v", s.Needs)
	}
}

// TestShortToTheTolerance: what is under its floor by more than a millionth of it, or of one, is
// short; a fall counts from a twentieth on, and of falls that by more of the way to the floor
// comes first.
func TestShortToTheTolerance(t *testing.T) {
	for _, c := range []struct {
		after, floor float64
		short        bool
	}{{100, 100, false}, {100 - 0.5e-4, 100, false}, {100 - 2e-4, 100, true}, {0.1 - 0.5e-6, 0.1, false}, {0.1 - 2e-6, 0.1, true}} {
		if got := (NeedChange{After: c.after, Floor: &c.floor}).Short(); got != c.short {
			t.Errorf("%g of %g short: %v", c.after, c.floor, got)
		}
	}
	if (NeedChange{After: 0}).Short() {
		t.Error("short of no floor")
	}
	floor, none := 50.0, 0.0
	for _, c := range []struct {
		n    NeedChange
		rank int
		want float64 // weight
	}{
		{NeedChange{Before: 100, After: 94, Floor: &floor}, changeFalls, 6. / 50}, {NeedChange{Before: 100, After: 96, Floor: &floor}, changeOther, 0}, {NeedChange{Before: 100, After: 50, Floor: &floor}, changeFalls, 1},
		{NeedChange{Before: 100, After: 40, Floor: &floor}, changeShort, 0.2}, {NeedChange{Before: 100, After: 10, Floor: &none}, changeOther, 0}, {NeedChange{Before: 100, After: 10}, changeOther, 0},
	} {
		if c.n.rank() != c.rank || math.Abs(c.n.weight()-c.want) > 1e-9 {
			t.Errorf("from %g to %g: rank %d, weight %g, want %d and %g", c.n.Before, c.n.After, c.n.rank(), c.n.weight(), c.rank, c.want)
		}
	}
	for _, c := range []struct{ before, after, want float64 }{{100, 150, 0.5}, {100, 50, 0.5}, {-2, -1, 0.5}} {
		if got := (NeedChange{Before: c.before, After: c.after}).relative(); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("from %g to %g: %g, want %g", c.before, c.after, got, c.want)
		}
	}
}

// TestRefusedChanges: what cannot be changed is refused, and each reason said: nobody of that
// name, who is not fed, no such food, an infant's milk, what is both to go and to stay.
func TestRefusedChanges(t *testing.T) {
	table := rationtest.Table(t)
	formula, err := table.Food("formula-milk-powder-352g-can")
	if err != nil {
		t.Fatal(err)
	}
	old := &ration.Request{Table: table, People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Nils", 50, nutrients.Male)}}
	plan := &ration.Plan{Days: 7, Refused: []ration.Refused{{Name: "Nils", Reason: "a tube"}}}
	for _, c := range []struct {
		name   string
		change SwapRequest
		said   []string // "" none
	}{
		{"rice", SwapRequest{Drop: []string{"rice"}}, nil},
		{"nobody", SwapRequest{Drop: []string{"rice"}, For: "Ola"}, []string{`"Ola"`, "Signe, Nils"}},
		{"not fed", SwapRequest{Drop: []string{"rice"}, For: "Nils"}, []string{"Nils", "a tube"}},
		{"milk", SwapRequest{Drop: []string{formula.Name}}, []string{"infant's milk"}},
		{"less milk", SwapRequest{Reduce: map[string]float64{formula.Name: 0.5}}, []string{"infant's milk"}},
		{"stays and goes", SwapRequest{Drop: []string{"rice"}, Keep: []string{"white-rice-907g-bag"}}, []string{"cannot both go and stay"}},
		{"no food", SwapRequest{Drop: []string{"xyzzy"}}, []string{"xyzzy"}},
		{"nothing stays", SwapRequest{Keep: []string{"xyzzy"}}, []string{"xyzzy"}},
		{"two reasons", SwapRequest{Drop: []string{formula.Name, "xyzzy"}}, []string{"infant's milk", "xyzzy"}},
	} {
		_, _, err := c.change.apply(old, plan)
		if (err != nil) != (c.said != nil) {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		for _, word := range c.said {
			if !strings.Contains(err.Error(), word) {
				t.Errorf("%s: %q is not in %q", c.name, word, err)
			}
		}
		if c.said != nil && c.said[0] != "xyzzy" && !errors.Is(err, ErrSwap) {
			t.Errorf("%s: %v is no refusal of a swap", c.name, err)
		}
	}
}

// TestChangesAreCounted: packs of the foods that go do not count; of the others as many as there
// are more and fewer, in the program as at a point, and where the program makes the changes
// least, none are made without need. What an own ceiling on the value leaves is kept.
func TestChangesAreCounted(t *testing.T) {
	m, err := model.Build(ration.Filled(rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female))))
	if err != nil {
		t.Fatal(err)
	}
	first, second, gone := m.Larder[0].Buy[0], m.Larder[1].Buy[0], m.Larder[2]
	w := &swapSearch{model: m, touched: map[*foods.Food]bool{gone.Food: true}, old: &ration.Plan{Packs: []ration.PlanPack{
		{Pack: first.Pack.Key, Count: 3, FromStock: 1}, {Pack: second.Pack.Key, Count: 4}, {Pack: gone.Buy[0].Pack.Key, Count: 5},
	}}}
	all := 0
	for _, lf := range m.Larder {
		all += len(lf.Buy)
	}
	seen := 0
	for k, was := range w.counted() {
		seen++
		if want := map[int]float64{first.Col: 2, second.Col: 4}[k.Col]; was != want {
			t.Errorf("%s was bought %g times, want %g", k.Pack.Key, was, want)
		}
	}
	if seen != all-len(gone.Buy) {
		t.Errorf("%d packs count, want %d", seen, all-len(gone.Buy))
	}
	x := make([]float64, len(m.Cols))
	other := m.Larder[3].Buy[0]
	x[first.Col], x[second.Col], x[other.Col] = 5, 1, 2
	if got := w.changesAt(x); got != 3+3+2 {
		t.Errorf("%d changes, want 3 more, 3 fewer and 2 new", got)
	}
	p := w.changesProgram(123)
	full := w.withChanges(p, x)
	cost, spread := 0.0, 0.0
	for j, v := range full {
		cost += p.Cols[j].Cost * v
		for _, e := range p.Cols[j].Entries {
			if e.Row == w.spreadRow {
				spread += e.Value * v
			}
		}
	}
	if math.Abs(cost-8) > 1e-9 || p.Rows[w.spreadRow].Upper != 123 || !math.IsInf(p.Rows[w.spreadRow].Lower, -1) || math.Abs(spread-m.ValueOf(x)) > 1e-9 {
		t.Errorf("the program counts %g changes, its value is %g, held to %g, want 8, %g and 123", cost, spread, p.Rows[w.spreadRow].Upper, m.ValueOf(x))
	}
	activity := make([]float64, len(p.Rows))
	for j, v := range full {
		for _, e := range p.Cols[j].Entries {
			activity[e.Row] += e.Value * v
		}
	}
	for i := w.spreadRow + 1; i < len(p.Rows); i++ {
		if math.Abs(activity[i]-p.Rows[i].Lower) > 1e-9 || p.Rows[i].Lower != p.Rows[i].Upper {
			t.Errorf("%s is %g, from %g to %g", p.Rows[i].Name, activity[i], p.Rows[i].Lower, p.Rows[i].Upper)
		}
	}
	if n := len(p.Rows) - w.spreadRow - 1; n != 2 || len(p.Cols) != len(m.Cols)+4 {
		t.Errorf("%d packs of the old plan have rows, %d columns of changes, want 2 and 4", n, len(p.Cols)-len(m.Cols))
	}
	// The best so far is kept where a point has more changes, and gives way to as many.
	w.changes, w.x = 8, nil
	if got := w.take(p, nil, []float64{7}); len(got) != 1 || w.x != nil {
		t.Error("no point is taken for one")
	}
	if got := w.take(p, slices.Clone(full), nil); w.changes != 8 || len(w.x) != len(m.Cols) || !slices.Equal(got, full) {
		t.Errorf("a point of as many changes is not taken: %d", w.changes)
	}
	full[other.Col]++
	if got := w.take(p, full, []float64{7}); w.changes != 8 || len(got) != 1 || w.x[other.Col] != 2 {
		t.Errorf("a point of more changes is taken: %d", w.changes)
	}
	full[other.Col] = 0
	if w.take(p, full, nil); w.changes != 6 {
		t.Errorf("%d changes, want 6", w.changes)
	}
}

// TestWholeBounds: a bound of changes is taken up to the next whole number, what the arithmetic
// leaves apart, and is never under none.
func TestWholeBounds(t *testing.T) {
	for bound, want := range map[float64]int{-3: 0, 0: 0, 1e-9: 0, 0.2: 1, 1: 1, 2.0000000001: 2, 2.01: 3, 7: 7} {
		if got := wholeAbove(bound); got != want {
			t.Errorf("%g: %d, want %d", bound, got, want)
		}
	}
}

// TestDearPacksAreShutOut: of packs that the relaxation does not buy those go whose reduced cost
// is more than what the changes leave over the bound: 3 − 1 = 2.
func TestDearPacksAreShutOut(t *testing.T) {
	m, err := model.Build(ration.Filled(rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female))))
	if err != nil {
		t.Fatal(err)
	}
	w := &swapSearch{model: m}
	r := simplex.Result{X: make([]float64, len(m.Cols)), Reduced: make([]float64, len(m.Cols)), Bound: 1}
	a, b, c, d := m.Larder[0].Buy[0].Col, m.Larder[1].Buy[0].Col, m.Larder[2].Buy[0].Col, m.Larder[3].Buy[0].Col
	r.Reduced[a], r.Reduced[b], r.Reduced[c], r.Reduced[d] = 2.1, 1.9, 2.1, 5
	r.X[c] = 0.5
	p := m.Problem.Clone()
	p.Cols[d].Lower = 1
	rest := w.withoutDear(p, r, 3)
	open := func(p *linear.Problem, j int) bool { return p.Cols[j].Upper > 0 }
	if open(rest, a) || !open(rest, b) || !open(rest, c) || !open(rest, d) || !open(p, a) {
		t.Errorf("open: dear %v, near %v, bought %v, kept %v; before %v", open(rest, a), open(rest, b), open(rest, c), open(rest, d), open(p, a))
	}
}
