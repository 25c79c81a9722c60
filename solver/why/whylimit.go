package why

import (
	"cmp"
	"context"
	"math"
	"slices"

	"rationwright/solver/answer"
	"rationwright/solver/model"
	"rationwright/solver/search"
)

// LimitPrice is what one limit that binds is worth: how the plan's objective
// changes with it, per unit a day of one person; of a row that stands for several
// alike people, it is that of one of them when the limit of all moves. Where one
// unit more and one unit less differ, as they do at a degenerate point, both are
// given.
type LimitPrice struct {
	Person   string   `json:"person,omitempty"`
	Limit    string   `json:"limit"`
	Unit     string   `json:"unit"`             // of the limit
	Amount   *float64 `json:"amount,omitempty"` // of the limit, per day where it has one; nil for a share of energy
	AtMost   bool     `json:"at_most,omitempty"`
	Marginal float64  `json:"marginal"`          // the shadow price: for one unit more
	More     *float64 `json:"more,omitempty"`    // for one unit more, where it is not the shadow price
	Less     *float64 `json:"less,omitempty"`    // for one unit less, likewise; above 0 it saves
	NoMore   bool     `json:"no_more,omitempty"` // there is no ration with more than that asked, or less allowed
}

// Figures of the finite differences of limits.
const (
	limitStep   = 0.01 // of a limit: the step up and down, at most one unit
	slopesAgree = 0.01 // relative difference up to which two slopes are one
	atLimit     = 1e-7 // relative distance from a limit within which a row binds
)

// limits lists what binds, the largest effect of a whole limit first.
func (w *explainer) limits(ctx context.Context) ([]LimitPrice, error) {
	type ranked struct {
		LimitPrice
		weight float64
	}
	var all []ranked
	m := w.model
rows:
	for i, info := range m.Rows {
		switch info.Kind {
		case model.RowNutrient, model.RowWater, model.RowPattern, model.RowGlycaemic, model.RowGroupCap, model.RowShare, model.RowUser, model.RowLimit, model.RowKeep:
		default:
			continue
		}
		if info.Class == model.Safety || info.Ordered { // is no price to haggle over
			continue
		}
		for _, upper := range []bool{false, true} {
			p, binds, err := w.limit(ctx, i, upper)
			switch {
			case search.OutOfTime(ctx):
				break rows // what there is so far
			case err != nil:
				return nil, err
			}
			if binds {
				all = append(all, ranked{p, p.largest() * math.Max(p.size(), answer.DullPrice)})
			}
		}
	}
	slices.SortStableFunc(all, func(a, b ranked) int { return cmp.Compare(b.weight, a.weight) })
	list := make([]LimitPrice, len(all))
	for k, p := range all {
		list[k] = p.LimitPrice
	}
	return list, nil
}

// largest is the largest of the slopes of p in size.
func (p *LimitPrice) largest() float64 {
	size := math.Abs(p.Marginal)
	for _, v := range []*float64{p.More, p.Less} {
		if v != nil {
			size = math.Max(size, math.Abs(*v))
		}
	}
	return size
}

// size is the amount of the limit, 0 where it has none of its own.
func (p *LimitPrice) size() float64 {
	if p.Amount == nil {
		return 0
	}
	return math.Abs(*p.Amount)
}

// limit prices one side of row i; binds is false where it does not matter.
func (w *explainer) limit(ctx context.Context, i int, upper bool) (p LimitPrice, binds bool, err error) {
	m := w.model
	info, row := m.Rows[i], m.Problem.Rows[i]
	amount := row.Lower
	if upper {
		amount = row.Upper
	}
	dual, equation := w.root.Dual[i], row.Lower == row.Upper // an equation, told once, binds from both sides
	if math.IsInf(amount, 0) || upper && (dual > 0 || equation) || !upper && dual < 0 && !equation {
		return p, false, nil
	}
	at := math.Abs(w.root.RowValue[i]-amount) <= atLimit*math.Max(1, math.Abs(amount))
	if !at || w.lp.At[i] < 0 {
		return p, false, nil
	}
	p = LimitPrice{Limit: info.Text, Unit: info.Unit, AtMost: upper, Marginal: dual * answer.PriceScale(m, info)}
	if info.HasAmount() {
		perDay := amount / info.PerDay
		p.Amount = &perDay
	}
	if info.Eater >= 0 {
		p.Person = m.Eaters[info.Eater].Person.Name
	}
	more, less, err := w.slopes(ctx, i, upper, amount)
	if err != nil {
		return p, false, err
	}
	p.NoMore = more == nil && !upper || less == nil && upper
	for _, s := range []struct {
		slope *float64
		to    **float64
	}{{more, &p.More}, {less, &p.Less}} {
		if s.slope != nil && math.Abs(*s.slope-p.Marginal) > slopesAgree*math.Max(math.Abs(p.Marginal), answer.DullPrice) {
			*s.to = s.slope
		}
	}
	return p, p.largest() >= answer.DullPrice, nil
}

// slopes moves one side of row i, amount, up and down by a step and returns how the value
// changes per unit a day, nil where there is no ration then.
func (w *explainer) slopes(ctx context.Context, i int, upper bool, amount float64) (more, less *float64, err error) {
	info, row := w.model.Rows[i], w.model.Problem.Rows[i]
	step := math.Min(info.PerDay, limitStep*math.Abs(amount))
	if step <= 0 { // a share of energy has its limit at 0
		step = limitStep * info.PerDay
	}
	at := w.lp.At[i]
	move := func(by float64) (*float64, error) {
		lower, high := row.Lower, row.Upper
		if upper || row.Lower == row.Upper {
			high += by
		}
		if !upper {
			lower += by
		}
		w.lp.Solver.SetRowBounds(at, lower, high)
		value, ok, err := w.value(ctx)
		if !ok || err != nil {
			return nil, err
		}
		slope := (value - w.root.Value) / by * answer.PriceScale(w.model, info)
		return &slope, nil
	}
	defer func() { w.lp.Solver.SetRowBounds(at, row.Lower, row.Upper) }()
	if more, err = move(step); err != nil {
		return nil, nil, err
	}
	less, err = move(-step)
	return more, less, err
}
