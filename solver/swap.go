package solver

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"rationwright/foods"
	"rationwright/solver/branch"
	"rationwright/solver/simplex"
)

// SwapRequest is what to change in a plan.
type SwapRequest struct {
	Drop   []string           // foods nobody, or For, gets any more
	Reduce map[string]float64 // foods to hold to this share of the old amount, 0 to 1
	Keep   []string           // foods whose packs stay as they are
	For    string             // "" all; else one person
	Spread float64            // how much dearer than the best without the food, as a fraction
}

// DefaultSpread is the --spread of a swap: five per cent over the best value.
const DefaultSpread = 0.05

// Swap is a changed plan with the fewest pack changes.
type Swap struct {
	NotFed
	Out          []PackChange `json:"out"`
	In           []PackChange `json:"in"`
	CostChange   float64      `json:"cost_change"`
	WeightChange float64      `json:"weight_change"`
	VolumeChange float64      `json:"volume_change"`
	Changes      int          `json:"changes"`           // Σ |count − old count| over packs not of the dropped or reduced foods
	ChangesBound int          `json:"changes_bound"`     // no plan within the spread changes fewer
	Proven       bool         `json:"proven"`            // changes equals its bound
	Best         *float64     `json:"best,omitempty"`    // best value found after the change, in the unit of the plan's objective
	Most         float64      `json:"most,omitempty"`    // most that the changed plan might come to: best and Spread more
	Needs        []NeedChange `json:"needs,omitempty"`   // what falls short first, then what falls furthest towards its floor, then the largest change
	Warning      string       `json:"warning,omitempty"` // the balance cannot be kept, or not wholly
	Plan         *Plan        `json:"plan"`
}

// PackChange is a number of packs that goes or comes.
type PackChange struct {
	Pack  string `json:"pack"`
	Food  string `json:"food,omitempty"`
	Count int    `json:"count"`
}

// NeedChange is what a person gets of a nutrient per day, before and after.
type NeedChange struct {
	Person   string  `json:"person"`
	Nutrient string  `json:"nutrient"`
	Unit     string  `json:"unit"`
	Before   float64 `json:"before"`
	After    float64 `json:"after"`

	Floor *float64 `json:"floor,omitempty"` // at least this much is asked after the change
}

// ErrSwap is wrapped by what is wrong with a swap that is asked for.
var ErrSwap = errors.New("the swap cannot be made")

// MakeSwap changes plan so that the food is gone, with the fewest changes of
// other packs, at no more than Spread over the best value found without it, and
// then at the least value found.
func MakeSwap(ctx context.Context, plan *Plan, change SwapRequest, progress func(Progress)) (*Swap, error) {
	old, err := swappable(plan)
	if err != nil {
		return nil, err
	}
	return makeSwap(ctx, old, plan, change, progress)
}

// makeSwap is [MakeSwap] with the request of the plan at hand.
func makeSwap(ctx context.Context, old *Request, plan *Plan, change SwapRequest, progress func(Progress)) (*Swap, error) {
	req, touched, err := change.apply(old, plan)
	if err != nil {
		return nil, err
	}
	r, err := Build(req)
	if err != nil {
		return nil, err
	}
	w := &swapSearch{ration: r, old: plan, touched: touched, spread: change.Spread, most: inf}
	if own := r.ownLimit(); own >= 0 { // a budget, of the least cost, is one more ceiling on the value
		w.most = r.Problem.Rows[own].Upper
		r.Problem.Rows[own].Upper = inf
	}
	s := &Swap{NotFed: plan.notFed(), Out: []PackChange{}, In: []PackChange{}}
	if !slices.ContainsFunc(plan.Packs, func(k PlanPack) bool { return touched[foodNamed(req.Table, k.Food)] }) {
		return w.unchanged(s)
	}
	if w.shortfalls, err = w.best(ctx, progress); err != nil {
		return nil, err
	}
	if w.x == nil || w.value > w.most*(1+limitTolerance) {
		if r, err = Build(req); err != nil {
			return nil, err
		}
		w.ration = r
		if s.Plan, err = r.make(ctx, progress); err != nil {
			return nil, err
		}
		if s.Plan.Status == StatusInfeasible {
			s.Warning = "no ration keeps the balance after this change; see what conflicts, what comes closest, and what it would take"
			return s, nil
		}
		w.x, w.value = r.pointOf(s.Plan), *s.Plan.Value
	}
	best := w.value
	w.fewest(ctx)
	if s.Plan, err = w.plan(ctx); err != nil {
		return nil, err
	}
	s.Most = math.Min(w.most, best*(1+change.Spread))
	best = math.Min(best, *s.Plan.Value)
	s.Best = &best
	s.Changes, s.ChangesBound, s.Proven = w.changes, w.bound, w.bound >= w.changes
	s.compare(plan, touched)
	if ctx.Err() != nil {
		s.Warning = "interrupted: these are the fewest changes found so far"
	}
	if shorter(plan, s.Plan) {
		s.Warning = "the balance is kept but for vitamins that the body stores; see who is short"
	}
	return s, nil
}

// unchanged is the answer where the plan holds nothing of what is to go: the plan as
// it is, which keeps what was asked from now on.
func (w *swapSearch) unchanged(s *Swap) (*Swap, error) {
	w.x, w.least, w.shortfalls = w.ration.pointOf(w.old), math.Inf(-1), w.old.Shortfalls
	if w.old.Bound != nil {
		w.least = *w.old.Bound
	}
	var err error
	if s.Plan, err = w.finished(w.ration.answer(w.x)); err != nil {
		return nil, err
	}
	s.Best, s.Most, s.Proven = s.Plan.Value, *s.Plan.Value, true
	s.Warning = "the plan holds nothing of what is to go: it stays as it is"
	s.compare(w.old, w.touched)
	return s, nil
}

// swappable returns the request of a plan that holds packs.
func swappable(plan *Plan) (*Request, error) {
	if plan.Request == nil {
		return nil, fmt.Errorf("%w: it has no request; make it again with --format json", ErrPlan)
	}
	if plan.Totals == nil {
		return nil, ErrNoRation
	}
	return plan.Request.Load()
}

// boughtOf counts the packs of a plan that are bought, by key, without those
// set aside.
func boughtOf(plan *Plan) map[string]int {
	counts := map[string]int{}
	for _, line := range plan.Packs {
		if !line.Reserve {
			counts[line.Pack] += line.Count - line.FromStock
		}
	}
	return counts
}

// foodsOf marks the foods of the larder that are in a plan.
func (r *Ration) foodsOf(plan *Plan) []bool {
	in := make([]bool, len(r.larder))
	for li, lf := range r.larder {
		in[li] = slices.ContainsFunc(plan.Packs, func(k PlanPack) bool { return k.Food == lf.food.Name })
	}
	return in
}

// Limits of the searches of a swap, in simplex iterations, where the request's
// time is [DefaultTime]; a longer time gives as many times more.
const (
	swapBestWork   = 16000
	swapPriceWork  = 4000
	swapFewestWork = 8000
	swapProofWork  = 4000 // among all packs, whose program is the largest
	swapLeastWork  = 3000
)

// work is the limit of one search of a swap in the time of the request.
func (w *swapSearch) work(base float64) int64 {
	return int64(math.Max(1, base*w.ration.Request.Time.Seconds()/DefaultTime.Seconds()))
}

// swapSearch is one swap under way.
type swapSearch struct {
	ration     *Ration
	old        *Plan
	touched    map[*foods.Food]bool // dropped or reduced: their packs do not count
	spread     float64
	most       float64 // the household's own limit on the value
	shortfalls []Shortfall

	x       []float64 // best point found
	value   float64   // of the plan's own objective at x
	least   float64   // proven bound on the value of any plan after the change
	changes int

	spreadRow int // of the program of changes
	bound     int // proven: no plan within the spread changes fewer packs
}

// best looks for the best plan after the change, among the foods that the
// relaxation finds worth it. x stays nil where that finds none.
func (w *swapSearch) best(ctx context.Context, progress func(Progress)) (shortfalls []Shortfall, err error) {
	r := w.ration
	w.least = math.Inf(-1)
	if w.old.Bound != nil {
		w.least = *w.old.Bound // what is possible after the change was so before
	}
	for {
		q, err := r.newPriced(r.Problem, r.foodsOf(w.old))
		if err != nil {
			return nil, err
		}
		found := q.quick(ctx, branch.Options{
			Gap: r.Request.Within, MinDenom: smallest(r.Request.Least), Work: w.work(swapBestWork), Time: r.Request.Time,
			Start: w.repaired(ctx, q), Progress: progress,
		})
		if found.Status == branch.Infeasible && shortfalls == nil {
			var ok bool
			if shortfalls, _, ok = r.relaxStoredVitamins(ctx); ok {
				w.least = math.Inf(-1)
				continue
			}
		}
		if found.X != nil {
			w.x, w.value, w.least = found.X, found.Value, math.Max(w.least, found.Bound)
		}
		return shortfalls, nil
	}
}

// repaired keeps every pack of the old plan that may stay and adds what is
// missing, at the least value.
func (w *swapSearch) repaired(ctx context.Context, q *priced) []float64 {
	bought := boughtOf(w.old)
	cols := w.ration.Problem.Cols
	for _, lf := range w.ration.larder {
		for _, k := range lf.buy {
			if was := float64(bought[k.pack.Key]); was > 0 && !w.touched[lf.food] {
				q.relaxed.setBounds(k.col, math.Min(was, cols[k.col].Upper), cols[k.col].Upper)
				defer q.relaxed.setBounds(k.col, cols[k.col].Lower, cols[k.col].Upper)
			}
		}
	}
	if q.solve(ctx).Status != simplex.Optimal {
		return nil
	}
	return q.relaxed.diveUp(ctx)
}

// plan writes and checks the changed plan. Its bound is that of the best plan
// after the change.
func (w *swapSearch) plan(ctx context.Context) (*Plan, error) {
	return w.finished(w.ration.tidyAnswer(ctx, w.x, w.shortfalls))
}

// finished completes and checks a changed plan.
func (w *swapSearch) finished(p *Plan) (*Plan, error) {
	r := w.ration
	p.Status = StatusLimit
	if !math.IsInf(w.least, 0) {
		bound := w.least
		gap := gapOf(*p.Value, bound, smallest(r.Request.Least))
		p.Bound, p.Gap = &bound, &gap
		if gap <= r.Request.Within {
			p.Status = StatusOptimal
		}
	}
	p.Shortfalls = p.gets(w.shortfalls)
	r.complete(p)
	if found := Verify(r.Request, p); len(found) > 0 {
		return nil, fmt.Errorf("%w: %s (%d findings)", ErrUnverified, found[0], len(found))
	}
	return p, nil
}

// compare lists what goes and comes and what changes: packs bought, and of the
// foods that the swap is about those from stock as well.
func (s *Swap) compare(old *Plan, touched map[*foods.Food]bool) {
	about := map[string]bool{}
	for f := range touched {
		about[f.Name] = true
	}
	was, is := boughtOf(old), boughtOf(s.Plan)
	for _, side := range []struct {
		plan   *Plan
		counts map[string]int
	}{{old, was}, {s.Plan, is}} {
		for _, line := range side.plan.Packs {
			if about[line.Food] && !line.Reserve {
				side.counts[line.Pack] += line.FromStock
			}
		}
	}
	food := map[string]string{}
	var keys []string
	for _, line := range append(slices.Clone(old.Packs), s.Plan.Packs...) {
		if _, ok := food[line.Pack]; !ok {
			keys = append(keys, line.Pack)
		}
		food[line.Pack] = line.Food
	}
	for _, key := range keys {
		switch n := is[key] - was[key]; {
		case n > 0:
			s.In = append(s.In, PackChange{Pack: key, Food: food[key], Count: n})
		case n < 0:
			s.Out = append(s.Out, PackChange{Pack: key, Food: food[key], Count: -n})
		}
	}
	s.CostChange = clean(s.Plan.Totals.Cost - old.Totals.Cost)
	s.WeightChange = clean(s.Plan.Totals.WeightKg - old.Totals.WeightKg)
	s.VolumeChange = clean(s.Plan.Totals.VolumeL - old.Totals.VolumeL)
	for i := range s.Plan.People {
		for _, need := range s.Plan.People[i].Needs {
			before := needOf(old, s.Plan.People[i].Name, need.Nutrient)
			if before == nil {
				continue
			}
			s.Needs = append(s.Needs, NeedChange{
				Person: s.Plan.People[i].Name, Nutrient: need.Nutrient, Unit: need.Unit,
				Before: before.Amount, After: need.Amount, Floor: need.Floor,
			})
		}
	}
	rankNeeds(s.Needs)
}

func needOf(plan *Plan, person, nutrient string) *PersonNeed {
	for i := range plan.People {
		if plan.People[i].Name == person {
			return plan.People[i].need(nutrient)
		}
	}
	return nil
}

// pointOf is the point of the model that a plan describes.
func (r *Ration) pointOf(plan *Plan) []float64 {
	x := make([]float64, len(r.cols))
	for _, line := range plan.Packs {
		r.placePacks(x, line)
	}
	for i, e := range r.eaters {
		if e.drink >= 0 {
			x[e.drink] = plan.People[i].DrinkLPerDay * r.days()
		}
		for _, y := range e.eats {
			for _, f := range plan.People[i].Foods {
				if f.Food == r.larder[y.food].food.Name {
					x[y.col] = f.Grams
				}
			}
		}
	}
	x[r.water], x[r.heat] = plan.Totals.WaterL, plan.Totals.HeatMJ
	for j, info := range r.cols {
		switch info.kind {
		case colOwnWater:
			x[j] = plan.Totals.OwnWaterL
		case colOwnHeat:
			x[j] = plan.Totals.OwnHeatMJ
		}
	}
	return x
}

// placePacks puts one line of a plan into the columns of a point.
func (r *Ration) placePacks(x []float64, line PlanPack) {
	stock, bought := line.FromStock, line.Count-line.FromStock
	for _, lf := range r.larder {
		if !strings.EqualFold(lf.food.Name, line.Food) {
			continue
		}
		cols := lf.supply()
		if line.Reserve {
			cols = lf.reserve
		}
		for _, k := range cols {
			switch {
			case k.pack.Key != line.Pack:
			case k.line < 0:
				x[k.col], bought = float64(bought), 0
			default:
				n := min(float64(stock), r.Problem.Cols[k.col].Upper)
				x[k.col] = n
				stock -= int(n)
			}
		}
	}
}
