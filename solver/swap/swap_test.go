package swap

import (
	"bytes"
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/plantest"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
	"rationwright/solver/verify"
)

// smallPlan is a plan on a small table: a stand-alone one, whose request is read
// back from its own record.
func smallPlan(t testing.TB, least ration.Least, people ...nutrients.Person) (*ration.Plan, *ration.Request) {
	t.Helper()
	req := &ration.Request{
		People: people, Table: rationtest.SmallTable(t, rationtest.SmallShop...), IgnoreEatable: true, Standard: nutrients.StandardBasic, Days: 5,
		Least: least, Start: "2026-11-25", Time: time.Minute, Within: 0.01,
	}
	return plantest.MustMake(t, req), req
}

// swapOn makes a swap on a table other than the embedded one, which a plan's
// record cannot bring back.
func swapOn(t testing.TB, req *ration.Request, plan *ration.Plan, change SwapRequest) *Swap {
	t.Helper()
	s, err := MakeFor(context.Background(), req, plan, change, nil)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// The number of changes that is called proven is the least there is: every way
// of changing fewer packs is tried and none makes a ration within the spread.
func TestSwapChangesFewest(t *testing.T) {
	tried, proven, swaps := 0, 0, 0
	for _, least := range []ration.Least{ration.LeastCost, ration.LeastWeight} {
		plan, req := smallPlan(t, least, rationtest.Adult("Signe", 30, nutrients.Female))
		eaten := slices.Clone(plan.People[0].Foods)
		slices.SortFunc(eaten, func(a, b ration.PersonFood) int { return cmp.Compare(b.Grams, a.Grams) })
		for _, f := range eaten[:min(len(eaten), 3**rationtest.Campaign)] {
			change := SwapRequest{Drop: []string{f.Food}, Spread: DefaultSpread}
			s := swapOn(t, req, plan, change)
			if s.Plan.Status == ration.StatusInfeasible {
				if s.Warning == "" || len(s.Plan.Conflict) == 0 {
					t.Errorf("without %s: nothing fits, and no reason is given", f.Food)
				}
				continue
			}
			swaps++
			if s.Changes < s.ChangesBound {
				t.Errorf("without %s: %d changes, under the bound %d", f.Food, s.Changes, s.ChangesBound)
			}
			if *s.Plan.Value > s.Most*(1+1e-6) {
				t.Errorf("without %s: the plan comes to %g, over the ceiling %g", f.Food, *s.Plan.Value, s.Most)
			}
			changed, _, err := change.apply(req, plan)
			if err != nil {
				t.Fatal(err)
			}
			for _, v := range verify.Check(changed, s.Plan) {
				t.Errorf("without %s: %v", f.Food, v)
			}
			if got := changesBetween(plan, s.Plan, f.Food); got != s.Changes {
				t.Errorf("without %s: %d changes printed, the plans differ by %d", f.Food, s.Changes, got)
			}
			if !s.Proven {
				continue
			}
			proven++
			for fewer := range min(s.Changes, 3) {
				n, found := tryChanges(t, changed, plan, f.Food, fewer, s.Most)
				tried += n
				if found {
					t.Errorf("without %s: %d changes called proven, but %d are enough", f.Food, s.Changes, fewer)
				}
			}
		}
	}
	t.Logf("%d swaps, %d proven, %d ways of changing fewer packs tried", swaps, proven, tried)
	if swaps < 3 || proven == 0 || tried < 20 {
		t.Error("nothing was swapped, proven or tried: the test shows nothing")
	}
}

// changesBetween counts the packs that differ, those of one food apart.
func changesBetween(a, b *ration.Plan, but string) int {
	was, is := a.Bought(), b.Bought()
	food := map[string]string{}
	for _, line := range append(slices.Clone(a.Packs), b.Packs...) {
		food[line.Pack] = line.Food
	}
	n := 0
	for key, name := range food {
		if d := is[key] - was[key]; name != but && d > 0 {
			n += d
		} else if name != but {
			n -= d
		}
	}
	return n
}

// tryChanges tries every way of changing exactly n packs, and reports how many
// there were and whether one of them makes a ration at no more than ceiling.
func tryChanges(t testing.TB, req *ration.Request, old *ration.Plan, but string, n int, ceiling float64) (tried int, found bool) {
	t.Helper()
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	bought := old.Bought()
	var cols []int
	count := map[int]float64{}
	for _, lf := range m.Larder {
		for _, k := range lf.Buy {
			if lf.Food.Name != but {
				cols = append(cols, k.Col)
				count[k.Col] = float64(bought[k.Pack.Key])
			}
		}
	}
	var try func(from, left int)
	try = func(from, left int) {
		if found {
			return
		}
		if left == 0 {
			tried++
			p := m.Problem.Clone()
			for _, j := range cols {
				p.Cols[j].Lower, p.Cols[j].Upper = count[j], count[j]
			}
			m.CloseEmpty(p)
			x, err := search.Relax(search.WithoutFixed(p).Problem)
			if err != nil {
				t.Fatal(err)
			}
			result := x.Solve(context.Background())
			found = result.Status == simplex.Optimal && result.Value <= ceiling
			return
		}
		for i := from; i < len(cols); i++ {
			j := cols[i]
			for d := 1; d <= left; d++ {
				for _, sign := range []float64{1, -1} {
					was := count[j]
					count[j] = was + sign*float64(d)
					if count[j] >= 0 && count[j] <= m.Problem.Cols[j].Upper {
						try(i+1, left-d)
					}
					count[j] = was
				}
			}
		}
	}
	try(0, n)
	return tried, found
}

// Dropping each of the ten largest foods of a family's plan, one at a time,
// gives a plan that meets every need; how many packs change in each is logged.
func TestSwapEachLargeFood(t *testing.T) {
	req := &ration.Request{
		People: rationtest.Ternsund(), Table: rationtest.Table(t), Least: ration.LeastWeight, Start: "2026-11-25", Time: time.Minute, Within: 0.02, Work: 20000,
	}
	drops := 2
	if *rationtest.Campaign >= 10 {
		req.Least, drops = ration.LeastCost, 10
		req.Within = 0.01
		req.Work = 60000
	}
	plan := plantest.MustMake(t, req)
	grams := map[string]float64{}
	for _, p := range plan.People {
		for _, f := range p.Foods {
			grams[f.Food] += f.Grams
		}
	}
	var largest []string
	for name := range grams {
		largest = append(largest, name)
	}
	slices.SortFunc(largest, func(a, b string) int { return cmp.Or(cmp.Compare(grams[b], grams[a]), cmp.Compare(a, b)) })
	proven := 0
	for _, name := range largest[:drops] {
		began := time.Now()
		s, err := Make(context.Background(), plan, SwapRequest{Drop: []string{name}, Spread: DefaultSpread}, nil)
		if err != nil {
			t.Errorf("without %s: %v", name, err)
			continue
		}
		if s.Plan.Status == ration.StatusInfeasible {
			t.Errorf("without %s: no ration: %v", name, s.Plan.Conflict)
			continue
		}
		changed, err := s.Plan.Request.Load()
		if err != nil {
			t.Fatal(err)
		}
		for _, v := range verify.Check(changed, s.Plan) {
			t.Errorf("without %s: %v", name, v)
		}
		for _, line := range s.Plan.Packs {
			if line.Food == name {
				t.Errorf("%s is still bought", name)
			}
		}
		if s.Proven {
			proven++
		}
		t.Logf("without %s: %d packs changed (no fewer than %d, proven %v), %+.2f cost, in %v", name, s.Changes, s.ChangesBound, s.Proven, s.CostChange, time.Since(began).Round(time.Millisecond))
	}
	t.Logf("%d of %d proven", proven, drops)
	if proven == 0 {
		t.Error("no swap of a large food was proven to change the fewest packs")
	}
}

// For one person only, the food goes from that person's plate alone; reduced, it
// stays under its share; kept, its packs stay as they are.
func TestSwapForOneReducesAndKeeps(t *testing.T) {
	plan, req := smallPlan(t, ration.LeastWeight, rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Torgeir", 40, nutrients.Male))
	eats := func(p *ration.Plan, who, food string) float64 {
		for _, e := range p.People {
			if e.Name == who {
				for _, f := range e.Foods {
					if f.Food == food {
						return f.Grams
					}
				}
			}
		}
		return 0
	}
	// fits makes a change for the first food of Signe's plate for which there is a
	// ration at all: a change that nothing fits would show nothing.
	fits := func(change func(food string) SwapRequest) (*Swap, string) {
		for _, f := range plan.People[0].Foods {
			if s := swapOn(t, req, plan, change(f.Food)); s.Plan.Status != ration.StatusInfeasible {
				return s, f.Food
			}
		}
		t.Fatal("nothing fits without any one food")
		return nil, ""
	}
	s, food := fits(func(food string) SwapRequest {
		return SwapRequest{Drop: []string{food}, For: "Signe", Spread: DefaultSpread}
	})
	if eats(s.Plan, "Signe", food) > 0 || eats(plan, "Signe", food) == 0 {
		t.Errorf("Signe still eats %s, or did not before", food)
	}
	s, food = fits(func(food string) SwapRequest {
		return SwapRequest{Reduce: map[string]float64{food: 0.5}, Spread: DefaultSpread}
	})
	was := eats(plan, "Signe", food)
	if is := eats(s.Plan, "Signe", food); is > was/2*(1+1e-6) || was == 0 {
		t.Errorf("Signe eats %g g of %s, want at most half of %g g", is, food, was)
	}
	var kept ration.PlanPack
	s, food = fits(func(food string) SwapRequest {
		if kept = plan.Packs[0]; kept.Food == food {
			kept = plan.Packs[1]
		}
		return SwapRequest{Drop: []string{food}, Keep: []string{kept.Food}, Spread: DefaultSpread}
	})
	is, compared := s.Plan.Bought(), 0
	for key, n := range plan.Bought() {
		if k := ration.FindPack(req, key); k.Food.Name == kept.Food {
			if compared++; is[key] != n {
				t.Errorf("%d packs of %s, want %d as before", is[key], key, n)
			}
		}
	}
	if compared == 0 {
		t.Errorf("no pack of %s, which is kept, was compared", kept.Food)
	}
}

// What cannot be read or done is said.
func TestSwapRefuses(t *testing.T) {
	plan, req := smallPlan(t, ration.LeastWeight, rationtest.Adult("Signe", 30, nutrients.Female))
	for _, c := range []struct {
		name   string
		change SwapRequest
		is     error
	}{
		{"unknown food", SwapRequest{Drop: []string{"ambrosia"}}, foods.ErrUnknown},
		{"unknown person", SwapRequest{Drop: []string{"white-rice-907g-bag"}, For: "Nobody"}, ErrSwap},
		{"goes and stays", SwapRequest{Drop: []string{"white-rice-907g-bag"}, Keep: []string{"white-rice-907g-bag"}}, ErrSwap},
	} {
		t.Run(c.name, func(t *testing.T) {
			if _, err := MakeFor(context.Background(), req, plan, c.change, nil); !errors.Is(err, c.is) {
				t.Errorf("error %v, want %v", err, c.is)
			}
		})
	}
	// Without everything that fills, the balance cannot be kept: it says so, what
	// conflicts and what would help.
	s := swapOn(t, req, plan, SwapRequest{Drop: []string{"white-rice-907g-bag", "rolled-oats-510g-canister", "canned-kidney-beans-439g-can", "sugar-454g-bag"}, Spread: DefaultSpread})
	if s.Plan.Status != ration.StatusInfeasible || s.Warning == "" || len(s.Plan.Conflict) == 0 {
		t.Errorf("status %s, warning %q, conflict %v", s.Plan.Status, s.Warning, s.Plan.Conflict)
	}
}

// A swapped plan stands alone like any other: written and read, its request
// rebuilds the model and it passes the check.
func TestSwappedPlanStandsAlone(t *testing.T) {
	made, err := plantest.OnePlan()
	if err != nil {
		t.Fatal(err)
	}
	told := 0
	s, err := Make(context.Background(), made, SwapRequest{Drop: []string{made.People[0].Foods[0].Food}, Spread: DefaultSpread}, func(search.Progress) { told++ })
	if err != nil {
		t.Fatal(err)
	}
	if told == 0 {
		t.Error("nobody is told how far it is")
	}
	var text bytes.Buffer
	if err := json.NewEncoder(&text).Encode(s.Plan); err != nil {
		t.Fatal(err)
	}
	read, err := ration.ReadPlan(strings.NewReader(text.String()))
	if err != nil {
		t.Fatal(err)
	}
	req, err := read.Request.Load()
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range verify.Check(req, read) {
		t.Error(v)
	}
	total := 0.0
	for _, c := range s.In {
		total += float64(c.Count)
	}
	if math.Abs(s.Plan.Totals.Cost-made.Totals.Cost-s.CostChange) > 1e-9 || total == 0 {
		t.Errorf("cost change %g, %v in", s.CostChange, s.In)
	}
}

// A budget that the changed plan keeps by itself changes nothing: the same fewest
// changes are found under it.
func TestSwapUnderABudget(t *testing.T) {
	plan, req := smallPlan(t, ration.LeastCost, rationtest.Adult("Signe", 30, nutrients.Female))
	var change SwapRequest
	var free *Swap
	for _, f := range plan.People[0].Foods {
		change = SwapRequest{Drop: []string{f.Food}, Spread: DefaultSpread}
		if free = swapOn(t, req, plan, change); free.Plan.Status != ration.StatusInfeasible && free.Proven && free.Changes > 0 {
			break
		}
	}
	if free.Plan.Status == ration.StatusInfeasible || !free.Proven || free.Changes == 0 {
		t.Fatal("no swap is proven")
	}
	budget := free.Plan.Totals.Cost * 1.001
	limited := *req
	limited.Limits.Budget = &budget
	under := swapOn(t, &limited, plan, change)
	if under.Plan.Status == ration.StatusInfeasible || under.Changes != free.Changes || under.Most > budget*(1+1e-9) {
		t.Errorf("%d changes under a budget of %g that %d changes keep; up to %g was allowed", under.Changes, budget, free.Changes, under.Most)
	}
	if under.Plan.Totals != nil && under.Plan.Totals.Cost > budget*(1+1e-6) {
		t.Errorf("the plan costs %g, the budget is %g", under.Plan.Totals.Cost, budget)
	}
}

// TestSwapGivesUpStoredVitamins: without any food that holds vitamin D, Signe goes short of it
// alone, the body having a store of it: of the 15 µg a day that are recommended (IOM, Dietary
// Reference Intakes for Calcium and Vitamin D, 2011; nutrients/data/dri.csv) none is left. Of what
// can still be chosen from a bound is proven, as of any plan.
func TestSwapGivesUpStoredVitamins(t *testing.T) {
	made, err := plantest.OnePlan()
	if err != nil {
		t.Fatal(err)
	}
	req := rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female))
	var drop []string
	for _, f := range req.Table.Foods {
		if v, known := f.Per100g.Get(nutrients.VitaminD); known && v > 0 && !f.HasTag(foods.TagInfantFormula) && !f.HasTag(foods.TagHumanMilk) {
			drop = append(drop, f.Name)
		}
	}
	s := swapOn(t, req, made, SwapRequest{Drop: drop})
	if short := s.Plan.Shortfalls; len(short) != 1 || short[0].Nutrient != nutrients.VitaminD.Name() || short[0].Amount > 1e-6 || short[0].Target != 15 {
		t.Errorf("short of %+v, want of 15 µg of vitamin D", short)
	}
	if s.Plan.Bound == nil || s.Plan.Gap == nil || *s.Plan.Bound <= 0 || *s.Plan.Bound > *s.Plan.Value {
		t.Errorf("a plan of %g with the bound %v and the gap %v: nothing is proven of it", *s.Plan.Value, s.Plan.Bound, s.Plan.Gap)
	}
	if s.Warning == "" {
		t.Error("nothing is said of who is short")
	}
}
