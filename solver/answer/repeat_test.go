package answer_test

import (
	"context"
	"math"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/answer"
	"rationwright/solver/model"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// What is said of how far people will eat a plan is the same to the last digit
// each time, since the same request is to give the same bytes: sums over kinds of
// food are taken in the order of the plan.
func TestEatableIsTheSameEachTime(t *testing.T) {
	req := rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female))
	req.Within, req.Work, req.Least = 0.2, 2500, ration.LeastWeight
	p, err := plan.Make(context.Background(), req, nil)
	if err != nil {
		t.Fatal(err)
	}
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	p.People[0].Foods = nil // a little of everything: long sums, of which the order shows
	for i, food := range m.Larder {
		p.People[0].Foods = append(p.People[0].Foods, ration.PersonFood{Food: food.Food.Name, NDB: food.Food.NDB, Grams: 10 + math.Sqrt(float64(i))})
	}
	first := answer.Eatable(m, p)
	if first.LargestKindShare <= 0 {
		t.Fatal("no kind has a share: the test shows nothing")
	}
	for range 200 {
		again := answer.Eatable(m, p)
		if again.LargestKindShare != first.LargestKindShare || again.LargestFoodShare != first.LargestFoodShare {
			t.Fatalf("shares %v and %v, then %v and %v", first.LargestKindShare, first.LargestFoodShare, again.LargestKindShare, again.LargestFoodShare)
		}
	}
}
