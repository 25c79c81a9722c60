package branch_test

import (
	"context"
	"fmt"
	"math"

	"rationwright/solver/branch"
	"rationwright/solver/linear"
)

// Three pack sizes of rice; 1,150 g are wanted for the least money.
func ExampleSolve() {
	p := &linear.Problem{}
	grams := p.AddRow("grams", 1150, math.Inf(1))
	for _, pack := range []struct{ net, price float64 }{{250, 2.00}, {400, 2.90}, {1000, 6.60}} {
		j := p.AddCol(fmt.Sprintf("%g g", pack.net), pack.price, 0, 9, true)
		p.Set(grams, j, pack.net)
	}
	r := branch.Solve(context.Background(), p, branch.Options{Audit: true})
	fmt.Printf("%v: %.2f\n", r.Status, r.Value)
	for j, c := range p.Cols {
		if r.X[j] > 0 {
			fmt.Printf("%g x %s\n", r.X[j], c.Name)
		}
	}
	audit := branch.Audit(context.Background(), p, r)
	fmt.Println("proof confirmed:", audit.BoundOK && audit.CutsTrusted == 0)
	// Output:
	// optimal: 8.60
	// 1 x 250 g
	// 1 x 1000 g
	// proof confirmed: true
}
