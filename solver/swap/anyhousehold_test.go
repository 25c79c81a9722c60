package swap_test

import (
	"context"
	"errors"
	"math/rand/v2"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/solver/check"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/swap"
	"rationwright/solver/verify"
	"rationwright/solver/why"
)

// Whatever the household: its plan can be explained, a food of it dropped or
// replaced and half of it checked as a stock, and every plan that comes of it
// passes the independent check.
func TestAnyHouseholdCanAsk(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 2026))
	all := rationtest.Table(t)
	var plans, swaps, proven, impossible, checked int
	for range 2 * *rationtest.Campaign {
		req := &ration.Request{
			People: rationtest.RandomHousehold(rng), Table: all, Least: []ration.Least{ration.LeastCost, ration.LeastWeight, ration.LeastVolume}[rng.IntN(3)],
			Within: 0.1, Work: 4000, Time: time.Minute, Start: "2026-11-25",
		}
		rationtest.Ask(rng, req)
		plan, err := plan.Make(context.Background(), req, nil)
		if errors.Is(err, ration.ErrNoPlan) {
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", rationtest.Described(req), err)
			continue
		}
		if plan.Totals == nil || len(plan.Packs) == 0 {
			continue
		}
		plans++
		drop := plan.Packs[rng.IntN(len(plan.Packs))].Food
		s, err := swap.MakeFor(context.Background(), req, plan, swap.SwapRequest{Drop: []string{drop}, Spread: swap.DefaultSpread}, nil)
		switch {
		case errors.Is(err, swap.ErrSwap) || errors.Is(err, ration.ErrNoPlan): // an infant's milk, or not found in the time
		case err != nil:
			t.Errorf("%s without %s: %v", rationtest.Described(req), drop, err)
		case s.Plan.Status == ration.StatusInfeasible:
			impossible++
			if s.Warning == "" || len(s.Plan.Conflict) == 0 {
				t.Errorf("%s without %s: nothing fits, and no reason is given", rationtest.Described(req), drop)
			}
		default:
			swaps++
			if s.Proven {
				proven++
			}
			changed, err := s.Plan.Request.Load()
			if err != nil {
				t.Fatal(err)
			}
			for _, v := range verify.Check(changed, s.Plan) {
				t.Errorf("%s without %s: %v", rationtest.Described(req), drop, v)
			}
		}
		if _, err := why.ExplainFor(context.Background(), req, plan, why.WhyRequest{Foods: []string{drop}}); err != nil {
			t.Errorf("%s: why: %v", rationtest.Described(req), err)
		}
		out, err := swap.ReplacementsFor(context.Background(), req, plan, drop, "")
		if err != nil && !errors.Is(err, swap.ErrSwap) {
			t.Errorf("%s instead of %s: %v", rationtest.Described(req), drop, err)
		} else if err == nil {
			for _, a := range out.Replacements {
				swap.CheckReplacement(t, req, plan, drop, a)
			}
		}
		half := *req
		for _, line := range plan.Packs {
			if k := ration.FindPack(req, line.Pack); line.Count > 1 {
				half.Stock = append(half.Stock, foods.StockLine{Pack: k, Count: float64(line.Count / 2)})
			}
		}
		half.Least = ration.LeastCost
		c, err := check.Check(context.Background(), &half, nil)
		if errors.Is(err, ration.ErrNoPlan) {
			continue
		}
		if err != nil {
			t.Errorf("%s: check: %v", rationtest.Described(req), err)
			continue
		}
		checked++
		if c.TopUp.Totals != nil {
			for _, v := range verify.Check(rationtest.Loaded(c.TopUp, t, &half), c.TopUp) {
				t.Errorf("%s: half of its plan completed: %v", rationtest.Described(req), v)
			}
		}
	}
	t.Logf("%d plans; %d swaps (%d proven), %d impossible; %d stocks checked", plans, swaps, proven, impossible, checked)
	if plans == 0 || swaps == 0 || checked == 0 {
		t.Error("no plan was made, swapped or checked: the test shows nothing")
	}
}
