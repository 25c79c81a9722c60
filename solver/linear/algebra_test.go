package linear_test

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"rationwright/solver/linear"
)

func ExampleProblem_WriteAlgebra() {
	p := &linear.Problem{Name: "breakfast", Offset: 1}
	iron := p.AddRow("iron mg", 4, 10)
	fibre := p.AddRow("fibre", 1, 1)
	p.AddRow("unused", -linear.Inf, linear.Inf)
	rye := p.AddCol("rye", 2, 0, 3, false)
	figs := p.AddCol("figs", -3.5, 0, linear.Inf, true)
	p.AddCol("2%", 0, -linear.Inf, linear.Inf, true)
	p.Set(iron, rye, 1)
	p.Set(fibre, rye, -1)
	p.Set(iron, figs, 2)
	if err := p.WriteAlgebra(os.Stdout); err != nil {
		fmt.Println(err)
	}
	// Output:
	// program breakfast
	// minimise
	//   2 rye - 3.5 figs + 1
	// subject to
	//   "iron mg": 4 <= rye + 2 figs <= 10
	//   fibre: -rye = 1
	//   unused: 0 free
	// bounds
	//   0 <= rye <= 3
	//   "2%" free
	// integer
	//   figs, "2%"
}

func TestAlgebraWraps(t *testing.T) {
	p := &linear.Problem{Maximize: true}
	r := p.AddRow("row", -linear.Inf, 1)
	for k := range 40 {
		p.Set(r, p.AddCol(fmt.Sprintf("förråd%d", k), 1.25, 0, linear.Inf, true), -2)
	}
	text := p.String()
	for _, line := range strings.Split(text, "\n") {
		if n := utf8.RuneCountInString(line); n > 100 {
			t.Errorf("line of %d columns: %s", n, line)
		}
	}
	if got := strings.Count(text, "förråd39"); got != 3 {
		t.Errorf("the last column stands %d times, want 3 (objective, row, integer)", got)
	}
	if text != p.String() {
		t.Error("two prints differ")
	}
}
