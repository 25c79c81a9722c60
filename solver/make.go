package solver

import (
	"context"
	"fmt"
	"math"
	"time"

	"rationwright/solver/branch"
	"rationwright/solver/ration"
	"rationwright/solver/verify"
)

// Progress is called now and then while a plan is sought; value and bound are
// in the unit of the objective.
type Progress = branch.Progress

// Make builds the model of req, solves it to the asked gap, polishes the plan,
// checks it with [Verify] and returns it. When nothing fits, the plan has
// status infeasible and says what conflicts. It returns an error for input that
// cannot be planned, and [ErrNoPlan], [ErrNumerical] or [ErrUnverified].
func Make(ctx context.Context, req *ration.Request, progress func(Progress)) (*ration.Plan, error) {
	r, err := Build(req)
	if err != nil {
		return nil, err
	}
	if len(r.Request.Shelves) > 0 {
		return r.makeOnShelves(ctx, progress, func(r *Ration, p *ration.Plan) *ration.ShelfFit { return r.fitOf(p) })
	}
	return r.make(ctx, progress)
}

func (r *Ration) make(ctx context.Context, progress func(Progress)) (*ration.Plan, error) {
	return r.makeWith(ctx, progress, func(ctx context.Context, x []float64) []float64 { return r.tidied(ctx, x) })
}

// makeWith makes the plan and lets after improve the point found.
func (r *Ration) makeWith(ctx context.Context, progress func(Progress), after func(context.Context, []float64) []float64) (*ration.Plan, error) {
	if len(r.eaters) == 0 {
		p := r.emptyPlan()
		p.Status = ration.StatusInfeasible
		p.Conflict = []ration.ConflictLimit{{Limit: "a clinician must plan for everyone in this household"}}
		return r.complete(p), nil
	}
	timed, stop := context.WithTimeout(ctx, r.Request.Time) // the start is sought in the same time
	var result branch.Result
	if own := r.ownLimit(); own >= 0 {
		result = r.solveUnderOwn(timed, progress, own)
	} else {
		result = r.solve(timed, progress, r.startUnderLimits(timed))
	}
	stop()
	var shortfalls []ration.Shortfall
	if result.Status == branch.Infeasible {
		var (
			start []float64
			ok    bool
		)
		if shortfalls, start, ok = r.relaxStoredVitamins(ctx); ok {
			result = r.solve(ctx, progress, start)
		}
	}
	switch {
	case result.X != nil:
		return r.finish(ctx, after(ctx, result.X), result, shortfalls)
	case result.Status == branch.Infeasible:
		return r.explainInfeasible(ctx)
	case result.Status == branch.Limit:
		why := result.Why
		if result.ByClock {
			why += ", by the clock: a longer --time may find one"
		}
		return nil, fmt.Errorf("%w: %s%s", ration.ErrNoPlan, why, r.nearMiss)
	default:
		return nil, fmt.Errorf("%w: %s", ration.ErrNumerical, result.Why)
	}
}

// solve runs the search on the program as it stands.
func (r *Ration) solve(ctx context.Context, progress func(Progress), start []float64) branch.Result {
	return branch.Solve(ctx, r.Problem, r.options(progress, start))
}

func (r *Ration) options(progress func(Progress), start []float64) branch.Options {
	return branch.Options{
		Gap:      r.Request.Within,
		MinDenom: ration.SmallestStep(r.Request.Least),
		Work:     r.work(),
		Time:     r.Request.Time,
		Start:    start,
		Progress: progress,
		Audit:    r.Request.Audit,
	}
}

// tidyAnswer writes the plan at x without morsels, or as x is where that would not
// pass the check.
func (r *Ration) tidyAnswer(ctx context.Context, x []float64, shortfalls []ration.Shortfall) *ration.Plan {
	p := r.answer(r.withoutMorsels(ctx, x))
	p.Shortfalls = shortfalls
	if len(verify.Check(r.Request, p)) > 0 {
		return r.answer(x)
	}
	return p
}

// workRate is how many simplex iterations a program with one column is given
// for each second of --time; a program with more columns gets as many fewer.
// Households of one to eight took 0.55 to 0.7 s of processor time for each second
// of --time, 0.4 to 0.5 s by the clock where both cores were mostly free; cores
// half as fast would take under one. So the search ends by its work, the same on
// every run, and the clock is a safety stop for slow or busy machines.
const workRate = 36e6

// work is the deterministic limit of the search, in simplex iterations: the
// request's own where it sets one.
func (r *Ration) work() int64 {
	if r.Request.Work > 0 {
		return r.Request.Work
	}
	allowed := r.Request.Time
	if r.Request.Brief {
		allowed = min(allowed, briefTime)
	}
	return int64(allowed.Seconds() * workRate / float64(len(r.Problem.Cols)))
}

// briefTime is the --time whose work a brief search is given.
const briefTime = 2 * time.Second

// finish writes and checks the plan at x, a point no worse than the result's, or at
// the same packs shared out without morsels.
func (r *Ration) finish(ctx context.Context, x []float64, result branch.Result, shortfalls []ration.Shortfall) (*ration.Plan, error) {
	p := r.tidyAnswer(ctx, x, shortfalls)
	shortfalls = gets(p, shortfalls)
	p.Shortfalls = shortfalls
	p.Notes = append(p.Notes, adviseSupplements(shortfalls)...)
	p.Status = ration.StatusLimit
	bound := result.Bound
	gap := ration.GapOf(*p.Value, bound, ration.SmallestStep(r.Request.Least))
	if !math.IsInf(bound, 0) {
		p.Bound, p.Gap = &bound, &gap
		if gap <= r.Request.Within {
			p.Status = ration.StatusOptimal
		}
	}
	switch {
	case p.Status != ration.StatusLimit:
	case ctx.Err() != nil:
		p.Stopped = "interrupted, may differ next time"
	case result.ByClock:
		p.Stopped = "stopped by the clock, may differ next time"
	}
	p.Prices = r.shadowPrices(result)
	r.complete(p)
	if found := verify.Check(r.Request, p); len(found) > 0 {
		return nil, fmt.Errorf("%w: %s (%d findings)", ration.ErrUnverified, found[0], len(found))
	}
	if r.Request.Audit {
		audit, err := r.audit(ctx, result)
		if err != nil {
			return nil, err
		}
		p.Audit = audit
	}
	return p, nil
}

// complete adds what every plan carries.
func (r *Ration) complete(p *ration.Plan) *ration.Plan {
	p.Cautions = r.cautions(p)
	p.Request = ration.Record(r.Request)
	return p
}
