package menu

import (
	"context"
	"math"
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/rationtest"
	"rationwright/solver/simplex"
)

// At one meal an adult eats of two canned beans together what is eaten of one at a sitting (foods.csv),
// whatever dishes they are in.
func TestOneSittingOfWhatIsEatenAlike(t *testing.T) {
	table := rationtest.Table(t)
	signe := rationtest.Adult("Signe", 30, nutrients.Female)
	e := &eater{person: &signe, count: 1}
	p, most := &program{}, newSittings()
	occasion := 0.0
	for _, name := range []string{"navy beans, canned", "black beans, canned"} {
		for _, f := range table.Foods {
			if f.Name == name {
				each, _, _ := foods.Cap(&signe, f)
				occasion = math.Max(occasion, each)
				most.add(e, &stocked{food: f, meal: true, openings: []*opening{{}}}, 2, p.col(-1, each))
			}
		}
	}
	if len(p.Cols) != 2 || occasion <= 0 {
		t.Fatalf("%d columns, %g g at a sitting", len(p.Cols), occasion)
	}
	most.hold(p, e)
	s, err := simplex.New(p.problem())
	if err != nil {
		t.Fatal(err)
	}
	r := s.Solve(context.Background(), simplex.Limits{})
	if r.Status != simplex.Optimal || math.Abs(r.X[0]+r.X[1]-occasion) > 1e-6 {
		t.Errorf("%v: %g g and %g g, together at most %g g", r.Status, r.X[0], r.X[1], occasion)
	}
}

// A side is not of what the dish itself is made of.
func TestSidesDoNotRepeatTheDish(t *testing.T) {
	book, err := dishes.Load(rationtest.Table(t))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		side, main string
		same       bool
	}{
		{"side-mash", "plain-mash-egg", true}, {"side-mash", "plain-rice-egg", false},
		{"side-porridge", "plain-porridge-milk", true}, {"side-porridge", "plain-bread-egg", false},
	} {
		if got := sameMain(book.Dish(c.side), book.Dish(c.main)); got != c.same {
			t.Errorf("%s beside %s: the same %v, want %v", c.side, c.main, got, c.same)
		}
	}
}
