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

// TestSittingsOfADay: of fish that keeps for the day once open, 100 g at a sitting and 150 g in a
// day, nobody has more than 150 g on one day, nor two cans' worth at a meal; of juice that is
// finished at its meal up to twice the 300 g of a day are let before a gram costs; what is
// dry and finished at its meal is held by its sittings alone, what keeps by the sitting.
func TestSittingsOfADay(t *testing.T) {
	of := func(group string, occasion, day float64) *foods.Food {
		f := &foods.Food{Group: group, OccasionG: occasion, DayG: day, Per100g: nutrients.Unknown()}
		f.Per100g[nutrients.Energy] = 100
		return f
	}
	open := []*opening{{}}
	fish, juice, bread, rice := of("canned fish", 100, 150), of("juice", 250, 300), of("bread and crackers", 100, 150), of("grains", 100, 150)
	if !juice.IsFluid() || fish.IsFluid() {
		t.Fatal("juice is no drink, or fish is one: the test shows nothing")
	}
	for _, c := range []struct {
		name  string
		s     stocked
		at    []int // columns, each of 250 g at most
		worth float64
		want  float64 // of all
	}{
		{"fish of a day", stocked{food: fish, openings: open}, []int{atMidday, atEvening}, 1, 150},
		{"fish of two days", stocked{food: fish, openings: open}, []int{atMidday, meals + atMidday}, 1, 500}, // each by itself, whose column ends it
		{"fish at one meal", stocked{food: fish, openings: open}, []int{atMidday, atMidday}, 1, 100},
		{"fish worth more than that", stocked{food: fish, openings: open}, []int{atMidday, atEvening}, 31, 500}, // 30 a kcal
		{"juice of a day", stocked{food: juice, meal: true, openings: open}, []int{atBreakfast, atMidday, atEvening}, 2.9, 600},
		{"juice worth more", stocked{food: juice, meal: true, openings: open}, []int{atBreakfast, atMidday, atEvening}, 3.1, 750}, // 3 a kcal
		{"bread finished at its meals", stocked{food: bread, meal: true, openings: open}, []int{atMidday, atEvening}, 1, 500},
		{"rice at one meal", stocked{food: rice}, []int{atMidday, atMidday}, 1, 100}, {"rice of a day", stocked{food: rice}, []int{atMidday, atEvening}, 1, 500},
	} {
		e := &eater{count: 1, person: &nutrients.Person{AgeMonths: 400, Sex: nutrients.Female}}
		p, most := &program{}, newSittings()
		for _, at := range c.at {
			most.add(e, &c.s, at, p.col(-c.worth, 250))
		}
		most.hold(p, e)
		s, err := simplex.New(p.problem())
		if err != nil {
			t.Fatal(err)
		}
		r := s.Solve(context.Background(), simplex.Limits{})
		all := 0.0
		for j := range c.at {
			all += r.X[j]
		}
		if r.Status != simplex.Optimal || math.Abs(all-c.want) > 1e-6 {
			t.Errorf("%s: %v, %g g, want %g", c.name, r.Status, all, c.want)
		}
	}
	none, most := of("grains", 0, 0), newSittings()
	most.add(&eater{person: &nutrients.Person{AgeMonths: 400}}, &stocked{food: none}, atMidday, 0)
	if len(most.order) != 0 {
		t.Error("what has no figure is held to none")
	}
}
