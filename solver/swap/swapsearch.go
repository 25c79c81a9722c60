package swap

import (
	"context"
	"math"

	"rationwright/foods"
	"rationwright/solver/answer"
	"rationwright/solver/elastic"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// work is the limit of one search of a swap in the time of the request.
func (w *swapSearch) work(base float64) int64 {
	return int64(math.Max(1, base*w.model.Request.Time.Seconds()/ration.DefaultTime.Seconds()))
}

// swapSearch is one swap under way.
type swapSearch struct {
	model      *model.Model
	old        *ration.Plan
	touched    map[*foods.Food]bool // dropped or reduced: their packs do not count
	spread     float64
	most       float64 // the household's own limit on the value
	shortfalls []ration.Shortfall

	x       []float64 // best point found
	value   float64   // of the plan's own objective at x
	least   float64   // proven bound on the value of any plan after the change
	changes int

	spreadRow int // of the program of changes
	bound     int // proven: no plan within the spread changes fewer packs
}

// best looks for the best plan after the change, among the foods that the
// relaxation finds worth it. x stays nil where that finds none.
func (w *swapSearch) best(ctx context.Context, progress func(search.Progress)) (shortfalls []ration.Shortfall, err error) {
	m := w.model
	w.least = math.Inf(-1)
	if w.old.Bound != nil {
		w.least = *w.old.Bound // what is possible after the change was so before
	}
	for {
		q, err := search.NewMaster(m, m.Problem, m.FoodsOf(w.old))
		if err != nil {
			return nil, err
		}
		found := q.Search(ctx, search.Options{
			Gap: m.Request.Within, MinDenom: ration.SmallestStep(m.Request.Least), Work: w.work(search.SwapBestWork),
			Start: w.repaired(ctx, q), Progress: progress,
		})
		if found.Status == search.Infeasible && shortfalls == nil {
			var eased *model.Model
			if eased, shortfalls, _ = elastic.EaseStoredVitamins(ctx, m); eased != nil {
				m, w.model = eased, eased
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
func (w *swapSearch) repaired(ctx context.Context, q *search.Master) []float64 {
	bought := w.old.Bought()
	cols := w.model.Problem.Cols
	for _, lf := range w.model.Larder {
		for _, k := range lf.Buy {
			if was := float64(bought[k.Pack.Key]); was > 0 && !w.touched[lf.Food] {
				q.LP.SetBounds(k.Col, math.Min(was, cols[k.Col].Upper), cols[k.Col].Upper)
				defer q.LP.SetBounds(k.Col, cols[k.Col].Lower, cols[k.Col].Upper)
			}
		}
	}
	if q.Solve(ctx).Status != simplex.Optimal {
		return nil
	}
	return q.LP.DiveUp(ctx)
}

// plan writes and checks the changed plan. Its bound is that of the best plan
// after the change.
func (w *swapSearch) plan(ctx context.Context) (*ration.Plan, error) {
	return w.finished(answer.TidyAnswer(ctx, w.model, w.x, w.shortfalls))
}

// finished completes and checks a changed plan.
func (w *swapSearch) finished(p *ration.Plan) (*ration.Plan, error) {
	m := w.model
	p.Judge(w.least, m.Request.Within)
	p.Shortfalls = answer.Gets(p, w.shortfalls)
	p.Notes = append(p.Notes, answer.AdviseSupplements(p.Shortfalls)...)
	return answer.Verified(m.Request, answer.Complete(m, p))
}

// unchanged is the answer where the plan holds nothing of what is to go: the plan as
// it is, which keeps what was asked from now on.
func (w *swapSearch) unchanged(s *Swap) (*Swap, error) {
	w.x, w.least, w.shortfalls = w.model.PointOf(w.old), math.Inf(-1), w.old.Shortfalls
	if w.old.Bound != nil {
		w.least = *w.old.Bound
	}
	var err error
	if s.Plan, err = w.finished(answer.Write(w.model, w.x)); err != nil {
		return nil, err
	}
	s.Best, s.Most, s.Proven = s.Plan.Value, *s.Plan.Value, true
	s.Warning = "the plan holds nothing of what is to go: it stays as it is"
	s.compare(w.old, w.touched)
	return s, nil
}
