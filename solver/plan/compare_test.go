package plan

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/search"
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

// TestPointsOfTheSamePlan: points hold the same plan where packs, reserve, water and fuel are the
// same, to the gram, the millilitre and the cent; a new plan has the next number.
func TestPointsOfTheSamePlan(t *testing.T) {
	of := func(count int, reserve bool, cost, kg, l float64) *ration.Plan {
		return &ration.Plan{Packs: []ration.PlanPack{{Pack: "rice", Count: count, Reserve: reserve}}, Totals: &ration.Totals{Cost: cost, WeightKg: kg, VolumeL: l}}
	}
	plans := []*ration.Plan{
		of(2, false, 10, 5, 7), of(2, false, 10.009, 5.0009, 7.0009), // the same
		of(3, false, 10, 5, 7), of(3, true, 10, 5, 7), of(3, true, 10.02, 5, 7), of(3, true, 10.02, 5.002, 7), of(3, true, 10.02, 5.002, 6.998), of(3, true, 10.02, 5.002, 6.998),
	}
	points := make([]FrontierPoint, len(plans))
	for k, p := range plans {
		bound, gap := 9.0, 0.1
		p.Bound, p.Gap = &bound, &gap
		points[k] = pointOf(p, float64(20-k))
		if got := points[k]; got.Limit != float64(20-k) || got.Of(ration.LeastCost) != p.Totals.Cost || got.Of(ration.LeastWeight) != p.Totals.WeightKg || got.Of(ration.LeastVolume) != p.Totals.VolumeL || *got.Bound != 9 || *got.Gap != 0.1 {
			t.Errorf("point %d: %+v", k, got)
		}
	}
	numberPlans(points)
	for k, want := range []int{1, 1, 2, 3, 4, 5, 6, 6} {
		if points[k].Plan != want {
			t.Errorf("point %d is plan %d, want %d", k, points[k].Plan, want)
		}
	}
	if samePacks(plans[0], &ration.Plan{Totals: plans[0].Totals}) || samePacks(plans[0], &ration.Plan{Totals: plans[0].Totals, Packs: []ration.PlanPack{{Pack: "oats", Count: 2}}}) {
		t.Error("other packs are the same plan")
	}
	c := &Comparison{Plans: []*ration.Plan{{Least: ration.LeastCost}, {Least: ration.LeastVolume}}}
	if c.plan(ration.LeastVolume) != c.Plans[1] || c.plan(ration.LeastCost) != c.Plans[0] {
		t.Error("the plan of another total")
	}
}

// TestNobodyToCompare: where nobody is fed the one plan says why, in whatever total, and no
// frontier is added to it.
func TestNobodyToCompare(t *testing.T) {
	nobody := rationtest.Adult("Nils", 50, nutrients.Male)
	nobody.Conditions = []nutrients.Condition{nutrients.TubeFeeding}
	req := rationtest.Basics(t, nobody)
	c, err := Compare(context.Background(), req, true, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(c.Plans) != 1 || c.Plans[0].Status != ration.StatusInfeasible || len(c.Plans[0].Conflict) != 1 || c.Plans[0].Totals != nil || len(c.Refused) != 1 || c.Refused[0].Name != "Nils" || c.Notice == "" {
		t.Errorf("%+v", c)
	}
	if len(c.Plans[0].Cautions) == 0 || c.Plans[0].Request == nil {
		t.Errorf("no cautions, or no request: %+v", c.Plans[0])
	}
	if err := c.AddFrontier(context.Background(), req, ration.LeastCost, ration.LeastWeight); err != nil || c.Frontier != nil {
		t.Errorf("%v, %+v", err, c.Frontier)
	}
}

// TestPartOfTheFirstSearch: most of the time is the search's, less where a second aim, or first
// of all the least sodium, or a proof of it follows.
func TestPartOfTheFirstSearch(t *testing.T) {
	salt := rationtest.Adult("Aud", 60, nutrients.Female)
	salt.Conditions = []nutrients.Condition{nutrients.LowSodium}
	for _, c := range []struct {
		who   nutrients.Person
		slack float64
		audit bool
		want  float64
	}{{rationtest.Adult("Ida", 33, nutrients.Female), 0, false, search.SearchPart}, {rationtest.Adult("Ida", 33, nutrients.Female), 0.03, false, search.FirstPart}, {salt, 0.03, false, search.HarmedPart}, {salt, 0, false, search.SearchPart}, {salt, 0.03, true, search.AuditedPart}} {
		req := rationtest.Basics(t, c.who)
		req.Slack, req.Audit = c.slack, c.audit
		m, err := model.Build(req)
		if err != nil {
			t.Fatal(err)
		}
		if got := partOfSearch(m); got != c.want {
			t.Errorf("slack %g, audit %v: %g, want %g", c.slack, c.audit, got, c.want)
		}
	}
}
