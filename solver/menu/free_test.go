package menu

import (
	"context"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// What people eat is bettered from the point of the plan within the rows of its model: less
// of the food that one of them eats most is found, and the plan's rows are kept, where the
// work ends as well.
func TestLoosenedPointsKeepEveryRow(t *testing.T) {
	req := ration.Filled(rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Torleif", 63, nutrients.Male)))
	made, err := plan.Make(context.Background(), req, nil)
	if err != nil || made.Totals == nil {
		t.Fatal("no plan", err)
	}
	m, err := model.BuildFor(req, made)
	if err != nil {
		t.Fatal(err)
	}
	free := &freeGrams{model: m, point: m.PointOf(made), most: inf, foods: map[*foods.Food]*stocked{}}
	for _, lf := range m.Larder {
		free.foods[lf.Food] = &stocked{food: lf.Food}
	}
	p := &program{Problem: *free.problem()}
	most := -1
	for y := range free.less {
		if most < 0 || free.point[y] > free.point[most] || free.point[y] == free.point[most] && y < most {
			most = y
		}
	}
	for j := range p.Cols {
		p.Cols[j].Cost = 0
	}
	p.Cols[most].Cost, p.Cols[free.less[most]].Cost = 1, -1
	s, err := search.Relax(p.problem())
	if err != nil {
		t.Fatal(err)
	}
	fixed := s.SolveWithin(context.Background(), shareWork)
	if fixed.Status != simplex.Optimal || fixed.Value < 0.999*free.point[most] {
		t.Fatalf("%s at %g g, the plan has %g g", fixed.Status, fixed.Value, free.point[most])
	}
	if rough := free.loosened(context.Background(), s, p, fixed, true); rough.Value != fixed.Value {
		t.Errorf("a first share has %g g, the plan %g g", rough.Value, fixed.Value)
	}
	loose := free.loosened(context.Background(), s, p, fixed, false)
	if loose.Status != simplex.Optimal || loose.Value > 0.9*fixed.Value {
		t.Errorf("%s at %g g, from %g g", loose.Status, loose.Value, fixed.Value)
	}
	if !p.keeps(loose.X) {
		t.Error("the best point does not keep the rows")
	}
	free.takeLess(loose.X)
	eaten := m.CopyProblem()
	m.FixPacks(eaten, free.point)
	broken, err := eaten.Check(loose.X[:len(m.Cols)], ration.CheckTolerance)
	for _, v := range broken {
		t.Error(v.What)
	}
	if err != nil || loose.X[most] < 0 {
		t.Errorf("%g g, %v", loose.X[most], err)
	}
	loose.X[most] += 2 * free.point[most]
	if p.keeps(loose.X) {
		t.Error("a point beyond what is in the packs is said to keep the rows")
	}
}
