package linear_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"rationwright/solver/linear"
)

func TestValidateFindsAll(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	p := &linear.Problem{
		Offset: inf,
		Rows: []linear.Row{
			{Name: "iron", Lower: 1, Upper: 2},
			{Name: "iron", Lower: nan, Upper: nan},
			{Name: "", Lower: inf, Upper: -inf},
			{Name: "salt", Lower: -2e30, Upper: 1e30},
			{Name: "free", Lower: -inf, Upper: inf},
		},
		Cols: []linear.Col{
			{Name: "rice", Cost: nan, Lower: 3, Upper: 2, Entries: []linear.Entry{{Row: 0, Value: 1}, {Row: 0, Value: 2}}},
			{Name: "rice", Cost: -inf, Upper: inf, Entries: []linear.Entry{{Row: 3, Value: nan}, {Row: 1, Value: 0}, {Row: 3, Value: inf}}},
			{Name: "peas", Upper: inf, Entries: []linear.Entry{{Row: -1, Value: 1}, {Row: 5, Value: 1}, {Row: 4, Value: 1}}},
			{Name: "", Upper: inf},
			{Name: "figs", Upper: inf, Entries: []linear.Entry{{Row: 3, Value: 1}, {Row: 2, Value: 1}, {Row: 4, Value: 1}, {Row: 0, Value: 1}}},
		},
	}
	want := []string{
		`objective: offset is +Inf; it must be a finite number`,
		`row 1 "iron": has the name of row 0; names must differ`,
		`row 1 "iron": lower bound is NaN; give a number, or -Inf for none`,
		`row 1 "iron": upper bound is NaN; give a number, or +Inf for none`,
		`row 2 "": has no name; every row needs one`,
		`row 2 "": lower bound is +Inf; give a number, or -Inf for none`,
		`row 2 "": upper bound is -Inf; give a number, or +Inf for none`,
		`row 2 "": bounds cross: lower +Inf is above upper -Inf`,
		`row 3 "salt": lower bound is -2e+30; give -Inf for none`,
		`row 3 "salt": upper bound is 1e+30; give +Inf for none`,
		`column 0 "rice": cost is NaN; it must be a finite number`,
		`column 0 "rice": bounds cross: lower 3 is above upper 2`,
		`column 0 "rice", row 0 "iron": has a second coefficient; add them up`,
		`column 1 "rice": has the name of column 0; names must differ`,
		`column 1 "rice": cost is -Inf; it must be a finite number`,
		`column 1 "rice", row 3 "salt": coefficient is NaN; it must be a finite number`,
		`column 1 "rice", row 1 "iron": coefficient is zero; leave it out`,
		`column 1 "rice", row 1 "iron": comes after row 3; sort a column's coefficients by row`,
		`column 1 "rice", row 3 "salt": coefficient is +Inf; it must be a finite number`,
		`column 1 "rice", row 3 "salt": has a second coefficient; add them up`,
		`column 2 "peas", row -1: there is no such row; there are 5`,
		`column 2 "peas", row 5: there is no such row; there are 5`,
		`column 3 "": has no name; every column needs one`,
		`column 4 "figs", row 2 "": comes after row 3; sort a column's coefficients by row`,
		`column 4 "figs", row 0 "iron": comes after row 4; sort a column's coefficients by row`,
	}
	err := p.Validate()
	if err == nil {
		t.Fatal("no findings")
	}
	got := strings.Split(err.Error(), "\n")
	for k := 0; k < max(len(got), len(want)); k++ {
		switch {
		case k >= len(got):
			t.Errorf("missing: %s", want[k])
		case k >= len(want):
			t.Errorf("not wanted: %s", got[k])
		case got[k] != want[k]:
			t.Errorf("got  %s\nwant %s", got[k], want[k])
		}
	}
	var one linear.Finding
	if !errors.As(err, &one) || one.Row != -1 || one.Col != -1 {
		t.Errorf("the first finding is about row %d, column %d; want neither", one.Row, one.Col)
	}
}

func TestValidateAcceptsWhatNoPointSatisfies(t *testing.T) {
	p := &linear.Problem{}
	p.AddRow("empty row that asks for 1", 1, 2)
	p.AddCol("nothing whole between", 0, 0.25, 0.75, true)
	if err := p.Validate(); err != nil {
		t.Error(err)
	}
}
