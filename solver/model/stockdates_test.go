package model_test

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
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

// TestNobodyEatsAheadOfSeveralDates: of stock with so many dates within the horizon, what somebody
// eats by each date, out of that and of all before it, is held to the days until then: to what
// they may eat in all × days / 14. It comes out of the packs of its date alone, and is part of
// what they eat. Dates stand in any order, and two lines can have one.
func TestNobodyEatsAheadOfSeveralDates(t *testing.T) {
	const pack = "white-rice-907g-bag"
	date := func(day int) string {
		return "2026-" + []string{"11-24", "11-25", "11-26", "11-27", "11-28", "11-29", "11-30", "12-01"}[day]
	} // 1 is the 25th
	two := rationtest.Adult("Odd", 40, nutrients.Male)
	two.Count = 2
	for _, days := range [][]int{{}, {3}, {3, 4}, {4, 3}, {1, 2}, {3, 3}, {2, 4, 7}, {7, 2, 4}, {4, 2, 4, 7, 1}} {
		req := rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female), two)
		text := "pack,count,best_before,place\n" + pack + ",5,,\n" + pack + ",5,2028-01-01,\n" // which keep
		for i, day := range days {
			text += fmt.Sprintf("%s,5,%s,place %d\n", pack, date(day), i)
		}
		stock, err := req.Table.ReadStock("stock.csv", strings.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		req.Stock = stock.Lines
		m, err := model.Build(req)
		if err != nil {
			t.Fatal(err)
		}
		dates := slices.Compact(slices.Sorted(slices.Values(days)))
		if len(m.ByDate) != len(dates)*len(m.Eaters) {
			t.Errorf("days %v: %d columns of dates, want %d for each of %d", days, len(m.ByDate), len(dates), len(m.Eaters))
		}
		entries := make([]map[int]float64, len(m.Problem.Rows)) // of a row, by column
		for j, c := range m.Problem.Cols {
			for _, e := range c.Entries {
				if entries[e.Row] == nil {
					entries[e.Row] = map[int]float64{}
				}
				entries[e.Row][j] = e.Value
			}
		}
		rice := slices.IndexFunc(m.Larder, func(lf *model.LarderFood) bool { return lf.Food.Name == ration.FindPack(req, pack).Food.Name })
		for ei, e := range m.Eaters {
			eats, _ := e.Eating(rice)
			for _, last := range dates {
				var cols []int
				sum := 0.0 // of what each column lets
				for _, v := range m.ByDate {
					if v.Eater == ei && v.Larder == rice && v.Day <= last {
						cols = append(cols, v.Col)
						sum += m.Problem.Cols[v.Col].Upper
					}
				}
				for i, row := range entries {
					together := len(row) == len(cols)
					for _, j := range cols {
						together = together && row[j] == 1
					}
					if together {
						sum = math.Min(sum, m.Problem.Rows[i].Upper)
					}
				}
				if want := eats.CapG * float64(last) / 14; math.Abs(sum-want) > 1e-9 {
					t.Errorf("days %v: %s may eat %g g by day %d, want %g of %g", days, e.Person.Name, sum, last, want, eats.CapG)
				}
			}
			// All dates together are part of what is eaten.
			if of := rowNamed(m.Problem, "dated-of["+e.Person.Name+","+m.Larder[rice].Food.Name+"]"); (of >= 0) != (len(dates) > 0) {
				t.Errorf("days %v: a row of what %s eats by dates: %v", days, e.Person.Name, of >= 0)
			} else if of >= 0 {
				want := map[int]float64{eats.Col: -1}
				for _, v := range m.ByDate {
					if v.Eater == ei {
						want[v.Col] = 1
					}
				}
				if !maps.Equal(entries[of], want) || m.Problem.Rows[of].Upper != 0 {
					t.Errorf("days %v: what %s eats by dates is held by %v at most %g, want %v at most 0", days, e.Person.Name, entries[of], m.Problem.Rows[of].Upper, want)
				}
			}
		}
		for _, day := range dates {
			want := map[int]float64{}
			for _, v := range m.ByDate {
				if v.Day == day {
					want[v.Col] = m.Eaters[v.Eater].Count
				}
			}
			for _, k := range m.Larder[rice].Stock {
				if k.Line >= 2 && days[k.Line-2] == day {
					want[k.Col] = -k.Usable
				}
			}
			of := rowNamed(m.Problem, fmt.Sprintf("dated[%s,day %d]", m.Larder[rice].Food.Name, day))
			if of < 0 || !maps.Equal(entries[of], want) || m.Problem.Rows[of].Upper != 0 {
				t.Errorf("days %v: packs of day %d are held by row %d, want %v at most 0", days, day, of, want)
			}
		}
	}
}
