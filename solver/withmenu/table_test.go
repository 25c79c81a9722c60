package withmenu

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/rationtest"
)

// TestAtTableFromAYear: a child of a year is at the table and has a dish at every meal, its
// own where the household's is none for it; one of eleven months has milk and may have
// none.
func TestAtTableFromAYear(t *testing.T) {
	for months, must := range map[int]bool{8: false, 11: false, 12: true, 13: true, 30: true} {
		child := nutrients.Person{Name: "Liv", AgeMonths: months, Sex: nutrients.Female, Count: 1, Activity: nutrients.LowActive}
		if months < 12 {
			child.Feeding = nutrients.FormulaFed
		}
		m, err := model.Build(rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female), child))
		if err != nil {
			t.Fatal(err)
		}
		book, err := dishes.Load(m.Request.Table)
		if err != nil {
			t.Fatal(err)
		}
		in := make([]bool, len(m.Larder))
		for k := range in {
			in[k] = true
		}
		all := func(*dishes.Dish) bool { return true }
		m.AddDishes(model.Menu{Book: book, Foods: in, Table: all, Own: all, Between: between})
		rows := 0
		for _, row := range m.Problem.Rows {
			if strings.HasPrefix(row.Name, "own-") && strings.HasSuffix(row.Name, "[Liv]") {
				rows++
				if got := !math.IsInf(row.Lower, -1); got != must || row.Upper != 0 {
					t.Errorf("%d months: %s from %g to %g, a dish at every meal %v", months, row.Name, row.Lower, row.Upper, must)
				}
			}
		}
		if rows == 0 && months < 30 {
			t.Errorf("%d months: no row of dishes of its own", months)
		}
	}
}

// TestPacksAreOpenedForDishes: each part that a dish cannot do without has a row of packs
// opened for it where a food of it does not keep beyond the day, and only there.
func TestPacksAreOpenedForDishes(t *testing.T) {
	m, err := model.Build(rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female)))
	if err != nil {
		t.Fatal(err)
	}
	book, err := dishes.Load(m.Request.Table)
	if err != nil {
		t.Fatal(err)
	}
	in := make([]bool, len(m.Larder))
	for k := range in {
		in[k] = true
	}
	all := func(*dishes.Dish) bool { return true }
	m.AddDishes(model.Menu{Book: book, Foods: in, Table: all, Own: all, Between: between})
	row := map[string]bool{}
	for _, r := range m.Problem.Rows {
		row[r.Name] = true
	}
	with, without := 0, 0
	for _, d := range book.Dishes {
		for i, p := range d.Parts {
			spoils := false
			for _, o := range p.Options {
				lf := m.LarderOf(o.Food)
				spoils = spoils || lf != nil && len(lf.Buy) > 0 && o.Food.Keeping != nil && o.Food.Keeping.AfterOpenHours <= 24
			}
			has := row[fmt.Sprintf("openings[%s,%d]", d.Key, i+1)]
			switch {
			case has && (!spoils || p.Optional):
				t.Errorf("%s, %s: packs are opened for what keeps, or may be left", d.Key, p.Name)
			case has:
				with++
			default:
				without++
			}
		}
	}
	if with < 20 || without < 20 {
		t.Errorf("%d parts have a row and %d have none: the test shows nothing", with, without)
	}
}
