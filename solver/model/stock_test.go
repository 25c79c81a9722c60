package model_test

import (
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestStockInColumns: lines of a stock are columns of whole packs, none that is past its time; what
// cannot be opened is there and not taken; packs of quick sugar are eaten or set aside, if they keep
// to the last day; of the stock alone nothing is bought.
func TestStockInColumns(t *testing.T) {
	odd := rationtest.Adult("Odd", 40, nutrients.Male)
	odd.Conditions = []nutrients.Condition{nutrients.Diabetes1}
	of := func(pack string) string {
		return ration.FindPack(rationtest.Basics(t, odd), pack).Food.Name
	}
	rice := of("white-rice-907g-bag")
	candy := func(table *foods.Table) *foods.Pack {
		f, err := table.Food("hard candy")
		if err != nil {
			t.Fatal(err)
		}
		return f.Packs[0]
	}
	for _, c := range []struct {
		name   string
		change func(*ration.Request)
		want   map[string]float64 // most packs of each column but what is bought
		buys   bool
		rows   map[string]float64 // on hand
	}{
		{"all that keeps", func(r *ration.Request) {}, map[string]float64{"stock[1:rice]": 3, "stock[2:candy]": 2, "reserve-stock[2:candy]": 2}, true, map[string]float64{"on-hand[2:candy]": 2}},
		{"parts of packs", func(r *ration.Request) { r.Stock[0].Count, r.Stock[1].Count = 0.9, 2.9 }, map[string]float64{"stock[2:candy]": 2, "reserve-stock[2:candy]": 2}, true, map[string]float64{"on-hand[2:candy]": 2}},
		{"past its time", func(r *ration.Request) { r.Stock[0].BestBefore, r.Stock[1].BestBefore = "2026-11-24", "2026-11-24" }, map[string]float64{}, true, nil},
		{"of the first day", func(r *ration.Request) { r.Stock[0].BestBefore = "2026-11-25" }, map[string]float64{"stock[1:rice]": 3, "stock[2:candy]": 2, "reserve-stock[2:candy]": 2}, true, map[string]float64{"on-hand[2:candy]": 2}},
		{"to the last day", func(r *ration.Request) { r.Stock[1].BestBefore = "2026-12-08" }, map[string]float64{"stock[1:rice]": 3, "stock[2:candy]": 2, "reserve-stock[2:candy]": 2}, true, map[string]float64{"on-hand[2:candy]": 2}},
		{"to the last but one", func(r *ration.Request) { r.Stock[1].BestBefore = "2026-12-07" }, map[string]float64{"stock[1:rice]": 3, "stock[2:candy]": 2}, true, nil},
		{"weak hands", func(r *ration.Request) {
			r.EasyOpen = true
			for _, k := range r.Table.Packs {
				k.EasyOpen = false
			}
		}, map[string]float64{}, false, nil},
		{"weak hands and an easy rice", func(r *ration.Request) {
			r.EasyOpen = true
			for _, k := range r.Table.Packs {
				k.EasyOpen = k.Food.Name == rice && k.Key != "white-rice-907g-bag" && k.GrossG < 1500
			}
			easy := *r.Stock[0].Pack
			easy.Key, easy.EasyOpen = "easy", true
			r.Stock = append(r.Stock, foods.StockLine{Pack: &easy, Count: 1})
		}, map[string]float64{"stock[1:rice]": 0, "stock[3:easy]": 1}, true, nil},
		{"the stock alone", func(r *ration.Request) { r.StockOnly = true }, map[string]float64{"stock[1:rice]": 3, "stock[2:candy]": 2, "reserve-stock[2:candy]": 2}, false, map[string]float64{"on-hand[2:candy]": 2}},
	} {
		req := rationtest.Basics(t, odd, rationtest.Adult("Signe", 30, nutrients.Female)) // who eats sweets
		req.Table = rationtest.SmallTable(t, rice, "hard candy")
		req.Stock = []foods.StockLine{{Pack: ration.FindPack(req, "white-rice-907g-bag"), Count: 3}, {Pack: candy(req.Table), Count: 2}}
		names := strings.NewReplacer("white-rice-907g-bag", "rice", candy(req.Table).Key, "candy")
		c.change(req)
		m, err := model.Build(req)
		if err != nil {
			t.Fatal(err)
		}
		got, rows, buys := map[string]float64{}, map[string]float64{}, false
		for _, col := range m.Problem.Cols {
			switch {
			case strings.HasPrefix(col.Name, "buy["), strings.HasPrefix(col.Name, "reserve["):
				buys = true
			case col.Integer:
				got[names.Replace(col.Name)] = col.Upper
			}
		}
		for i, r := range m.Problem.Rows {
			if strings.HasPrefix(r.Name, "on-hand[") {
				rows[names.Replace(r.Name)] = r.Upper
				cols := 0
				for _, col := range m.Problem.Cols {
					for _, e := range col.Entries {
						if e.Row == i && e.Value == 1 && strings.Contains(col.Name, "stock[2:") {
							cols++
						}
					}
				}
				if cols != 2 || !math.IsInf(r.Lower, -1) {
					t.Errorf("%s: %s of %d columns, from %g", c.name, r.Name, cols, r.Lower)
				}
			}
		}
		if !maps.Equal(got, c.want) || buys != c.buys || !maps.Equal(rows, c.rows) {
			t.Errorf("%s: %v, bought %v, on hand %v; want %v, %v, %v", c.name, got, buys, rows, c.want, c.buys, c.rows)
		}
	}
}

// TestNotesOfAModel: what is assumed is said once, of whom it is about and of nobody else.
func TestNotesOfAModel(t *testing.T) {
	rice := ration.FindPack(rationtest.Basics(t, rationtest.Adult("Odd", 40, nutrients.Male)), "white-rice-907g-bag").Food.Name
	old := rationtest.Adult("Solveig", 65, nutrients.Female)
	nursed := rationtest.Infant("Lev", 3, 6, nutrients.BreastFed)
	older := rationtest.Infant("Liv", 8, 8, nutrients.FormulaFed)
	mother, woman := rationtest.Adult("Maja", 30, nutrients.Female), rationtest.Adult("Signe", 30, nutrients.Female)
	mother.State = nutrients.Lactating1
	vegan, sweet := woman, woman
	vegan.Conditions, sweet.Conditions = []nutrients.Condition{nutrients.Vegan}, []nutrients.Condition{nutrients.Diabetes1}
	heat := 5.0
	const hands, heavy, iodine, nobody = "everyone here who opens packs is 65 or over", "too heavy for weak hands", "Iodine is not in the food table", "nobody here is entered as breast-feeding"
	const hot, cold, iron, gi, sugar = "counted as eaten hot", "counted as eaten cold", "no iron-rich infant food can be had", "no grain of low glycaemic index", "no fast sugar against a low"
	all := []string{hands, heavy, iodine, nobody, hot, cold, iron, gi, sugar}
	for _, c := range []struct {
		name   string
		people []nutrients.Person
		change func(*ration.Request)
		want   []string
	}{
		{"a woman", []nutrients.Person{woman}, nil, nil},
		{"an old woman", []nutrients.Person{old}, nil, []string{hands}},
		{"an old woman and a young one", []nutrients.Person{old, woman}, nil, nil},
		{"an old woman with easy packs", []nutrients.Person{old}, func(r *ration.Request) {
			r.EasyOpen = true
			for _, k := range r.Table.Packs {
				k.EasyOpen = true
			}
		}, []string{heavy}},
		{"a nursing woman and her child", []nutrients.Person{mother, nursed}, nil, []string{iodine}},
		{"a child that nobody nurses", []nutrients.Person{woman, nursed}, nil, []string{nobody}},
		{"a child of formula", []nutrients.Person{woman, older}, nil, []string{iron}},
		{"a vegan", []nutrients.Person{vegan}, nil, []string{iodine}},
		{"diabetes", []nutrients.Person{sweet}, nil, []string{gi, sugar}},
		{"food that is eaten hot or cold", []nutrients.Person{woman}, func(r *ration.Request) { r.Table = rationtest.SmallTable(t, rice, "tomato soup, condensed") }, []string{hot}},
		{"with little heat", []nutrients.Person{woman}, func(r *ration.Request) {
			r.Table, r.Limits.HeatMJ = rationtest.SmallTable(t, rice, "tomato soup, condensed"), &heat
		}, []string{cold}},
		{"with none", []nutrients.Person{woman}, func(r *ration.Request) {
			r.Table, r.Cook = rationtest.SmallTable(t, rice, "tomato soup, condensed"), ration.CookNone
		}, nil},
	} {
		req := rationtest.Basics(t, c.people...)
		req.Table = rationtest.SmallTable(t, rice)
		for _, f := range req.Table.Foods {
			f.GIClass = "high"
		}
		if c.change != nil {
			c.change(req)
		}
		m, err := model.Build(req)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, word := range all {
			n := 0
			for _, note := range m.Notes {
				if strings.Contains(note, word) {
					n++
				}
			}
			if n > 1 {
				t.Errorf("%s: said %d times: %s", c.name, n, word)
			}
			if n > 0 {
				got = append(got, word)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}
