package verify

import (
	"encoding/csv"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

func loaded(t *testing.T) *foods.Table {
	t.Helper()
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// TestSeats: the people of the plan are those of the household that a plan feeds, in their order
// and their number; each eats foods of the table.
func TestSeats(t *testing.T) {
	table := loaded(t)
	person := func(name string, count int, conditions ...nutrients.Condition) nutrients.Person {
		return nutrients.Person{Name: name, AgeMonths: 400, Sex: nutrients.Female, Activity: nutrients.LowActive, Count: count, Conditions: conditions}
	}
	signe, odd := person("Signe", 1), person("Odd", 2)
	refused := person("Ragna", 1, nutrients.Dysphagia) // a clinician plans for her
	babe := person("Liv", 1)
	babe.AgeMonths = -1
	picky := person("Signe", 1)
	picky.Dislikes = []string{"moon cheese of the far side"}
	with := func(name string, count int, foods ...string) ration.PlanPerson {
		p := ration.PlanPerson{Name: name, Count: count}
		for _, f := range foods {
			p.Foods = append(p.Foods, ration.PersonFood{Food: f, Grams: 100})
		}
		return p
	}
	food := table.Foods[0].Name
	for _, c := range []struct {
		name    string
		people  []nutrients.Person
		plan    []ration.PlanPerson
		without []string
		seated  bool
		diners  int
		refused int
		want    string
	}{
		{"two", []nutrients.Person{signe, odd}, []ration.PlanPerson{with("Signe", 1), with("Odd", 2)}, nil, true, 2, 0, ""},
		{"one is not there", []nutrients.Person{signe, odd}, []ration.PlanPerson{with("Signe", 1)}, nil, false, 1, 0, "Odd: is missing from the plan"},
		{"another name", []nutrients.Person{signe}, []ration.PlanPerson{with("Odd", 1)}, nil, false, 0, 0, "Signe: is missing from the plan"},
		{"another number", []nutrients.Person{odd}, []ration.PlanPerson{with("Odd", 1)}, nil, false, 0, 0, "Odd: is missing from the plan"},
		{"another order", []nutrients.Person{signe, odd}, []ration.PlanPerson{with("Odd", 2), with("Signe", 1)}, nil, false, 0, 0, "Signe: is missing from the plan"},
		{"one more", []nutrients.Person{signe}, []ration.PlanPerson{with("Signe", 1), with("Odd", 2)}, nil, true, 1, 0, "Odd: is in the plan and not in the household"},
		{"one whom no plan feeds", []nutrients.Person{refused, signe}, []ration.PlanPerson{with("Signe", 1)}, nil, true, 1, 1, ""},
		{"and is in it", []nutrients.Person{signe, refused}, []ration.PlanPerson{with("Signe", 1), with("Ragna", 1)}, nil, true, 1, 1, "Ragna: is in the plan and not in the household"},
		{"of no age", []nutrients.Person{babe}, []ration.PlanPerson{with("Liv", 1)}, nil, false, 0, 0, "Liv: needs: "},
		{"who dislikes what there is not", []nutrients.Person{picky}, []ration.PlanPerson{with("Signe", 1)}, nil, false, 0, 0, "Signe: Signe, dislikes: "},
		{"eats of the table", []nutrients.Person{signe}, []ration.PlanPerson{with("Signe", 1, food, food)}, nil, true, 1, 0, ""},
		{"eats what there is not", []nutrients.Person{signe}, []ration.PlanPerson{with("Signe", 1, food, "moon cheese")}, nil, true, 1, 0, "Signe: eats moon cheese, which is not in the table"},
		{"without what there is not", []nutrients.Person{signe}, []ration.PlanPerson{with("Signe", 1)}, []string{"moon cheese of the far side"}, false, 0, 0, "without: "},
	} {
		check := checkerOf(t, ration.Filled(&ration.Request{Table: table, People: c.people, Without: c.without, Start: "2026-11-25"}))
		check.plan = &ration.Plan{People: c.plan}
		seated := check.seat()
		if seated != c.seated || len(check.diners) != c.diners || len(check.refused) != c.refused {
			t.Errorf("%s: seated %v, %d diners, %d refused", c.name, seated, len(check.diners), len(check.refused))
		}
		if got := told(check); len(check.found) > 1 || (c.want == "") != (got == "") || !strings.HasPrefix(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
		for i, d := range check.diners {
			if d.plan != &check.plan.People[i] || d.heads != float64(c.plan[i].Count) || len(d.may) != len(table.Foods) || len(d.eaten) > 2 || c.name == "eats of the table" && len(d.eaten) != 2 {
				t.Errorf("%s: %s sits as %g, may eat %d foods and eats %d", c.name, d.plan.Name, d.heads, len(d.may), len(d.eaten))
			}
		}
		// What is bad input is told as a fault by itself, of no amount.
		if strings.HasSuffix(c.want, ": ") && (check.found[0].Amount != 0 || check.found[0].Bound != 0) {
			t.Errorf("%s: %+v", c.name, check.found[0])
		}
	}
}

// TestNeedsAsAsked: the needs are those of the standard, the equations and the leaner energy that
// the request asks for: the last is 0.97 of the energy of a grown person.
func TestNeedsAsAsked(t *testing.T) {
	p := nutrients.Person{Name: "Signe", AgeMonths: 400, Sex: nutrients.Female, Activity: nutrients.LowActive, Count: 1}
	for _, c := range []nutrients.Options{
		{Standard: nutrients.StandardRDA, EnergySet: nutrients.Energy2023}, {Standard: nutrients.StandardEAR, EnergySet: nutrients.Energy2023},
		{Standard: nutrients.StandardRDA, EnergySet: nutrients.Energy2005}, {Standard: nutrients.StandardRDA, EnergySet: nutrients.Energy2023, LeanEnergy: true},
	} {
		check := checkerOf(t, ration.Filled(&ration.Request{Table: loaded(t), People: []nutrients.Person{p}, Standard: c.Standard, Energy: c.EnergySet, LeanEnergy: c.LeanEnergy}))
		check.plan = &ration.Plan{People: []ration.PlanPerson{{Name: "Signe", Count: 1}}}
		want, err := nutrients.For(p, c)
		if err != nil || !check.seat() {
			t.Fatal(err, check.found)
		}
		for i, need := range check.diners[0].needs.List {
			if w := want.List[i]; need.Nutrient != w.Nutrient || (need.Floor == nil) != (w.Floor == nil) || need.Floor != nil && need.Floor.Amount != w.Floor.Amount {
				t.Errorf("%+v: %s %+v, want %+v", c, need.Nutrient, need.Floor, w.Floor)
			}
			if need.Nutrient == nutrients.Energy && (need.Floor.Amount < 0.98*want.EER.Amount) != c.LeanEnergy {
				t.Errorf("%+v: energy from %g, of %g", c, need.Floor.Amount, want.EER.Amount)
			}
		}
	}
}

// TestOrdersThatCannotBeKept: who has orders and is said in the plan to be left out is; who has
// none is not left out by the plan's word alone.
func TestOrdersThatCannotBeKept(t *testing.T) {
	orders := nutrients.Person{Name: "Signe", AgeMonths: 400, Sex: nutrients.Female, Activity: nutrients.LowActive, Count: 1}
	for _, ordered := range []bool{false, true} {
		p := orders
		if ordered {
			p.Orders.List = []nutrients.Order{{}}
		}
		check := checkerOf(t, ration.Filled(&ration.Request{Table: loaded(t), People: []nutrients.Person{p}, Start: "2026-11-25"}))
		check.plan = &ration.Plan{Refused: []ration.Refused{{Name: "Signe", Reason: "the orders cannot all be kept"}}}
		if seated := check.seat(); seated != ordered || (len(check.refused) == 1) != ordered {
			t.Errorf("ordered %v: seated %v, refused %v, %v", ordered, seated, check.refused, check.found)
		}
	}
}

// TestLeftOut: nobody gets what the request leaves out, nor what takes more cooking than the
// household can do and may not be eaten cold.
func TestLeftOut(t *testing.T) {
	table := *loaded(t)
	named := table.Foods[0]
	of := func(name, class string, cold bool) *foods.Food {
		return food(name, func(f *foods.Food) { f.Preparation = &foods.Preparation{Class: class, ColdOK: cold} })
	}
	all := []*foods.Food{of("ready", "none", false), of("warm", "warm", false), of("boil", "boil", false), of("simmer", "simmer", false), of("cold", "simmer", true), food("plain", nil)}
	table.Foods = append([]*foods.Food{named}, all...)
	for cook, out := range map[ration.Cook]string{ration.CookNone: "[warm boil simmer]", ration.CookWarm: "[boil simmer]", ration.CookBoil: "[simmer]", ration.CookSimmer: "[]"} {
		check := checkerOf(t, &ration.Request{Table: &table, Cook: cook, Without: []string{named.Name}})
		if !check.leaveOut() {
			t.Fatal(check.found)
		}
		var left []*foods.Food
		for _, f := range all {
			if why := check.without[f]; why != "" {
				left = append(left, f)
				if why != "it takes more cooking than "+string(cook) {
					t.Errorf("%s by %s: %q", f.Name, cook, why)
				}
			}
		}
		if namesOf(left) != out || check.without[named] != "without "+named.Name {
			t.Errorf("%s: without %s, want %s; and %q", cook, namesOf(left), out, check.without[named])
		}
	}
}

// TestTablesAsTheyStand: the rows of the data files come in as they stand there, each figure in its
// place: read here once more by column.
func TestTablesAsTheyStand(t *testing.T) {
	tables, err := readTables()
	if err != nil {
		t.Fatal(err)
	}
	rows := func(name string) (list []map[string]string) {
		text, err := foods.DataFile(name)
		if err != nil {
			t.Fatal(err)
		}
		cells, err := csv.NewReader(strings.NewReader(string(text))).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		for _, line := range cells[1:] {
			r := map[string]string{}
			for i, cell := range line {
				r[cells[0][i]] = cell
			}
			list = append(list, r)
		}
		return list
	}
	number := func(s string) float64 {
		if s == "" {
			return 0
		}
		r := &row{text: map[string]string{"x": s}}
		v := r.number("x", -1)
		if r.err != nil {
			t.Fatal(r.err)
		}
		return v
	}
	caps, pattern, making := rows("caps.csv"), rows("pattern.csv"), rows("preparation.csv")
	if len(caps) != len(tables.caps) || len(pattern) != len(tables.pattern) || len(making) != len(tables.making) || len(caps) == 0 {
		t.Fatalf("%d caps, %d of patterns, %d forms", len(tables.caps), len(tables.pattern), len(tables.making))
	}
	for i, r := range caps {
		under := -1
		if s := r["under_months"]; s != "" {
			under = int(number(s))
		}
		if want := (capLine{r["cap"], r["who"], int(number(r["from_months"])), under, number(r["value"])}); tables.caps[i] != want {
			t.Errorf("caps.csv: %+v, want %+v", tables.caps[i], want)
		}
	}
	for i, r := range pattern {
		if want := (patternLine{r["pattern"], r["group"], number(r["kcal_level"]), number(r["published_per_day"]), number(r["scale"])}); tables.pattern[i] != want {
			t.Errorf("pattern.csv: %+v, want %+v", tables.pattern[i], want)
		}
	}
	for _, r := range making {
		m, ok := tables.making[r["form"]]
		soak := 0.0
		if r["soak_water_discarded"] == "yes" {
			soak = number(r["soak_water_ml_per_100g"])
		}
		if !ok || !near(m.eatenL*1000, number(r["water_eaten_ml_per_100g"])) || !near(m.waterL*1000, number(r["water_ml_per_100g"])+soak) {
			t.Errorf("preparation.csv: %s %+v", r["form"], m)
		}
	}
}

// TestRowsOfFigures: a figure that is none is an error that names the column, the first of two;
// an empty cell is what the caller says, and a column that is not there as well.
func TestRowsOfFigures(t *testing.T) {
	r := &row{text: map[string]string{"a": "1.5", "b": "", "c": "much", "d": "more"}}
	if a, b, x := r.number("a", 7), r.number("b", 7), r.number("x", 8); a != 1.5 || b != 7 || x != 8 || r.err != nil {
		t.Errorf("%g %g %g %v", a, b, x, r.err)
	}
	r.number("c", 7)
	r.number("d", 7)
	r.number("a", 7)
	if r.err == nil || !strings.HasPrefix(r.err.Error(), "c: ") {
		t.Errorf("two bad figures: %v", r.err)
	}
	read := 0
	if err := eachRow("caps.csv", func(r *row) { r.number("cap", 0); read++ }); err == nil || read != 1 {
		t.Errorf("a bad figure in the first row: %v after %d rows", err, read)
	}
	if err := eachRow("no such file.csv", func(*row) {}); err == nil {
		t.Error("a file that is not there is read")
	}
}

// TestSmallestCap: the smallest amount of the rows that are about somebody, from an age in full
// months and under another, of all, of a state, of a condition.
func TestSmallestCap(t *testing.T) {
	tables := &tables{caps: []capLine{
		{"milk", "all", 12, 48, 700}, {"milk", "lactose", 0, -1, 20}, {"milk", "all", 48, -1, 900}, {"milk", "all", 60, -1, 800},
		{"milk", "pregnant", 0, -1, 600}, {"milk", "lactating", 0, -1, 500}, {"tea", "all", 0, -1, 1},
	}}
	for _, c := range []struct {
		months int
		state  nutrients.State
		is     nutrients.Condition
		want   float64 // 0 none
	}{
		{11, "", "", 0}, {12, "", "", 700}, {47, "", "", 700}, {48, "", "", 900}, {59, "", "", 900}, {60, "", "", 800},
		{0, "", nutrients.Lactose, 20}, {400, "", nutrients.Lactose, 20}, {400, nutrients.Pregnant3, "", 600}, {400, nutrients.Lactating2, "", 500},
		{400, nutrients.Lactating2, nutrients.Lactose, 20},
	} {
		p := nutrients.Person{AgeMonths: c.months, State: c.state, Conditions: []nutrients.Condition{c.is}}
		if got, ok := tables.cap(&p, "milk"); got != c.want || ok != (c.want > 0) {
			t.Errorf("%+v: %g %v", c, got, ok)
		}
	}
}

// TestFindings: a bound is kept within a part in a million of it, absolutely under one; a figure
// that is no number keeps none. What is told is in words with both figures.
func TestFindings(t *testing.T) {
	for _, c := range []struct {
		amount, bound      float64
		under, over, other bool
	}{
		{100, 100, false, false, false}, {99.99991, 100, false, false, false}, {99.9998, 100, true, false, true},
		{100.00009, 100, false, false, false}, {100.0002, 100, false, true, true},
		{0.0000009, 0, false, false, false}, {0.000002, 0, false, true, true}, {-0.0000009, 0, false, false, false}, {-0.000002, 0, true, false, true},
		{-100.00009, -100, false, false, false}, {-100.0002, -100, true, false, true}, {-99.9998, -100, false, true, true},
	} {
		check := &checker{}
		check.atLeast("", "limit", c.amount, c.bound)
		under := len(check.found) > 0
		check.found = nil
		check.atMost("", "limit", c.amount, c.bound)
		over := len(check.found) > 0
		check.found = nil
		check.same("", "limit", c.amount, c.bound)
		if other := len(check.found) > 0; under != c.under || over != c.over || other != c.other {
			t.Errorf("%g against %g: under %v, over %v, other %v", c.amount, c.bound, under, over, other)
		}
	}
	check := &checker{}
	nan := 0.0
	nan /= nan
	check.atLeast("Signe", "a", nan, 1)
	check.atMost("", "b", 3, 2)
	check.same("Signe", "c", nan, 1)
	check.same("", "d", 3, 2)
	if len(check.found) != 4 || check.found[0].String() != "Signe: a: NaN against 1" || check.found[1].String() != "b: 3 against 2" || check.found[2].Limit != "c as printed" || check.found[3].String() != "d as printed: 3 against 2" {
		t.Errorf("%v", check.found)
	}
}
