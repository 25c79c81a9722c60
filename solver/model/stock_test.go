package model_test

import (
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/linear"
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

// TestDaysAfterByHand: with rice of which two packs are good to day 5 and one to day 9 of 14, the rows of
// energy and protein stand again for the days after each, with what is eaten by then taken off, and
// for those until then. Other needs are averages over all days.
func TestDaysAfterByHand(t *testing.T) {
	signe, odd := rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Odd", 40, nutrients.Male)
	odd.Count = 2
	req := rationtest.Basics(t, signe, odd)
	rice := ration.FindPack(req, "white-rice-907g-bag").Food.Name
	req.Table, req.Standard = rationtest.SmallTable(t, rice, "rolled oats"), nutrients.StandardRDA
	pack := ration.FindPack(req, "white-rice-907g-bag")
	req.Stock = []foods.StockLine{{Pack: pack, Count: 1, BestBefore: "2026-12-03"}, {Pack: pack, Count: 2, BestBefore: "2026-11-29"}}
	s := sheetOf(t, req)
	days := map[string]float64{"5": 5, "9": 9}
	seen := 0
	for _, n := range []nutrients.Nutrient{nutrients.Energy, nutrients.Protein} {
		for _, e := range s.m.Eaters {
			who := e.Person.Name
			base := s.m.Problem.Rows[s.at[n.Name()+"["+who+"]"]]
			for _, word := range []string{"5", "9"} {
				day := days[word]
				of := func(f *foods.Food) float64 { return f.Per100g.Known(n) / 100 }
				soon := map[string]float64{} // what is eaten by a date up to the day
				for other, last := range days {
					if last <= day {
						soon["by-date["+who+","+rice+",day "+other+"]"] = of(pack.Food)
					}
				}
				if base.Lower > 0 {
					want := s.eaten(e, of)
					for name, v := range soon {
						want[name] = -v
					}
					s.row(n.Name()+"-after-"+word+"["+who+"]", (14-day)/14*base.Lower, inf, model.Requirement, 14-day, want)
					seen++
				}
				if base.Upper < inf {
					s.row(n.Name()+"-by-"+word+"["+who+"]", -inf, day/14*base.Upper, model.Requirement, day, soon)
					seen++
				}
			}
		}
	}
	after := 0
	for _, info := range s.m.Rows {
		if info.Kind == model.RowAfter {
			after++
		}
	}
	if after != seen || seen < 8 {
		t.Errorf("%d rows of days after a date, want %d", after, seen)
	}
	// What is eaten by a date is held by its packs and by the days until then.
	for _, e := range s.m.Eaters {
		y, _ := e.Eating(slices.IndexFunc(s.m.Larder, func(lf *model.LarderFood) bool { return lf.Food == pack.Food }))
		for word, day := range days {
			i := slices.IndexFunc(s.m.Problem.Cols, func(c linear.Col) bool { return c.Name == "by-date["+e.Person.Name+","+rice+",day "+word+"]" })
			if c := s.m.Problem.Cols[i]; c.Lower != 0 || !near(c.Upper, y.CapG*day/14) || c.Integer {
				t.Errorf("%s: %g to %g, want at most %g", c.Name, c.Lower, c.Upper, y.CapG*day/14)
			}
		}
	}
}

// TestPointsByHand: no more water and heat than the rows ask for; a food's columns; packs fixed where a
// point has them; foods of a plan; the value of a point.
func TestPointsByHand(t *testing.T) {
	m := small(t)
	x := make([]float64, len(m.Cols))
	for j := range x {
		x[j] = float64(j%3) + 0.25
	}
	x[m.Water], x[m.Heat] = 1e6, 1e6
	tight := m.Tightened(x)
	activity := m.Activities(tight)
	for name, col := range map[string]int{"water-stored": m.Water, "heat-used": m.Heat} {
		row := rowNamed(m.Problem, name)
		if math.Abs(activity[row]-m.Problem.Rows[row].Lower) > 1e-6 || tight[col] >= 1e6 || tight[col] <= 0 {
			t.Errorf("%s: %g of %g", name, activity[row], m.Problem.Rows[row].Lower)
		}
	}
	x[m.Water], x[m.Heat] = 0.5, 0 // too little stays
	if again := m.Tightened(x); again[m.Water] != 0.5 || again[m.Heat] != 0 {
		t.Errorf("%g L and %g MJ", again[m.Water], again[m.Heat])
	}
	value := 0.0
	for j, c := range m.Problem.Cols {
		value += c.Cost * x[j]
	}
	if got := m.ValueOf(append(slices.Clone(x), 9, 9)); !near(got, value) || value == 0 {
		t.Errorf("value %g, want %g", got, value)
	}
	p := m.Problem.Clone()
	m.FixPacks(p, x)
	for j, c := range p.Cols {
		old := m.Problem.Cols[j]
		if n := float64(j % 3); old.Integer && (c.Lower != n || c.Upper != n) || !old.Integer && (c.Lower != old.Lower || c.Upper != old.Upper) {
			t.Errorf("%s is fixed at %g to %g", c.Name, c.Lower, c.Upper)
		}
	}
	of := m.FoodsOf(&ration.Plan{Packs: []ration.PlanPack{{Food: m.Larder[1].Food.Name}, {Food: "moon"}}})
	for li, lf := range m.Larder {
		if of[li] != (li == 1) {
			t.Errorf("%s is in the plan: %v", lf.Food.Name, of[li])
		}
		var names []string
		for _, j := range m.ColumnsOf(li) {
			names = append(names, m.Problem.Cols[j].Name)
		}
		var want []string
		for _, k := range lf.Food.Packs {
			if lf.CapG > 0 {
				want = append(want, "buy["+k.Key+"]")
			}
		}
		for _, e := range m.Eaters {
			if _, ok := e.Eating(li); ok {
				want = append(want, "eat["+e.Person.Name+","+lf.Food.Name+"]")
			}
		}
		if !slices.Equal(names, want) {
			t.Errorf("%s has %q, want %q", lf.Food.Name, names, want)
		}
		if got := m.LarderOf(lf.Food); (got == lf) != (lf.CapG > 0) {
			t.Errorf("the line of %s is %v", lf.Food.Name, got)
		}
	}
}
