package why

import (
	"context"
	"fmt"

	"rationwright/foods"
	"rationwright/solver/elastic"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// Why is what the relaxation says of a plan: what each limit that binds is
// worth, and at what price foods would come in or go out. Everything in it is
// "about" right for the plan in whole packs: it is of parts of packs, the
// original rows, and the prices as they stand.
type Why struct {
	ration.NotFed
	Least  ration.Least `json:"least"`
	Unit   string       `json:"unit"`  // of values and prices: the currency, kg or L
	Value  float64      `json:"value"` // of the relaxation
	Days   int          `json:"days"`
	Limits []LimitPrice `json:"limits"` // the largest effect of a whole limit first
	Foods  []FoodPrice  `json:"foods"`

	Demo ration.Demo `json:"demo"`

	Unsettled []string `json:"unsettled,omitempty"` // what the time did not allow to be worked out
}

// WhyRequest says what to explain.
type WhyRequest struct {
	Foods []string // foods or groups, without the limits; none means the limits, and the foods in the plan and the nearest others
}

// Explain solves the relaxation of the plan's request, and again with each limit
// and each food changed a little.
func Explain(ctx context.Context, plan *ration.Plan, ask WhyRequest) (*Why, error) {
	req, err := plan.Asked()
	if err != nil {
		return nil, err
	}
	return ExplainFor(ctx, req, plan, ask)
}

// ExplainFor is [Explain] with the request of the plan at hand.
func ExplainFor(ctx context.Context, req *ration.Request, plan *ration.Plan, ask WhyRequest) (*Why, error) {
	var named []*foods.Food
	for _, name := range ask.Foods {
		found, err := req.Table.Named(name)
		if err != nil {
			return nil, err
		}
		named = append(named, found...)
	}
	m, err := model.BuildFor(req, plan)
	if err != nil {
		return nil, err
	}
	w := &explainer{model: m, plan: plan}
	if err := w.start(ctx); err != nil {
		return nil, err
	}
	out := &Why{
		NotFed: plan.NotFed(),
		Least:  m.Request.Least, Unit: m.Unit(), Value: w.root.Value, Days: m.Request.Days, Demo: m.Request.Demo,
		Limits: []LimitPrice{}, Foods: []FoodPrice{},
	}
	if len(ask.Foods) == 0 {
		timed, stop := search.Part(ctx, search.LimitsPart)
		out.Limits, err = w.limits(timed)
		ended := search.OutOfTime(timed)
		stop()
		if err != nil {
			return nil, err
		}
		if ended {
			out.Unsettled = append(out.Unsettled, "what some of the limits are worth")
		}
	}
	out.Foods, err = w.foods(ctx, named)
	if search.OutOfTime(ctx) {
		out.Unsettled = append(out.Unsettled, "the prices of some foods")
	}
	return out, err
}

// explainer holds the relaxation of a plan between its solves.
type explainer struct {
	model *model.Model
	plan  *ration.Plan
	lp    *search.Relaxation
	root  simplex.Result
}

// start solves the relaxation, giving up stored vitamins as the plan does.
func (w *explainer) start(ctx context.Context) error {
	for again := false; ; again = true {
		var err error
		if w.lp, err = search.Relax(w.model.Problem); err != nil {
			return err
		}
		if w.root = w.lp.Solve(ctx); w.root.Status == simplex.Optimal {
			return nil
		}
		if again || w.root.Status != simplex.Infeasible {
			break
		}
		eased, _, _ := elastic.EaseStoredVitamins(ctx, w.model)
		if eased == nil {
			break
		}
		w.model = eased
	}
	if w.root.Status == simplex.Infeasible {
		return fmt.Errorf("%w: %s", ration.ErrNoPlan, "nothing fits, so that there are no prices; plan says what conflicts")
	}
	if w.root.Status == simplex.Limit {
		return fmt.Errorf("%w: the time ended before the prices were worked out", ration.ErrNoPlan)
	}
	return fmt.Errorf("%w: %s", ration.ErrNumerical, w.root.Why)
}

// value solves again and returns the objective; ok is false where there is no
// point or it is not known well enough to take differences of.
func (w *explainer) value(ctx context.Context) (value float64, ok bool, err error) {
	switch result := w.lp.Solve(ctx); result.Status {
	case simplex.Optimal:
		return result.Value, result.Why == "", nil
	case simplex.Infeasible:
		return 0, false, nil
	case simplex.Limit:
		return 0, false, fmt.Errorf("%w: %s", ration.ErrNoPlan, result.Why)
	default:
		return 0, false, fmt.Errorf("%w: %s", ration.ErrNumerical, result.Why)
	}
}

// inPlan counts the packs of a food in the whole-pack plan.
func (w *explainer) inPlan(f *foods.Food) int {
	n := 0
	for _, line := range w.plan.Packs {
		if line.Food == f.Name && !line.Reserve {
			n += line.Count
		}
	}
	return n
}
