package solver

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"rationwright/nutrients"
	"rationwright/solver/branch"
	"rationwright/solver/linear"
	"rationwright/solver/ration"
	"rationwright/solver/verify"
)

// infeasibleKinds are the ways in which a generated request is made
// impossible.
var infeasibleKinds = []string{
	"budget", "weight", "litres", "water", "heat", "exclusions", "cooking", "least rule", "most rule", "allowance", "floor rule", "two at once", "whole packs", "standard",
}

// randomRequest draws a request of one or two people on a small or the whole
// table and squeezes it so that nothing should fit.
func randomRequest(t *testing.T, rng *rand.Rand, kind string) *ration.Request {
	t.Helper()
	people := []nutrients.Person{adult("Signe", 20+rng.IntN(60), nutrients.Female)}
	if rng.IntN(3) == 0 {
		people = append(people, adult("Torgeir", 20+rng.IntN(60), nutrients.Male))
	}
	req := &ration.Request{
		People: people, Start: "2026-11-25", Time: 20 * time.Second, Days: 1 + rng.IntN(14),
		Standard: []nutrients.Standard{nutrients.StandardBasic, nutrients.StandardEAR, nutrients.StandardRDA}[rng.IntN(3)],
		Least:    []ration.Least{ration.LeastCost, ration.LeastWeight, ration.LeastVolume}[rng.IntN(3)],
	}
	req.Table = table(t)
	if req.Standard == nutrients.StandardBasic {
		req.Table = smallTable(t, smallShop...)
	}
	squeeze := func(of func(*Ration), share float64) float64 {
		r, err := Build(req)
		if err != nil {
			t.Fatal(err)
		}
		of(r)
		x, err := relax(r.Problem)
		if err != nil {
			t.Fatal(err)
		}
		return x.solve(context.Background()).Value * share
	}
	share := 0.5 + 0.49*rng.Float64()
	total := func(l ration.Least) float64 { return squeeze(func(r *Ration) { r.aim(l) }, share) }
	supply := func(heat bool) float64 {
		return squeeze(func(r *Ration) {
			info := rowInfo{unit: "L"}
			if heat {
				info.unit = "MJ"
			}
			r.aimAtLimit(info)
		}, share)
	}
	switch kind {
	case "budget":
		v := total(ration.LeastCost)
		req.Limits.Budget = &v
	case "weight":
		v := total(ration.LeastWeight)
		req.Limits.WeightKg = &v
	case "litres":
		v := total(ration.LeastVolume)
		req.Limits.VolumeL = &v
	case "water":
		v := supply(false)
		req.Limits.WaterL = &v
	case "heat":
		req.Without = []string{"crackers and bread", "canned fish"}
		req.Table = smallTable(t, "white-rice-907g-bag", "dry-lentils-454g-bag", "pasta-454g-bag", "sunflower-oil-0.5l-bottle", "egg-powder-227g-canister", "tomatoes-411g-can")
		req.Standard = nutrients.StandardBasic
		req.Without = nil
		v := supply(true)
		req.Limits.HeatMJ = &v
	case "exclusions":
		groups := req.Table.Groups()
		rng.Shuffle(len(groups), func(i, j int) { groups[i], groups[j] = groups[j], groups[i] })
		if req.Standard == nutrients.StandardBasic {
			groups = smallShop
		}
		cut := len(groups) / 3
		req.Without, people[0].Dislikes = groups[:cut], groups[cut:2*cut]
	case "cooking":
		req.Table = smallTable(t, "white-rice-907g-bag", "dry-lentils-454g-bag", "pasta-454g-bag", "sunflower-oil-0.5l-bottle", "peanut-butter-454g-jar", "tomatoes-411g-can", "rye-crispbread-250g-box")
		req.Standard = nutrients.StandardBasic
		req.Cook = []ration.Cook{ration.CookNone, ration.CookWarm}[rng.IntN(2)]
		people[0].Rules = []nutrients.Rule{{Kind: nutrients.RuleNo, Food: "rye-crispbread-250g-box", Text: "no rye-crispbread-250g-box"}}
	case "least rule":
		people[0].Rules = []nutrients.Rule{
			{Kind: nutrients.RuleLeast, Food: "sugar-454g-bag", Low: 150, Text: "least sugar-454g-bag 150 g/day"},
			{Kind: nutrients.RuleMost, Food: "sunflower-oil-0.5l-bottle", Low: 5, Text: "most sunflower-oil-0.5l-bottle 5 g/day"},
		}
	case "most rule":
		req.Table = smallTable(t, smallShop...)
		req.Standard = nutrients.StandardBasic
		for _, f := range []string{"white-rice-907g-bag", "rolled-oats-510g-canister", "canned-kidney-beans-439g-can"} {
			people[0].Rules = append(people[0].Rules, nutrients.Rule{Kind: nutrients.RuleMost, Food: f, Low: 30, Text: "most " + f + " 30 g/day"})
		}
	case "allowance":
		v := 1 + 10*rng.Float64()
		req.Limits.WaterL, req.Allowance = &v, true
	case "floor rule":
		people[0].Rules = []nutrients.Rule{{Kind: nutrients.RuleFloor, Nutrient: nutrients.Fibre, Low: 150 + 100*rng.Float64(), Text: "floor fibre"}}
		req.Table = smallTable(t, smallShop...)
		req.Standard = nutrients.StandardBasic
	case "standard":
		req.Table = smallTable(t, append([]string{"orange-juice-354g-can", "dry-lentils-454g-bag"}, smallShop...)...)
		req.Standard = nutrients.StandardRDA
	case "two at once":
		v, w := total(ration.LeastCost), total(ration.LeastWeight)
		req.Limits.Budget, req.Limits.WeightKg = &v, &w
	case "whole packs":
		req.Table = smallTable(t, smallShop[:6+rng.IntN(5)]...)
		req.Standard, req.Days = nutrients.StandardBasic, 1+rng.IntN(4)
		l := []ration.Least{ration.LeastCost, ration.LeastWeight, ration.LeastVolume}[rng.IntN(3)]
		r, err := Build(req)
		if err != nil {
			t.Fatal(err)
		}
		r.aim(l)
		x, err := relax(r.Problem)
		if err != nil {
			t.Fatal(err)
		}
		low := x.solve(context.Background())
		best := branch.Solve(context.Background(), r.Problem, branch.Options{Gap: 1e-6, Work: 20000})
		v := (low.Value + best.Value) / 2 // over the relaxation, under whole packs
		switch l {
		case ration.LeastCost:
			req.Limits.Budget = &v
		case ration.LeastWeight:
			req.Limits.WeightKg = &v
		default:
			req.Limits.VolumeL = &v
		}
	}
	return req
}

// possible decides by the engine alone whether there is a ration with only the
// limits of set in force, whole packs and all: it builds the program anew. A
// total is made the objective, as a limit on it is hard to search under.
func possible(t *testing.T, f *conflictFinder, set []conflictLimit) (yes, decided bool) {
	t.Helper()
	_, p, err := newConflictFinder(f.base).program(set)
	if err != nil {
		t.Fatal(err)
	}
	for i := range p.Rows {
		p.Rows[i].Lazy = false
	}
	limited := p.Clone()
	most := linear.Inf
	for i, row := range p.Rows {
		if row.Name == "budget" || row.Name == "max-weight" || row.Name == "max-litres" {
			if row.Upper < most {
				most = row.Upper
				aimAtRow(p, i)
				p.Rows[i].Upper = linear.Inf
			}
			break
		}
	}
	result := branch.Solve(context.Background(), p, branch.Options{Gap: 1e-4, Work: 12000})
	p = limited
	switch {
	case result.X != nil && result.Value <= most:
		missed, err := p.Check(result.X, checkTolerance)
		if err != nil || len(missed) > 0 {
			t.Fatalf("the point misses %v (%v)", missed, err)
		}
		return true, true
	case result.Status == branch.Infeasible, most < linear.Inf && result.Bound > most:
		return false, true
	}
	return false, false
}

// confirmMembers lifts each member of a proven set by itself: without it there must
// be a ration. It returns how many there are and how many could be decided.
func confirmMembers(t *testing.T, where string, f *conflictFinder, set conflictSet) (members, confirmed int) {
	t.Helper()
	for _, member := range f.members(set) {
		members++
		rest := slices.DeleteFunc(slices.Clone(set.limits), func(l conflictLimit) bool { return slices.Contains(member, l) })
		yes, decided := possible(t, f, rest)
		if decided && !yes {
			t.Errorf("%s: without %v it is still impossible", where, f.inWords(conflictSet{limits: member, proven: true, grouped: true}))
		}
		if decided {
			confirmed++
		}
	}
	return members, confirmed
}

// Every conflict that is marked proven is irreducible: all of it is impossible,
// and without any one of its members there is a ration. Every way out is a
// changed request whose plan passes the independent check.
func TestConflictsAreIrreducible(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 2026))
	var infeasible, proven, confirmed, members, ways, packsOnly, referred, closer int
	byKind := map[string]int{}
	for n := range len(infeasibleKinds) * 2 * *campaign {
		kind := infeasibleKinds[n%len(infeasibleKinds)]
		req := randomRequest(t, rng, kind)
		r, err := Build(req)
		if err != nil {
			t.Fatal(err)
		}
		f := newConflictFinder(r)
		set, ok := f.find(context.Background())
		if !ok {
			continue
		}
		infeasible++
		byKind[kind]++
		if relaxedFits, err := wholeFeasible(t, withoutStoredVitamins(r)); err == nil && relaxedFits {
			packsOnly++
		}
		where := fmt.Sprintf("request %d (%s, %v): %v", n, kind, set.proven, f.inWords(set))
		if yes, decided := possible(t, f, set.limits); decided && yes {
			t.Errorf("%s: the whole set is possible", where)
		}
		if n%4 == 0 && req.Standard == nutrients.StandardBasic {
			if _, p, err := f.program(set.limits); err == nil && fitsByReferee(t, p) && len(r.packLimits(p)) == 0 {
				t.Errorf("%s: the referee finds a point of the whole set", where)
			}
			referred++
		}
		if !set.proven {
			t.Log(where)
			continue
		}
		proven++
		tried, sure := confirmMembers(t, where, f, set)
		members, confirmed = members+tried, confirmed+sure
		if n%3 == 1 {
			closer += checkClosest(t, where, r)
		}
		if req.Standard != nutrients.StandardBasic || n%3 != 0 {
			continue
		}
		for _, w := range f.waysOut(context.Background(), set) {
			ways++
			checkWayOut(t, where, req, w)
		}
	}
	t.Logf("%d impossible requests of %d (%d by whole packs alone), %d proven (%.1f %%), %d of %d members confirmed again, %d ways out, %d closest rations, %d by the referee too: %v",
		infeasible, len(infeasibleKinds)*2**campaign, packsOnly, proven, 100*float64(proven)/float64(infeasible), confirmed, members, ways, closer, referred, byKind)
	if infeasible < 15**campaign || packsOnly == 0 || ways == 0 || closer == 0 {
		t.Error("too few impossible requests: the test shows little")
	}
	if confirmed < members*9/10 {
		t.Error("too few members could be confirmed")
	}
}

func withoutStoredVitamins(r *Ration) *linear.Problem {
	open := *r
	open.Problem = r.copyProblem()
	open.freeStoredVitamins()
	return open.Problem
}

// checkClosest holds the closest ration to the independent check, but for what it
// says it lacks, and returns 1 when there was one.
func checkClosest(t *testing.T, where string, r *Ration) int {
	t.Helper()
	near := r.closest(context.Background(), isNeed)
	if near == nil {
		return 0
	}
	p := r.answer(near)
	said := r.closestRation(near)
	p.Shortfalls = said.Shortfalls
	for _, o := range said.Passed {
		if !mayBePassed(r, o) {
			t.Errorf("%s: the closest ration passes %v", where, o)
		}
	}
	for _, v := range verify.CheckPassing(r.Request, p, said.Passed) {
		t.Errorf("%s: closest ration: %v", where, v)
	}
	return 1
}

// mayBePassed reports whether a ceiling is one that the closest ration may pass:
// a share of the energy, or sodium's against long-term illness, where no one's
// condition sets it.
func mayBePassed(r *Ration, o ration.Over) bool {
	for _, e := range r.eaters {
		if e.person.Name != o.Person {
			continue
		}
		for _, s := range e.needs.Shares {
			if s.Nutrient.Name() == o.Nutrient && s.Max != nil {
				return true
			}
		}
		return o.Nutrient == nutrients.Sodium.Name() && !slices.Contains(e.person.Conditions, nutrients.LowSodium)
	}
	return false
}

// checkWayOut holds one way out to what it says: a plan of the changed request
// that passes the check, made under no other safety than the request's own.
func checkWayOut(t *testing.T, where string, req *ration.Request, w ration.WayOut) {
	t.Helper()
	if !w.Tested || w.Request == nil || w.Plan == nil {
		t.Errorf("%s: %q is not tested", where, w.Change)
		return
	}
	for _, v := range verify.Check(w.Request, w.Plan) {
		t.Errorf("%s: %q: %v", where, w.Change, v)
	}
	if len(w.Request.People) != len(req.People) {
		t.Errorf("%s: %q leaves people out", where, w.Change)
	}
	for i, p := range w.Request.People {
		if fmt.Sprint(p.Allergies, p.Conditions, p.AgeMonths, p.State) != fmt.Sprint(req.People[i].Allergies, req.People[i].Conditions, req.People[i].AgeMonths, req.People[i].State) {
			t.Errorf("%s: %q changes who %s is", where, w.Change, p.Name)
		}
	}
}

// What a conflict, the closest ration and the ways out say of one plain case.
func TestNothingFitsInPlainWords(t *testing.T) {
	budget := 5.0
	req := &ration.Request{
		People: []nutrients.Person{adult("Signe", 30, nutrients.Female)}, Table: table(t), Days: 3,
		Standard: nutrients.StandardBasic, Start: "2026-11-25", Limits: ration.Limits{Budget: &budget}, Time: time.Minute,
	}
	plan := mustMake(t, req)
	if plan.Status != ration.StatusInfeasible || plan.Proven == nil || !*plan.Proven {
		t.Fatalf("status %s, proven %v", plan.Status, plan.Proven)
	}
	words := map[string]bool{}
	for _, c := range plan.Conflict {
		words[c.Limit] = true
	}
	if !words["budget at most 5 TSD"] || len(plan.Conflict) < 2 {
		t.Errorf("conflict %v, want the budget and what it cannot buy", plan.Conflict)
	}
	if plan.Closest == nil || len(plan.Closest.Shortfalls) == 0 {
		t.Fatal("no closest ration")
	}
	// The closest ration is a ration but for what it says it lacks.
	near := &ration.Plan{Packs: plan.Closest.Packs, People: plan.Closest.People, Shortfalls: plan.Closest.Shortfalls}
	for _, v := range verify.Check(req, near) {
		if v.Limit != "the plan has no totals" {
			t.Errorf("closest ration: %v", v)
		}
	}
	found := map[string]bool{}
	for _, w := range plan.WaysOut {
		found[w.Change] = true
		checkWayOut(t, "budget of 5", req, w)
	}
	if len(found) < 2 {
		t.Errorf("ways out %v, want more budget and fewer days", plan.WaysOut)
	}
}

// A safety rule may stand in a conflict, never in a way out: the milk of an
// infant is not given up for a budget.
func TestSafetyIsNoWayOut(t *testing.T) {
	budget := 1.0
	infant := nutrients.Person{Name: "Liv", AgeMonths: 4, Sex: nutrients.Female, WeightKg: 6.4, Feeding: nutrients.FormulaFed, Count: 1}
	plan := mustMake(t, &ration.Request{
		People: []nutrients.Person{infant}, Table: table(t), Start: "2026-11-25", Limits: ration.Limits{Budget: &budget}, Time: time.Minute,
	})
	if plan.Status != ration.StatusInfeasible {
		t.Fatalf("status %s", plan.Status)
	}
	if plan.Closest != nil {
		t.Error("a closest ration without the infant's milk is shown")
	}
	if len(plan.WaysOut) == 0 {
		t.Error("no way out: more budget is one")
	}
	for _, w := range plan.WaysOut {
		for _, line := range w.Plan.People {
			if len(line.Foods) == 0 {
				t.Errorf("%q leaves %s without milk", w.Change, line.Name)
			}
		}
	}
}

// Cooking is allowed as far as it helps, no further.
func TestMoreCookingIsAWayOut(t *testing.T) {
	on := smallTable(t, "white-rice-907g-bag", "sunflower-oil-0.5l-bottle", "pasta-454g-bag", "egg-powder-227g-canister", "canned-chicken-354g-can", "rye-crispbread-250g-box")
	plan := mustMake(t, &ration.Request{
		People: []nutrients.Person{adult("Signe", 30, nutrients.Female)}, Table: on, Standard: nutrients.StandardBasic,
		Cook: ration.CookNone, Start: "2026-11-25", Days: 3, Time: time.Minute,
	})
	if plan.Status != ration.StatusInfeasible {
		t.Fatalf("status %s", plan.Status)
	}
	cooking := false
	for _, w := range plan.WaysOut {
		cooking = cooking || w.Change == cookingWords[ration.CookBoil] && w.Request.Cook == ration.CookBoil
	}
	if !cooking {
		t.Errorf("conflict %v, ways out %v, want %q", plan.Conflict, plan.WaysOut, cookingWords[ration.CookBoil])
	}
}

// Where water itself is short, the closest ration says so: first what is for
// washing goes, then what is to drink; and nothing else is wrong with it.
func TestClosestRationWithoutWater(t *testing.T) {
	for _, c := range []struct {
		share  float64 // of the least that a ration takes
		drinks bool    // falls short of water to drink as well
	}{{0.9, false}, {0.2, true}} {
		req := &ration.Request{
			People: []nutrients.Person{adult("Signe", 30, nutrients.Female), adult("Torgeir", 40, nutrients.Male)},
			Table:  smallTable(t, smallShop...), Days: 5, Standard: nutrients.StandardBasic, Start: "2026-11-25", Time: time.Minute,
		}
		r, err := Build(req)
		if err != nil {
			t.Fatal(err)
		}
		for j := range r.Problem.Cols {
			r.Problem.Cols[j].Cost = 0
		}
		r.Problem.Cols[r.water].Cost = 1
		x, err := relax(r.Problem)
		if err != nil {
			t.Fatal(err)
		}
		litres := c.share * x.solve(context.Background()).Value
		req.Limits.WaterL = &litres
		plan := mustMake(t, req)
		if plan.Status != ration.StatusInfeasible || plan.Closest == nil {
			t.Fatalf("%g L: status %s, closest ration %v", litres, plan.Status, plan.Closest != nil)
		}
		short := map[string]bool{}
		for _, s := range plan.Closest.Shortfalls {
			short[s.Nutrient] = true
		}
		if !short[shortWashing] || short[shortDrink] != c.drinks {
			t.Errorf("%g L: short of %v; want water for washing, and to drink %v", litres, short, c.drinks)
		}
		limited, err := Build(req)
		if err != nil {
			t.Fatal(err)
		}
		if checkClosest(t, fmt.Sprintf("%g L", litres), limited) != 1 {
			t.Errorf("%g L: no closest ration", litres)
		}
	}
}

// A budget that a plan found without it keeps is no reason to find none; one under
// the proven bound is impossible.
func TestBudgetAtThePlansOwnCost(t *testing.T) {
	req := &ration.Request{
		People: []nutrients.Person{adult("Signe", 30, nutrients.Female)}, Table: smallTable(t, smallShop...), Least: ration.LeastCost, Days: 3,
		Standard: nutrients.StandardBasic, Start: "2026-11-25", Time: 10 * time.Second, Within: 0.01,
	}
	free := mustMake(t, req)
	for _, room := range []float64{0, 0.002, 0.05} {
		budget := *free.Value * (1 + room)
		req.Limits.Budget = &budget
		plan, err := Make(context.Background(), req, nil)
		if err != nil || plan.Status == ration.StatusInfeasible {
			t.Errorf("a plan costs %g, but with a budget of %g there is none: %v", *free.Value, budget, err)
			continue
		}
		if plan.Totals.Cost > budget*(1+1e-6) {
			t.Errorf("budget %g, the plan costs %g", budget, plan.Totals.Cost)
		}
	}
	budget := *free.Bound * 0.98
	req.Limits.Budget = &budget
	if plan, err := Make(context.Background(), req, nil); err == nil && plan.Status != ration.StatusInfeasible && len(plan.Shortfalls) == 0 {
		t.Errorf("nothing costs less than %g, but a plan keeps a budget of %g", *free.Bound, budget)
	}
}

// For a family a conflict names whole needs: each member is confirmed by lifting it
// for everyone, and the set is short enough to read.
func TestFamilyConflictsNameWholeNeeds(t *testing.T) {
	limit := func(set func(*ration.Limits, *float64), v float64) func(*ration.Request) {
		return func(req *ration.Request) { set(&req.Limits, &v) }
	}
	budget := func(l *ration.Limits, v *float64) { l.Budget = v }
	cases := []struct {
		what string
		make func(*ration.Request)
	}{
		{"budget 150", limit(budget, 150)},
		{"budget 110", limit(budget, 110)},
		{"budget 200", limit(budget, 200)},
		{"weight 310", limit(func(l *ration.Limits, v *float64) { l.WeightKg = v }, 310)},
		{"litres 340", limit(func(l *ration.Limits, v *float64) { l.VolumeL = v }, 340)},
		{"no cooking, budget 200", func(req *ration.Request) { v := 200.0; req.Limits.Budget, req.Cook = &v, ration.CookNone }},
	}
	proven, grouped, confirmed, members := 0, 0, 0, 0
	for _, c := range cases[:min(len(cases), 1+*campaign/2)] {
		req := &ration.Request{People: ternsund(), Table: table(t), Least: ration.LeastCost, Start: "2026-11-25", Time: time.Minute, Within: 0.01}
		c.make(req)
		r, err := Build(req)
		if err != nil {
			t.Fatal(err)
		}
		f := newConflictFinder(r)
		set, ok := f.find(context.Background())
		if !ok {
			t.Errorf("%s: no conflict found", c.what)
			continue
		}
		words := f.inWords(set)
		if needs := len(f.members(set)); needs > 2*mostSingle {
			t.Errorf("%s: %d members: %v", c.what, needs, words)
		}
		if set.grouped {
			grouped++
		}
		if !set.proven {
			t.Logf("%s: not proven: %v", c.what, words)
			continue
		}
		proven++
		tried, sure := confirmMembers(t, c.what, f, set)
		members, confirmed = members+tried, confirmed+sure
		t.Logf("%s: %v", c.what, words)
	}
	t.Logf("%d of them by whole needs, %d proven, %d of %d members confirmed again", grouped, proven, confirmed, members)
	if grouped == 0 || proven == 0 || confirmed == 0 {
		t.Error("no conflict by whole needs: the test shows nothing")
	}
}
