package menu

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/menucheck"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestMenusAreHeldToTheirRules: a menu that breaks a rule of safety is not shown, one that
// breaks another says which, where and for whom.
func TestMenusAreHeldToTheirRules(t *testing.T) {
	table := rationtest.Table(t)
	rice, err := table.Food("white-rice-907g-bag")
	if err != nil {
		t.Fatal(err)
	}
	p := rationtest.Adult("Liv", 40, nutrients.Female)
	p.Conditions = []nutrients.Condition{nutrients.PotassiumSparing}
	req := ration.Filled(&ration.Request{People: []nutrients.Person{p}, Table: table, Start: "2026-01-05", Days: 2})
	made := func(grams ...float64) *ration.Plan {
		total := 0.0
		m := &Menu{FromDay: 1}
		for d, g := range grams {
			opens := []string{}
			if d == 0 {
				opens = append(opens, "white-rice-907g-bag")
			}
			m.Days = append(m.Days, Day{Day: d + 1, Meals: []Meal{{Meal: "midday", Hour: 13, Opens: opens, People: []Served{{Name: "Liv", Count: 1, Foods: []Amount{{Food: rice.Name, Grams: g}}}}}}})
			total += g
		}
		return &ration.Plan{
			Days: 2, Menu: m, Packs: []ration.PlanPack{{Pack: "white-rice-907g-bag", Food: rice.Name, Count: 1}},
			People: []ration.PlanPerson{{Name: "Liv", Count: 1, Foods: []ration.PersonFood{{Food: rice.Name, Grams: total}}}},
		}
	}
	book, err := BookOf(req)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name  string
		spoil func(*ration.Plan)
		safe  bool
	}{
		{"as planned", func(*ration.Plan) {}, true},
		{"something that is not hers", func(p *ration.Plan) {
			s := &p.Menu.Days[0].Meals[0].People[0]
			s.Foods = append(s.Foods, Amount{Food: "honey", Grams: 5})
		}, false},
		{"nothing is opened", func(p *ration.Plan) { p.Menu.Days[0].Meals[0].Opens = nil }, false},
	} {
		plan := made(200, 200)
		c.spoil(plan)
		m, err := Of(context.Background(), plan, req)
		if (err == nil) != c.safe || err != nil && !errors.Is(err, ration.ErrUnverified) {
			t.Errorf("%s: %v, safe %v", c.name, err, c.safe)
		}
		if c.safe && m != plan.Menu {
			t.Errorf("%s: another menu than the plan's", c.name)
		}
	}
	plan := made(300, 100) // half more than the mean of 200 g on the first day, half less on the second
	if err := Hold(plan.Menu, plan, req, book); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"energy", "protein", "no dish", "keep alike"} {
		found := false
		for _, m := range plan.Menu.Misfits {
			found = found || m.Person == "Liv" && strings.Contains(m.Text, want) && strings.Contains(m.Text, "day 1")
		}
		if !found {
			t.Errorf("%s of day 1 is not said: %v", want, plan.Menu.Misfits)
		}
	}
	if want := "NOT ALIKE FROM DAY TO DAY, as a medicine asks: Liv, day 1: potassium +50.0 % of the mean."; !strings.HasPrefix(plan.Menu.Notice, want) {
		t.Errorf("%q does not begin with %q", plan.Menu.Notice, want)
	}
}

// The first thing said of a menu is what a medicine asks to keep alike, then water that is
// not stored, from a hundredth of a litre a person and day.
func TestNoticeOfWater(t *testing.T) {
	water := menucheck.Finding{Rule: menucheck.Water, Text: "12.0 L, the plan keeps 11.0 L", Amount: 0.02}
	little, uneven := water, menucheck.Finding{Rule: menucheck.Steady, Person: "Liv", Text: "day 1: potassium +50.0 % of the mean", Amount: 0.5}
	little.Amount = 0.009
	const said, fits = "THE DISHES TAKE MORE WATER THAN IS STORED FOR FOOD: 12.0 L, the plan keeps 11.0 L; drink that much less, it is in the dishes. ", "Every main meal has a dish, and the dishes take the whole plan."
	for _, c := range []struct {
		found []menucheck.Finding
		want  string
	}{
		{[]menucheck.Finding{water}, said + fits},
		{[]menucheck.Finding{little}, fits},
		{[]menucheck.Finding{water, uneven}, "NOT ALIKE FROM DAY TO DAY, as a medicine asks: Liv, day 1: potassium +50.0 % of the mean. " + said + fits},
	} {
		if got := notice(&Menu{InDishes: 1}, c.found); got != c.want {
			t.Errorf("%v: %q, want %q", c.found, got, c.want)
		}
	}
}

// TestNoticeCountsMeals: at how many main meals somebody has no dish: two people at one meal
// are one, of three meals on each of four days; energy and protein are counted by the days of
// people, and from a hundredth of the energy on it is said what is beside the dishes.
func TestNoticeCountsMeals(t *testing.T) {
	find := func(rule menucheck.Rule, person, text string) menucheck.Finding {
		return menucheck.Finding{Rule: rule, Person: person, Text: text}
	}
	none := []menucheck.Finding{find(menucheck.NoDish, "Ida", "day 1, midday"), find(menucheck.NoDish, "Leif", "day 1, midday"), find(menucheck.NoDish, "Ida", "day 2, evening")}
	off := []menucheck.Finding{find(menucheck.Energy, "Ida", "day 1"), find(menucheck.Protein, "Ida", "day 1"), find(menucheck.Energy, "Leif", "day 2")}
	for _, c := range []struct {
		in    float64
		found []menucheck.Finding
		want  string
	}{
		{0.75, none, "At 2 of 12 main meals somebody has no dish, and 25 % of the energy is eaten beside the dishes: this plan was made without dishes in mind."},
		{0.75, off, "On 3 of a person's days energy or protein is further from the mean than it should be; 25 % of the energy is eaten beside the dishes."},
		{0.75, append(slices.Clone(off), none...), "At 2 of 12 main meals somebody has no dish, and 25 % of the energy is eaten beside the dishes: this plan was made without dishes in mind."},
		{0.985, nil, "Every main meal has a dish; 2 % of the energy fits none and is eaten beside them, as said below."},
		{0.9901, nil, "Every main meal has a dish, and the dishes take the whole plan."},
	} {
		if got := notice(&Menu{InDishes: c.in, Days: make([]Day, 4)}, c.found); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	// The worst of the days is named, and six places of one rule at most.
	worst := notice(&Menu{InDishes: 1}, []menucheck.Finding{{Rule: menucheck.Steady, Person: "Liv", Text: "day 2", Amount: 0.4}, {Rule: menucheck.Steady, Person: "Ida", Text: "day 3", Amount: 0.5}, {Rule: menucheck.Steady, Person: "Liv", Text: "day 4", Amount: 0.35}})
	if !strings.HasPrefix(worst, "NOT ALIKE FROM DAY TO DAY, as a medicine asks: Ida, day 3. ") {
		t.Error(worst)
	}
	var many []menucheck.Finding
	for d := range 8 {
		many = append(many, find(menucheck.Energy, "Ida", "d"+string(rune('1'+d))))
	}
	list := misfitsOf(append(many[:6:6], find(menucheck.Energy, "Leif", "x")))
	if len(list) != 2 || list[0] != (Misfit{Person: "Ida", Text: "energy is further from the mean than a tenth: d1; d2; d3; d4; d5; d6"}) || list[1].Person != "Leif" {
		t.Errorf("%+v", list)
	}
	if list = misfitsOf(many[:7]); len(list) != 1 || list[0].Text != "energy is further from the mean than a tenth: d1; d2; d3; d4; d5; d6; and 1 more" {
		t.Errorf("%+v", list)
	}
}
