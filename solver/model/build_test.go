package model_test

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestWhatCannotBePlanned: nobody, somebody ill whom nobody knows, and each wrong row of the
// household, all at once: what is asked of food that is in no table.
func TestWhatCannotBePlanned(t *testing.T) {
	wrong := func(name, food string) nutrients.Person {
		p := rationtest.Adult(name, 40, nutrients.Male)
		p.Rules = []nutrients.Rule{{Kind: nutrients.RuleMost, Food: food, Low: 30, Text: "most " + food + " 30 g/day"}}
		return p
	}
	for _, c := range []struct {
		name   string
		people []nutrients.Person
		change func(r *ration.Request)
		is     error
		says   []string
	}{
		{"nobody", nil, func(*ration.Request) {}, ration.ErrNobody, nil},
		{"somebody ill whom nobody knows", []nutrients.Person{rationtest.Adult("Odd", 40, nutrients.Male)}, func(r *ration.Request) { r.Ill = []string{"Nils"} }, nil, []string{"Nils"}},
		{"food that is in no table", []nutrients.Person{wrong("Odd", "moon cheese"), rationtest.Adult("Signe", 30, nutrients.Female), wrong("Eli", "sun cheese")}, func(*ration.Request) {}, nil, []string{"moon cheese", "sun cheese"}},
	} {
		req := rationtest.Basics(t, c.people...)
		c.change(req)
		m, err := model.Build(req)
		if err == nil || m != nil || c.is != nil && !errors.Is(err, c.is) {
			t.Errorf("%s: %v, %v", c.name, m, err)
			continue
		}
		for _, word := range c.says {
			if !strings.Contains(err.Error(), word) {
				t.Errorf("%s: %q does not say %s", c.name, err, word)
			}
		}
	}
}

// TestReserveOfAnybody: whoever of the household has lows, the first or the last, sugar is set aside for them.
func TestReserveOfAnybody(t *testing.T) {
	odd, signe := rationtest.Adult("Odd", 40, nutrients.Male), rationtest.Adult("Signe", 30, nutrients.Female)
	odd.Conditions = []nutrients.Condition{nutrients.Diabetes1}
	for _, people := range [][]nutrients.Person{{odd, signe}, {signe, odd}, {odd}, {signe}} {
		req := rationtest.Basics(t, people...)
		req.Table = rationtest.SmallTable(t, "rolled oats", "hard candy")
		m, err := model.Build(req)
		if err != nil {
			t.Fatal(err)
		}
		want := slices.ContainsFunc(people, func(p nutrients.Person) bool { return p.Name == "Odd" })
		if got := rowNamed(m.Problem, "fast-sugar-reserve") >= 0; got != want {
			t.Errorf("%d people, first %s: sugar set aside %v, want %v", len(people), people[0].Name, got, want)
		}
	}
}

// TestFoodGroupsByStandard: the basic standard asks for no food groups, every other for those that the pattern
// gives for who eats, of which what nobody may eat is left out and said; of an infant there are none.
func TestFoodGroupsByStandard(t *testing.T) {
	for _, standard := range []nutrients.Standard{nutrients.StandardBasic, nutrients.StandardRDA} {
		req := rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Infant("Liv", 8, 8, nutrients.FormulaFed))
		req.Table, req.Standard = rationtest.SmallTable(t, "rolled oats", "soybean oil"), standard
		m, err := model.Build(req)
		if err != nil {
			t.Fatal(err)
		}
		var want, said, got, told []string
		for _, floor := range req.Table.Pattern(&m.Eaters[0].Needs, m.OpenTo(m.Eaters[0])) {
			switch {
			case standard == nutrients.StandardBasic:
			case floor.Dropped:
				said = append(said, "Signe: "+floor.Note)
			default:
				want = append(want, "group-"+floor.Group+"[Signe]")
			}
		}
		for _, row := range m.Problem.Rows {
			if strings.HasPrefix(row.Name, "group-") {
				got = append(got, row.Name)
			}
		}
		for _, note := range m.Notes {
			if slices.Contains(said, note) {
				told = append(told, note)
			}
		}
		if !slices.Equal(got, want) || !slices.Equal(told, said) {
			t.Errorf("%s: %q, said %q; want %q, said %q", standard, got, told, want, said)
		}
		if standard == nutrients.StandardRDA && (len(want) == 0 || len(said) == 0) {
			t.Errorf("%d groups asked, %d left out: not all is tried", len(want), len(said))
		}
	}
}

// TestStockAsOftenAsOpened: of a can of the stock that is finished on the day as many count as anybody of a woman and a child may
// open, who eat little of each, or as all that they eat comes to, if that is more.
func TestStockAsOftenAsOpened(t *testing.T) {
	const pack = "tomatoes-794g-can"
	req := rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Siri", 2, nutrients.Female))
	req.Stock = rationtest.StockOf(t, req.Table, pack+",9000,,,,").Lines
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	food := req.Stock[0].Pack.Food
	lf := m.LarderOf(food)
	most, window, times := 0.0, 0.0, 0.0
	for _, e := range m.Eaters {
		y, ok := e.Eating(slices.Index(m.Larder, lf))
		if !ok {
			t.Fatalf("%s eats no %s", e.Person.Name, food.Name)
		}
		most, window, times = most+y.CapG, window+y.Window, max(times, y.CapG/y.Window)
	}
	want := math.Ceil(max(most/min(req.Stock[0].Pack.NetG, window), times) - 1e-9)
	if got := m.Problem.Cols[lf.Stock[0].Col].Upper; got != want || want < 2 || want > 100 {
		t.Errorf("at most %g cans, want %g", got, want)
	}
}

// TestEverySortOfRowIsBuilt: of a small larder and all that can be asked at once a row of every sort stands in the model, and its
// objective is what is asked to be least.
func TestEverySortOfRowIsBuilt(t *testing.T) {
	people, _, err := nutrients.ReadHousehold("home.csv", strings.NewReader(`name,age_years,sex,weight_kg,conditions,orders
Aud,60,f,70,kidney-disease,"protein 55-60 g; sodium at most 1800 mg; potassium at most 2500 mg; phosphorus at most 900 mg; fluid at most 1.3 L; energy 1800-2000 kcal; texture soft; by Dr Ardal, 2026-06-01"
`))
	if err != nil {
		t.Fatal(err)
	}
	odd := rationtest.Adult("Odd", 40, nutrients.Male)
	odd.Conditions = []nutrients.Condition{nutrients.Diabetes1}
	odd.Rules = []nutrients.Rule{{Kind: nutrients.RuleMost, Food: "oats", Low: 30, Text: "most oats 30 g/day"}}
	req := rationtest.Basics(t, append(people, odd, rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Infant("Liv", 8, 8, nutrients.FormulaFed))...)
	rice := ration.FindPack(req, "white-rice-907g-bag")
	names := []string{rice.Food.Name, "rolled oats", "hard candy", "soybean oil", ration.FindPack(req, "tomatoes-794g-can").Food.Name}
	for _, f := range req.Table.Foods { // all of an infant, and what is cooked with other food
		if f.HasTag("infant-formula") || f.HasTag("infant-food") || f.Form == "baby_cereal_dry" || len(f.Companions) > 0 {
			names = append(names, f.Name)
		}
	}
	req.Table = rationtest.SmallTable(t, names...)
	req.Standard, req.Least = nutrients.StandardRDA, ration.LeastCost
	req.Stock = rationtest.StockOf(t, req.Table, "white-rice-907g-bag,2,2026-11-29,,,").Lines
	budget := 900.0
	req.Limits.Budget, req.Keep = &budget, map[string]int{"white-rice-907g-bag": 3}
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	for _, sort := range []string{
		"packs[", "opened[", "protein[", "fat-share-at-", "group-", "most-", "kind-", "energy-of-", "energy-eaten[", "with[", "low-gi[", "infant-formula[", "powder[", "iron-rich-food[", "puree[", "turns-",
		"water[", "water-stored", "heat-used", "ordered-fluid-at-most[", "rule-", "keep[", "dated[", "energy-after-", "budget",
	} {
		if !slices.ContainsFunc(m.Problem.Rows, func(r linear.Row) bool { return strings.HasPrefix(r.Name, sort) }) {
			t.Errorf("no row %s", sort)
		}
	}
	priced := 0
	for j, c := range m.Problem.Cols {
		if c.Cost != m.Coefficient(j, ration.LeastCost) {
			t.Errorf("%s costs %g", c.Name, c.Cost)
		}
		if c.Cost > 0 {
			priced++
		}
		if !slices.IsSortedFunc(c.Entries, func(a, b linear.Entry) int { return a.Row - b.Row }) {
			t.Errorf("%s: entries %v", c.Name, c.Entries)
		}
	}
	if priced < 5 {
		t.Errorf("%d columns cost anything", priced)
	}
}
