package model_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/foods/kinds"
	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// sheet is a model whose rows are worked out once more from the rows of the tables, as the
// package comments write them; a row that nobody has worked out is left over.
type sheet struct {
	*testing.T
	m       *model.Model
	byRow   []map[string]float64 // of a row, by name of the column
	at      map[string]int       // row by name
	checked map[string]bool
}

func sheetOf(t *testing.T, req *ration.Request) *sheet {
	t.Helper()
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	s := &sheet{T: t, m: m, byRow: make([]map[string]float64, len(m.Problem.Rows)), at: map[string]int{}, checked: map[string]bool{}}
	for i, r := range m.Problem.Rows {
		if _, twice := s.at[r.Name]; twice {
			t.Errorf("two rows are called %s", r.Name)
		}
		s.at[r.Name], s.byRow[i] = i, map[string]float64{}
	}
	for _, c := range m.Problem.Cols {
		for _, e := range c.Entries {
			s.byRow[e.Row][c.Name] += e.Value
		}
	}
	return s
}

func near(a, b float64) bool {
	return a == b || math.Abs(a-b) <= 1e-9*math.Max(1, math.Min(math.Abs(a), math.Abs(b)))
}

// row holds one row to its ends, its class, a day of it and its figures by column.
func (s *sheet) row(name string, lower, upper float64, class model.Class, perDay float64, want map[string]float64) {
	s.Helper()
	i, ok := s.at[name]
	if !ok {
		s.Errorf("no row %s", name)
		return
	}
	s.checked[name] = true
	r, info := s.m.Problem.Rows[i], s.m.Rows[i]
	if !near(r.Lower, lower) || !near(r.Upper, upper) || info.Class != class || !near(info.PerDay, perDay) {
		s.Errorf("%s: %g to %g, class %d, %g days, want %g to %g, class %d, %g days", name, r.Lower, r.Upper, info.Class, info.PerDay, lower, upper, class, perDay)
	}
	if info.Text == "" || info.Eater >= 0 != strings.Contains(name, "["+s.nameOf(info.Eater)) {
		s.Errorf("%s is about eater %d, %q", name, info.Eater, info.Text)
	}
	for col, v := range want {
		if got := s.byRow[i][col]; !near(got, v) {
			s.Errorf("%s: %g of %s, want %g", name, got, col, v)
		}
	}
	for col, v := range s.byRow[i] {
		if _, ok := want[col]; !ok && v != 0 {
			s.Errorf("%s: %g of %s, which does not count", name, v, col)
		}
	}
}

func (s *sheet) nameOf(eater int) string {
	if eater < 0 {
		return "nobody"
	}
	return s.m.Eaters[eater].Person.Name
}

// eaten is what a gram of each food that e may eat counts.
func (s *sheet) eaten(e *model.Eater, counts func(*foods.Food) float64) map[string]float64 {
	out := map[string]float64{}
	for _, y := range e.Eats {
		f := s.m.Larder[y.Food].Food
		if v := counts(f); v != 0 {
			out["eat["+e.Person.Name+","+f.Name+"]"] = v
		}
	}
	return out
}

// plus is a map with more in it.
func plus(of map[string]float64, name string, v float64) map[string]float64 {
	of[name] += v
	return of
}

var inf = math.Inf(1)

// TestRowsFromTheTables: a household of every sort, with all limits at once; each row of its model
// has the ends and the figures that the tables give for it. Amounts are for 14 days.
func TestRowsFromTheTables(t *testing.T) {
	const days = 14
	people, _, err := nutrients.ReadHousehold("home.csv", strings.NewReader(`name,age_years,sex,weight_kg,height_cm,state,conditions,orders
Aud,60,f,70,165,,kidney-disease,"protein 55-60 g; sodium at most 1800 mg; potassium at most 2500 mg; phosphorus at most 900 mg; fluid at most 1.3 L; energy 1800-2000 kcal; texture soft; by Dr Ardal, 2026-06-01"
`))
	if err != nil {
		t.Fatal(err)
	}
	signe, odd, siri := rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Odd", 40, nutrients.Male), rationtest.Adult("Siri", 2, nutrients.Female)
	signe.State = nutrients.Pregnant2
	odd.Count, odd.Conditions = 2, []nutrients.Condition{nutrients.Diabetes1}
	odd.Rules = []nutrients.Rule{{Kind: nutrients.RuleMost, Food: "oats", Low: 30, Text: "most oats 30 g/day"}, {Kind: nutrients.RuleLeast, Food: "oats", Low: 5, Text: "least oats 5 g/day"}}
	liv, lev := rationtest.Infant("Liv", 8, 8, nutrients.FormulaFed), rationtest.Infant("Lev", 3, 6, nutrients.MixedFed)
	liv.Count = 2
	req := rationtest.Basics(t, append(people, signe, odd, siri, liv, lev)...)
	req.Standard = nutrients.StandardRDA
	req.Stock = rationtest.StockOf(t, req.Table, "white-rice-907g-bag,2,,,,", "peanut-butter-454g-jar,1,,,,").Lines
	req.Stock[0].Count = 2.9 // whole packs count
	limit := func(v float64) *float64 { return &v }
	req.StockWaterL, req.StockHeatMJ = limit(10), limit(3)
	req.Limits = ration.Limits{Budget: limit(900), WeightKg: limit(800), VolumeL: limit(700), WaterL: limit(600), HeatMJ: limit(50)}
	req.Allowance, req.BoilWater, req.Pets = true, true, 1
	req.Ill = []string{"Siri"}
	req.Keep = map[string]int{"white-rice-907g-bag": 3}
	req.Shelves = []stores.Shelf{{Name: "low", WidthCm: 200, DepthCm: 50, HeightCm: 20, LoadKg: 300}, {Name: "high", WidthCm: 100, DepthCm: 40, HeightCm: 12, LoadKg: 50, AboveFloorCm: 30}}
	s := sheetOf(t, req)
	m := s.m
	if len(m.Eaters) != 6 {
		t.Fatalf("%d eat, want 6", len(m.Eaters))
	}
	for _, e := range m.Eaters {
		s.needs(e, days)
		s.kinds(e, days)
		s.ingredients(e)
		s.infant(e, days)
	}
	s.packs()
	s.supplies(days)
	s.limits(days)

	left := map[string]string{}
	for _, r := range m.Problem.Rows {
		if !s.checked[r.Name] {
			sort, _, _ := strings.Cut(r.Name, "[")
			left[sort] = r.Name
		}
	}
	if len(left) > 0 {
		t.Errorf("rows that nothing asks for: %v", left)
	}
}

// needs works out the rows of what one person needs: nutrients between floor and ceiling, each end
// that is ordered by itself, shares of energy, food groups, amounts of groups, grains of low
// glycaemic index, rules of the household.
func (s *sheet) needs(e *model.Eater, days float64) {
	who := "[" + e.Person.Name + "]"
	under := e.Needs.Feed != nil && e.Needs.Feed.Only
	of := func(n nutrients.Nutrient) func(*foods.Food) float64 {
		return func(f *foods.Food) float64 {
			v, known := f.Per100g.Get(n)
			if !known {
				return 0
			}
			return v / 100
		}
	}
	ordered := func(l *nutrients.Limit) bool { return l != nil && l.Kind == nutrients.KindOrder }
	for _, need := range e.Needs.List {
		if need.Shown || under {
			continue
		}
		lower, upper := -inf, inf
		switch {
		case ordered(need.Floor):
			s.row("ordered-"+need.Nutrient.Name()+who, days*need.Floor.Amount, inf, model.Requirement, days, s.eaten(e, of(need.Nutrient)))
		case need.Floor != nil:
			lower = days * need.Floor.Amount
		}
		switch {
		case ordered(need.Ceiling):
			s.row("ordered-"+need.Nutrient.Name()+"-at-most"+who, -inf, days*need.Ceiling.Amount, model.Safety, days, s.eaten(e, of(need.Nutrient)))
		case need.Ceiling != nil:
			upper = days * need.Ceiling.Amount
		}
		if lower > -inf || upper < inf {
			class := model.Requirement
			if need.Nutrient == nutrients.Retinol {
				class = model.Safety // its upper level
			}
			s.row(need.Nutrient.Name()+who, lower, upper, class, days, s.eaten(e, of(need.Nutrient)))
			info := s.m.Rows[s.at[need.Nutrient.Name()+who]]
			// Sodium's ceiling guards against what takes years, but for whom little is advised.
			pass := need.Ceiling != nil && need.Ceiling.Kind == "CDRR" && !e.Person.Has(nutrients.LowSodium)
			if info.Nutrient != need.Nutrient || info.Unit != need.Nutrient.Unit() || info.Kind != model.RowNutrient || info.MayPass != pass || info.Ordered {
				s.Errorf("%s%s: %+v", need.Nutrient, who, info)
			}
		}
	}
	for _, share := range e.Needs.Shares {
		for word, end := range map[string]*nutrients.Limit{"at-least": share.Min, "at-most": share.Max} {
			if end == nil || under {
				continue
			}
			lower, upper := 0.0, inf
			if word == "at-most" {
				lower, upper = -inf, 0
			}
			s.row(fmt.Sprintf("%s-share-%s%s", share.Nutrient, word, who), lower, upper, model.Requirement, days, s.eaten(e, func(f *foods.Food) float64 {
				return share.KcalPerG*of(share.Nutrient)(f) - of(nutrients.Energy)(f)*end.Amount/100
			}))
		}
	}
	var open []*foods.Food
	for _, y := range e.Eats {
		open = append(open, s.m.Larder[y.Food].Food)
	}
	if e.Needs.Feed == nil {
		for _, floor := range s.m.Request.Table.Pattern(&e.Needs, open) {
			if !floor.Dropped {
				s.row("group-"+floor.Group+who, days*floor.PerDay, inf, model.Requirement, days, s.eaten(e, func(f *foods.Food) float64 { return f.PerGram(floor.Group) }))
			}
		}
	}
	for _, group := range foods.GroupCaps(&e.Person) {
		counts := s.eaten(e, func(f *foods.Food) float64 {
			if e.Needs.Feed != nil && (f.HasTag(foods.TagInfantFormula) || f.HasTag(foods.TagHumanMilk)) {
				return 0
			}
			return group.Coefficient(f)
		})
		if len(counts) > 0 && !under {
			class := model.Requirement
			if group.Safety {
				class = model.Safety
			}
			s.row("most-"+group.Name+who, -inf, days*group.PerDay, class, days, counts)
		}
	}
	if e.Person.Has(nutrients.Diabetes1) { // half of the grains
		s.row("low-gi"+who, 0, inf, model.Requirement, days, s.eaten(e, func(f *foods.Food) float64 {
			if f.GIClass == "low" {
				return f.PerGram("grains") / 2
			}
			return -f.PerGram("grains") / 2
		}))
	}
	for _, r := range e.Person.Rules {
		named, err := s.m.Request.Table.Named(r.Food)
		if err != nil {
			s.Fatal(err)
		}
		counts := s.eaten(e, func(f *foods.Food) float64 {
			if slices.Contains(named, f) {
				return 1
			}
			return 0
		})
		if r.Kind == nutrients.RuleMost {
			s.row("rule-"+r.Text+who, -inf, days*r.Low, model.UserLimit, days, counts)
		} else {
			s.row("rule-"+r.Text+who, days*r.Low, inf, model.UserLimit, days, counts)
		}
	}
}

// kinds works out the amounts of kinds of food from the rows of kind_caps.csv: the day's, or two
// sittings', a seventh of the week's if that is less, on so many days of seven; and the shares of
// the energy that is eaten. A row that cannot bind is left out.
func (s *sheet) kinds(e *model.Eater, days float64) {
	if e.Needs.Feed != nil && e.Needs.Feed.Only {
		return
	}
	about := func(r kinds.CapRow) bool {
		is := r.Who == "all" || r.Who == "pregnant" && strings.HasPrefix(string(e.Person.State), "pregnant") || slices.Contains(e.Person.Conditions, nutrients.Condition(r.Who))
		return is && e.Person.AgeMonths >= r.FromMonths && (r.UnderMonths == 0 || e.Person.AgeMonths < r.UnderMonths)
	}
	scale := 1.0
	rows := s.m.Request.Table.KindCapRows()
	for _, r := range rows {
		if r.Measure == "scale" && about(r) {
			scale = r.Value
		}
	}
	least := func(kind string, measure kinds.Measure, unit string, safety bool) float64 {
		v := inf
		for _, r := range rows {
			if r.Kind != kind || r.Measure != measure || unit != "" && r.Unit != unit || r.Safety != safety || !about(r) {
				continue
			}
			value := r.Value
			if r.Scaled {
				value *= scale
			}
			v = math.Min(v, value)
		}
		return v
	}
	feed := func(f *foods.Food) bool {
		return e.Needs.Feed != nil && (f.HasTag(foods.TagInfantFormula) || f.HasTag(foods.TagHumanMilk))
	}
	caffeine := map[string]float64{"coffee_instant": 30, "tea_bags": 30, "cocoa_powder": 2.5, "chocolate": 0.8} // caps.csv, mg a gram
	who := "[" + e.Person.Name + "]"
	reach := func(counts map[string]float64) float64 {
		sum := 0.0
		for _, y := range e.Eats {
			sum += counts["eat["+e.Person.Name+","+s.m.Larder[y.Food].Food.Name+"]"] * y.CapG
		}
		return sum
	}
	all := s.m.Request.Table.Kinds().Kinds
	for _, kind := range all {
		for _, unit := range []string{kinds.Grams, kinds.CupEq, kinds.MgCaffeine} {
			for _, safety := range []bool{false, true} {
				day := least(kind.Name, kinds.Day, unit, safety)
				if day == inf {
					day = 2 * least(kind.Name, kinds.Sitting, unit, safety)
				}
				perDay := math.Min(day*math.Min(7, least(kind.Name, kinds.DaysWeek, "", safety))/7, least(kind.Name, kinds.Week, unit, safety)/7)
				counts := s.eaten(e, func(f *foods.Food) float64 {
					switch {
					case !slices.Contains(f.Kinds, kind.Name) || feed(f):
						return 0
					case unit == kinds.Grams:
						return 1
					case unit == kinds.CupEq:
						return math.Max(f.PerGram("dairy"), f.PerGram("beans"))
					case !f.HasTag(foods.TagCaffeine):
						return 0
					case caffeine[f.Form] > 0:
						return caffeine[f.Form]
					}
					return 0.2
				})
				if perDay == inf || reach(counts) <= perDay*days {
					continue
				}
				class, name := model.Planning, "kind-"+kind.Name+"-"+unit
				if safety {
					class, name = model.Safety, name+"-safety"
				}
				s.row(name+who, -inf, perDay*days, class, days, counts)
				if i, ok := s.at[name+who]; ok {
					if info := s.m.Rows[i]; info.Group != kind.Name || !near(info.Limit, perDay) || info.LimitUnit() != unit || !s.m.Problem.Rows[i].Lazy {
						s.Errorf("%s%s: %+v", name, who, info)
					}
				}
			}
		}
	}
	if e.Needs.Feed != nil {
		return
	}
	kcal := func(f *foods.Food) float64 { return f.Per100g.Known(nutrients.Energy) / 100 }
	need := 0.0
	for _, n := range e.Needs.List {
		if n.Nutrient == nutrients.Energy && n.Floor != nil {
			need = n.Floor.Amount * days
		}
	}
	hold := func(name string, share float64, in func(*foods.Food) bool) {
		counts := s.eaten(e, func(f *foods.Food) float64 {
			if !in(f) {
				return 0
			}
			return kcal(f)
		})
		if share == inf || reach(counts) <= share/100*need {
			return
		}
		s.row("energy-of-"+name+who, -inf, 0, model.Planning, days, plus(counts, "energy-eaten"+who, -share/100))
		if i, ok := s.at["energy-of-"+name+who]; ok {
			if info := s.m.Rows[i]; info.Group != name || info.Limit != share || info.LimitUnit() != ration.PartOfEnergy || info.HasAmount() {
				s.Errorf("energy of %s%s: %+v", name, who, info)
			}
		}
	}
	for _, y := range e.Eats {
		f := s.m.Larder[y.Food].Food
		name := f.Name
		if slices.ContainsFunc(all, func(k *kinds.Kind) bool { return k.Name == name }) {
			name += ", this food alone"
		}
		hold(name, least(kinds.AnyFood, kinds.Share, "", false), func(g *foods.Food) bool { return f == g })
	}
	for _, kind := range all {
		share := least(kind.Name, kinds.Share, "", false)
		if share == inf && len(kind.Foods) > 1 {
			share = least(kinds.AnyKind, kinds.Share, "", false)
		}
		hold(kind.Name, share, func(f *foods.Food) bool { return slices.Contains(f.Kinds, kind.Name) })
	}
	for _, n := range e.Needs.List {
		if n.Ceiling != nil && !n.Shown && n.Nutrient != nutrients.Energy {
			hold("food without a figure for "+ration.PlainName(n.Nutrient), 50, func(f *foods.Food) bool {
				_, known := f.Per100g.Get(n.Nutrient)
				return !known
			})
		}
	}
	s.row("energy-eaten"+who, 0, 0, model.Structural, days, plus(s.eaten(e, kcal), "energy-eaten"+who, -1))
}

// ingredients works out that an ingredient is eaten with what it is cooked with: for each of its
// sittings one of such a dish, those of the same companions together.
func (s *sheet) ingredients(e *model.Eater) {
	if e.Needs.Feed != nil {
		return
	}
	for _, y := range e.Eats {
		f := s.m.Larder[y.Food].Food
		if len(f.Companions) == 0 {
			continue
		}
		key, sitting := strings.Join(f.Companions, ";"), f.OccasionG
		if sitting <= 0 {
			s.Fatalf("%s has no sitting", f.Name)
		}
		dish := "dishes[" + e.Person.Name + "," + key + "]"
		with := s.eaten(e, func(g *foods.Food) float64 {
			named := slices.ContainsFunc(f.Companions, func(name string) bool { return name == g.Name || name == g.Group || g.PerGram(name) > 0 })
			switch {
			case !named || g == f || slices.Equal(g.Companions, f.Companions):
				return 0
			case g.OccasionG > 0:
				return -1 / g.OccasionG
			}
			return -1 / sitting
		})
		hasMilk := slices.ContainsFunc(s.m.Larder, func(lf *model.LarderFood) bool {
			return lf.Food.OccasionG <= 0 && with["eat["+e.Person.Name+","+lf.Food.Name+"]"] != 0
		})
		if hasMilk {
			s.Fatalf("%s goes with a food without a sitting", f.Name)
		}
		s.row(dish, 0, 0, model.Structural, 14, plus(with, dish, 1))
		s.row("with["+e.Person.Name+","+f.Name+"]", -inf, 0, model.Structural, 14, map[string]float64{"eat[" + e.Person.Name + "," + f.Name + "]": 1, dish: -sitting})
	}
}

// infant works out the rows of an infant's milk and of its food beside it: 67 kcal of formula in
// 100 mL, 30.8 g of a mother's milk in a fluid ounce; powder or ready, not both; servings of 15 g
// of cereal and 55 g of meat; no fruit or vegetable over 0.4 of all, no rice over a half.
func (s *sheet) infant(e *model.Eater, days float64) {
	feed := e.Needs.Feed
	if feed == nil {
		return
	}
	who := "[" + e.Person.Name + "]"
	mL := func(tag string) func(*foods.Food) float64 {
		return func(f *foods.Food) float64 {
			switch {
			case !f.HasTag(tag):
				return 0
			case tag == foods.TagHumanMilk:
				return 29.5735295625 / 30.8
			}
			return f.Per100g.Known(nutrients.Energy) / 67
		}
	}
	form := func(powder bool, sign float64) map[string]float64 {
		return s.eaten(e, func(f *foods.Food) float64 {
			if (f.Form == "infant_formula_powder") != powder {
				return 0
			}
			return sign * mL(foods.TagInfantFormula)(f)
		})
	}
	if feed.HumanMilkML != nil {
		s.row(foods.TagHumanMilk+who, days*feed.HumanMilkML.Amount, days*feed.HumanMilkML.Amount, model.Safety, days, s.eaten(e, mL(foods.TagHumanMilk)))
	}
	if feed.FormulaML != nil {
		all := days * feed.FormulaML.Amount
		s.row(foods.TagInfantFormula+who, all, all, model.Safety, days, s.eaten(e, mL(foods.TagInfantFormula)))
		s.row("ready-or-powder"+who, -all, inf, model.Structural, days, plus(form(false, -1), "powder"+who, -all))
		s.row("powder"+who, -inf, 0, model.Structural, days, plus(form(true, 1), "powder"+who, -all))
	}
	if feed.Only {
		return
	}
	meat := func(f *foods.Food) bool { return f.HasTag(foods.TagMeat) || f.HasTag(foods.TagPoultry) }
	jar := func(f *foods.Food) bool { return f.Form == "baby_food_jar" && f.HasTag(foods.TagInfantFood) }
	plain := func(f *foods.Food) bool { return jar(f) && meat(f) && f.PerGram("protein")*28.349523125 >= 0.9 }
	puree := func(f *foods.Food) bool {
		return jar(f) && !meat(f) && (f.PerGram("fruits") > 0 || f.PerGram("vegetables") > 0)
	}
	cereal := func(f *foods.Food) bool { return f.Form == "baby_cereal_dry" }
	one := func(is func(*foods.Food) bool, v float64) func(*foods.Food) float64 {
		return func(f *foods.Food) float64 {
			if is(f) {
				return v
			}
			return 0
		}
	}
	s.row("iron-rich-food"+who, days*feed.IronFoods.Amount, inf, model.Requirement, days, s.eaten(e, func(f *foods.Food) float64 { return one(cereal, 1.0/15)(f) + one(plain, 1.0/55)(f) }))
	s.row("puree"+who, days*feed.PureeG.Amount, inf, model.Requirement, days, s.eaten(e, one(puree, 1)))
	s.row("infant-meat"+who, days*feed.MeatG.Amount, inf, model.Requirement, days, s.eaten(e, one(plain, 1)))
	turns := 0
	for _, y := range e.Eats {
		f := s.m.Larder[y.Food].Food
		is, part := puree, 0.4
		if cereal(f) && strings.Contains(f.Name, "rice") {
			is, part = cereal, 0.5
		}
		if is(f) {
			turns++
			s.row("turns-"+f.Name+who, -inf, 0, model.Structural, days, plus(s.eaten(e, one(is, -part)), "eat["+e.Person.Name+","+f.Name+"]", 1))
		}
	}
	if turns < 4 {
		s.Errorf("%d foods take turns", turns)
	}
}

// packs works out the packs of each food: what all eat comes out of them, each pack for what can be
// eaten of it, and somebody who eats of a food that spoils once open takes a pack for each time.
func (s *sheet) packs() {
	boughtFor := func(e *model.Eater, f *foods.Food) float64 {
		if e.Needs.Feed != nil && f.HasTag(foods.TagInfantFormula) {
			return e.Needs.Feed.SpareFactor
		}
		return 1
	}
	cols := map[string]int{}
	for j, c := range s.m.Problem.Cols {
		cols[c.Name] = j
	}
	for li, lf := range s.m.Larder {
		f := lf.Food
		window, most := 0.0, 0.0
		want := map[string]float64{}
		times := 0.0
		for _, e := range s.m.Eaters {
			for _, y := range e.Eats {
				if y.Food != li {
					continue
				}
				n := e.Count * boughtFor(e, f)
				window, most, times = window+n*y.Window, most+n*y.CapG, math.Max(times, y.CapG/y.Window)
				want["eat["+e.Person.Name+","+f.Name+"]"] = n
				if c := s.m.Problem.Cols[cols["eat["+e.Person.Name+","+f.Name+"]"]]; c.Lower != 0 || c.Upper != y.CapG || c.Integer || y.Window > y.CapG || y.SpareFactor != boughtFor(e, f) {
					s.Errorf("%s eats %g to %g of %s, window %g, most %g", e.Person.Name, c.Lower, c.Upper, f.Name, y.Window, y.CapG)
				}
			}
		}
		if !near(window, lf.Window) || !near(most, lf.CapG) {
			s.Errorf("%s: out of a pack %g, in all %g, want %g and %g", f.Name, lf.Window, lf.CapG, window, most)
		}
		if most == 0 || f.HasTag(foods.TagHumanMilk) {
			continue
		}
		var supply []string
		add := func(name string, k *foods.Pack, upper float64) {
			supply = append(supply, name)
			want[name] = -math.Min(k.NetG, math.Min(window, most))
			if c := s.m.Problem.Cols[cols[name]]; c.Name != name || c.Lower != 0 || c.Upper != upper || !c.Integer {
				s.Errorf("%s: %g to %g of %s, want at most %g", f.Name, c.Lower, c.Upper, name, upper)
			}
		}
		for _, k := range f.Packs {
			add("buy["+k.Key+"]", k, math.Ceil(most/math.Min(k.NetG, math.Min(window, most))-1e-9))
		}
		for i, line := range s.m.Request.Stock {
			if line.Pack.Food == f {
				use := math.Min(line.Pack.NetG, math.Min(window, most))
				add(fmt.Sprintf("stock[%d:%s]", i+1, line.Pack.Key), line.Pack, math.Min(math.Floor(line.Count), math.Ceil(math.Max(most/use, times)-1e-9)))
			}
		}
		s.row("packs["+f.Name+"]", -inf, 0, model.Structural, 1, want)
		for _, e := range s.m.Eaters {
			for _, y := range e.Eats {
				if y.Food != li || y.Window >= y.CapG {
					continue
				}
				opened := map[string]float64{"eat[" + e.Person.Name + "," + f.Name + "]": 1}
				for _, name := range supply {
					opened[name] = -y.Window
				}
				s.row("opened["+e.Person.Name+","+f.Name+"]", -inf, 0, model.Structural, 1, opened)
			}
		}
	}
}

// supplies works out the water and the heat: a litre a head and day to wash, a tenth more of what
// is drunk and of what food takes, a gallon a pet; 0.36 MJ for a litre that is boiled.
func (s *sheet) supplies(days float64) {
	heads := 0.0
	stored, heat := map[string]float64{"water": 1}, map[string]float64{"heat": 1}
	for _, e := range s.m.Eaters {
		heads += e.Count
		who := "[" + e.Person.Name + "]"
		for _, y := range e.Eats {
			f := s.m.Larder[y.Food].Food
			if p := f.Preparation; p != nil {
				eat := "eat[" + e.Person.Name + "," + f.Name + "]"
				stored[eat] = -1.1 * e.Count * y.SpareFactor * p.WaterML / 1e5
				if !p.ColdOK { // heat is limited: what may be eaten cold is
					heat[eat] = -e.Count * y.SpareFactor * p.HeatMJ / 100
				}
			}
		}
		if e.Needs.Feed != nil {
			continue
		}
		drink := "drink" + who
		waterL := func(f *foods.Food) float64 {
			litres := f.Per100g.Known(nutrients.Water) / 1e5
			if f.Preparation != nil {
				litres += f.Preparation.EatenML / 1e5
			}
			return litres
		}
		s.row("water"+who, days*e.Needs.Water.Total.Amount, inf, model.Requirement, days, plus(s.eaten(e, waterL), drink, 1))
		heat[drink] = -e.Count * 0.36
		kept := map[string]float64{"Signe": 2.839, "Siri": 3.785}[e.Person.Name] // CDC: in pregnancy; when ill, from a quart more
		if kept == 0 {
			stored[drink] = -1.1 * e.Count
		} else {
			stored["kept"+who] = -1.1 * e.Count
			s.row("kept"+who, 0, inf, model.Structural, days, map[string]float64{"kept" + who: 1, drink: -1})
			for _, c := range s.m.Problem.Cols {
				if c.Name == "kept"+who && (!near(c.Lower, days*kept) || c.Upper != inf) {
					s.Errorf("%s: %g to %g L, want from %g", c.Name, c.Lower, c.Upper, days*kept)
				}
			}
		}
		low := 0.0
		if w := e.Needs.Water; w.Most != nil { // an order
			s.row("ordered-fluid-at-most"+who, -inf, days*w.Most.Amount, model.Safety, days, plus(s.eaten(e, func(f *foods.Food) float64 {
				if !f.IsFluid() {
					return 0
				}
				return waterL(f)
			}), drink, 1))
			if w.Drinks != nil {
				s.row("fluid"+who, days*w.Drinks.Amount, inf, model.Requirement, days, plus(s.eaten(e, func(f *foods.Food) float64 {
					if !f.IsFluid() {
						return 0
					}
					return waterL(f)
				}), drink, 1))
			}
		} else if w.Drinks != nil {
			low = days * w.Drinks.Amount
		}
		for _, c := range s.m.Problem.Cols {
			if c.Name == drink && (!near(c.Lower, low) || c.Upper != inf) {
				s.Errorf("%s: %g to %g, want from %g", drink, c.Lower, c.Upper, low)
			}
		}
	}
	s.row("water-stored", days*(heads+3.785411784), inf, model.Structural, 1, stored)
	s.row("heat-used", 0, inf, model.Structural, 1, heat)
	s.row("own-water-used", -inf, 0, model.Structural, 1, map[string]float64{"own-water": 1, "water": -1})
	s.row("own-heat-used", -inf, 0, model.Structural, 1, map[string]float64{"own-heat": 1, "heat": -1})
	for _, c := range s.m.Problem.Cols {
		if want := map[string]float64{"own-water": 10, "own-heat": 3}[c.Name]; want > 0 && (c.Lower != 0 || c.Upper != want) {
			s.Errorf("%s: %g to %g, want at most %g", c.Name, c.Lower, c.Upper, want)
		}
	}
	if got := s.m.WashingL(); !near(got, days*heads) {
		s.Errorf("%g L to wash, want %g", got, days*heads)
	}
}

// limits works out the limits on the whole store: each pack, litre and MJ with what it costs, weighs
// and fills; shelves with whole containers; what is to be kept; what is set aside.
func (s *sheet) limits(days float64) {
	m := s.m
	box, ok := stores.ContainerByKey(m.Supplies.Container.Key)
	stove, err := stores.StoveByName(m.Request.Stove)
	water, err2 := m.Request.Table.Supply("water")
	fuel, err3 := m.Request.Table.Supply(m.Request.Stove)
	if !ok || err != nil || err2 != nil || err3 != nil {
		s.Fatal(err, err2, err3)
	}
	litres, mj := box.NetML/1000, stove.EnergyMJ*stove.EffLow
	cost := map[string]float64{"water": water.Price, "heat": fuel.Price / mj, "own-water": -water.Price, "own-heat": -fuel.Price / mj}
	kg := map[string]float64{"water": (box.NetG + box.TareG) / 1000 / litres, "heat": stove.GrossG / 1000 / mj}
	volume := map[string]float64{"water": box.BoxL / litres, "heat": stove.LengthMM * stove.WidthMM * stove.HeightMM / 1e6 / mj}
	load := stores.LoadOfContainer(box, 1)
	room, bears := map[string]float64{"containers[" + box.Key + "]": load.BoxL()}, map[string]float64{"containers[" + box.Key + "]": load.Kg}
	tall := map[string]float64{}
	pack := func(name string, k *foods.Pack, bought bool) {
		if bought {
			cost[name] = k.Price
		}
		kg[name], volume[name] = k.GrossG/1000, k.VolumeL
		l := stores.LoadOfPack(k, 1)
		room[name], bears[name] = l.BoxL(), l.Kg
		if !l.StandsOnAny(m.Request.Shelves) {
			tall[name] = 1
		}
	}
	doses := map[string]float64{}
	for _, lf := range m.Larder {
		for _, k := range lf.Buy {
			pack("buy["+k.Pack.Key+"]", k.Pack, true)
		}
		for _, k := range lf.Stock {
			pack(fmt.Sprintf("stock[%d:%s]", k.Line+1, k.Pack.Key), k.Pack, false)
		}
		for _, k := range lf.Reserve {
			name := "reserve[" + k.Pack.Key + "]"
			pack(name, k.Pack, true)
			doses[name] = math.Floor(k.Pack.NetG*lf.Food.Per100g.Known(nutrients.Sugars)/100/15 + 1e-9) // ADA: 15 g
			if keeps := lf.Food.Keeping; keeps == nil || keeps.AfterOpenHours <= 24 {
				doses[name] = math.Min(doses[name], 1)
			}
			if !lf.Food.HasTag(foods.TagFastSugar) || doses[name] <= 0 {
				s.Errorf("%s is no quick sugar", name)
			}
		}
	}
	if len(tall) == 0 || len(doses) == 0 {
		s.Errorf("%d packs stand on no shelf, %d can be set aside: not all is tried", len(tall), len(doses))
	}
	need := 0.0
	for _, e := range m.Eaters {
		if low := e.Needs.Lows; low != nil {
			need += e.Count * math.Ceil(float64(low.Doses)*days/float64(low.Days))
		}
	}
	if m.Doses() != need {
		s.Errorf("%g doses, want %g", m.Doses(), need)
	}
	one := func(name string) map[string]float64 { return map[string]float64{name: 1} }
	s.row("fast-sugar-reserve", need, inf, model.Safety, 1, doses)
	s.row("keep[white-rice-907g-bag]", 3, 3, model.UserLimit, 1, one("buy[white-rice-907g-bag]"))
	s.row("budget", -inf, 900, model.UserLimit, 1, cost)
	s.row("max-weight", -inf, 800, model.UserLimit, 1, kg)
	s.row("max-litres", -inf, 700, model.UserLimit, 1, volume)
	s.row("max-water", -inf, 600, model.UserLimit, 1, one("water"))
	s.row("max-heat", -inf, 50, model.UserLimit, 1, one("heat"))
	heads := 0.0
	for _, e := range m.Eaters {
		heads += e.Count
	}
	const gallon = 3.785411784
	s.row("water-allowance", days*gallon*(heads*7/14+1), inf, model.UserLimit, 1, one("water"))
	s.row("containers-filled", 0, inf, model.Structural, 1, map[string]float64{"containers[" + box.Key + "]": litres, "water": -1})
	s.row("shelf-space", -inf, 0.85*(200*50*20+100*40*12)/1000, model.UserLimit, 1, room) // packing.csv: 0.85 of it
	s.row("shelf-load", -inf, 350, model.UserLimit, 1, bears)
	s.row("shelf-size", -inf, 0, model.UserLimit, 1, tall)
	for name, on := range map[string]model.LimitOn{"budget": model.OnBudget, "max-weight": model.OnWeight, "max-litres": model.OnVolume, "max-water": model.OnWater, "max-heat": model.OnHeat,
		"water-allowance": model.OnAllowance, "shelf-space": model.OnShelfRoom, "shelf-load": model.OnShelfLoad, "shelf-size": model.OnShelfSize} {
		if info := m.Rows[s.at[name]]; info.On != on || info.On.IsShelf() != strings.HasPrefix(name, "shelf-") {
			s.Errorf("%s limits %d", name, info.On)
		}
	}
	for _, c := range m.Problem.Cols {
		if !near(c.Cost, kg[c.Name]) { // least weight
			s.Errorf("%s weighs %g kg, want %g", c.Name, c.Cost, kg[c.Name])
		}
	}
	for least, of := range map[ration.Least]map[string]float64{ration.LeastCost: cost, ration.LeastWeight: kg, ration.LeastVolume: volume} {
		for j, c := range m.Problem.Cols {
			if got := m.Coefficient(j, least); !near(got, of[c.Name]) {
				s.Errorf("least %s: %s comes to %g, want %g", least, c.Name, got, of[c.Name])
			}
		}
	}
}
