package aim

import (
	"cmp"
	"context"
	"math"
	"slices"

	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// portioned shares the packs of x out so that few amounts are crumbs: none of a food
// or at least a portion.
func (p *program) portioned(ctx context.Context, x []float64, most float64) []float64 {
	m := p.model
	q := m.Problem.Clone()
	m.FixPacks(q, x)
	s, err := p.newSharing(q, x, most)
	if err != nil {
		return x
	}
	s.portions(ctx)
	return wholePacks(m, s.x) // those of x
}

// sharing is the relaxation of a program within the slack that decides for each
// amount whether it is none or a portion.
type sharing struct {
	*program
	lp     *search.Relaxation
	out    []bool    // columns that are left out
	unit   float64   // weight of a crumb, in which costs are counted
	cost   []float64 // of the first aim, per column of the model
	shares []share
	x      []float64
}

// share is what one row of people has of a food that is a portion, a crumb or nothing.
type share struct {
	col, food  int // food: of the larder
	least, cap float64
	count      float64
}

// sharesAt are the shares of all, with the most that they may be around a point.
func (p *program) sharesAt(x []float64) []share {
	var list []share
	most := p.mostOf(x)
	for ei, e := range p.model.Eaters {
		for _, y := range e.Eats {
			if _, ok := p.eats[ei][y.Food]; ok {
				list = append(list, share{y.Col, y.Food, p.leastOf(ei, y.Food), atMost(most, y.Col, y.CapG), e.Count})
			}
		}
	}
	return list
}

// newSharing begins with x, a point of q; what makes up its variety stays.
func (p *program) newSharing(q *linear.Problem, x []float64, limit float64) (*sharing, error) {
	m := p.model
	const least = 1e-3 // weight of a crumb to reckon with
	s := &sharing{program: p, unit: math.Max(p.weights.Of(ration.AimCrumb), least), cost: make([]float64, len(q.Cols)), x: x}
	row := q.AddRow("slack", math.Inf(-1), limit)
	for j := range q.Cols {
		if c := m.Problem.Cols[j].Cost; c != 0 {
			q.Set(row, j, c)
		}
		s.cost[j] = p.perPrice() * q.Cols[j].Cost / s.unit
		q.Cols[j].Cost = s.cost[j]
	}
	for _, o := range p.oftens {
		over := q.AddCol("often", o.weight/s.unit, 0, model.Inf, false)
		r := q.AddRow("often", math.Inf(-1), o.mostG)
		q.Rows[r].Lazy = true
		q.Set(r, o.col, 1)
		q.Set(r, over, -o.sittingG)
	}
	for _, r := range p.addLeftRows(q) {
		q.Rows[r.row].Upper = r.most(x)
	}
	for _, r := range p.sodium {
		q.Rows[r.row].Upper = math.Max(r.most, r.at(x)) // x is a point
	}
	m.CloseEmpty(q)
	s.out = make([]bool, len(q.Cols))
	for j, c := range q.Cols {
		s.out[j] = c.Lower == 0 && c.Upper == 0
	}
	var err error
	if s.lp, err = search.RelaxWithout(q, s.out); err != nil {
		return nil, err
	}
	s.shares = slices.DeleteFunc(p.sharesAt(x), func(one share) bool { return s.out[one.col] })
	for _, one := range s.shares {
		s.lp.SetBounds(one.col, 0, one.cap)
	}
	return s, nil
}

// portions makes few amounts crumbs, and of what is left free the least bare salt,
// sugar and fat, and the least sodium for those who are to have little. The bounds of
// the relaxation hold what was decided.
func (s *sharing) portions(ctx context.Context) {
	done := map[int]bool{}
	keep := s.varied(s.x)
	for k, j := range keep.cols {
		if !s.out[j] {
			done[j] = true
			s.lp.SetBounds(j, keep.lower[k], keep.upper[k])
		}
	}
	for range crumbRounds {
		for _, one := range s.shares {
			s.lp.SetCost(one.col, s.cost[one.col]+1/(s.x[one.col]+one.least/10))
		}
		if !s.solve(ctx) {
			break
		}
	}
	for ctx.Err() == nil {
		list := slices.DeleteFunc(slices.Clone(s.shares), func(one share) bool { return done[one.col] || !s.isCrumb(one) })
		if len(list) == 0 {
			break
		}
		one := slices.MinFunc(list, func(a, b share) int { return cmp.Compare(s.x[a.col]/a.least, s.x[b.col]/b.least) })
		done[one.col] = true
		for _, b := range [][2]float64{{0, 0}, {one.least, one.cap}} {
			s.lp.SetBounds(one.col, b[0], b[1])
			if s.solve(ctx) {
				break
			}
			s.lp.SetBounds(one.col, 0, one.cap)
		}
	}
	for _, one := range s.shares {
		switch a := s.x[one.col]; {
		case a <= model.Dust:
			s.lp.SetBounds(one.col, 0, 0)
		case s.isCrumb(one):
			s.lp.SetBounds(one.col, 0, a)
		default:
			s.lp.SetBounds(one.col, math.Min(a, one.least), one.cap)
		}
	}
	for _, e := range s.model.Eaters {
		for _, y := range e.Eats {
			s.lp.SetCost(y.Col, s.cost[y.Col]+e.Count*s.perGram(e, s.model.Larder[y.Food].Food)/s.unit)
		}
	}
	s.solve(ctx)
}

func (s *sharing) isCrumb(one share) bool {
	return s.x[one.col] > model.Dust && s.x[one.col] < one.least*(1-search.PortionTolerance)
}

// solve takes the relaxation's point over, if it has one.
func (s *sharing) solve(ctx context.Context) bool {
	r := s.lp.Solve(ctx)
	if r.Status == simplex.Optimal {
		s.x = r.X
	}
	return r.Status == simplex.Optimal
}
