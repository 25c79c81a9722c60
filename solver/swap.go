package solver

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/branch"
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
	Out          []PackChange `json:"out"`
	In           []PackChange `json:"in"`
	CostChange   float64      `json:"cost_change"`
	WeightChange float64      `json:"weight_change"`
	VolumeChange float64      `json:"volume_change"`
	Changes      int          `json:"changes"`        // Σ |count − old count| over packs not of the dropped food
	ChangesBound int          `json:"changes_bound"`  // no plan within the spread changes fewer
	Proven       bool         `json:"proven"`         // changes equals its bound
	Best         *float64     `json:"best,omitempty"` // best value found without the food
	Needs        []NeedChange `json:"needs,omitempty"`
	Warning      string       `json:"warning,omitempty"`
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
}

// ErrSwap is wrapped by what is wrong with a swap request.
var ErrSwap = errors.New("the swap cannot be read")

// Limits of the search for the fewest changes.
const (
	swapWork = 60000 // simplex iterations
	swapRest = 20000 // iterations for the least cost at that number of changes
)

// MakeSwap changes plan so that the food is gone, with the fewest changes of
// other packs, at no more than Spread over the best value found without it, and
// then at the least value.
func MakeSwap(ctx context.Context, plan *Plan, change SwapRequest, progress func(Progress)) (*Swap, error) {
	if plan.Request == nil || plan.Totals == nil {
		return nil, fmt.Errorf("%w: the plan has no request or no packs in it; make it again with --format json", ErrSwap)
	}
	old, err := plan.Request.Load()
	if err != nil {
		return nil, err
	}
	req, dropped, err := change.apply(old, plan)
	if err != nil {
		return nil, err
	}
	r, err := Build(req)
	if err != nil {
		return nil, err
	}
	if err := r.keep(plan, change.Keep); err != nil {
		return nil, err
	}
	best, err := r.make(ctx, progress)
	if err != nil {
		return nil, err
	}
	s := &Swap{Out: []PackChange{}, In: []PackChange{}, Plan: best, Best: best.Value}
	if best.Status == StatusInfeasible {
		s.Warning = "no ration keeps the balance without it; see what conflicts and what would help"
		return s, nil
	}
	after, err := s.fewest(ctx, r, plan, dropped, change.Spread)
	if err != nil {
		return nil, err
	}
	s.Plan = after
	s.compare(plan, dropped)
	return s, nil
}

// apply turns the change into a request, and returns the foods that go.
func (c SwapRequest) apply(old *Request, plan *Plan) (*Request, map[*foods.Food]bool, error) {
	req := *old
	req.People = slices.Clone(old.People)
	dropped := map[*foods.Food]bool{}
	var errs []error
	if c.For != "" && !slices.ContainsFunc(req.People, func(p nutrients.Person) bool { return p.Name == c.For }) {
		errs = append(errs, fmt.Errorf("%w: nobody in the plan is called %q; the people are %s", ErrSwap, c.For, names(req.People)))
	}
	rule := func(kind nutrients.RuleKind, name string, grams float64) {
		for i := range req.People {
			if c.For == "" || req.People[i].Name == c.For {
				text := fmt.Sprintf("%s %s", kind, name)
				if kind == nutrients.RuleMost {
					text = fmt.Sprintf("%s %s %.6g g/day", kind, name, grams)
				}
				req.People[i].Rules = append(slices.Clone(req.People[i].Rules),
					nutrients.Rule{Kind: kind, Food: name, Low: grams, Text: text})
			}
		}
	}
	for _, name := range c.Drop {
		found, err := req.Table.Named(name)
		if err != nil {
			errs = append(errs, err)
			continue
		}
		if c.For != "" {
			rule(nutrients.RuleNo, name, 0)
			continue
		}
		req.Without = append(slices.Clone(req.Without), name)
		for _, f := range found {
			dropped[f] = true
		}
	}
	reduced := make([]string, 0, len(c.Reduce))
	for name := range c.Reduce {
		reduced = append(reduced, name)
	}
	slices.Sort(reduced)
	for _, name := range reduced {
		found, err := req.Table.Named(name)
		if err != nil {
			errs = append(errs, err)
			continue
		}
		for _, p := range plan.People {
			if c.For != "" && p.Name != c.For {
				continue
			}
			grams := 0.0
			for _, line := range p.Foods {
				if slices.ContainsFunc(found, func(f *foods.Food) bool { return f.Name == line.Food }) {
					grams += line.Grams / float64(plan.Days)
				}
			}
			one := SwapRequest{For: p.Name}
			for i := range req.People {
				if req.People[i].Name == one.For {
					most := grams * c.Reduce[name]
					req.People[i].Rules = append(slices.Clone(req.People[i].Rules), nutrients.Rule{
						Kind: nutrients.RuleMost, Food: name, Low: most, Text: fmt.Sprintf("most %s %.6g g/day", name, most),
					})
				}
			}
		}
	}
	return &req, dropped, errors.Join(errs...)
}

func names(people []nutrients.Person) string {
	list := make([]string, len(people))
	for i, p := range people {
		list[i] = p.Name
	}
	return strings.Join(list, ", ")
}

// keep fixes the packs of the foods that must stay.
func (r *Ration) keep(plan *Plan, names []string) error {
	kept, err := func() (map[*foods.Food]bool, error) {
		set := map[*foods.Food]bool{}
		var errs []error
		for _, name := range names {
			found, err := r.Request.Table.Named(name)
			if err != nil {
				errs = append(errs, err)
			}
			for _, f := range found {
				set[f] = true
			}
		}
		return set, errors.Join(errs...)
	}()
	if err != nil {
		return err
	}
	bought := boughtOf(plan)
	for _, lf := range r.larder {
		if !kept[lf.food] {
			continue
		}
		for _, k := range lf.buy {
			n := float64(bought[k.pack.Key])
			r.Problem.Cols[k.col].Lower, r.Problem.Cols[k.col].Upper = n, n
		}
	}
	return nil
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

// fewest finds the plan with the fewest changes, by columns of how many packs
// more and fewer than before:
//
//	minimise Σ_k (up_k + down_k)   subject to   x_k − up_k + down_k = old_k
//	                                            value ≤ (1 + spread)·best
func (s *Swap) fewest(ctx context.Context, r *Ration, old *Plan, dropped map[*foods.Food]bool, spread float64) (*Plan, error) {
	p := r.copyProblem()
	n := len(p.Cols)
	ceiling := p.AddRow("spread", math.Inf(-1), *s.Best*(1+spread)+polishSlack*math.Abs(*s.Best))
	for j := range n {
		p.Set(ceiling, j, p.Cols[j].Cost)
		p.Cols[j].Cost = 0
	}
	bought := boughtOf(old)
	for _, lf := range r.larder {
		if dropped[lf.food] {
			continue
		}
		for _, k := range lf.buy {
			was := float64(bought[k.pack.Key])
			row := p.AddRow("change["+k.pack.Key+"]", was, was)
			up := p.AddCol("up["+k.pack.Key+"]", 1, 0, math.Max(0, p.Cols[k.col].Upper-was), false)
			down := p.AddCol("down["+k.pack.Key+"]", 1, 0, was, false)
			p.Set(row, k.col, 1)
			p.Set(row, up, -1)
			p.Set(row, down, 1)
		}
	}
	// A gap under one change proves the number of changes, which is whole.
	found := branch.Solve(ctx, p, branch.Options{Gap: 1e-9, MinDenom: 1, Work: swapWork, Time: r.Request.Time})
	if found.X == nil {
		s.Warning = "no plan with few changes was found in the time; this is the best plan without the food"
		return s.Plan, nil
	}
	changes := math.Round(found.Value)
	s.Changes = int(changes)
	s.ChangesBound = int(math.Max(0, math.Ceil(found.Bound-chosenTolerance)))
	s.Proven = s.ChangesBound >= s.Changes
	x := found.X
	held := p.AddRow("changes", math.Inf(-1), changes)
	for j := range p.Cols {
		p.Set(held, j, p.Cols[j].Cost)
		p.Cols[j].Cost = 0
		if j < n {
			p.Cols[j].Cost = r.Problem.Cols[j].Cost
		}
	}
	cheapest := branch.Solve(ctx, p, branch.Options{
		Gap: r.Request.Within, MinDenom: smallest(r.Request.Least), Work: swapRest, Time: r.Request.Time, Start: x,
	})
	if cheapest.X != nil {
		x = cheapest.X
	}
	return r.swapped(x[:n], s.Plan)
}

// swapped writes and checks the changed plan; its bound is that of the best
// plan without the food.
func (r *Ration) swapped(x []float64, best *Plan) (*Plan, error) {
	p := r.answer(x)
	p.Status = StatusLimit
	p.Bound = best.Bound
	if best.Bound != nil {
		gap := gapOf(*p.Value, *best.Bound, smallest(r.Request.Least))
		p.Gap = &gap
		if gap <= r.Request.Within {
			p.Status = StatusOptimal
		}
	}
	p.Shortfalls = best.Shortfalls
	p.Prices = best.Prices
	r.complete(p)
	if found := Verify(r.Request, p); len(found) > 0 {
		return nil, fmt.Errorf("%w: %s (%d findings)", ErrUnverified, found[0], len(found))
	}
	return p, nil
}

// compare lists what goes and comes and what changes.
func (s *Swap) compare(old *Plan, dropped map[*foods.Food]bool) {
	was, is := boughtOf(old), boughtOf(s.Plan)
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
	s.CostChange = s.Plan.Totals.Cost - old.Totals.Cost
	s.WeightChange = s.Plan.Totals.WeightKg - old.Totals.WeightKg
	s.VolumeChange = s.Plan.Totals.VolumeL - old.Totals.VolumeL
	for i := range s.Plan.People {
		for _, need := range s.Plan.People[i].Needs {
			before := needOf(old, s.Plan.People[i].Name, need.Nutrient)
			if before == nil {
				continue
			}
			s.Needs = append(s.Needs, NeedChange{
				Person: s.Plan.People[i].Name, Nutrient: need.Nutrient, Unit: need.Unit,
				Before: before.Amount, After: need.Amount,
			})
		}
	}
	slices.SortStableFunc(s.Needs, func(a, b NeedChange) int {
		return cmp.Compare(relative(b), relative(a))
	})
}

// relative is how much a need changed in relation to what it was.
func relative(n NeedChange) float64 {
	return math.Abs(n.After-n.Before) / math.Max(math.Abs(n.Before), 1e-9)
}

func needOf(plan *Plan, person, nutrient string) *PersonNeed {
	for i := range plan.People {
		if plan.People[i].Name == person {
			return plan.People[i].need(nutrient)
		}
	}
	return nil
}
