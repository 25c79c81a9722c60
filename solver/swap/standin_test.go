package swap

import (
	"errors"
	"math"
	"slices"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/answer"
	"rationwright/solver/elastic"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
	"rationwright/solver/verify"
)

// TestStandInsByHand: of 1000 kcal two packs of food 0 hold 400, so that 0.6 of the need are missing;
// a whole one counts ten times the value of the plan, and a hundredth more for each person: at a value
// of 20 it comes to 2 · 5 + 200 · 0.6 · 1.01 = 131.2, and a kcal is worth 0.202. Food 1 holds 1 kcal a
// gram, for 0.09: 6 packs of 100 g fill what is missing for 54; where she may eat 300 g of it, or three
// packs are sold, 3 better it by 3 · (20.2 − 9) = 33.6. How much a food can better it is promised as
// what a gram is worth times all that may be bought: what all may eat, or as much as packs are opened
// for that.
func TestStandInsByHand(t *testing.T) {
	build := func(value, most, packs float64) (*rationtest.Counter, *replaceSearch) {
		k := rationtest.NewCounter(ration.LeastCost)
		k.Problem.Rows[k.Energy].Lower = 1000
		k.Sell(5, 9, 100, 1000, 2, 0)
		k.Sell(9, packs, 100, most, 1, 0)
		k.Sell(30, 9, 100, 1000, 1, 0) // dearer than it is worth
		k.Sell(7, 9, 100, 1000, 8, 0)  // what goes
		w := &replaceSearch{model: k.Model, gone: map[*foods.Food]bool{k.Larder[3].Food: true}, plan: &ration.Plan{Value: &value, Packs: []ration.PlanPack{
			{Pack: "pack 0", Food: "food 0", Count: 2}, {Pack: "other", Food: "gone", Count: 3},
		}}}
		if err := w.start(t.Context()); err != nil {
			t.Fatal(err)
		}
		return k, w
	}
	near := func(a, b float64) bool { return math.Abs(a-b) < 1e-6 }
	for _, c := range []struct{ value, most, packs, base, with, promise float64 }{
		{20, 1000, 9, 131.2, 64, 112}, {20, 300, 9, 131.2, 97.6, 33.6}, {20, 1000, 3, 131.2, 97.6, 112},
		{0.2, 1000, 9, 10 + 6.06, 10 + 6.06, 0}, // a plan of under 1 counts as 1: 10 a need
	} {
		_, w := build(c.value, c.most, c.packs)
		result := w.with(t.Context(), 1)
		if !near(w.base.Value, c.base) || result.Status != simplex.Optimal || !near(result.Value, c.with) || !near(w.promise(w.model.Larder[1]), c.promise) {
			t.Errorf("%+v: %g without, %g with, %g promised", c, w.base.Value, result.Value, w.promise(w.model.Larder[1]))
		}
		if got := w.promise(w.model.Larder[2]); got != 0 {
			t.Errorf("%+v: a dear food promises %g", c, got)
		}
		if more := w.lp.Solve(t.Context()); !near(more.Value, c.base) {
			t.Errorf("%+v: a food that was let in has stayed: %g", c, more.Value)
		}
	}
	// More of a food that is in the plan comes on top of its packs: 3 more, 600 kcal, for 15.
	k, w := build(20, 1000, 9)
	if result := w.with(t.Context(), 0); !near(result.Value, 25) || !near(result.X[k.Larder[0].Buy[0].Col], 5) {
		t.Errorf("with more of food 0: %g, %g packs", result.Value, result.X[k.Larder[0].Buy[0].Col])
	}
	// Packs that must be opened: 3 of 150 g for the 300 g that she may eat.
	k, w = build(20, 300, 9)
	k.Eaters[0].Eats[1].Window, k.Larder[1].Window = 100, 150
	if got := w.promise(k.Larder[1]); !near(got, 0.112*450) {
		t.Errorf("of three opened packs of 150 g %g is promised, want 50.4", got)
	}
	// Of two like her, for whom half as much again is made ready, a gram in packs is a third of one eaten.
	k, w = build(20, 300, 9)
	k.Eaters[0].Count, k.Eaters[0].Eats[1].SpareFactor = 2, 1.5
	k.Problem.Cols[k.Larder[1].Buy[0].Col].Cost = 0 // of the plan alone
	w.soft.Problem.Cols[k.Larder[1].Buy[0].Col].Cost = 3
	if got := w.promise(k.Larder[1]); !near(got, (0.202/3-0.03)*300) {
		t.Errorf("for two %g is promised, want %g", got, (0.202/3-0.03)*300)
	}
}

// onePack is the small shop with one size of each food.
func onePack(t *testing.T, shop []string) *foods.Table {
	t.Helper()
	small := rationtest.SmallTable(t, shop...)
	small.Packs = slices.DeleteFunc(small.Packs, func(k *foods.Pack) bool { return !slices.Contains(shop, k.Key) })
	for _, f := range small.Foods {
		f.Packs = slices.DeleteFunc(f.Packs, func(k *foods.Pack) bool { return !slices.Contains(shop, k.Key) })
	}
	return small
}

// smallRation is a plan of a small shop, one size of each food, for five days.
func smallRation(t *testing.T, people ...nutrients.Person) (*ration.Request, *model.Model, *ration.Plan) {
	t.Helper()
	req := &ration.Request{
		People: people, Table: onePack(t, rationtest.SmallShop), IgnoreEatable: true, Standard: nutrients.StandardBasic, Days: 5,
		Least: ration.LeastCost, Start: "2026-11-25", Time: time.Minute, Within: 0.01,
	}
	m, err := model.Build(ration.Filled(req))
	if err != nil {
		t.Fatal(err)
	}
	found := search.SearchOnce(t.Context(), m, 0.05, 4000, nil)
	if found.X == nil {
		t.Fatal("no plan")
	}
	p := answer.Write(m, found.X)
	p.Notice, p.Refused = "THIS PLAN DOES NOT FEED OLA", []ration.Refused{{Name: "Ola"}}
	return req, m, p
}

// TestStandInsByTryingPacks: without a food of the plan, every number of packs of every other food is
// tried, the other packs staying as they are: the foods of which some are enough are the balanced
// ones, each with the fewest packs that are, the cheapest ration first; then come others, of which
// none are enough, and those that are nearer to the needs first.
func TestStandInsByTryingPacks(t *testing.T) {
	req, _, made := smallRation(t, rationtest.Adult("Signe", 30, nutrients.Female))
	tried, balanced, others := 0, 0, 0
	for _, gone := range made.Packs {
		out, err := ReplacementsFor(t.Context(), req, made, gone.Pack, "") // a pack stands for its food
		if err != nil {
			t.Fatal(err)
		}
		if out.InsteadOf != gone.Food || out.For != "" || out.Notice != made.Notice || len(out.Refused) != 1 {
			t.Errorf("%+v", out)
		}
		changed, _, err := SwapRequest{Drop: []string{gone.Food}}.apply(req, made)
		if err != nil {
			t.Fatal(err)
		}
		m, err := model.Build(changed) // of what is left
		if err != nil {
			t.Fatal(err)
		}
		p := m.Problem.Clone()
		packs := make([]float64, len(m.Cols))
		for _, line := range made.Packs {
			if line.Food != gone.Food {
				m.PlacePacks(packs, line)
			}
		}
		m.FixPacks(p, packs)
		enough := map[string]int{}
		sold := 0
		for _, lf := range m.Larder {
			if len(lf.Buy) == 0 {
				continue
			}
			sold++
			j := lf.Buy[0].Col
			q := p.Clone()
			for n := 0; float64(n)+packs[j] <= math.Min(m.Problem.Cols[j].Upper, 40); n++ {
				q.Cols[j].Lower, q.Cols[j].Upper = packs[j]+float64(n), packs[j]+float64(n)
				if ok, err := rationtest.WholeFeasible(t, q); err != nil {
					t.Fatal(err)
				} else if ok {
					enough[lf.Food.Name] = n
					break
				}
			}
		}
		needless := len(enough) == sold && !slices.ContainsFunc(m.Larder, func(lf *model.LarderFood) bool { return enough[lf.Food.Name] > 0 })
		if out.Needless != needless || needless != (len(out.Short) == 0) || needless && len(out.Replacements) > 0 {
			t.Errorf("without %s: needless %v, short of %v; %v are enough", gone.Food, out.Needless, out.Short, enough)
		}
		if needless {
			continue
		}
		tried++
		shown := map[string]bool{}
		var last Replacement
		for i, a := range out.Replacements {
			shown[a.Food] = true
			n, fits := enough[a.Food]
			if a.Balanced != fits || a.Balanced != (len(a.Short) == 0) || len(a.Packs) != 1 || a.Packs[0].Food != a.Food || fits && a.Packs[0].Count != n || a.NDB == "" {
				t.Errorf("without %s: %+v, want %d packs, enough %v", gone.Food, a, n, fits)
			}
			if i > 0 && (a.Balanced && !last.Balanced || a.Balanced && a.CostChange < last.CostChange-0.01) {
				t.Errorf("without %s: %s, %+g, stands behind %s, %+g", gone.Food, a.Food, a.CostChange, last.Food, last.CostChange)
			}
			last = a
			if a.Balanced {
				balanced++
			} else {
				others++
			}
			changed := answer.Write(m, a.x[:len(m.Cols)])
			if got := elastic.WriteClosest(m, a.x[:len(m.Cols)]).Shortfalls; len(got) != len(a.Short) {
				t.Errorf("without %s: %s leaves %v short, said %v", gone.Food, a.Food, got, a.Short)
			}
			for _, line := range changed.Packs {
				was := made.Bought()[line.Pack]
				if line.Food == a.Food {
					was += a.Packs[0].Count
				}
				if line.Food == gone.Food || line.Count != was {
					t.Errorf("without %s: %d packs of %s, want %d", gone.Food, line.Count, line.Pack, was)
				}
			}
			if math.Abs(changed.Totals.Cost-made.Totals.Cost-a.CostChange) > 1e-9 || math.Abs(changed.Totals.WeightKg-made.Totals.WeightKg-a.WeightChange) > 1e-9 || math.Abs(changed.Totals.VolumeL-made.Totals.VolumeL-a.VolumeChange) > 1e-9 {
				t.Errorf("without %s: %+v is no change to what it comes to", gone.Food, a)
			}
		}
		for name, n := range enough {
			if !shown[name] {
				t.Errorf("without %s: %d packs of %s are enough and not shown", gone.Food, n, name)
			}
		}
		if out.Considered < len(out.Replacements) || out.Considered > sold {
			t.Errorf("without %s: %d of %d foods looked at", gone.Food, out.Considered, len(m.Larder))
		}
	}
	if tried < 2 || balanced < 2 || others < 2 {
		t.Errorf("%d foods are replaced, by %d that are enough and %d others: the test shows little", tried, balanced, others)
	}
	if _, err := ReplacementsFor(t.Context(), req, &ration.Plan{Days: 5, Packs: made.Packs[:1]}, made.Packs[1].Food, ""); !errors.Is(err, ErrSwap) {
		t.Errorf("of a plan without it: %v", err)
	}
	set := slices.Clone(made.Packs)
	set[0].Reserve = true
	if _, err := ReplacementsFor(t.Context(), req, &ration.Plan{Days: 5, Packs: set[:1]}, set[0].Food, ""); !errors.Is(err, ErrSwap) {
		t.Errorf("of what is set aside: %v", err)
	}
	if _, err := ReplacementsFor(t.Context(), req, made, "ambrosia", ""); !errors.Is(err, foods.ErrUnknown) {
		t.Errorf("ambrosia: %v", err)
	}
	if _, err := Replacements(t.Context(), &ration.Plan{}, "rice", ""); err == nil {
		t.Error("a plan without its request has stand-ins")
	}
}

// TestAWholeSwap: without a food of the plan the swapped plan keeps the independent check, nothing of
// the food is left, and every figure is what the two plans say: the best value and the spread over it,
// which the plan keeps; what goes and comes; a ceiling of the household's own on the cost stands.
func TestAWholeSwap(t *testing.T) {
	req, m, made := smallRation(t, rationtest.Adult("Signe", 30, nutrients.Female))
	made.Bound = new(float64)
	*made.Bound = *made.Value * 0.9
	tried := 0
	for _, gone := range made.Packs {
		change := SwapRequest{Drop: []string{gone.Food}, Spread: 0.2}
		s, err := MakeFor(t.Context(), req, made, change, nil)
		if err != nil {
			t.Fatal(err)
		}
		if s.Notice != made.Notice || len(s.Refused) != 1 {
			t.Errorf("without %s: %+v", gone.Food, s.NotFed)
		}
		if s.Plan.Status == ration.StatusInfeasible {
			if s.Warning == "" || s.Best != nil || s.Proven {
				t.Errorf("without %s: %+v", gone.Food, s)
			}
			continue
		}
		tried++
		changed, _, err := change.apply(req, made)
		if err != nil {
			t.Fatal(err)
		}
		for _, v := range verify.Check(changed, s.Plan) {
			t.Errorf("without %s: %v", gone.Food, v)
		}
		if s.Best == nil || *s.Best > *s.Plan.Value || s.Most < *s.Best*1.2-1e-9 || *s.Plan.Value > s.Most*(1+1e-6) || s.Warning != "" {
			t.Errorf("without %s: best %v, most %g, value %g, warning %q", gone.Food, s.Best, s.Most, *s.Plan.Value, s.Warning)
		}
		if got := changesBetween(made, s.Plan, gone.Food); got != s.Changes || s.ChangesBound > s.Changes || s.Proven != (s.ChangesBound >= s.Changes) {
			t.Errorf("without %s: %d changes of at least %d, proven %v, the plans differ by %d", gone.Food, s.Changes, s.ChangesBound, s.Proven, got)
		}
		if s.Plan.Bound == nil || *s.Plan.Bound > *s.Plan.Value+1e-9 || *s.Plan.Bound < *made.Bound-1e-9 {
			t.Errorf("without %s: the bound is %v of %g", gone.Food, s.Plan.Bound, *s.Plan.Value)
		}
		if len(s.Out) == 0 || s.Out[0].Count <= 0 || len(s.Needs) == 0 || math.Abs(s.CostChange-(s.Plan.Totals.Cost-made.Totals.Cost)) > 1e-9 {
			t.Errorf("without %s: out %v, needs %v, cost %+g", gone.Food, s.Out, s.Needs, s.CostChange)
		}
		// A budget between the best and the spread over it is kept.
		budget := *s.Best * 1.02
		limited := *req
		limited.Limits.Budget = &budget
		under, err := MakeFor(t.Context(), &limited, made, change, nil)
		if err != nil {
			t.Fatal(err)
		}
		if under.Plan.Totals == nil || under.Plan.Totals.Cost > budget*(1+1e-6) || under.Most > budget*(1+1e-9) || under.Changes < s.Changes {
			t.Errorf("without %s, budget %g: most %g, %d changes, %d without it: %+v", gone.Food, budget, under.Most, under.Changes, s.Changes, under.Plan.Totals)
		}
		// A budget that nothing keeps: no plan, and that is said.
		none := *s.Plan.Bound / 2
		limited.Limits.Budget = &none
		if broke, err := MakeFor(t.Context(), &limited, made, change, nil); err != nil || broke.Plan.Status != ration.StatusInfeasible || broke.Warning == "" {
			t.Errorf("without %s, budget %g: %+v, %v", gone.Food, none, broke, err)
		}
		if tried == 2 {
			break
		}
	}
	if tried == 0 {
		t.Error("nothing was swapped: the test shows nothing")
	}
	// What the plan does not hold changes nothing.
	absent := ""
	for _, lf := range m.Larder {
		if !slices.ContainsFunc(made.Packs, func(k ration.PlanPack) bool { return k.Food == lf.Food.Name }) {
			absent = lf.Food.Name
		}
	}
	if absent == "" {
		t.Fatal("all foods are in the plan")
	}
	s, err := MakeFor(t.Context(), req, made, SwapRequest{Drop: []string{absent}, Spread: 0.2}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(s.In) > 0 || len(s.Out) > 0 || s.Changes != 0 || !s.Proven || s.Warning == "" || *s.Best != *s.Plan.Value || s.Most != *s.Plan.Value || math.Abs(*s.Plan.Value-*made.Value) > 1e-6 || math.Abs(s.CostChange) > 1e-9 || s.Plan.Bound == nil || *s.Plan.Bound != *made.Bound {
		t.Errorf("without %s, which it does not hold: %+v", absent, s)
	}
}
