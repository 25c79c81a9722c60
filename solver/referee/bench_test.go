package referee_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"rationwright/solver/linear"
	"rationwright/solver/referee"
)

// person has the shape of one person's program: 60 floors, ceilings and shares
// over 170 foods, each with a cap, and nearly every food has some of everything.
func person() *linear.Problem {
	rng := rand.New(rand.NewPCG(60, 170))
	p := &linear.Problem{Name: "person"}
	for i := range 60 {
		floor := 20 + 80*rng.Float64()
		ceiling := inf
		if i%3 == 0 {
			ceiling = 3 * floor
		}
		p.AddRow(fmt.Sprint("need", i), floor, ceiling)
	}
	for j := range 170 {
		col := p.AddCol(fmt.Sprint("food", j), 0.2+rng.Float64(), 0, 2+8*rng.Float64(), false)
		for i := range 60 {
			if rng.IntN(10) > 1 {
				p.Set(i, col, rng.ExpFloat64()*rng.Float64())
			}
		}
	}
	return p
}

func BenchmarkPerson(b *testing.B) {
	p := person()
	for b.Loop() {
		op, err := referee.Solve(context.Background(), p)
		if err != nil || !op.Proven {
			b.Fatalf("%v (%v)", op, err)
		}
	}
}

// The size the referee is meant for: an opinion, proven, that the simplex
// method shares.
func TestPerson(t *testing.T) {
	p := person()
	compareWithReferee(t, p, lpAnswer(solveLP(t, p)))
}
