package conflict

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"rationwright/nutrients"
	"rationwright/solver/conflicttest"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/search"
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
	people := []nutrients.Person{rationtest.Adult("Signe", 20+rng.IntN(60), nutrients.Female)}
	if rng.IntN(3) == 0 {
		people = append(people, rationtest.Adult("Torgeir", 20+rng.IntN(60), nutrients.Male))
	}
	req := &ration.Request{
		People: people, Start: "2026-11-25", Time: 20 * time.Second, Days: 1 + rng.IntN(14),
		Standard: []nutrients.Standard{nutrients.StandardBasic, nutrients.StandardEAR, nutrients.StandardRDA}[rng.IntN(3)],
		Least:    []ration.Least{ration.LeastCost, ration.LeastWeight, ration.LeastVolume}[rng.IntN(3)],
	}
	req.Table = rationtest.Table(t)
	req.IgnoreEatable = true // conflicts are of needs, safety and the user's limits: planning rules give way before
	if req.Standard == nutrients.StandardBasic {
		req.Table = rationtest.SmallTable(t, rationtest.SmallShop...)
	}
	squeeze := func(limit model.RowInfo, share float64) float64 {
		m, err := model.Build(req)
		if err != nil {
			t.Fatal(err)
		}
		x, err := search.Relax(model.AimedAtLimit(m, limit).Problem)
		if err != nil {
			t.Fatal(err)
		}
		return x.Solve(context.Background()).Value * share
	}
	share := 0.5 + 0.49*rng.Float64()
	total := func(l ration.Least) float64 { return squeeze(model.RowInfo{Total: l}, share) }
	supply := func(heat bool) float64 {
		on := model.OnWater
		if heat {
			on = model.OnHeat
		}
		return squeeze(model.RowInfo{On: on}, share)
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
		req.Table = rationtest.SmallTable(t, "white-rice-907g-bag", "dry-lentils-454g-bag", "pasta-454g-bag", "sunflower-oil-0.5l-bottle", "egg-powder-227g-canister", "tomatoes-411g-can")
		req.Standard = nutrients.StandardBasic
		req.Without = nil
		v := supply(true)
		req.Limits.HeatMJ = &v
	case "exclusions":
		groups := req.Table.Groups()
		rng.Shuffle(len(groups), func(i, j int) { groups[i], groups[j] = groups[j], groups[i] })
		if req.Standard == nutrients.StandardBasic {
			groups = rationtest.SmallShop
		}
		cut := len(groups) / 3
		req.Without, people[0].Dislikes = groups[:cut], groups[cut:2*cut]
	case "cooking":
		req.Table = rationtest.SmallTable(t, "white-rice-907g-bag", "dry-lentils-454g-bag", "pasta-454g-bag", "sunflower-oil-0.5l-bottle", "peanut-butter-454g-jar", "tomatoes-411g-can", "rye-crispbread-250g-box")
		req.Standard = nutrients.StandardBasic
		req.Cook = []ration.Cook{ration.CookNone, ration.CookWarm}[rng.IntN(2)]
		people[0].Rules = []nutrients.Rule{{Kind: nutrients.RuleNo, Food: "rye-crispbread-250g-box", Text: "no rye-crispbread-250g-box"}}
	case "least rule":
		people[0].Rules = []nutrients.Rule{
			{Kind: nutrients.RuleLeast, Food: "sugar-454g-bag", Low: 150, Text: "least sugar-454g-bag 150 g/day"},
			{Kind: nutrients.RuleMost, Food: "sunflower-oil-0.5l-bottle", Low: 5, Text: "most sunflower-oil-0.5l-bottle 5 g/day"},
		}
	case "most rule":
		req.Table = rationtest.SmallTable(t, rationtest.SmallShop...)
		req.Standard = nutrients.StandardBasic
		for _, f := range []string{"white-rice-907g-bag", "rolled-oats-510g-canister", "canned-kidney-beans-439g-can"} {
			people[0].Rules = append(people[0].Rules, nutrients.Rule{Kind: nutrients.RuleMost, Food: f, Low: 30, Text: "most " + f + " 30 g/day"})
		}
	case "allowance":
		v := 1 + 10*rng.Float64()
		req.Limits.WaterL, req.Allowance = &v, true
	case "floor rule":
		people[0].Rules = []nutrients.Rule{{Kind: nutrients.RuleFloor, Nutrient: nutrients.Fibre, Low: 150 + 100*rng.Float64(), Text: "floor fibre"}}
		req.Table = rationtest.SmallTable(t, rationtest.SmallShop...)
		req.Standard = nutrients.StandardBasic
	case "standard":
		req.Table = rationtest.SmallTable(t, append([]string{"orange-juice-354g-can", "dry-lentils-454g-bag"}, rationtest.SmallShop...)...)
		req.Standard = nutrients.StandardRDA
	case "two at once":
		v, w := total(ration.LeastCost), total(ration.LeastWeight)
		req.Limits.Budget, req.Limits.WeightKg = &v, &w
	case "whole packs":
		req.Table = rationtest.SmallTable(t, rationtest.SmallShop[:6+rng.IntN(5)]...)
		req.Standard, req.Days = nutrients.StandardBasic, 1+rng.IntN(4)
		l := []ration.Least{ration.LeastCost, ration.LeastWeight, ration.LeastVolume}[rng.IntN(3)]
		m, err := model.Build(req)
		if err != nil {
			t.Fatal(err)
		}
		m = model.AimedAtLimit(m, model.RowInfo{Total: l})
		x, err := search.Relax(m.Problem)
		if err != nil {
			t.Fatal(err)
		}
		low := x.Solve(context.Background())
		best := search.Run(context.Background(), m.Problem, search.Options{Gap: 1e-6, Work: 20000})
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
func possible(t *testing.T, f *Finder, set []conflictLimit) (yes, decided bool) {
	t.Helper()
	p := withOnly(t, f, set)
	limited := p.Clone()
	most := linear.Inf
	for i, row := range p.Rows {
		if row.Name == "budget" || row.Name == "max-weight" || row.Name == "max-litres" {
			if row.Upper < most {
				most = row.Upper
				model.AimAtRow(p, i)
				p.Rows[i].Upper = linear.Inf
			}
			break
		}
	}
	result := search.Run(context.Background(), p, search.Options{Gap: 1e-4, Work: 12000})
	p = limited
	switch {
	case result.X != nil && result.Value <= most:
		missed, err := p.Check(result.X, ration.CheckTolerance)
		if err != nil || len(missed) > 0 {
			t.Fatalf("the point misses %v (%v)", missed, err)
		}
		return true, true
	case result.Status == search.Infeasible, most < linear.Inf && result.Bound > most:
		return false, true
	}
	return false, false
}

// confirmMembers lifts each member of a proven set by itself: without it there must
// be a ration. It returns how many there are and how many could be decided.
func confirmMembers(t *testing.T, where string, f *Finder, set conflictSet) (members, confirmed int) {
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
	for n := range len(infeasibleKinds) * 2 * *rationtest.Campaign {
		kind := infeasibleKinds[n%len(infeasibleKinds)]
		req := randomRequest(t, rng, kind)
		m, err := model.Build(req)
		if err != nil {
			t.Fatal(err)
		}
		f := newFinder(m)
		set, ok := f.find(context.Background())
		if !ok {
			continue
		}
		infeasible++
		byKind[kind]++
		if relaxedFits, err := rationtest.WholeFeasible(t, rationtest.WithoutStoredVitamins(m)); err == nil && relaxedFits {
			packsOnly++
		}
		where := fmt.Sprintf("request %d (%s, %v): %v", n, kind, set.proven, f.inWords(set))
		if yes, decided := possible(t, f, set.limits); decided && yes {
			t.Errorf("%s: the whole set is possible", where)
		}
		if n%4 == 0 && req.Standard == nutrients.StandardBasic {
			if p := withOnly(t, f, set.limits); len(m.PackLimits(p)) == 0 && rationtest.FitsByReferee(t, p) {
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
			closer += conflicttest.CheckClosest(t, where, m)
		}
		if req.Standard != nutrients.StandardBasic || n%3 != 0 {
			continue
		}
		for _, w := range f.waysOut(context.Background(), set) {
			ways++
			conflicttest.CheckWayOut(t, where, req, w)
		}
	}
	t.Logf("%d impossible requests of %d (%d by whole packs alone), %d proven (%.1f %%), %d of %d members confirmed again, %d ways out, %d closest rations, %d by the referee too: %v",
		infeasible, len(infeasibleKinds)*2**rationtest.Campaign, packsOnly, proven, 100*float64(proven)/float64(infeasible), confirmed, members, ways, closer, referred, byKind)
	if infeasible < 15**rationtest.Campaign || packsOnly == 0 || ways == 0 || closer == 0 {
		t.Error("too few impossible requests: the test shows little")
	}
	if confirmed < members*9/10 {
		t.Error("too few members could be confirmed")
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
	for _, c := range cases[:min(len(cases), 1+*rationtest.Campaign/2)] {
		req := &ration.Request{People: rationtest.Ternsund(), Table: rationtest.Table(t), Least: ration.LeastCost, Start: "2026-11-25", Time: time.Minute, Within: 0.01}
		c.make(req)
		m, err := model.Build(req)
		if err != nil {
			t.Fatal(err)
		}
		f := newFinder(m)
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
