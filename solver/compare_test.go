package solver

import (
	"context"
	"testing"
	"time"

	"rationwright/nutrients"
)

// The frontier runs from the least of one total to the least of another: each
// point keeps its limit, passes the check, and a tighter limit never gives less
// of the other total; what is proven of a point holds for the points after it.
func TestFrontier(t *testing.T) {
	req := &Request{
		People: []nutrients.Person{adult("Signe", 30, nutrients.Female)}, Table: table(t),
		Within: 0.03, Time: time.Minute, Work: 4000, Start: "2026-11-25",
	}
	if *campaign < 10 {
		req.Table, req.Standard = smallTable(t, smallShop...), nutrients.StandardBasic
	}
	c, err := Compare(context.Background(), req, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(c.Plans) != 3 {
		t.Fatalf("%d plans", len(c.Plans))
	}
	for _, p := range c.Plans {
		for _, other := range c.Plans {
			if p.Bound != nil && other.Totals.least(p.Least) < *p.Bound*(1-1e-6) {
				t.Errorf("the plan of least %s has %g of %s, under the proven bound %g", other.Least, other.Totals.least(p.Least), p.Least, *p.Bound)
			}
		}
	}
	if err := c.AddFrontier(context.Background(), req, LeastCost, LeastWeight); err != nil {
		t.Fatal(err)
	}
	points := c.Frontier.Points
	if len(points) != frontierPoints {
		t.Fatalf("%d points", len(points))
	}
	for k, p := range points {
		if p.Of(LeastWeight) > p.Limit*(1+1e-6) {
			t.Errorf("point %d weighs %g kg, over its limit %g", k, p.Of(LeastWeight), p.Limit)
		}
		if k > 0 && (p.Limit >= points[k-1].Limit || p.Of(LeastCost) < points[k-1].Of(LeastCost)*(1-1e-6)) {
			t.Errorf("point %d: at most %g kg for %g, after at most %g kg for %g", k, p.Limit, p.Of(LeastCost), points[k-1].Limit, points[k-1].Of(LeastCost))
		}
		if p.Bound != nil && p.Of(LeastCost) < *p.Bound*(1-1e-6) {
			t.Errorf("point %d costs %g, under the proven bound %g", k, p.Of(LeastCost), *p.Bound)
		}
		one := *req
		one.Limits.WeightKg = &p.Limit
		one.Least = p.plan.Least
		for _, v := range Verify(&one, p.plan) {
			t.Errorf("point %d: %v", k, v)
		}
	}
}
