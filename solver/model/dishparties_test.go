package model_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"slices"
	"strconv"
	"testing"

	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestLeastAndMostOfAPart: of each part of a dish, for as many servings, a party has at most
// the most of the table and at least its least, a child under three years 0.55 of the least
// and no less of the most; of what a dish can do without there is no least.
func TestLeastAndMostOfAPart(t *testing.T) {
	file, err := os.Open("../../foods/dishes/data/dish_parts.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	column := map[string]int{}
	for i, name := range rows[0] {
		column[name] = i
	}
	for _, c := range []struct {
		months int
		part   float64
	}{{14, 0.55}, {35, 0.55}, {36, 1}, {37, 1}, {400, 1}} {
		p := rationtest.Adult("Odd", 0, nutrients.Male)
		p.AgeMonths, p.YearsOnly = c.months, false
		req := rationtest.Basics(t, p)
		m, _ := seated(t, req)
		at := map[string]int{}
		for i, r := range m.Problem.Rows {
			at[r.Name] = i
		}
		servings := map[int]map[int]float64{} // by row and column: what is negative
		for j := range m.Problem.Cols {
			for _, e := range m.Problem.Cols[j].Entries {
				if e.Value < 0 {
					if servings[e.Row] == nil {
						servings[e.Row] = map[int]float64{}
					}
					servings[e.Row][j] = e.Value
				}
			}
		}
		held, opened := 0, 0
		for _, r := range rows[1:] {
			number := func(name string) float64 {
				v, err := strconv.ParseFloat(r[column[name]], 64)
				if err != nil {
					t.Fatal(err)
				}
				return v
			}
			label := fmt.Sprintf("[Odd,%s,%s]", r[column["dish"]], r[column["part"]])
			if _, open := at[fmt.Sprintf("openings[%s,%s]", r[column["dish"]], r[column["part"]])]; open {
				if opened++; r[column["optional"]] == "yes" {
					t.Errorf("%d months, %s: packs must be opened for what may be left", c.months, label)
				}
			}
			most, has := at["most"+label]
			if !has {
				continue
			}
			least, atLeast := at["least"+label]
			if needed := r[column["optional"]] != "yes"; atLeast != needed {
				t.Errorf("%d months, %s: a least amount %v, needed %v", c.months, label, atLeast, needed)
			}
			if !atLeast {
				continue
			}
			if a, b := m.Problem.Rows[most], m.Problem.Rows[least]; a.Upper != 0 || !math.IsInf(a.Lower, -1) || b.Lower != 0 || !math.IsInf(b.Upper, 1) {
				t.Errorf("%d months, %s: %g to %g, %g to %g", c.months, label, a.Lower, a.Upper, b.Lower, b.Upper)
			}
			for j, v := range servings[most] {
				held++
				if got, want := servings[least][j]/v, c.part*number("min_g")/number("max_g"); math.Abs(got-want) > 1e-9 {
					t.Errorf("%d months, %s: the least is %g of the most, want %g", c.months, label, got, want)
				}
			}
		}
		if held < 20 || opened == 0 {
			t.Errorf("%d months: %d amounts, %d parts with packs opened for them, nothing is shown", c.months, held, opened)
		}
	}
}

// TestDishForHalfOfTheTable: of fish, which of Maja, a vegan, Ylva, a vegetarian, and those like
// Signe only the last eat, there are dishes of the household where they are half of it, two of
// four, and none where they are one of three; all are alike in age and energy.
func TestDishForHalfOfTheTable(t *testing.T) {
	for alike, want := range map[int]bool{1: false, 2: true} {
		people := []nutrients.Person{rationtest.Adult("Maja", 30, nutrients.Female), rationtest.Adult("Ylva", 30, nutrients.Female), rationtest.Adult("Signe", 30, nutrients.Female)}
		people[0].Conditions = []nutrients.Condition{nutrients.Vegan}
		people[1].Conditions = []nutrients.Condition{nutrients.Vegetarian}
		people[2].Count = alike
		_, seating := seated(t, rationtest.Basics(t, people...))
		if len(seating.Parties) != 3 {
			t.Fatalf("%d parties, want 3", len(seating.Parties))
		}
		for _, key := range []string{"tuna-bean-salad", "salmon-potato-salad"} {
			if got := slices.ContainsFunc(seating.Seats, func(s *model.Seat) bool { return s.Dish.Key == key }); got != want {
				t.Errorf("%s, eaten by %d of %d: the household's %v, want %v", key, alike, alike+2, got, want)
			}
		}
	}
}

// seated is the model of req with every dish and food of the table in it.
func seated(t *testing.T, req *ration.Request) (*model.Model, *model.Seating) {
	t.Helper()
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	book, err := dishes.Load(req.Table)
	if err != nil {
		t.Fatal(err)
	}
	all := func(*dishes.Dish) bool { return true }
	return m, m.AddDishes(model.Menu{Book: book, Foods: slices.Repeat([]bool{true}, len(m.Larder)), Table: all, Own: all, Between: 1})
}
