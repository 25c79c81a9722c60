package plan

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/verify"
)

// The frontier runs from the least of one total to the least of another: each
// point keeps its limit, passes the check, and a tighter limit never gives less
// of the other total; what is proven of a point holds for the points after it.
func TestFrontier(t *testing.T) {
	req := &ration.Request{
		People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female)}, Table: rationtest.Table(t),
		Within: 0.03, Time: time.Minute, Work: 4000, Start: "2026-11-25",
	}
	if *rationtest.Campaign < 10 {
		req.Table, req.Standard, req.IgnoreEatable = rationtest.SmallTable(t, rationtest.SmallShop...), nutrients.StandardBasic, true
	}
	c, err := Compare(context.Background(), req, true, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(c.Plans) != 3 {
		t.Fatalf("%d plans", len(c.Plans))
	}
	for _, p := range c.Plans {
		for _, other := range c.Plans {
			if p.Bound != nil && other.Totals.Of(p.Least) < *p.Bound*(1-1e-6) {
				t.Errorf("the plan of least %s has %g of %s, under the proven bound %g", other.Least, other.Totals.Of(p.Least), p.Least, *p.Bound)
			}
		}
	}
	if err := c.AddFrontier(context.Background(), req, ration.LeastCost, ration.LeastWeight); err != nil {
		t.Fatal(err)
	}
	points := c.Frontier.Points
	if len(points) != frontierPoints {
		t.Fatalf("%d points", len(points))
	}
	for k, p := range points {
		if p.Of(ration.LeastWeight) > p.Limit*(1+1e-6) {
			t.Errorf("point %d weighs %g kg, over its limit %g", k, p.Of(ration.LeastWeight), p.Limit)
		}
		if k > 0 && (p.Limit >= points[k-1].Limit || p.Of(ration.LeastCost) < points[k-1].Of(ration.LeastCost)*(1-1e-6)) {
			t.Errorf("point %d: at most %g kg for %g, after at most %g kg for %g", k, p.Limit, p.Of(ration.LeastCost), points[k-1].Limit, points[k-1].Of(ration.LeastCost))
		}
		if p.Bound != nil && p.Of(ration.LeastCost) < *p.Bound*(1-1e-6) {
			t.Errorf("point %d costs %g, under the proven bound %g", k, p.Of(ration.LeastCost), *p.Bound)
		}
		switch {
		case p.Bound == nil || p.Gap == nil:
			t.Errorf("point %d has no bound or no gap", k)
		case k == 0 && c.Plans[0].Bound != nil && *p.Bound < *c.Plans[0].Bound:
			t.Errorf("bound %g without a limit, %g is proven", *p.Bound, *c.Plans[0].Bound)
		case k > 0 && *p.Bound < *points[k-1].Bound:
			t.Errorf("point %d: bound %g at most %g kg, but %g at most %g kg", k, *p.Bound, p.Limit, *points[k-1].Bound, points[k-1].Limit)
		}
		if same := k > 0 && p.Plan == points[k-1].Plan; k > 0 && !same && p.Plan != points[k-1].Plan+1 {
			t.Errorf("point %d is plan %d after plan %d", k, p.Plan, points[k-1].Plan)
		} else if same != (k > 0 && math.Abs(p.Cost-points[k-1].Cost) < 0.01 && math.Abs(p.WeightKg-points[k-1].WeightKg) < 0.001 && math.Abs(p.VolumeL-points[k-1].VolumeL) < 0.001) {
			t.Errorf("point %d: plan %d, after plan %d; %+v after %+v", k, p.Plan, points[k-1].Plan, p, points[k-1])
		}
		one := *req
		one.Limits.WeightKg = &p.Limit
		one.Least = p.plan.Least
		for _, v := range verify.Check(&one, p.plan) {
			t.Errorf("point %d: %v", k, v)
		}
	}
}

// Whatever is proven of single points, the bounds carried over never fall as the
// limit tightens, never fall under what was proven, and gaps follow from them.
func TestBoundsAreCarriedAlongTheFrontier(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		points := make([]FrontierPoint, frontierPoints)
		given := make([]*float64, len(points))
		for k := range points {
			points[k].Limit, points[k].Cost = float64(100-k), 300+float64(10*k)
			if rng.IntN(4) > 0 {
				bound := 300 - 30*rng.Float64()
				points[k].Bound, given[k] = &bound, &bound
			}
		}
		carryBounds(points, ration.LeastCost)
		for k, p := range points {
			most := math.Inf(-1) // of all looser limits and its own
			for _, b := range given[:k+1] {
				if b != nil {
					most = math.Max(most, *b)
				}
			}
			switch {
			case p.Bound == nil:
				if !math.IsInf(most, -1) || p.Gap != nil {
					t.Fatalf("point %d has no bound, %g is proven of it", k, most)
				}
			case *p.Bound != most:
				t.Fatalf("point %d: bound %g, want %g", k, *p.Bound, most)
			case math.Abs(*p.Gap-(p.Cost-most)/p.Cost) > 1e-12:
				t.Fatalf("point %d: gap %g of %g over %g", k, *p.Gap, p.Cost, most)
			}
		}
	}
}
