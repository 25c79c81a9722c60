package menu

import (
	"context"
	"maps"
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/rules"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// freeGrams is the model whose columns say what each person eats.
type freeGrams struct {
	model  *model.Model
	point  []float64
	foods  map[*foods.Food]*stocked // that may be on a plate
	most   float64                  // of the first aim
	stored int                      // row of the stored water
	less   map[int]int              // column of what is eaten less than at the point, by that of what is eaten
	seen   places                   // where an earlier share ended
}

// problem is the model's program with its packs, milk feeds and what is eaten by a
// date as they are at the point.
func (g *freeGrams) problem() *linear.Problem {
	p := g.model.Problem.Clone()
	g.model.FixPacks(p, g.point)
	g.model.CloseEmpty(p)
	for _, e := range g.model.Eaters {
		for _, y := range e.Eats {
			switch f := g.model.Larder[y.Food].Food; {
			case rules.IsMilkFeed(f):
				p.Cols[y.Col].Lower, p.Cols[y.Col].Upper = g.point[y.Col], g.point[y.Col]
			case g.foods[f] == nil:
				p.Cols[y.Col].Upper = 0
			}
			if g.point[y.Col] < leastPointG && p.Cols[y.Col].Lower == 0 {
				g.point[y.Col] = 0
			}
		}
	}
	for _, v := range g.model.ByDate {
		p.Cols[v.Col].Lower, p.Cols[v.Col].Upper = g.point[v.Col], g.point[v.Col]
	}
	for i := range p.Rows { // kept at every step, so that the point at a limit keeps them
		p.Rows[i].Lazy = false
	}
	g.roomAt(p)
	g.less = map[int]int{}
	for _, e := range g.model.Eaters {
		for _, y := range e.Eats {
			c := &p.Cols[y.Col]
			if c.Lower == c.Upper || g.point[y.Col] < c.Lower || g.point[y.Col] > c.Upper {
				continue
			}
			less := p.AddCol("", -c.Cost, 0, 0, false)
			for _, entry := range p.Cols[y.Col].Entries {
				p.Set(entry.Row, less, -entry.Value)
			}
			g.less[y.Col] = less
			c = &p.Cols[y.Col]
			c.Lower, c.Upper = g.point[y.Col], g.point[y.Col]
		}
	}
	row := p.AddRow("most", -inf, g.most)
	for j := range p.Cols {
		p.Set(row, j, p.Cols[j].Cost)
	}
	return p
}

// roomAt gives the rows that bind at the point, or are missed there by rounding, that room.
func (g *freeGrams) roomAt(p *linear.Problem) {
	x := make([]float64, len(p.Cols))
	for j, c := range p.Cols {
		x[j] = math.Min(math.Max(g.point[j], c.Lower), c.Upper)
	}
	at, err := p.Evaluate(x)
	if err != nil { // x has a value for each column
		return
	}
	for i := range p.Rows {
		r, a := &p.Rows[i], at.Activity[i]
		size := math.Max(1, at.Size[i])
		room, missed := pointRoom*size, search.LimitTolerance*size
		switch {
		case a < r.Lower+room && a > r.Lower-missed:
			r.Lower = a - room
		case a > r.Upper-room && a < r.Upper+missed:
			r.Upper = a + room
		}
	}
}

// solve shares out what each person eats as it is at the point, and then within the
// model, from there: half the work that all at once takes. What is found keeps every row at
// each step, so that it serves where the work or the time ends. Where an earlier share
// ended is tried first.
func (g *freeGrams) solve(ctx context.Context, s *search.Relaxation, p *program, rough bool) simplex.Result {
	part := func(of float64) int { return int(of * float64(len(p.Rows))) }
	if !rough && g.seen.start(&p.marks, s) {
		g.loosen(s, p)
		if r := s.SolveWithin(ctx, part(againPart)); r.Status == simplex.Optimal {
			return r
		}
		g.fix(s)
		s.Solver.SetSlackBasis()
	}
	fixed := s.SolveWithin(ctx, shareWork)
	if rough && fixed.Status == simplex.Optimal {
		return fixed
	}
	g.loosen(s, p)
	work := shareWork
	if fixed.Status == simplex.Optimal {
		work = part(allOncePart)
		r := s.SolveWithin(ctx, part(loosePart))
		if r.Status == simplex.Limit && p.keeps(r.X) {
			r.Status = simplex.Optimal
		}
		if r.Status == simplex.Optimal {
			return r
		}
	}
	s.Solver.SetSlackBasis()
	r := s.SolveWithin(ctx, work)
	if r.Status != simplex.Optimal && fixed.Status == simplex.Optimal {
		return fixed
	}
	return r
}

// loosen lets what each person eats be more or less than at the point.
func (g *freeGrams) loosen(s *search.Relaxation, p *program) {
	for _, y := range slices.Sorted(maps.Keys(g.less)) {
		c, less := g.model.Problem.Cols[y], g.less[y]
		p.Cols[y].Upper = math.Max(g.point[y], c.Upper)
		p.Cols[less].Upper = math.Max(0, g.point[y]-c.Lower)
		s.SetBounds(y, g.point[y], p.Cols[y].Upper)
		s.SetBounds(less, 0, p.Cols[less].Upper)
	}
}

// fix takes that back.
func (g *freeGrams) fix(s *search.Relaxation) {
	for y, less := range g.less {
		s.SetBounds(y, g.point[y], g.point[y])
		s.SetBounds(less, 0, 0)
	}
}

// takeLess takes off a point what is eaten less than at that of the plan.
func (g *freeGrams) takeLess(x []float64) {
	for y, less := range g.less {
		x[y] -= x[less]
	}
}

// column is what e eats of f.
func (g *freeGrams) column(e *eater, f *foods.Food) int {
	for _, one := range g.model.Eaters {
		if one.Person.Name != e.name {
			continue
		}
		for _, y := range one.Eats {
			if g.model.Larder[y.Food].Food == f {
				return y.Col
			}
		}
	}
	return -1
}
