package conflict

import (
	"cmp"
	"context"
	"fmt"
	"maps"
	"math"
	"slices"

	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
	"rationwright/solver/search"
)

// proposal is one change of a request that may let a ration fit.
type proposal struct {
	change  string
	request *ration.Request
	start   []float64 // a point of the changed model, nil when none is known
	last    bool      // listed after the others, whatever it costs

	raised *model.RowInfo // the limit that it raises, nil for another change
	from   float64        // what that was
}

// settle says how much more of a limit the plan found takes, and asks for no more.
func (w *proposal) settle(plan *ration.Plan) {
	if w.raised == nil {
		return
	}
	most := of(plan.Totals, *w.raised)
	*limitOf(&w.request.Limits, w.raised.On) = &most
	more := math.Ceil((most-w.from)*100-search.ChosenTolerance) / 100
	w.change = fmt.Sprintf("%.2f %s more %s", more, w.raised.Unit, w.raised.Text)
	if w.raised.Total == ration.LeastCost {
		w.change = fmt.Sprintf("%.2f %s more in the budget", more, w.raised.Unit)
	}
}

// of is the total that a row of the household's own limits.
func of(t *ration.Totals, info model.RowInfo) float64 {
	switch {
	case info.Total != "":
		return t.Of(info.Total)
	case info.On == model.OnHeat:
		return t.HeatMJ
	default:
		return t.WaterL
	}
}

// waysOut tries, for each limit of a conflict that is the user's to change,
// what happens when it alone gives way: the request is changed and planned
// anew, and only changes after which a whole plan was found that passes the
// independent check are returned, the cheapest first. A single change that
// helps must break every conflict, so that the members of one conflict are all
// that need be tried. Safety rows are never among them, nor are allergies,
// conditions and ages.
func (f *Finder) waysOut(ctx context.Context, set conflictSet) []ration.WayOut {
	var out, last []ration.WayOut
	ways := f.proposals(ctx, set)
	plans := make([]*ration.Plan, len(ways))
	search.Parallel(len(ways), func(k int) {
		if plan, ok := replan(ctx, ways[k].request, ways[k].start); ok {
			plans[k] = plan
		}
	})
	for k, way := range ways {
		plan := plans[k]
		if plan == nil {
			continue
		}
		way.settle(plan)
		if len(plan.Shortfalls) > 0 {
			way.change += ", with less than is asked of vitamins that the body stores"
		}
		cost := plan.Totals.Cost
		w := ration.WayOut{Change: way.change, Cost: &cost, Tested: true, Request: way.request, Plan: plan}
		if way.last {
			if len(last) == 0 { // the longest that whole packs reach
				last = append(last, w)
			}
			continue
		}
		out = append(out, w)
	}
	slices.SortStableFunc(out, func(a, b ration.WayOut) int { return cmp.Compare(*a.Cost, *b.Cost) })
	return append(out, last...)
}

// proposals lists the changes to try, each once: the household's own limits
// first, then exclusions and rules, then a lower standard and fewer days.
func (f *Finder) proposals(ctx context.Context, set conflictSet) []proposal {
	var list []proposal
	add := func(ways ...proposal) {
		for _, w := range ways {
			if !slices.ContainsFunc(list, func(p proposal) bool { return p.change == w.change }) {
				list = append(list, w)
			}
		}
	}
	needs := f.strict // nothing is known of what it takes
	for _, l := range set.limits {
		if l.row >= 0 && f.base.Rows[l.row].Kind == model.RowLimit && ctx.Err() == nil {
			add(f.raiseLimit(ctx, l.row)...)
		}
	}
	for _, l := range set.limits {
		if l.row < 0 {
			add(f.liftExclusion(ctx, f.exclusions[l.exclusion])...)
			continue
		}
		switch info := f.base.Rows[l.row]; info.Kind {
		case model.RowUser:
			add(f.dropRule(info, func(r nutrients.Rule) bool { return r.Text == info.Of })...)
		case model.RowKeep:
			add(f.letChange(info))
		case model.RowNutrient:
			add(f.dropRule(info, func(r nutrients.Rule) bool {
				return (r.Kind == nutrients.RuleFloor && l.lower || r.Kind == nutrients.RuleCeiling && l.upper) && r.Nutrient == info.Nutrient
			})...)
			needs = true
		case model.RowPattern, model.RowShare:
			needs = true
		}
	}
	if f.base.Request.StockOnly {
		req := *f.base.Request
		req.StockOnly = false
		add(proposal{change: "buy what is missing", request: &req})
	}
	if needs {
		add(f.lowerStandard(ctx)...)
	}
	return append(list, f.fewerDays(ctx, set)...)
}

// liftExclusion gives up one exclusion; of cooking, as little as helps.
func (f *Finder) liftExclusion(ctx context.Context, e exclusion) []proposal {
	req := f.base.Request
	if e.kind != excludeCooking {
		return []proposal{{change: e.change(req), request: e.lift(req)}}
	}
	for _, cook := range moreCooking(req.Cook) {
		more := rules.WithCooking(req, cook)
		if search.CanFit(ctx, more) {
			return []proposal{{change: rules.CookingWords[cook] + onAnotherStove(req, more), request: more}}
		}
	}
	return nil
}

// dropRule gives up the rules of the row's person that are meant.
func (f *Finder) dropRule(info model.RowInfo, meant func(nutrients.Rule) bool) []proposal {
	req := *f.base.Request
	at := slices.IndexFunc(req.People, func(p nutrients.Person) bool {
		return p.Name == f.base.Eaters[info.Eater].Person.Name
	})
	var list []proposal
	for _, rule := range req.People[at].Rules {
		if !meant(rule) {
			continue
		}
		without := req
		without.People = slices.Clone(req.People)
		without.People[at].Rules = slices.DeleteFunc(slices.Clone(req.People[at].Rules), func(r nutrients.Rule) bool { return r == rule })
		change := fmt.Sprintf("give up the rule %q (%s)", rule.Text, req.People[at].Name)
		if rule.Kind == nutrients.RuleCeiling {
			change += ", unless a clinician set it"
		}
		list = append(list, proposal{change: change, request: &without})
	}
	return list
}

// letChange lets the packs of a food change that were to stay.
func (f *Finder) letChange(info model.RowInfo) proposal {
	req := *f.base.Request
	req.Keep = maps.Clone(req.Keep)
	for _, other := range f.base.Rows {
		if other.Kind == model.RowKeep && other.Of == info.Of {
			delete(req.Keep, other.Group)
		}
	}
	return proposal{change: "do not " + info.Text, request: &req}
}

// lowerStandard plans by a lower standard, the highest that helps.
func (f *Finder) lowerStandard(ctx context.Context) []proposal {
	req := f.base.Request
	for _, lower := range []struct {
		standard nutrients.Standard
		words    string
	}{
		{nutrients.StandardEAR, "plan by the average requirement, standard ear: meant for groups"},
		{nutrients.StandardBasic, "plan for energy, protein and water only, standard basic"},
	} {
		if lower.standard == req.Standard || req.Standard == nutrients.StandardBasic {
			continue
		}
		with := *req
		with.Standard = lower.standard
		if search.CanFit(ctx, &with) {
			return []proposal{{change: lower.words, request: &with}}
		}
	}
	return nil
}

// raiseLimit gives up one limit of the household's own; of a total, as little
// as is enough for a plan that was really found.
func (f *Finder) raiseLimit(ctx context.Context, row int) []proposal {
	info, base := f.base.Rows[row], f.base.Request
	free := *base
	if info.On == model.OnAllowance {
		free.Allowance = false
		return []proposal{{change: "give up " + info.Text, request: &free}}
	}
	if info.On.IsShelf() {
		free.Shelves = nil
		return []proposal{{change: "use more or larger shelves than those given", request: &free}}
	}
	limit := limitOf(&base.Limits, info.On)
	*limitOf(&free.Limits, info.On) = nil
	if info.On == model.OnHeat { // still limited, so that what can be eaten cold stays cold
		much := search.PlentyADay * f.base.Days()
		free.Limits.HeatMJ = &much
	}
	m, err := model.Build(&free)
	if err != nil {
		return nil
	}
	result := search.SearchOnce(ctx, model.AimedAtLimit(m, info), search.WayOutGap, search.RaiseWork, nil)
	if result.X == nil {
		return nil
	}
	most := result.Value
	*limitOf(&free.Limits, info.On) = &most
	return []proposal{{
		change: "more " + info.Text, request: &free, start: result.X, raised: &info, from: **limit,
	}}
}

// fewerDays plans for as many days as the household's own limits allow. It is
// tried only where one of them is in the way.
func (f *Finder) fewerDays(ctx context.Context, set conflictSet) []proposal {
	inTheWay := slices.ContainsFunc(set.limits, func(l conflictLimit) bool {
		return l.row >= 0 && f.base.Rows[l.row].Kind == model.RowLimit
	})
	base := f.base.Request
	if !inTheWay && !base.StockOnly {
		return nil
	}
	shorter := func(days int) *ration.Request {
		req := *base
		req.Days = days
		return &req
	}
	low, high := 0, base.Days
	for high-low > 1 && ctx.Err() == nil {
		if mid := (low + high) / 2; search.CanFit(ctx, shorter(mid)) {
			low = mid
		} else {
			high = mid
		}
	}
	var list []proposal
	for days := low; days > max(0, low-2); days-- { // whole packs may need a day less
		list = append(list, proposal{change: fmt.Sprintf("plan for %s only", counted(days, "day")), request: shorter(days), last: true})
	}
	return list
}

// counted writes a number with its noun.
func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
