package aim

import (
	"cmp"
	"context"
	"math"
	"slices"

	"rationwright/solver/answer"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
)

// Seek looks for the plan within the slack of best that people eat most gladly, from x, a
// point of the model; first is the search for it. best is the first aim's value as it is
// told: that of x or, where crumbs of x were given up, a little less.
func Seek(ctx context.Context, m *model.Model, x []float64, best float64, first search.Result) (answer.Gladder, error) {
	p, err := programOf(m, best)
	if err != nil {
		return answer.Gladder{}, err
	}
	found := answer.Gladder{Before: p.weigh(x), Bound: math.Inf(-1)}
	found.Value = found.Before
	most := p.best + m.Request.Slack*math.Abs(p.best)
	if m.ValueOf(x) > most { // a slack of less than the crumbs leaves nothing to seek
		return found, nil
	}
	crumbs := small(m, x)
	try := func(y []float64) bool {
		value := p.weigh(y)
		better := value < found.Value-scoreStep && small(m, y) <= crumbs
		if better {
			found.X, found.Value = slices.Clone(y[:len(m.Cols)]), value
		}
		return better
	}
	if len(p.sodium) == 0 { // in hardly any time some of it is there; sodium goes before
		try(p.portioned(ctx, x, most))
	}
	var buys []int
	work := int64(Share * float64(search.Work(m)))
	if work >= boundWork*int64(len(m.Cols)) {
		found.Bound, buys = p.bound(ctx, m.Request.Slack)
	}
	if low := p.leastSodiumPoint(ctx, x, most, first.Bound); low != nil {
		perDay := low.bound / m.Days()
		found.SodiumLeast = &perDay
		if p.sodiumAt(low.x) < p.sodiumAt(x) { // whatever else it brings
			x = low.x
			found.X, found.Value, crumbs = x, p.weigh(x), max(crumbs, small(m, x))
		}
	}
	d, err := newDescent(p, x, most, append(p.additions(first), buys...), int64(descentWork*float64(work)))
	if err != nil {
		return found, nil // what cannot be set up betters nothing
	}
	d.rounds(ctx, try)
	d.refine(ctx, found.X, work, try)
	found.ByClock = ctx.Err() != nil
	return found, nil
}

// small counts the amounts under the least portion of a food, as a plan tells them.
func small(m *model.Model, x []float64) int {
	n := 0
	for _, e := range m.Eaters {
		for _, y := range e.Eats {
			if g := x[y.Col]; e.Needs.Feed == nil && g > model.Dust && g < answer.LeastPortionG(&e.Person, m.Larder[y.Food].Food)*(1-search.PortionTolerance) {
				n++
			}
		}
	}
	return n
}

// Weigh is the second aim's value at a point of m, beside a first aim of value.
func Weigh(m *model.Model, value float64, x []float64) (float64, error) {
	p, err := programOf(m, value)
	if err != nil {
		return 0, err
	}
	return p.weigh(x), nil
}

// programOf is the second aim of m by the weights of its request, or the program's own.
func programOf(m *model.Model, value float64) (*program, error) {
	weights := m.Request.Weights
	if weights == nil {
		var err error
		if weights, err = ration.DefaultWeights(); err != nil {
			return nil, err
		}
	}
	return newProgram(m, value, m.Request.Slack, weights), nil
}

// additions lists the foods that may come in for the sake of variety: of each kind
// that some are missing to, the cheapest at the reduced costs of the first aim.
func (p *program) additions(first search.Result) []int {
	var list []int
	kinds := make([][]int, 0, len(p.varieties))
	for _, v := range p.varieties {
		kinds = append(kinds, v.foods)
	}
	kinds = append(kinds, p.mains.proteins())
	for _, of := range kinds {
		foods := slices.Clone(of)
		near := func(li int) float64 {
			best := math.Inf(1)
			for _, k := range p.model.Larder[li].Buy {
				cost := p.model.Problem.Cols[k.Col].Cost
				if first.RootReduced != nil {
					cost = math.Max(0, first.RootReduced[k.Col])
				}
				best = math.Min(best, cost)
			}
			return best
		}
		slices.SortStableFunc(foods, func(a, b int) int { return cmp.Compare(near(a), near(b)) })
		for _, li := range foods[:min(len(foods), addedOfKind)] {
			if !slices.Contains(list, li) {
				list = append(list, li)
			}
		}
	}
	return list
}
