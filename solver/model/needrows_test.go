package model

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"rationwright/foods"
	"rationwright/foods/kinds"
	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/ration"
)

// bare is a model of so many days with a larder and nobody yet.
func bare(days int, list ...*foods.Food) *Model {
	m := &Model{Request: &ration.Request{Days: days, Cook: ration.CookBoil}, Problem: &linear.Problem{}}
	for _, f := range list {
		m.Larder = append(m.Larder, &LarderFood{Food: f, Balance: -1})
	}
	return m
}

// seatOne seats somebody who eats at most 1000 g of each of the foods, by their places in the larder.
func seatOne(m *Model, p nutrients.Person, count float64, eats ...int) *Eater {
	e := &Eater{Person: p, Count: count, Drink: -1, Wishes: &foods.Wishes{}}
	for _, li := range eats {
		col := m.addCol(fmt.Sprintf("eat[%s,%s]", p.Name, m.Larder[li].Food.Name), 0, 1000, false, colInfo{Kind: ColEat, Eater: len(m.Eaters), Larder: li})
		e.Eats = append(e.Eats, eatCol{Food: li, Col: col, Window: 1000, CapG: 1000, SpareFactor: 1})
	}
	m.Eaters = append(m.Eaters, e)
	return e
}

// holding is a food with known contents of 100 g and unknown ones for the rest.
func holding(name string, of map[nutrients.Nutrient]float64) *foods.Food {
	f := &foods.Food{Name: name, Per100g: nutrients.Unknown()}
	for n, v := range of {
		f.Per100g[n] = v
	}
	return f
}

// sameInfos compares what the rows of a model are said to be, by name.
func sameInfos(t *testing.T, m *Model, want map[string]RowInfo) {
	t.Helper()
	for i, r := range m.Problem.Rows {
		w, ok := want[r.Name]
		if !ok {
			continue
		}
		if m.Rows[i] != w {
			t.Errorf("%s: %+v, want %+v", r.Name, m.Rows[i], w)
		}
		delete(want, r.Name)
	}
	for name := range want {
		t.Errorf("no row %s", name)
	}
}

func limit(v float64) *nutrients.Limit { return &nutrients.Limit{Amount: v} }

func ordered(v float64) *nutrients.Limit {
	return &nutrients.Limit{Amount: v, Kind: nutrients.KindOrder}
}

// breadAndButter: of a gram bread has 0.08 g of protein, 0.03 g of fat, 0.02 mg of iron, 5 mg of sodium
// and 2.5 kcal, butter 0.01 g, 0.8 g, none, an unknown amount and 7 kcal, and 7 µg of retinol.
func breadAndButter() (bread, butter *foods.Food) {
	return holding("bread", map[nutrients.Nutrient]float64{nutrients.Protein: 8, nutrients.Fat: 3, nutrients.Iron: 2, nutrients.Sodium: 500, nutrients.Energy: 250, nutrients.Retinol: 0}),
		holding("butter", map[nutrients.Nutrient]float64{nutrients.Protein: 1, nutrients.Fat: 80, nutrients.Iron: 0, nutrients.Energy: 700, nutrients.Retinol: 700})
}

// TestNeedRowsByHand: for ten days each need between its ends, an end that is ordered in a row of its
// own, of which the most is a limit of safety; what is only shown, what has no end and what is of an
// infant on milk alone have none.
func TestNeedRowsByHand(t *testing.T) {
	bread, butter := breadAndButter()
	m := bare(10, bread, butter)
	orders := nutrients.Orders{By: "Dr Ardal", On: "2026-06-01"}
	cdrr := &nutrients.Limit{Amount: 2300, Kind: "CDRR"}
	signe := seatOne(m, nutrients.Person{Name: "Signe", Orders: orders}, 2, 0, 1)
	signe.Needs.List = []nutrients.Need{
		{Nutrient: nutrients.Protein, Floor: limit(50)}, {Nutrient: nutrients.Iron, Floor: limit(8), Ceiling: limit(45)}, {Nutrient: nutrients.Sodium, Ceiling: cdrr},
		{Nutrient: nutrients.Retinol, Ceiling: &nutrients.Limit{Amount: 3000, Kind: "UL"}}, {Nutrient: nutrients.Calcium, Floor: limit(9), Shown: true}, {Nutrient: nutrients.Zinc},
		{Nutrient: nutrients.Energy, Floor: ordered(1800), Ceiling: limit(2600)}, {Nutrient: nutrients.Fat, Floor: ordered(40), Ceiling: ordered(70)},
	}
	seatOne(m, nutrients.Person{Name: "Lev"}, 1, 0).Needs = nutrients.Needs{List: signe.Needs.List, Feed: &nutrients.Feed{Only: true}}
	odd := seatOne(m, nutrients.Person{Name: "Odd", Conditions: []nutrients.Condition{nutrients.LowSodium}}, 1, 0)
	odd.Needs.List = []nutrients.Need{{Nutrient: nutrients.Sodium, Floor: limit(500), Ceiling: cdrr}, {Nutrient: nutrients.Energy, Floor: limit(2000), Ceiling: ordered(2500)}, {Nutrient: nutrients.Iron, Floor: ordered(9)}}
	seatOne(m, nutrients.Person{Name: "Liv"}, 3, 0).Needs = nutrients.Needs{List: []nutrients.Need{{Nutrient: nutrients.Energy, Floor: limit(700)}}, Feed: &nutrients.Feed{}}
	addNeedRows(m)
	sameLines(t, "needs", rowsFrom(m.Problem, 0), `
protein[Signe] 500..: eat[Signe,bread] 0.08, eat[Signe,butter] 0.01
iron[Signe] 80..450: eat[Signe,bread] 0.02
sodium[Signe] ..23000: eat[Signe,bread] 5
retinol[Signe] ..30000: eat[Signe,butter] 7
ordered-energy[Signe] 18000..: eat[Signe,bread] 2.5, eat[Signe,butter] 7
energy[Signe] ..26000: eat[Signe,bread] 2.5, eat[Signe,butter] 7
ordered-fat[Signe] 400..: eat[Signe,bread] 0.03, eat[Signe,butter] 0.8
ordered-fat-at-most[Signe] ..700: eat[Signe,bread] 0.03, eat[Signe,butter] 0.8
sodium[Odd] 5000..23000: eat[Odd,bread] 5
ordered-energy-at-most[Odd] ..25000: eat[Odd,bread] 2.5
energy[Odd] 20000..: eat[Odd,bread] 2.5
ordered-iron[Odd] 90..: eat[Odd,bread] 0.02
energy[Liv] 7000..: eat[Liv,bread] 2.5
`)
	info := func(eater int, n nutrients.Nutrient, class Class, text, unit string) RowInfo {
		return RowInfo{Kind: RowNutrient, Class: class, Eater: eater, Nutrient: n, Text: text, Unit: unit, PerDay: 10}
	}
	by := func(r RowInfo) RowInfo { r.Ordered = true; return r }
	pass := info(0, nutrients.Sodium, Requirement, "sodium", "mg")
	pass.MayPass = true // guards against what takes years
	const order = "order by Dr Ardal, 2026-06-01: "
	sameInfos(t, m, map[string]RowInfo{
		"protein[Signe]": info(0, nutrients.Protein, Requirement, "protein", "g"), "iron[Signe]": info(0, nutrients.Iron, Requirement, "iron", "mg"),
		"sodium[Signe]": pass, "sodium[Odd]": info(2, nutrients.Sodium, Requirement, "sodium", "mg"), "retinol[Signe]": info(0, nutrients.Retinol, Safety, "retinol", "µg"),
		"ordered-energy[Signe]": by(info(0, nutrients.Energy, Requirement, order+"energy", "kcal")), "energy[Signe]": info(0, nutrients.Energy, Requirement, "energy", "kcal"),
		"ordered-fat[Signe]": by(info(0, nutrients.Fat, Requirement, order+"fat", "g")), "ordered-fat-at-most[Signe]": by(info(0, nutrients.Fat, Safety, order+"fat", "g")),
		"energy[Liv]": info(3, nutrients.Energy, Requirement, "energy", "kcal"),
	})
	// The least energy of all heads, none that a clinician ordered left out: two of 18000, one of
	// 20000 and three of 7000 kcal.
	if got := m.NeededKcal(); got != 2*18000+20000+3*7000 {
		t.Errorf("%g kcal are needed, want 77000", got)
	}
}

// TestShareRowsByHand: of the energy 10 to 35 % from protein, at 4 kcal a gram, and at most 20 % from
// fat, at 9: bread has 4·0.08 − 0.1·2.5 = 0.07 kcal over the least a gram and 0.32 − 0.875 to the most.
func TestShareRowsByHand(t *testing.T) {
	bread, butter := breadAndButter()
	m := bare(10, bread, butter)
	shares := []nutrients.Share{{Nutrient: nutrients.Protein, KcalPerG: 4, Min: limit(10), Max: limit(35)}, {Nutrient: nutrients.Fat, KcalPerG: 9, Max: limit(20)}}
	seatOne(m, nutrients.Person{Name: "Lev"}, 1, 0).Needs = nutrients.Needs{Shares: shares, Feed: &nutrients.Feed{Only: true}}
	seatOne(m, nutrients.Person{Name: "Signe"}, 2, 0, 1).Needs.Shares = shares
	seatOne(m, nutrients.Person{Name: "Liv"}, 1, 0).Needs = nutrients.Needs{Shares: shares[1:], Feed: &nutrients.Feed{}}
	addShareRows(m)
	sameLines(t, "shares", rowsFrom(m.Problem, 0), `
protein-share-at-least[Signe] 0..: eat[Signe,bread] 0.07, eat[Signe,butter] -0.66
protein-share-at-most[Signe] ..0: eat[Signe,bread] -0.555, eat[Signe,butter] -2.41
fat-share-at-most[Signe] ..0: eat[Signe,bread] -0.23, eat[Signe,butter] 5.8
fat-share-at-most[Liv] ..0: eat[Liv,bread] -0.23
`)
	info := RowInfo{Kind: RowShare, Class: Requirement, Eater: 1, Nutrient: nutrients.Protein, Text: "protein at least 10 % of energy", Unit: "kcal", PerDay: 10}
	most := info
	most.Text = "protein at most 35 % of energy"
	sameInfos(t, m, map[string]RowInfo{"protein-share-at-least[Signe]": info, "protein-share-at-most[Signe]": most})
}

// TestFluidRowsByHand: what a clinician ordered of fluid counts drinks with milk and soup, of which a
// gram of milk brings 0.9 mL; bread brings none. The order's most is a limit of safety; the least
// of the program itself, in the heat as well, is not, and never more than the order's most.
func TestFluidRowsByHand(t *testing.T) {
	milk, bread := holding("milk", map[nutrients.Nutrient]float64{nutrients.Water: 90}), holding("bread", map[nutrients.Nutrient]float64{nutrients.Water: 40})
	milk.Tags = []string{foods.TagDairyDrink}
	m := bare(10, milk, bread)
	orders := nutrients.Orders{By: "Dr Ardal", On: "2026-06-01"}
	drinker := func(name string, water nutrients.WaterNeed) {
		e := seatOne(m, nutrients.Person{Name: name, Orders: orders}, 2, 0, 1)
		e.Needs.Water = water
		addDrinkColumn(m, len(m.Eaters)-1, e)
	}
	drinker("Aud", nutrients.WaterNeed{Total: limit(2.7), Drinks: limit(2.2), Most: ordered(1.3)})
	drinker("Odd", nutrients.WaterNeed{Total: limit(3.7), Drinks: ordered(1.5)})
	drinker("Siv", nutrients.WaterNeed{Total: limit(2.7), Drinks: ordered(1), Most: ordered(1.5)})
	drinker("Eli", nutrients.WaterNeed{Total: limit(2.7), Most: ordered(2)})
	drinker("Ida", nutrients.WaterNeed{Total: limit(2.7), Drinks: limit(2.2)})
	drinker("Liv", nutrients.WaterNeed{Most: ordered(1)}) // an infant's water is the feed's
	drinker("Una", nutrients.WaterNeed{Total: limit(2.7), Drinks: limit(1.2), Most: ordered(2)})
	addFluidRows(m)
	sameLines(t, "fluid", rowsFrom(m.Problem, 0), `
ordered-fluid-at-most[Aud] ..13: eat[Aud,milk] 0.0009, drink[Aud] 1
fluid[Aud] 13..: eat[Aud,milk] 0.0009, drink[Aud] 1
ordered-fluid[Odd] 15..: eat[Odd,milk] 0.0009, drink[Odd] 1
ordered-fluid-at-most[Siv] ..15: eat[Siv,milk] 0.0009, drink[Siv] 1
ordered-fluid[Siv] 10..: eat[Siv,milk] 0.0009, drink[Siv] 1
ordered-fluid-at-most[Eli] ..20: eat[Eli,milk] 0.0009, drink[Eli] 1
ordered-fluid-at-most[Una] ..20: eat[Una,milk] 0.0009, drink[Una] 1
fluid[Una] 12..: eat[Una,milk] 0.0009, drink[Una] 1
`)
	var drinks []string
	for j, c := range m.Problem.Cols {
		if m.Cols[j].Kind == colDrink {
			drinks = append(drinks, fmt.Sprintf("%s: %s %d", c.Name, within(c.Lower, c.Upper), m.Cols[j].Eater))
		}
	}
	// Who drinks by an order has its rows, others the least as a bound; Liv has none.
	if want := []string{"drink[Aud]: 0.. 0", "drink[Odd]: 0.. 1", "drink[Siv]: 0.. 2", "drink[Eli]: 0.. 3", "drink[Ida]: 22.. 4", "drink[Una]: 0.. 6"}; !slices.Equal(drinks, want) {
		t.Errorf("%q, want %q", drinks, want)
	}
	if m.Eaters[5].Drink != -1 {
		t.Errorf("Liv drinks by column %d", m.Eaters[5].Drink)
	}
	const text = "drinks, with milk, juice and soup"
	info := func(eater int, class Class, by bool) RowInfo {
		r := RowInfo{Kind: RowFluid, Class: class, Eater: eater, Nutrient: nutrients.Water, Text: text, Unit: "L", PerDay: 10, Ordered: by}
		if by {
			r.Text = "order by Dr Ardal, 2026-06-01: " + text
		}
		return r
	}
	sameInfos(t, m, map[string]RowInfo{"ordered-fluid-at-most[Aud]": info(0, Safety, true), "fluid[Aud]": info(0, Requirement, false), "ordered-fluid[Odd]": info(1, Requirement, true)})
}

// TestAmountsOfKinds: of several caps of a kind the day's amount, else two sittings', on its days of a
// week, or a seventh of the week's if that is less; a publication's beside the program's own.
func TestAmountsOfKinds(t *testing.T) {
	cap := func(kind string, measure kinds.Measure, value float64, unit string, safety bool) kinds.Cap {
		return kinds.Cap{Kind: kind, Measure: measure, Value: value, Unit: unit, Safety: safety}
	}
	var got []string
	for _, k := range kindLimits([]kinds.Cap{
		cap("beans", kinds.Share, 1, "%", false), cap("beans", kinds.Day, 70, "g", false), cap("beans", kinds.Sitting, 10, "g", false), // the day's stands
		cap("bran", kinds.Sitting, 15, "g", false),                                                // twice a day
		cap("nuts", kinds.Sitting, 35, "g", false), cap("nuts", kinds.DaysWeek, 3, "days", false), // 70 on three days of seven
		cap("tofu", kinds.Day, 70, "g", false), cap("tofu", kinds.DaysWeek, 9, "days", false), // no week has nine
		cap("tuna", kinds.Day, 70, "g", false), cap("tuna", kinds.Week, 140, "g", false), // a seventh of the week's is less
		cap("eggs", kinds.Week, 700, "g", false),                                                                                                  // only of the week
		cap("eggs", kinds.Day, 50, "g", true),                                                                                                     // a publication's
		cap("eggs", kinds.Day, 2, "cup-eq", false), cap("eggs", kinds.DaysWeek, 3.5, "days", true), cap("soup", kinds.DaysWeek, 1, "days", false), // no amount of soup
		cap("peas", kinds.Day, 70, "g", false), cap("peas", kinds.DaysWeek, 3, "days", false),
	}) {
		got = append(got, fmt.Sprintf("%s %s %v %.6g", k.kind, k.unit, k.safety, k.perDay()))
	}
	if want := []string{"beans g false 70", "bran g false 30", "nuts g false 30", "tofu g false 70", "tuna g false 20", "eggs g false 100", "eggs g true 25", "eggs cup-eq false 2", "peas g false 30"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}

// TestKindRowsByHand: amounts of kinds for ten days, where what is eaten at most of them all goes beyond:
// up to 1000 g of each food. An infant's milk counts in none; planning rules are left where they are
// given up, safety rows never.
func TestKindRowsByHand(t *testing.T) {
	kind := func(f *foods.Food, names ...string) *foods.Food { f.Kinds = names; return f }
	beans, nuts, formula := kind(holding("beans", nil), "pulses"), kind(holding("nuts", nil), "pulses", "nuts"), kind(holding("formula", nil), "pulses")
	beans.Serves = []foods.Serving{{Group: "beans", Per100g: 40}}
	formula.Tags = []string{foods.TagInfantFormula}
	caps := []kinds.Cap{
		{Kind: "pulses", Measure: kinds.Day, Value: 150, Unit: kinds.Grams}, {Kind: "pulses", Measure: kinds.Day, Value: 170, Unit: kinds.Grams, Safety: true},
		{Kind: "nuts", Measure: kinds.Day, Value: 100, Unit: kinds.Grams}, {Kind: "pulses", Measure: kinds.Day, Value: 2, Unit: kinds.CupEq}, {Kind: "moss", Measure: kinds.Day, Value: 1, Unit: kinds.Grams},
	}
	build := func(ignore bool) *Model {
		m := bare(10, beans, nuts, formula)
		m.Request.IgnoreEatable = ignore
		seatOne(m, nutrients.Person{Name: "Signe"}, 2, 0, 1, 2)
		seatOne(m, nutrients.Person{Name: "Liv"}, 1, 0, 1, 2).Needs.Feed = &nutrients.Feed{}
		for ei, e := range m.Eaters {
			addKindAmounts(m, ei, e, caps)
		}
		return m
	}
	// Nuts are at most 1000 g, just their amount for ten days: no row. A cup-eq of beans is 250 g.
	m := build(false)
	const safe = `
kind-pulses-g-safety[Signe] ..1700 lazy: eat[Signe,beans] 1, eat[Signe,nuts] 1, eat[Signe,formula] 1
kind-pulses-g-safety[Liv] ..1700 lazy: eat[Liv,beans] 1, eat[Liv,nuts] 1`
	sameLines(t, "kinds", rowsFrom(m.Problem, 0), safe+`
kind-pulses-g[Signe] ..1500 lazy: eat[Signe,beans] 1, eat[Signe,nuts] 1, eat[Signe,formula] 1
kind-pulses-cup-eq[Signe] ..20 lazy: eat[Signe,beans] 0.4
kind-pulses-g[Liv] ..1500 lazy: eat[Liv,beans] 1, eat[Liv,nuts] 1
kind-pulses-cup-eq[Liv] ..20 lazy: eat[Liv,beans] 0.4
`)
	info := RowInfo{Kind: RowKindCap, Class: Planning, Eater: 1, Group: "pulses", Limit: 150, Text: "most pulses", Unit: kinds.Grams, PerDay: 10}
	safety := info
	safety.Class, safety.Limit = Safety, 170
	sameInfos(t, m, map[string]RowInfo{"kind-pulses-g[Liv]": info, "kind-pulses-g-safety[Liv]": safety})
	sameLines(t, "kinds without planning rules", rowsFrom(build(true).Problem, 0), safe)
}

// TestEnergySharesByHand: a quarter of the energy at most from one food, of whom 2000 kcal a day for ten
// days are asked: 5000. Bread gives 1000 g·2.5 = 2500 kcal at most, which never is too much, butter
// 7000 and nuts 6000. A kind of one food has that food's share alone; one with a share of its own has
// that; foods of which a limited nutrient is not known give half at most, 10000.
func TestEnergySharesByHand(t *testing.T) {
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	var single, several *kinds.Kind
	for _, k := range table.Kinds().Kinds {
		if len(k.Foods) == 1 && single == nil {
			single = k
		}
		if len(k.Foods) > 1 {
			several = k
		}
	}
	bread, butter := breadAndButter()
	nuts := holding(several.Name, map[nutrients.Nutrient]float64{nutrients.Energy: 600}) // called like its kind
	bread.Kinds, butter.Kinds, nuts.Kinds = []string{single.Name}, []string{single.Name, several.Name}, []string{several.Name}
	build := func(caps []kinds.Cap, list []nutrients.Need) []string {
		m := bare(10, bread, butter, nuts)
		m.Request.Table = table
		e := seatOne(m, nutrients.Person{Name: "Signe"}, 2, 0, 1, 2)
		e.Needs.List = list
		addEnergyShares(m, 0, e, caps)
		if j := slices.IndexFunc(m.Cols, func(c colInfo) bool { return c.Kind == colEnergy }); j >= 0 && (m.Cols[j] != (colInfo{Kind: colEnergy, Eater: 0, Larder: -1}) || within(m.Problem.Cols[j].Lower, m.Problem.Cols[j].Upper) != "0.." || m.Problem.Cols[j].Integer) {
			t.Errorf("all energy is %+v, %+v", m.Cols[j], m.Problem.Cols[j])
		}
		for i, info := range m.Rows {
			if info.Kind == RowKindShare && (info.Class != Planning || info.Eater != 0 || info.PerDay != 10 || info.Unit != "kcal" || info.Text != fmt.Sprintf("%s at most %g %% of energy", info.Group, info.Limit)) {
				t.Errorf("%s: %+v", m.Problem.Rows[i].Name, info)
			}
		}
		return rowsFrom(m.Problem, 0)
	}
	energy := nutrients.Need{Nutrient: nutrients.Energy, Floor: limit(2000), Ceiling: limit(2600)}
	anyFood := kinds.Cap{Kind: kinds.AnyFood, Measure: kinds.Share, Value: 25}
	anyKind := kinds.Cap{Kind: kinds.AnyKind, Measure: kinds.Share, Value: 40}
	const eaten = `
energy-eaten[Signe] 0..0: eat[Signe,bread] 2.5, eat[Signe,butter] 7, eat[Signe,%[1]s] 6, energy-eaten[Signe] -1`
	const foodRows = `
energy-of-butter[Signe] ..0 lazy: eat[Signe,butter] 7, energy-eaten[Signe] -0.25
energy-of-%[1]s, this food alone[Signe] ..0 lazy: eat[Signe,%[1]s] 6, energy-eaten[Signe] -0.25`
	say := func(text string) string { return fmt.Sprintf(text, several.Name, single.Name) }
	sameLines(t, "foods", build([]kinds.Cap{anyFood, {Kind: single.Name, Measure: kinds.Day, Value: 1}}, []nutrients.Need{energy}), say(eaten+foodRows))
	sameLines(t, "foods and kinds", build([]kinds.Cap{anyFood, anyKind}, []nutrients.Need{energy}), say(eaten+foodRows+`
energy-of-%[1]s[Signe] ..0 lazy: eat[Signe,butter] 7, eat[Signe,%[1]s] 6, energy-eaten[Signe] -0.4`))
	sameLines(t, "own shares of kinds", build([]kinds.Cap{anyKind, {Kind: single.Name, Measure: kinds.Share, Value: 47}, {Kind: several.Name, Measure: kinds.Share, Value: 64}}, []nutrients.Need{energy}), say(eaten+`
energy-of-%[2]s[Signe] ..0 lazy: eat[Signe,bread] 2.5, eat[Signe,butter] 7, energy-eaten[Signe] -0.47
energy-of-%[1]s[Signe] ..0 lazy: eat[Signe,butter] 7, eat[Signe,%[1]s] 6, energy-eaten[Signe] -0.64`))
	// Just reached, 13000 of 65 %: none. Without a least of energy that is enforced every share may bind.
	if got := build([]kinds.Cap{{Kind: several.Name, Measure: kinds.Share, Value: 65}}, []nutrients.Need{energy}); len(got) > 0 {
		t.Errorf("%q of a share that cannot bind", got)
	}
	shown := energy
	shown.Shown = true
	for _, list := range [][]nutrients.Need{{shown}, {{Nutrient: nutrients.Energy, Ceiling: limit(2600)}}, {{Nutrient: nutrients.Protein, Floor: limit(9000)}}} {
		if got := build([]kinds.Cap{{Kind: several.Name, Measure: kinds.Share, Value: 65}}, list); len(got) != 2 {
			t.Errorf("%q without a least of energy", got)
		}
	}
	// Of sodium butter and nuts are not known, 13000 kcal at most; what has no ceiling or is shown has no row.
	sameLines(t, "unknown", build(nil, []nutrients.Need{energy, {Nutrient: nutrients.Sodium, Ceiling: limit(2300)}, {Nutrient: nutrients.Iron, Ceiling: limit(45)},
		{Nutrient: nutrients.Zinc, Floor: limit(8)}, {Nutrient: nutrients.Calcium, Ceiling: limit(2500), Shown: true}}), say(eaten+`
energy-of-food without a figure for sodium[Signe] ..0 lazy: eat[Signe,butter] 7, eat[Signe,%[1]s] 6, energy-eaten[Signe] -0.5`))
}

// TestGroupCapsOnlyWhereEaten: an amount of a group has a row for whom who may eat of it, an adult juice
// by no amount, a child's by its age; of another food, or of an infant's feed, or for who has milk alone,
// there is none.
func TestGroupCapsOnlyWhereEaten(t *testing.T) {
	oil, sugar := holding("oil", nil), holding("sugar", nil)
	oil.Form, sugar.Form = "oil_vegetable", "sugar_white"
	m := bare(10, oil, sugar)
	adult := nutrients.Person{AgeMonths: 400}
	named := func(name string) nutrients.Person { p := adult; p.Name = name; return p }
	seatOne(m, named("Signe"), 2, 0)
	seatOne(m, named("Odd"), 1, 1)
	seatOne(m, named("Aud"), 1)
	seatOne(m, named("Lev"), 1, 0, 1).Needs.Feed = &nutrients.Feed{Only: true}
	addGroupCapRows(m)
	perDay := map[string]float64{}
	for _, group := range foods.GroupCaps(&adult) {
		perDay[group.Name] = group.PerDay
	}
	sameLines(t, "groups", rowsFrom(m.Problem, 0), fmt.Sprintf(`
most-oil and fat as such[Signe] ..%.6g: eat[Signe,oil] 1
most-sugar and jam as such[Odd] ..%.6g: eat[Odd,sugar] 1
`, 10*perDay["oil and fat as such"], 10*perDay["sugar and jam as such"]))
	sameInfos(t, m, map[string]RowInfo{"most-sugar and jam as such[Odd]": {Kind: RowGroupCap, Class: Requirement, Eater: 1, Group: "sugar and jam as such", Text: "sugar and jam as such", Unit: "g", PerDay: 10}})
}

// TestWhatARowIs: names, shares and vitamins that the body stores, of each kind of row.
func TestWhatARowIs(t *testing.T) {
	for _, c := range []struct {
		info                  RowInfo
		name                  string
		stored, amount, ofVit bool // ofVit: about vitamin D
	}{
		{RowInfo{Kind: RowNutrient, Nutrient: nutrients.VitaminD, Text: "x", Group: "y"}, "vitamin_d", true, true, true},
		{RowInfo{Kind: RowNutrient, Nutrient: nutrients.VitaminA}, "vitamin_a", true, true, false},
		{RowInfo{Kind: RowNutrient, Nutrient: nutrients.VitaminB12}, "vitamin_b12", true, true, false},
		{RowInfo{Kind: RowNutrient, Nutrient: nutrients.Iron}, "iron", false, true, false},
		{RowInfo{Kind: RowAfter, Nutrient: nutrients.VitaminD, Text: "vitamin D after day 5"}, "vitamin D after day 5", false, true, true},
		{RowInfo{Kind: RowShare, Nutrient: nutrients.VitaminD}, "vitamin_d", false, false, false},
		{RowInfo{Kind: RowGlycaemic, Nutrient: nutrients.Fibre}, nutrients.Fibre.Name(), false, false, false},
		{RowInfo{Kind: RowPattern, Group: "grains", Text: "x"}, "grains", false, true, false},
		{RowInfo{Kind: RowGroupCap, Group: "milk", Text: "x"}, "milk", false, true, false},
		{RowInfo{Kind: RowKindCap, Group: "nuts", Text: "x"}, "nuts", false, true, false},
		{RowInfo{Kind: RowKindShare, Group: "rice", Text: "x"}, "rice", false, false, false},
		{RowInfo{Kind: RowUser, Text: "rule: most oats", Of: "y", Group: "z"}, "rule: most oats", false, true, false},
		{RowInfo{Kind: RowFeed, Text: "infant formula feed", Of: "y"}, "infant formula feed", false, true, false},
		{RowInfo{Kind: RowReserve, Text: "doses", Of: "y"}, "doses", false, true, false}, {RowInfo{Kind: RowLimit, Text: "budget", Of: "y"}, "budget", false, true, false},
		{RowInfo{Kind: RowKeep, Text: "keep rice", Of: "rice"}, "keep rice", false, true, false}, {RowInfo{Kind: RowAllWater, Text: "stored water", Of: "y"}, "stored water", false, true, false},
		{RowInfo{Kind: RowDish, Text: "breakfasts", Of: "y"}, "breakfasts", false, true, false}, {RowInfo{Kind: RowFluid, Text: "x"}, ration.ShortDrink, false, true, false},
		{RowInfo{Kind: RowWater, Nutrient: nutrients.Water, Text: "x"}, "water", false, true, false},
	} {
		if c.info.Name() != c.name || c.info.Stored() != c.stored || c.info.HasAmount() != c.amount || c.info.IsOf(nutrients.VitaminD) != c.ofVit {
			t.Errorf("%+v: %q, stored %v, amount %v, vitamin D %v", c.info, c.info.Name(), c.info.Stored(), c.info.HasAmount(), c.info.IsOf(nutrients.VitaminD))
		}
	}
	for on, want := range map[LimitOn]bool{OnNothing: false, OnBudget: false, OnWeight: false, OnVolume: false, OnWater: false, OnHeat: false, OnAllowance: false, OnShelfRoom: true, OnShelfLoad: true, OnShelfSize: true} {
		if on.IsShelf() != want {
			t.Errorf("limit %d is of shelves: %v", on, on.IsShelf())
		}
	}
	if got := (RowInfo{Kind: RowKindShare, Unit: "kcal"}).LimitUnit(); got != ration.PartOfEnergy {
		t.Errorf("a share is told in %s", got)
	}
	if got := (RowInfo{Kind: RowKindCap, Unit: "g"}).LimitUnit(); got != "g" {
		t.Errorf("an amount is told in %s", got)
	}
	if math.IsInf(Inf, -1) || !math.IsInf(Inf, 1) {
		t.Error("no end is no end upwards")
	}
}
