package search

import (
	"context"
	"fmt"
	"math"

	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/referee"
	"rationwright/solver/simplex"
)

// personProgram is the relaxation of one person's own ration without packs: a
// food costs per gram what its cheapest pack does,
//
//	min_k c_k / usable_k
//
// which is what the packs' rows come to when packs may be bought in part. It is
// small, so that the referee can solve it too. Rows that seldom bind come last
// and can be left out at first.
func personProgram(req *ration.Request, person nutrients.Person) (*linear.Problem, error) {
	own := *ration.Filled(req)
	own.People = []nutrients.Person{person}
	own.People[0].Count = 1
	own.Stock, own.Files, own.Limits, own.Allowance, own.Pets = nil, ration.Files{}, ration.Limits{}, false, 0
	own.StockOnly = false
	m, err := model.Build(&own)
	if err != nil {
		return nil, err
	}
	if len(m.Eaters) == 0 {
		return nil, nil
	}
	perGram := map[int]float64{} // by eat column
	for _, y := range m.Eaters[0].Eats {
		if cost, col := m.Larder[y.Food].GramCost(func(col int) float64 { return m.Problem.Cols[col].Cost }); col >= 0 {
			perGram[y.Col] = cost * y.SpareFactor
		}
	}
	return project(m, perGram), nil
}

// project drops the packs bought, their rows, and makes the program anew.
func project(m *model.Model, perGram map[int]float64) *linear.Problem {
	p := &linear.Problem{Name: "one person"}
	at := copyRows(p, m.Problem, func(i int, _ linear.Row) bool {
		return m.Rows[i].Kind != model.RowBalance && m.Rows[i].Kind != model.RowOpened
	})
	for j, info := range m.Cols {
		if info.Kind != model.ColBuy {
			c := m.Problem.Cols[j]
			c.Cost += perGram[j]
			copyCol(p, c, at)
		}
	}
	return p
}

// SecondOpinions has the referee solve the relaxation of each person's own
// program, and of the whole household where that is small enough for it.
func SecondOpinions(ctx context.Context, req *ration.Request) ([]ration.SecondOpinion, error) {
	var list []ration.SecondOpinion
	for _, person := range req.People {
		if OutOfTime(ctx) {
			list = append(list, ration.SecondOpinion{What: person.Name, Remark: "not solved a second time: the time was up"})
			continue
		}
		p, err := personProgram(req, person)
		if err != nil {
			return nil, err
		}
		if p == nil {
			list = append(list, ration.SecondOpinion{What: person.Name, Agree: true, Remark: "a clinician must plan for this person"})
			continue
		}
		o, err := secondOpinion(ctx, person.Name, p)
		if err != nil {
			return nil, err
		}
		list = append(list, o)
	}
	m, err := model.Build(req)
	if err != nil {
		return nil, err
	}
	o, err := secondOpinion(ctx, "the whole household", m.Problem)
	if err != nil {
		return nil, err
	}
	return append(list, o), nil
}

// secondOpinion solves p with both. The referee starts without the rows that
// seldom bind and gets those that its point violates, until none is.
func secondOpinion(ctx context.Context, what string, p *linear.Problem) (ration.SecondOpinion, error) {
	o := ration.SecondOpinion{What: what}
	if OutOfTime(ctx) {
		o.Remark = "not solved a second time: the time was up"
		return o, nil
	}
	s, err := simplex.New(p)
	if err != nil {
		return o, err
	}
	result := s.Solve(ctx, simplex.Limits{})
	if result.Status != simplex.Optimal {
		o.Remark = "the relaxation ended " + result.Status.String() + ": " + result.Why
		return o, nil
	}
	o.Engine = result.Value
	inForce := make([]bool, len(p.Rows))
	for i := range p.Rows {
		inForce[i] = !p.Rows[i].Lazy
	}
	for {
		part := rowsOf(p, inForce)
		if len(part.Rows) > refereeRows {
			o.Remark = fmt.Sprintf("%d rows are more than the %d that the referee is given", len(part.Rows), refereeRows)
			return o, nil
		}
		opinion, err := referee.Solve(ctx, part)
		if err != nil {
			return o, err
		}
		if opinion.Verdict != referee.Optimal {
			o.Remark = "the referee: " + opinion.String()
			return o, nil
		}
		if force(p, inForce, opinion.X) {
			continue
		}
		o.Referee = opinion.Value
		o.Agree = math.Abs(o.Engine-o.Referee) <= agreeTolerance*math.Max(1, math.Abs(o.Engine))
		if !opinion.Proven {
			o.Remark = "the referee's figure is unproven: " + opinion.Why
		}
		return o, nil
	}
}

// rowsOf copies p with the rows in force only.
func rowsOf(p *linear.Problem, inForce []bool) *linear.Problem {
	q := &linear.Problem{Name: p.Name, Maximize: p.Maximize, Offset: p.Offset}
	at := copyRows(q, p, func(i int, _ linear.Row) bool { return inForce[i] })
	for _, c := range p.Cols {
		copyCol(q, c, at)
	}
	return q
}

// force puts the rows into force that x violates beyond the tolerance of the
// check, and reports whether there were any.
func force(p *linear.Problem, inForce []bool, x []float64) bool {
	activity := make([]float64, len(p.Rows))
	for j, c := range p.Cols {
		for _, e := range c.Entries {
			activity[e.Row] += e.Value * x[j]
		}
	}
	any := false
	for i, row := range p.Rows {
		if inForce[i] {
			continue
		}
		room := ration.CheckTolerance * math.Max(1, math.Max(size(row.Lower), size(row.Upper)))
		if activity[i] < row.Lower-room || activity[i] > row.Upper+room {
			inForce[i], any = true, true
		}
	}
	return any
}

// size is the magnitude of a bound, 0 where there is none.
func size(bound float64) float64 {
	if math.IsInf(bound, 0) {
		return 0
	}
	return math.Abs(bound)
}
