package model_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/rationtest"
)

// TestDaysAfterADate: with stock that keeps until within the horizon, what everybody is to
// have by that day and after it is the need of a day each time: bounds and days of the two
// rows are parts of those of the need, which make the whole together.
func TestDaysAfterADate(t *testing.T) {
	req := rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Odd", 40, nutrients.Male))
	req.Stock = rationtest.StockOf(t, req.Table, "white-rice-907g-bag,2,2026-11-29,,,", "peanut-butter-454g-jar,2,2026-12-04,,,").Lines
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	need := func(text string, eater int) int {
		return slices.IndexFunc(m.Rows, func(r model.RowInfo) bool {
			return r.Kind != model.RowAfter && r.Eater == eater && r.Text == text
		})
	}
	parts := map[[2]int]float64{} // of the days of a need, by need and day
	rows := 0
	for i, r := range m.Rows {
		if r.Kind != model.RowAfter {
			continue
		}
		rows++
		text, day, after := strings.Cut(r.Text, " after day ")
		if !after {
			text, day, _ = strings.Cut(r.Text, " by day ")
		}
		of := need(text, r.Eater)
		if of < 0 {
			t.Fatalf("%q is of no need", r.Text)
		}
		got, whole := m.Problem.Rows[i], m.Problem.Rows[of]
		if after && math.Abs(got.Lower/r.PerDay-whole.Lower/m.Rows[of].PerDay) > 1e-9*whole.Lower {
			t.Errorf("%s: %g in %g days, the need is %g in %g", r.Text, got.Lower, r.PerDay, whole.Lower, m.Rows[of].PerDay)
		}
		if !after && math.Abs(got.Upper/r.PerDay-whole.Upper/m.Rows[of].PerDay) > 1e-9*whole.Upper {
			t.Errorf("%s: at most %g in %g days, the need is %g in %g", r.Text, got.Upper, r.PerDay, whole.Upper, m.Rows[of].PerDay)
		}
		if whole.Upper < model.Inf && whole.Lower > 0 { // both rows are there
			parts[[2]int{of, len(day)*100 + int(day[len(day)-1])}] += r.PerDay / m.Rows[of].PerDay
		}
	}
	if rows == 0 || len(parts) == 0 {
		t.Fatalf("%d rows, %d needs with both: nothing is shown", rows, len(parts))
	}
	for key, part := range parts {
		if math.Abs(part-1) > 1e-9 {
			t.Errorf("%s: the days by and after the date are %g of all", m.Rows[key[0]].Text, part)
		}
	}
}
