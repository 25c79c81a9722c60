package community

import (
	"fmt"
	"slices"

	"rationwright/solver/answer"
	"rationwright/solver/elastic"
	"rationwright/solver/ration"
	"rationwright/solver/search"
	"rationwright/solver/verify"
)

// write writes the plans of what was picked, each checked from the food table and its
// whole packs, and checks that together they keep to what is common.
func (g *group) write(s *Share) error {
	left := append([]float64(nil), g.stock...)
	total := 0.0
	errs := make([]error, len(g.programs))
	search.Parallel(len(g.programs), func(i int) {
		s.Plans[g.of[i]], errs[i] = g.programs[i].write(g.dealt[i][g.picked[i]])
	})
	for i, err := range errs {
		if err != nil {
			return fmt.Errorf("household %d: %w", g.of[i]+1, err)
		}
		u := g.dealt[i][g.picked[i]]
		total += s.Plans[g.of[i]].Totals.Cost
		u.takeFrom(left, 1)
	}
	for k, n := range left {
		if n < 0 {
			return fmt.Errorf("%w: %g packs of line %d of the stock more than there are", ration.ErrUnverified, -n, k+1)
		}
		s.Left = append(s.Left, int(n))
	}
	if total > g.budget*(1+search.LimitTolerance) {
		return fmt.Errorf("%w: all together cost %.2f, over the budget of %.2f", ration.ErrUnverified, total, g.budget)
	}
	s.Cost = total
	s.CostGap = ration.GapOf(s.Cost, s.CostBound, ration.SmallestStep(ration.LeastCost))
	return nil
}

// write writes a point of the household as a plan that says what it is short of.
func (p *program) write(u use) (*ration.Plan, error) {
	m := p.model
	x := u.x[:len(m.Cols)]
	made := answer.Write(m, x)
	near := elastic.WriteClosest(m, x)
	made.Shortfalls = answer.Gets(made, p.eased)
	for _, short := range near.Shortfalls {
		if !slices.ContainsFunc(made.Shortfalls, func(s ration.Shortfall) bool { return s.Person == short.Person && s.Nutrient == short.Nutrient }) {
			made.Shortfalls = append(made.Shortfalls, short)
		}
	}
	made.Status = ration.StatusLimit
	answer.Complete(m, made)
	if found := verify.CheckPassing(m.Request, made, near.Passed); len(found) > 0 {
		return nil, fmt.Errorf("%w: %s (%d findings)", ration.ErrUnverified, found[0], len(found))
	}
	return made, nil
}
