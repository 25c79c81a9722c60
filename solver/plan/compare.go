package plan

import (
	"context"
	"math"
	"slices"
	"time"

	"rationwright/solver/answer"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
)

// Comparison sets the plans of least cost, weight and volume of one request side
// by side.
type Comparison struct {
	ration.NotFed
	Plans    []*ration.Plan `json:"plans"` // least cost, weight, volume; or the one that says why nothing fits
	Frontier *Frontier      `json:"frontier,omitempty"`
}

// Frontier is how little of one total is possible for each amount of another:
// points from the least of the one to the least of the other.
type Frontier struct {
	Least  ration.Least    `json:"least"`  // the total made least at each point
	Within ration.Least    `json:"within"` // the total held to a limit
	Points []FrontierPoint `json:"points"` // by Limit, the widest first
}

// FrontierPoint is one plan of a frontier. Bound is proven: no plan within the
// limit has less of the total that is made least. What is proven of a limit holds
// for every tighter one, so that bounds never fall from one point to the next.
type FrontierPoint struct {
	Limit    float64  `json:"limit"` // most of the total that is held
	Cost     float64  `json:"cost"`
	WeightKg float64  `json:"weight_kg"`
	VolumeL  float64  `json:"volume_l"`
	Bound    *float64 `json:"bound,omitempty"`
	Gap      *float64 `json:"gap,omitempty"`
	Plan     int      `json:"plan"` // counted from 1: points of the same number are the same plan

	plan *ration.Plan
}

// Of returns the point's amount of a total.
func (p *FrontierPoint) Of(l ration.Least) float64 {
	return (&ration.Totals{Cost: p.Cost, WeightKg: p.WeightKg, VolumeL: p.VolumeL}).Of(l)
}

// frontierPoints is how many points of a frontier are looked for.
const frontierPoints = 10

// Compare makes the plans of least cost, weight and volume of req, each in a third
// of its time, less what a frontier takes. When nothing fits, the only plan says
// why.
func Compare(ctx context.Context, req *ration.Request, frontier bool, progress func(search.Progress)) (*Comparison, error) {
	out := &Comparison{}
	all := []ration.Least{ration.LeastCost, ration.LeastWeight, ration.LeastVolume}
	part := 1.0
	if frontier {
		part -= search.FrontierPart
	}
	timed, stop := search.Part(ctx, part)
	defer stop()
	for k, least := range all {
		one := *req
		one.Least = least
		one.Effort = time.Duration(part / float64(len(all)) * float64(ration.Filled(req).Time))
		timed, stop := search.Part(timed, 1/float64(len(all)-k))
		plan, err := Make(timed, &one, progress)
		stop()
		if err != nil {
			return nil, err
		}
		out.Plans, out.NotFed = append(out.Plans, plan), ration.NotFed{Notice: plan.Notice, Refused: plan.Refused}
		if plan.Totals == nil {
			out.Plans = []*ration.Plan{plan}
			return out, nil
		}
	}
	return out, nil
}

// AddFrontier adds ten points of least x at limits on y, spaced evenly from the
// y of the plan of least x down to the least y found (the ε-constraint method: Y. Y.
// Haimes, L. S. Lasdon, D. A. Wismer, "On a bicriterion formulation of the
// problems of integrated system identification and system optimization", IEEE
// Transactions on Systems, Man, and Cybernetics 1 (1971)). Each point is searched
// with the same small amount of work, from the plan before it, so that no point
// has more of x than one with a tighter limit.
func (c *Comparison) AddFrontier(ctx context.Context, req *ration.Request, x, y ration.Least) error {
	if len(c.Plans) < 2 {
		return nil
	}
	leastX, leastY := c.plan(x), c.plan(y)
	wide, tight := leastX.Totals.Of(y), leastY.Totals.Of(y)
	points := make([]FrontierPoint, frontierPoints)
	points[0] = pointOf(leastX, wide)
	// All points are held to the same planning rules: loosened where either end is.
	eased := append(loosened(leastX), loosened(leastY)...)
	if len(loosened(leastY)) > 0 {
		points[0].Bound = nil // was proven of tighter rules
	}
	start := leastY
	for k := frontierPoints - 1; k > 0; k-- {
		limit := wide - (wide-tight)*float64(k)/(frontierPoints-1)
		timed, stop := search.Part(ctx, 1/float64(k))
		plan, err := frontierPlan(timed, req, x, y, limit, start, eased)
		stop()
		if err != nil {
			return err
		}
		points[k] = pointOf(plan, limit)
		start = plan
	}
	if start.Totals.Of(x) < points[0].Of(x) { // the search by itself found no better
		points[0] = pointOf(start, wide)
		if len(loosened(leastY)) == 0 {
			points[0].Bound = leastX.Bound
		}
	}
	carryBounds(points, x)
	numberPlans(points)
	c.Frontier = &Frontier{Least: x, Within: y, Points: points}
	return nil
}

func loosened(p *ration.Plan) []ration.Loosened {
	if p.Eatable == nil {
		return nil
	}
	return p.Eatable.Loosened
}

// carryBounds takes what is proven of each limit over to the tighter ones, and
// works out the gaps from that. Points are by limit, the widest first.
func carryBounds(points []FrontierPoint, x ration.Least) {
	for k := range points {
		p := &points[k]
		if k > 0 && points[k-1].Bound != nil && (p.Bound == nil || *p.Bound < *points[k-1].Bound) {
			p.Bound = points[k-1].Bound
		}
		if p.Gap = nil; p.Bound != nil {
			gap := ration.GapOf(p.Of(x), *p.Bound, ration.SmallestStep(x))
			p.Gap = &gap
		}
	}
}

// numberPlans gives points of the same packs the same number. A point repeats the
// plan of a tighter limit where the search found none better.
func numberPlans(points []FrontierPoint) {
	for k := range points {
		switch {
		case k == 0:
			points[k].Plan = 1
		case samePacks(points[k].plan, points[k-1].plan):
			points[k].Plan = points[k-1].Plan
		default:
			points[k].Plan = points[k-1].Plan + 1
		}
	}
}

// samePacks reports whether two plans hold the same packs and as much water and
// fuel, to the gram and the millilitre.
func samePacks(a, b *ration.Plan) bool {
	same := func(a, b ration.PlanPack) bool {
		return a.Pack == b.Pack && a.Count == b.Count && a.Reserve == b.Reserve
	}
	return slices.EqualFunc(a.Packs, b.Packs, same) && math.Abs(a.Totals.WeightKg-b.Totals.WeightKg) < ration.SmallestStep(ration.LeastWeight) &&
		math.Abs(a.Totals.VolumeL-b.Totals.VolumeL) < ration.SmallestStep(ration.LeastVolume) && math.Abs(a.Totals.Cost-b.Totals.Cost) < ration.SmallestStep(ration.LeastCost)
}

// plan is the one of least l.
func (c *Comparison) plan(l ration.Least) *ration.Plan {
	return c.Plans[slices.IndexFunc(c.Plans, func(p *ration.Plan) bool { return p.Least == l })]
}

func pointOf(p *ration.Plan, limit float64) FrontierPoint {
	return FrontierPoint{
		Limit: limit, Cost: p.Totals.Cost, WeightKg: p.Totals.WeightKg, VolumeL: p.Totals.VolumeL,
		Bound: p.Bound, Gap: p.Gap, plan: p,
	}
}

// frontierPlan looks for the least x within a limit on y, from a plan that keeps
// the limit.
func frontierPlan(ctx context.Context, req *ration.Request, x, y ration.Least, limit float64, start *ration.Plan, eased []ration.Loosened) (*ration.Plan, error) {
	one := *req
	one.Least = x
	at := map[ration.Least]**float64{ration.LeastCost: &one.Limits.Budget, ration.LeastWeight: &one.Limits.WeightKg, ration.LeastVolume: &one.Limits.VolumeL}[y]
	if *at == nil || **at > limit {
		room := limit * (1 + search.ValueRoom)
		*at = &room
	}
	m, err := model.Build(&one)
	if err != nil {
		return nil, err
	}
	m = m.Raised(eased)
	q, err := search.NewMaster(m, m.Problem, m.FoodsOf(start))
	if err != nil {
		return nil, err
	}
	from := m.PointOf(start)
	found := q.Search(ctx, search.Options{
		Gap: m.Request.Within, MinDenom: ration.SmallestStep(x), Work: search.FrontierWork, Start: from,
	})
	if found.X == nil || m.ValueOf(found.X) > m.ValueOf(from) {
		found.X = from
	}
	if ration.GapOf(m.ValueOf(found.X), found.Bound, ration.SmallestStep(x)) > m.Request.Within && ctx.Err() == nil {
		whole := search.Run(ctx, m.Problem, search.Options{
			Gap: m.Request.Within, MinDenom: ration.SmallestStep(x), Work: search.FrontierWork, Start: found.X,
		})
		if whole.X != nil && m.ValueOf(whole.X) < m.ValueOf(found.X) {
			found.X = whole.X
		}
		found.Bound = math.Max(found.Bound, whole.Bound)
	}
	return answer.Finish(ctx, m, found.X, found, start.Shortfalls)
}
