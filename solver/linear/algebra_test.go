package linear_test

import (
	"fmt"
	"os"
	"regexp"
	"strconv"
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
	for k := range 40 {
		if got := len(regexp.MustCompile(fmt.Sprintf(`förråd%d\b`, k)).FindAllString(text, -1)); got != 3 {
			t.Errorf("column %d stands %d times, want 3 (objective, row, integer)", k, got)
		}
	}
	if text != p.String() {
		t.Error("two prints differ")
	}
}

// TestAlgebraWrapsWhereItMust: a line has 100 columns and no more, and what does not fit
// goes on six columns in. "  a + " takes six columns, so that a second name of 94 still
// fits beside the first and one of 95 does not; on the next line, where six are blank,
// "+ b + c" with a c of 88 fits (6 + 3 + 1 + 2 + 88 = 100), and one of 89 does not.
func TestAlgebraWrapsWhereItMust(t *testing.T) {
	name := func(r string, n int) string { return strings.Repeat(r, n) }
	for _, c := range []struct {
		names []string
		want  string
	}{
		{[]string{"a", name("b", 94)}, "  a + " + name("b", 94)},
		{[]string{"a", name("b", 95)}, "  a\n      + " + name("b", 95)},
		{[]string{name("a", 98), "b", name("c", 88)}, "  " + name("a", 98) + "\n      + b + " + name("c", 88)},
		{[]string{name("a", 98), "b", name("c", 89)}, "  " + name("a", 98) + "\n      + b\n      + " + name("c", 89)},
		{[]string{name("a", 120), "b"}, "  " + name("a", 120) + "\n      + b"},
	} {
		p := &linear.Problem{}
		for _, n := range c.names {
			p.AddCol(n, 1, 0, linear.Inf, false)
		}
		if got, want := p.String(), "minimise\n"+c.want+"\nsubject to\n"; got != want {
			t.Errorf("got\n%swant\n%s", got, want)
		}
	}
}

// TestAlgebraQuotes: a name that could be read as a number, a sign or a part of the algebra
// is quoted, no other.
func TestAlgebraQuotes(t *testing.T) {
	for name, quoted := range map[string]bool{
		"rye": false, "x-1": false, "f.1": false, "fat%": false, "å": false, "r5": false, "(a)": false,
		"-x": true, ".5": true, "5x": true, "0": true, "9": true, "a b": true, "a+b": true, "a=b": true, "<a": true, "a>": true,
		"a:": true, "a,b": true, `a"b`: true, "": true, "a\tb": true, "a\nb": true,
	} {
		p := &linear.Problem{}
		p.AddCol(name, 1, 0, linear.Inf, false)
		want := name
		if quoted {
			want = strconv.Quote(name)
		}
		if got := p.String(); got != "minimise\n  "+want+"\nsubject to\n" {
			t.Errorf("%q is printed as\n%s", name, got)
		}
	}
}
