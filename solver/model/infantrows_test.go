package model

import (
	"slices"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/rules"
)

// nursery is a larder of what infants have: of a gram of powder are 500/67 = 7.46269 mL of feed, of what is
// ready 67/67 = 1 mL, of a mother's milk 29.5735295625/30.8 mL (USDA, 30.8 g a fluid ounce).
func nursery() []*foods.Food {
	food := func(name, form string, kcal float64, tags ...string) *foods.Food {
		f := holding(name, map[nutrients.Nutrient]float64{nutrients.Energy: kcal})
		f.Form, f.Tags = form, tags
		return f
	}
	list := []*foods.Food{
		food("powder", "", 500, foods.TagInfantFormula), food("ready", "", 67, foods.TagInfantFormula), food("mother's milk", "", 70, foods.TagHumanMilk),
		food("wheat cereal", "baby_cereal_dry", 380), food("rice cereal", "baby_cereal_dry", 380),
		food("peas", "", 50, foods.TagInfantFood), food("pears", "", 50, foods.TagInfantFood), food("plums", "", 50, foods.TagInfantFood), food("beef", "", 100, foods.TagInfantFood, foods.TagMeat),
	}
	list[0].Preparation = &foods.Preparation{WaterML: 700}
	list[3].Kinds, list[4].Kinds = []string{"infant cereal"}, []string{"infant cereal", "infant rice cereal"}
	list[5].Serves, list[6].Serves, list[7].Serves = []foods.Serving{{Group: "vegetables", Per100g: 40}}, []foods.Serving{{Group: "fruits", Per100g: 40}}, []foods.Serving{{Group: "fruits", Per100g: 40}}
	list[8].Serves = []foods.Serving{{Group: "protein", Per100g: 3.5}}
	return list
}

// TestInfantRowsByHand: for ten days the milk to the mL and no other, of one form where both can be had; two servings
// a day of iron-rich food, of 15 g of cereal or 55 g of meat (caps.csv); 60 g a day of fruit or vegetables, of which none is
// over 0.4, and 30 g of meat; of two cereals rice at most the half.
func TestInfantRowsByHand(t *testing.T) {
	build := func(stockOnly bool, feed nutrients.Feed, eats ...int) *Model {
		m := bare(10, nursery()...)
		m.Request.StockOnly = stockOnly
		seatOne(m, nutrients.Person{Name: "Signe", AgeMonths: 400}, 1, 3, 5, 8)
		seatOne(m, nutrients.Person{Name: "Liv", AgeMonths: 8}, 2, eats...).Needs.Feed = &feed
		addFeedRows(m)
		addIronFoodRows(m)
		addInfantFoodRows(m)
		return m
	}
	all := []int{0, 1, 2, 3, 4, 5, 6, 7, 8}
	mixed := nutrients.Feed{FormulaML: limit(400), HumanMilkML: limit(300), IronFoods: limit(2), PureeG: limit(60), MeatG: limit(30)}
	const milk = `
infant-formula[Liv] 4000..4000: eat[Liv,powder] 7.46269, eat[Liv,ready] 1
human-milk[Liv] 3000..3000: eat[Liv,mother's milk] 0.96018`
	const form = `
ready-or-powder[Liv] -4000..: eat[Liv,ready] -1, powder[Liv] -4000
powder[Liv] ..0: eat[Liv,powder] 7.46269, powder[Liv] -4000`
	const iron = `
iron-rich-food[Liv] 20..: eat[Liv,wheat cereal] 0.0666667, eat[Liv,rice cereal] 0.0666667, eat[Liv,beef] 0.0181818`
	const puree = `
puree[Liv] 600..: eat[Liv,peas] 1, eat[Liv,pears] 1, eat[Liv,plums] 1`
	const rest = `
infant-meat[Liv] 300..: eat[Liv,beef] 1
turns-peas[Liv] ..0: eat[Liv,peas] 0.6, eat[Liv,pears] -0.4, eat[Liv,plums] -0.4
turns-pears[Liv] ..0: eat[Liv,peas] -0.4, eat[Liv,pears] 0.6, eat[Liv,plums] -0.4
turns-plums[Liv] ..0: eat[Liv,peas] -0.4, eat[Liv,pears] -0.4, eat[Liv,plums] 0.6
turns-rice cereal[Liv] ..0: eat[Liv,wheat cereal] -0.5, eat[Liv,rice cereal] 0.5`
	m := build(false, mixed, all...)
	sameLines(t, "all", rowsFrom(m.Problem, 0), milk+form+iron+puree+rest)
	if j := slices.IndexFunc(m.Cols, func(c colInfo) bool { return c.Kind == colForm }); j < 0 || m.Cols[j] != (colInfo{Kind: colForm, Eater: 1, Larder: -1}) ||
		m.Problem.Cols[j].Name != "powder[Liv]" || m.Problem.Cols[j].Lower != 0 || m.Problem.Cols[j].Upper != 1 || !m.Problem.Cols[j].Integer {
		t.Errorf("powder or ready is column %d", j)
	}
	info := func(kind rowKind, class Class, group, text, unit string) RowInfo {
		return RowInfo{Kind: kind, Class: class, Eater: 1, Group: group, Text: text, Unit: unit, PerDay: 10}
	}
	fed := info(RowFeed, Safety, "", "infant formula feed", "mL")
	fed.Of = foods.TagInfantFormula
	sameInfos(t, m, map[string]RowInfo{
		"infant-formula[Liv]": fed, "powder[Liv]": info(rowStored, Structural, "", "formula of one form", "mL"), "ready-or-powder[Liv]": info(rowStored, Structural, "", "formula of one form", "mL"),
		"iron-rich-food[Liv]": info(RowPattern, Requirement, "iron-rich infant food", "servings of iron-rich infant food", "servings"),
		"puree[Liv]":          info(RowPattern, Requirement, "fruit or vegetable infant food", "fruit or vegetable infant food", "g"),
		"infant-meat[Liv]":    info(RowPattern, Requirement, "plain infant meat", "plain infant meat", "g"),
		"turns-plums[Liv]":    info(rowStored, Structural, "", "share of plums in the purees", "g"), "turns-rice cereal[Liv]": info(rowStored, Structural, "", "share of rice cereal in the infant cereal", "g"),
	})
	for _, c := range []struct {
		name  string
		m     *Model
		want  string
		notes int
	}{
		{"a stock as it is", build(true, mixed, all...), milk + iron + puree, 0},
		{"powder alone", build(false, nutrients.Feed{FormulaML: limit(400)}, 0, 2), "infant-formula[Liv] 4000..4000: eat[Liv,powder] 7.46269", 0},
		{"ready alone", build(false, nutrients.Feed{FormulaML: limit(400)}, 1, 2), "infant-formula[Liv] 4000..4000: eat[Liv,ready] 1", 0},
		{"by the breast", build(false, nutrients.Feed{HumanMilkML: limit(500)}, 0, 1, 2), "human-milk[Liv] 5000..5000: eat[Liv,mother's milk] 0.96018", 0},
		{"two fruits take no turns", build(false, nutrients.Feed{PureeG: limit(60), MeatG: limit(30)}, 5, 6), "puree[Liv] 600..: eat[Liv,peas] 1, eat[Liv,pears] 1", 0},
		{"rice alone takes none", build(false, nutrients.Feed{PureeG: limit(60)}, 4), "", 0},
		{"no iron-rich food", build(false, nutrients.Feed{IronFoods: limit(2)}, 0, 5), "", 1},
		{"meat alone", build(false, nutrients.Feed{IronFoods: limit(2), MeatG: limit(30)}, 8), "iron-rich-food[Liv] 20..: eat[Liv,beef] 0.0181818\ninfant-meat[Liv] 300..: eat[Liv,beef] 1", 0},
		{"no food beside milk", build(false, nutrients.Feed{FormulaML: limit(400)}, all...), "infant-formula[Liv] 4000..4000: eat[Liv,powder] 7.46269, eat[Liv,ready] 1" + form, 0},
	} {
		sameLines(t, c.name, rowsFrom(c.m.Problem, 0), c.want)
		if len(c.m.Notes) != c.notes || c.notes > 0 && !strings.HasPrefix(c.m.Notes[0], "Liv: no iron-rich infant food") {
			t.Errorf("%s: %q", c.name, c.m.Notes)
		}
	}
}

// TestExcludedMilkIsNoted: that every milk is excluded is said with each reason once; of foods that are kept for none
// nothing is said.
func TestExcludedMilkIsNoted(t *testing.T) {
	m, e := &Model{}, &Eater{Person: nutrients.Person{Name: "Liv"}}
	noteKept(m, e, []rules.Appetite{{}, {}})
	if len(m.Notes) > 0 {
		t.Errorf("%q", m.Notes)
	}
	noteKept(m, e, []rules.Appetite{{Kept: "allergic to milk"}, {}, {Kept: "allergic to soy"}, {Kept: "allergic to milk"}})
	if want := []string{"every milk that Liv can be fed by is excluded (allergic to milk; allergic to soy); it is planned all the same"}; !slices.Equal(m.Notes, want) {
		t.Errorf("%q, want %q", m.Notes, want)
	}
}

// TestCompanionRowsByHand: flour, at most 60 g at a sitting, and yeast, 6 g, are both eaten with fruit or eggs: of a sitting
// of them 150 g of pears or 50 g of eggs. Salt, with no sitting of its own, has a sum of its own, by the gram.
func TestCompanionRowsByHand(t *testing.T) {
	food := func(name string, occasion float64, companions ...string) *foods.Food {
		return &foods.Food{Name: name, OccasionG: occasion, Companions: companions}
	}
	pears, eggs, jam := food("pears", 150), food("eggs", 50), food("jam", 30)
	pears.Serves = []foods.Serving{{Group: "fruits", Per100g: 60}}
	list := []*foods.Food{pears, eggs, jam, food("flour", 60, "fruits", "eggs"), food("yeast", 6, "fruits", "eggs"), food("salt", 0, "fruits", "eggs"), food("foam", 8, "nothing of it")}
	table := &foods.Table{Foods: list}
	m := bare(10, list...)
	m.Request.Table = table
	seatOne(m, nutrients.Person{Name: "Liv"}, 1, 0, 1, 3).Needs.Feed = &nutrients.Feed{}
	seatOne(m, nutrients.Person{Name: "Signe"}, 2, 0, 1, 2, 3, 4, 5)
	seatOne(m, nutrients.Person{Name: "Odd"}, 1, 1, 3)
	addCompanionRows(m)
	sameLines(t, "rows", rowsFrom(m.Problem, 0), `
dishes[Signe,fruits;eggs] 0..0: dishes[Signe,fruits;eggs] 1, eat[Signe,pears] -0.00666667, eat[Signe,eggs] -0.02
with[Signe,flour] ..0 lazy: eat[Signe,flour] 1, dishes[Signe,fruits;eggs] -60
with[Signe,yeast] ..0 lazy: eat[Signe,yeast] 1, dishes[Signe,fruits;eggs] -6
dishes[Signe,fruits;eggs;salt] 0..0: dishes[Signe,fruits;eggs;salt] 1, eat[Signe,pears] -1, eat[Signe,eggs] -1
with[Signe,salt] ..0 lazy: eat[Signe,salt] 1, dishes[Signe,fruits;eggs;salt] -1
dishes[Odd,fruits;eggs] 0..0: dishes[Odd,fruits;eggs] 1, eat[Odd,eggs] -0.02
with[Odd,flour] ..0 lazy: eat[Odd,flour] 1, dishes[Odd,fruits;eggs] -60
`)
	sameInfos(t, m, map[string]RowInfo{
		"dishes[Odd,fruits;eggs]": {Kind: RowCompanion, Class: Structural, Eater: 2, Text: "dishes of fruits, eggs", Unit: "sittings", PerDay: 10},
		"with[Signe,yeast]":       {Kind: RowCompanion, Class: Structural, Eater: 1, Text: "yeast with what it is cooked with", Unit: "g", PerDay: 10},
	})
	var made []string
	for j, info := range m.Cols {
		if info.Kind == colDish {
			made = append(made, lineOf(m.Problem.Cols[j].Name, within(m.Problem.Cols[j].Lower, m.Problem.Cols[j].Upper), info.Kind, info.Eater, info.Larder))
		}
	}
	if want := []string{lineOf("dishes[Signe,fruits;eggs]", "0..", colDish, 1, -1), lineOf("dishes[Signe,fruits;eggs;salt]", "0..", colDish, 1, -1), lineOf("dishes[Odd,fruits;eggs]", "0..", colDish, 2, -1)}; !slices.Equal(made, want) {
		t.Errorf("%q, want %q", made, want)
	}
}

// TestGlycaemicRowsByHand: of grains half of low index, for who has diabetes: an ounce-equivalent of barley, 3 in 100 g, counts as
// a half more, of rice, 4 in 100 g, as a half less; where none of low index is eaten that is said.
func TestGlycaemicRowsByHand(t *testing.T) {
	barley, rice := &foods.Food{Name: "barley", GIClass: "low", Serves: []foods.Serving{{Group: "grains", Per100g: 3}}}, &foods.Food{Name: "rice", Serves: []foods.Serving{{Group: "grains", Per100g: 4}}}
	m := bare(10, barley, rice)
	sweet := func(name string, of ...nutrients.Condition) nutrients.Person {
		return nutrients.Person{Name: name, Conditions: of}
	}
	seatOne(m, sweet("Signe"), 1, 0, 1)
	seatOne(m, sweet("Aud", nutrients.Diabetes2), 1, 1)
	seatOne(m, sweet("Odd", nutrients.Diabetes1), 2, 0, 1)
	addGlycaemicRows(m)
	sameLines(t, "rows", rowsFrom(m.Problem, 0), "low-gi[Odd] 0..: eat[Odd,barley] 0.015, eat[Odd,rice] -0.02")
	sameInfos(t, m, map[string]RowInfo{"low-gi[Odd]": {Kind: RowGlycaemic, Class: Requirement, Eater: 2, Text: "half of the grains of low glycaemic index", Unit: "oz-eq", PerDay: 10}})
	if want := []string{"Aud: no grain of low glycaemic index can be had"}; !slices.Equal(m.Notes, want) {
		t.Errorf("%q, want %q", m.Notes, want)
	}
}
