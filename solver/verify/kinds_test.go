package verify

import (
	"testing"

	"rationwright/foods"
	"rationwright/foods/kinds"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// ofKinds is the check of ten days with the kinds of the table and rows of its own on them.
func ofKinds(t *testing.T, rows ...kinds.CapRow) *checker {
	t.Helper()
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	check := checkerOf(t, &ration.Request{Days: 10, Table: table})
	check.capRows = map[string][]*kinds.CapRow{}
	for i := range rows {
		if rows[i].Who == "" {
			rows[i].Who = "all"
		}
		check.capRows[rows[i].Kind] = append(check.capRows[rows[i].Kind], &rows[i])
	}
	return check
}

func inKinds(name string, names ...string) *foods.Food {
	return food(name, func(f *foods.Food) { f.Kinds, f.Per100g[nutrients.Energy] = names, 100 })
}

// TestKindsAtTheirAmounts: what is eaten of all foods of a kind a day, of ten days, from both
// sides of its amounts: 40 g as a planning rule, which gives where the plan says so or is told to
// leave such rules out, and 50 g for safety, which never does. In cups by the larger of milk and
// beans; caffeine by the form. The feed of an infant is no part of a kind.
func TestKindsAtTheirAmounts(t *testing.T) {
	const butters = "nut butters"
	plain := kinds.CapRow{Kind: butters, Measure: kinds.Day, Value: 40, Unit: kinds.Grams}
	safe := kinds.CapRow{Kind: butters, Measure: kinds.Day, Value: 50, Unit: kinds.Grams, Safety: true}
	cups := kinds.CapRow{Kind: butters, Measure: kinds.Day, Value: 2, Unit: kinds.CupEq}
	mg := kinds.CapRow{Kind: butters, Measure: kinds.Day, Value: 20, Unit: kinds.MgCaffeine}
	peanut, almond, other := inKinds("peanut", "nuts", butters), inKinds("almond", butters), inKinds("rice", "rice")
	milk := inKinds("milk", butters)
	milk.Serves = []foods.Serving{{Group: "dairy", Per100g: 2}, {Group: "beans", Per100g: 1}}
	beans := inKinds("beans", butters)
	beans.Serves = []foods.Serving{{Group: "beans", Per100g: 1}}
	chocolate := inKinds("chocolate", butters)
	chocolate.Form, chocolate.Tags = "chocolate", []string{foods.TagCaffeine}
	formula := inKinds("formula", butters)
	formula.Tags = []string{foods.TagInfantFormula}
	loosened := func(person, kind, unit string, amount float64) *ration.Eatable {
		return &ration.Eatable{Loosened: []ration.Loosened{{Person: person, Kind: kind, Unit: unit, Amount: amount}}}
	}
	fed := &nutrients.Feed{FormulaML: &nutrients.Limit{Amount: 700}}
	const once, twice = "Signe: most nut butters", "Signe: most nut butters\nSigne: most nut butters"
	for _, c := range []struct {
		name   string
		rows   []kinds.CapRow
		eaten  []helping
		said   *ration.Eatable
		ignore bool
		feed   *nutrients.Feed
		want   string
	}{
		{"40 g of two together", []kinds.CapRow{plain, safe}, []helping{{peanut, 200}, {almond, 200}, {other, 9000}}, nil, false, nil, ""},
		{"41 g of two together", []kinds.CapRow{plain, safe}, []helping{{peanut, 200}, {almond, 210}}, nil, false, nil, once},
		{"51 g", []kinds.CapRow{plain, safe}, []helping{{peanut, 510}}, nil, false, nil, twice},
		{"50 g without planning rules", []kinds.CapRow{plain, safe}, []helping{{peanut, 500}}, nil, true, nil, ""},
		{"51 g without planning rules", []kinds.CapRow{plain, safe}, []helping{{peanut, 510}}, nil, true, nil, once},
		{"45 g, said", []kinds.CapRow{plain, safe}, []helping{{peanut, 450}}, loosened("Signe", butters, "g", 45), false, nil, ""},
		{"46 g, 45 said", []kinds.CapRow{plain, safe}, []helping{{peanut, 460}}, loosened("Signe", butters, "g", 45), false, nil, once},
		{"45 g, said of somebody else", []kinds.CapRow{plain}, []helping{{peanut, 450}}, loosened("Odd", butters, "g", 45), false, nil, once},
		{"45 g, said of another kind", []kinds.CapRow{plain}, []helping{{peanut, 450}}, loosened("Signe", "rice", "g", 45), false, nil, once},
		{"45 g, said of another unit", []kinds.CapRow{plain}, []helping{{peanut, 450}}, loosened("Signe", butters, "cup-eq", 45), false, nil, once},
		{"40 g, 30 said", []kinds.CapRow{plain}, []helping{{peanut, 400}}, loosened("Signe", butters, "g", 30), false, nil, ""},
		{"51 g, said, is not safe", []kinds.CapRow{plain, safe}, []helping{{peanut, 510}}, loosened("Signe", butters, "g", 60), false, nil, once},
		{"2 cups: of milk, and of beans", []kinds.CapRow{cups}, []helping{{milk, 500}, {beans, 1000}}, nil, false, nil, ""},
		{"more than 2 cups", []kinds.CapRow{cups}, []helping{{milk, 500}, {beans, 1010}}, nil, false, nil, once},
		{"20 mg of caffeine in 25 g", []kinds.CapRow{mg}, []helping{{chocolate, 250}, {peanut, 9000}}, nil, false, nil, ""},
		{"20.8 mg of caffeine in 26 g", []kinds.CapRow{mg}, []helping{{chocolate, 260}}, nil, false, nil, once},
		{"a feed", []kinds.CapRow{plain, safe}, []helping{{formula, 7000}, {peanut, 400}}, nil, false, fed, ""},
		{"an infant's other food", []kinds.CapRow{plain}, []helping{{formula, 7000}, {peanut, 410}}, nil, false, fed, once},
		{"formula of a child who is not fed by it", []kinds.CapRow{plain}, []helping{{formula, 410}}, nil, false, nil, once},
		{"no rule", nil, []helping{{peanut, 9000}}, nil, false, nil, ""},
		{"a rule for others", []kinds.CapRow{{Kind: butters, Who: "pregnant", Measure: kinds.Day, Value: 40, Unit: kinds.Grams}}, []helping{{peanut, 9000}}, nil, false, nil, ""},
		{"a rule that is lifted", []kinds.CapRow{{Kind: butters, None: true, Measure: kinds.Day, Unit: kinds.Grams}}, []helping{{peanut, 9000}}, nil, false, nil, ""},
	} {
		check := ofKinds(t, c.rows...)
		check.plan.Eatable, check.req.IgnoreEatable = c.said, c.ignore
		d := dinerOf(400, c.eaten...)
		d.needs.Feed = c.feed
		if check.kinds(d); told(check) != c.want {
			t.Errorf("%s: %q, want %q", c.name, told(check), c.want)
		}
	}
}

// TestSharesOfEnergy: a food at most half of what somebody eats, a kind at most 60 %, one kind 70
// by a row of its own, foods without a figure for what has a ceiling at most half (planning rule
// of this program); all eat 1000 kcal of foods of 1 kcal a gram.
func TestSharesOfEnergy(t *testing.T) {
	rows := []kinds.CapRow{
		{Kind: kinds.AnyFood, Measure: kinds.Share, Value: 50, Unit: kinds.PartOfEnergy},
		{Kind: kinds.AnyKind, Measure: kinds.Share, Value: 60, Unit: kinds.PartOfEnergy},
		{Kind: "nut butters", Measure: kinds.Share, Value: 70, Unit: kinds.PartOfEnergy},
		{Kind: "ghee", Measure: kinds.Day, Value: 1e6, Unit: kinds.Grams},
	}
	salted := func(f *foods.Food) *foods.Food { f.Per100g[nutrients.Sodium] = 100; return f }
	a, b := salted(inKinds("a", "oats")), salted(inKinds("b", "oats"))
	p, q := salted(inKinds("p", "nut butters")), salted(inKinds("q", "nut butters"))
	g, h := salted(inKinds("g", "ghee")), salted(inKinds("h", "ghee")) // a kind of one food has no share by itself
	rest, oats := salted(inKinds("rest")), salted(inKinds("oats"))
	x, y := inKinds("x"), inKinds("y")
	dumb := food("dumb", nil) // of unknown energy
	ceiling := func(n nutrients.Nutrient) nutrients.Need {
		return nutrients.Need{Nutrient: n, Ceiling: &nutrients.Limit{Amount: 1e9}}
	}
	shown := ceiling(nutrients.Sodium)
	shown.Shown = true
	floor := nutrients.Need{Nutrient: nutrients.Sodium, Floor: &nutrients.Limit{Amount: 1}}
	said := func(person, kind, unit string, amount float64) *ration.Eatable {
		return &ration.Eatable{Loosened: []ration.Loosened{{Person: person, Kind: kind, Unit: unit, Amount: amount}}}
	}
	for _, c := range []struct {
		name  string
		eaten []helping
		needs []nutrients.Need
		said  *ration.Eatable
		want  string
	}{
		{"half each", []helping{{rest, 500}, {p, 500}}, nil, nil, ""},
		{"more than half", []helping{{rest, 501}, {p, 499}}, nil, nil, "Signe: rest as a share of all energy"},
		{"more than half, as said", []helping{{rest, 510}, {p, 490}}, nil, said("Signe", "rest", ration.PartOfEnergy, 51), ""},
		{"more than half, less said", []helping{{rest, 520}, {p, 480}}, nil, said("Signe", "rest", ration.PartOfEnergy, 51), "Signe: rest as a share of all energy"},
		{"more than half, said in grams", []helping{{rest, 510}, {p, 490}}, nil, said("Signe", "rest", "g", 51), "Signe: rest as a share of all energy"},
		{"more than half, of a food called like a kind", []helping{{oats, 501}, {p, 499}}, nil, nil, "Signe: oats, this food alone as a share of all energy"},
		{"60 % of a kind", []helping{{a, 300}, {b, 300}, {rest, 400}}, nil, nil, ""},
		{"61 % of a kind", []helping{{a, 300}, {b, 310}, {rest, 390}}, nil, nil, "Signe: oats as a share of all energy"},
		{"70 % of a kind by its own row", []helping{{p, 350}, {q, 350}, {rest, 300}}, nil, nil, ""},
		{"71 % of a kind by its own row", []helping{{p, 350}, {q, 360}, {rest, 290}}, nil, nil, "Signe: nut butters as a share of all energy"},
		{"a kind of one food", []helping{{g, 400}, {h, 400}, {rest, 200}}, nil, nil, ""},
		{"without energy", []helping{{dumb, 9000}}, nil, nil, ""},
		{"what has no energy is no share", []helping{{dumb, 9000}, {rest, 500}, {p, 500}}, nil, nil, ""},
		{"half of unknown sodium", []helping{{x, 250}, {y, 250}, {rest, 500}}, []nutrients.Need{ceiling(nutrients.Sodium)}, nil, ""},
		{"more than half of unknown sodium", []helping{{x, 251}, {y, 250}, {rest, 499}}, []nutrients.Need{ceiling(nutrients.Energy), ceiling(nutrients.Sodium)}, nil, "Signe: food without a figure for sodium as a share of all energy"},
		{"which is only shown", []helping{{x, 300}, {y, 300}, {rest, 400}}, []nutrients.Need{shown}, nil, ""},
		{"which has a floor alone", []helping{{x, 300}, {y, 300}, {rest, 400}}, []nutrients.Need{floor}, nil, ""},
	} {
		check := ofKinds(t, rows...)
		check.plan.Eatable = c.said
		d := dinerOf(400, c.eaten...)
		d.needs.List = c.needs
		if check.kinds(d); told(check) != c.want {
			t.Errorf("%s: %q, want %q", c.name, told(check), c.want)
		}
	}
	for name, change := range map[string]func(*checker, *diner){
		"an infant":              func(c *checker, d *diner) { d.needs.Feed = &nutrients.Feed{} },
		"without planning rules": func(c *checker, d *diner) { c.req.IgnoreEatable = true },
	} {
		check := ofKinds(t, rows...)
		d := dinerOf(400, helping{rest, 1000})
		change(check, d)
		if check.kinds(d); len(check.found) > 0 {
			t.Errorf("%s: %v", name, check.found)
		}
	}
}

// TestAbout: whom a row is about: all, those of a state or with a condition, from an age in
// full months and under another.
func TestAbout(t *testing.T) {
	row := func(who string, from, under int) *kinds.CapRow {
		return &kinds.CapRow{Who: who, FromMonths: from, UnderMonths: under}
	}
	woman := nutrients.Person{AgeMonths: 48, State: nutrients.Pregnant2, Conditions: []nutrients.Condition{nutrients.Lactose}}
	nursing := nutrients.Person{AgeMonths: 48, State: nutrients.Lactating1}
	for _, c := range []struct {
		row  *kinds.CapRow
		who  nutrients.Person
		want bool
	}{
		{row("all", 0, 0), woman, true}, {row("all", 48, 0), woman, true}, {row("all", 49, 0), woman, false},
		{row("all", 0, 48), woman, false}, {row("all", 0, 49), woman, true}, {row("all", 48, 49), woman, true},
		{row("pregnant", 0, 0), woman, true}, {row("pregnant", 0, 0), nursing, false}, {row("pregnant", 49, 0), woman, false},
		{row("lactating", 0, 0), nursing, true}, {row("lactating", 0, 0), woman, false},
		{row("lactose", 0, 0), woman, true}, {row("lactose", 0, 48), woman, false}, {row("lactose", 0, 0), nursing, false}, {row("household", 0, 0), woman, false},
	} {
		if got := about(c.row, &c.who); got != c.want {
			t.Errorf("%+v about %+v: %v", *c.row, c.who, got)
		}
	}
}
