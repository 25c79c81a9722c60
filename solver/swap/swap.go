package swap

import (
	"context"
	"errors"
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/solver/model"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
	"rationwright/solver/search"
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
	ration.NotFed
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
	Plan         *ration.Plan `json:"plan"`
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

// Make changes plan so that the food is gone, with the fewest changes of
// other packs, at no more than Spread over the best value found without it, and
// then at the least value found.
func Make(ctx context.Context, plan *ration.Plan, change SwapRequest, progress func(search.Progress)) (*Swap, error) {
	old, err := plan.Asked()
	if err != nil {
		return nil, err
	}
	return MakeFor(ctx, old, plan, change, progress)
}

// MakeFor is [Make] with the request of the plan at hand.
func MakeFor(ctx context.Context, old *ration.Request, before *ration.Plan, change SwapRequest, progress func(search.Progress)) (*Swap, error) {
	req, touched, err := change.apply(old, before)
	if err != nil {
		return nil, err
	}
	m, err := model.BuildFor(req, before)
	if err != nil {
		return nil, err
	}
	w := &swapSearch{model: m, old: before, touched: touched, spread: change.Spread, most: model.Inf}
	if own := m.OwnLimit(); own >= 0 { // a budget, of the least cost, is one more ceiling on the value
		w.most = m.Problem.Rows[own].Upper
		m = model.WithoutLimit(m, own)
		w.model = m
	}
	s := &Swap{NotFed: ration.NotFed{Notice: before.Notice, Refused: before.Refused}, Out: []PackChange{}, In: []PackChange{}}
	if !slices.ContainsFunc(before.Packs, func(k ration.PlanPack) bool { return touched[rules.FoodNamed(req.Table, k.Food)] }) {
		return w.unchanged(s)
	}
	timed, stop := search.Part(ctx, search.SwapBestPart)
	w.shortfalls, err = w.best(timed, progress)
	stop()
	if err != nil {
		return nil, err
	}
	if w.x == nil || w.value > w.most*(1+search.LimitTolerance) {
		if m, err = model.Build(req); err != nil {
			return nil, err
		}
		w.model = m
		timed, stop := search.Part(ctx, search.SwapBestPart)
		s.Plan, err = plan.MakeModel(timed, m, progress)
		stop()
		if err != nil {
			return nil, err
		}
		if s.Plan.Infeasible() {
			s.Warning = "no ration keeps the balance after this change; see what conflicts, what comes closest, and what it would take"
			return s, nil
		}
		if s.Plan.Eatable != nil {
			w.model = m.Raised(s.Plan.Eatable.Loosened)
		}
		w.x, w.value = m.PointOf(s.Plan), *s.Plan.Value
	}
	best := w.value
	timed, stop = search.Part(ctx, search.SwapFewestPart)
	w.fewest(timed)
	stop()
	if s.Plan, err = w.plan(ctx); err != nil {
		return nil, err
	}
	s.Most = math.Min(w.most, best*(1+change.Spread))
	best = math.Min(best, *s.Plan.Value)
	s.Best = &best
	s.Changes, s.ChangesBound, s.Proven = w.changes, w.bound, w.bound >= w.changes
	s.compare(before, touched)
	if search.Interrupted(ctx) {
		s.Warning = "interrupted: these are the fewest changes found so far"
	}
	if shorter(before, s.Plan) {
		s.Warning = "the balance is kept but for vitamins that the body stores; see who is short"
	}
	return s, nil
}

// compare lists what goes and comes and what changes: packs bought, and of the
// foods that the swap is about those from stock as well.
func (s *Swap) compare(old *ration.Plan, touched map[*foods.Food]bool) {
	about := map[string]bool{}
	for f := range touched {
		about[f.Name] = true
	}
	was, is := old.Bought(), s.Plan.Bought()
	for _, side := range []struct {
		plan   *ration.Plan
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
	s.CostChange = ration.NoResidue(s.Plan.Totals.Cost - old.Totals.Cost)
	s.WeightChange = ration.NoResidue(s.Plan.Totals.WeightKg - old.Totals.WeightKg)
	s.VolumeChange = ration.NoResidue(s.Plan.Totals.VolumeL - old.Totals.VolumeL)
	for i := range s.Plan.People {
		for _, need := range s.Plan.People[i].Needs {
			before := old.NeedOf(s.Plan.People[i].Name, need.Nutrient)
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
