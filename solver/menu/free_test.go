package menu

import (
	"context"
	"math"
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
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
	heldAt(t, p, m, free.point)
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
	if rough := free.solve(context.Background(), s, p, true); rough.Value != fixed.Value {
		t.Errorf("a first share has %g g, the plan %g g", rough.Value, fixed.Value)
	}
	loose := free.solve(context.Background(), s, p, false)
	if loose.Status != simplex.Optimal || loose.Value > 0.9*fixed.Value {
		t.Errorf("%s at %g g, from %g g", loose.Status, loose.Value, fixed.Value)
	}
	if !p.keeps(loose.X) {
		t.Error("the best point does not keep the rows")
	}
	free.takeLess(loose.X)
	eaten := m.Problem.Clone()
	m.FixPacks(eaten, free.point)
	broken, err := eaten.Check(loose.X[:len(m.Cols)], ration.CheckTolerance)
	for _, v := range broken {
		t.Error(v)
	}
	if err != nil || loose.X[most] < 0 {
		t.Errorf("%g g, %v", loose.X[most], err)
	}
	loose.X[most] += 2 * free.point[most]
	if p.keeps(loose.X) {
		t.Error("a point beyond what is in the packs is said to keep the rows")
	}
}

// heldAt wants the point within every limit of p that it does not miss by more than rounding,
// as those of columns that it has no figure for, and no limit moved by more than a gram in a
// hundred tons.
func heldAt(t *testing.T, p *program, m *model.Model, point []float64) {
	x := make([]float64, len(p.Cols))
	for j, c := range p.Cols {
		x[j] = min(max(0, c.Lower), c.Upper)
		if j < len(point) {
			x[j] = min(max(point[j], c.Lower), c.Upper)
		}
	}
	at, err := p.Evaluate(x)
	if err != nil {
		t.Fatal(err)
	}
	moved := 0
	for i, r := range m.Problem.Rows {
		if a := at.Activity[i]; (a < p.Rows[i].Lower || a > p.Rows[i].Upper) && max(p.Rows[i].Lower-a, a-p.Rows[i].Upper) < 1e-7*max(1, at.Size[i]) {
			t.Errorf("%s is missed by rounding: %g of %g to %g", r.Name, a, p.Rows[i].Lower, p.Rows[i].Upper)
		}
		by := max(r.Lower-p.Rows[i].Lower, p.Rows[i].Upper-r.Upper)
		if by > 1e-8*max(1, at.Size[i]) {
			t.Errorf("%s is moved by %g of %g", r.Name, by, at.Size[i])
		}
		if by > 0 {
			moved++
		}
	}
	if moved == 0 || moved == len(m.Problem.Rows) {
		t.Errorf("%d of %d limits are moved", moved, len(m.Problem.Rows))
	}
}

// What a food takes of water in a dish differs from what it takes by itself by nothing or by
// more than a drop in a ton: what subtracting leaves of equal amounts spoiled the scaling of
// programs.
func TestWaterThatIsNoDifference(t *testing.T) {
	book, err := dishes.Load(rationtest.Table(t))
	if err != nil {
		t.Fatal(err)
	}
	same, other := 0, 0
	for _, d := range book.Dishes {
		for _, p := range d.Parts {
			for _, o := range p.Options {
				switch more := model.BeyondL(p, o.Food); {
				case more == 0:
					same++
				case math.Abs(more) < 1e-10:
					t.Errorf("%s in %s: %g L a gram", o.Food.Name, d.Key, more)
				default:
					other++
				}
			}
		}
	}
	if same == 0 || other == 0 {
		t.Errorf("%d take as much, %d another amount", same, other)
	}
}
