package simplex_test

import (
	"context"
	"fmt"

	"rationwright/solver/linear"
	"rationwright/solver/simplex"
)

// Two foods, at least 10 g of protein and 600 kcal, as cheap as possible; then
// again with at most one portion of the first, from where the first solve
// ended.
func Example() {
	p := &linear.Problem{}
	protein := p.AddRow("protein", 10, linear.Inf)
	energy := p.AddRow("energy", 600, linear.Inf)
	beans := p.AddCol("beans", 3, 0, linear.Inf, false)
	p.Set(protein, beans, 5)
	p.Set(energy, beans, 100)
	rice := p.AddCol("rice", 4, 0, linear.Inf, false)
	p.Set(protein, rice, 1)
	p.Set(energy, rice, 200)

	s, err := simplex.New(p)
	if err != nil {
		fmt.Println(err)
		return
	}
	r := s.Solve(context.Background(), simplex.Limits{})
	fmt.Printf("%v %.2f: beans %.2f, rice %.2f\n", r.Status, r.Value, r.X[beans], r.X[rice])
	s.SetBounds(beans, 0, 1)
	r = s.Solve(context.Background(), simplex.Limits{})
	fmt.Printf("%v %.2f: beans %.2f, rice %.2f\n", r.Status, r.Value, r.X[beans], r.X[rice])
	// Output:
	// optimal 13.56: beans 1.56, rice 2.22
	// optimal 23.00: beans 1.00, rice 5.00
}
