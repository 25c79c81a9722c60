package report

import (
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// TestTabletThatSpares: where rules give for somebody, the tablet is named of what the
// ration just reaches; not one of what there is plenty, nor one for whom no rule gives.
func TestTabletThatSpares(t *testing.T) {
	floor := func(v float64) *float64 { return &v }
	asked := []nutrients.Tablet{{Name: "vitamin D 10 ug", Nutrient: "vitamin_d"}, {Name: "vitamin B12 10 ug", Nutrient: "vitamin_b12"}, {Name: "iodine 150 ug", Nutrient: "iodine_ug"}}
	person := func(name string, d, b12 float64) ration.PlanPerson {
		return ration.PlanPerson{Name: name, AskAbout: asked, Needs: []ration.PersonNeed{
			{Nutrient: "vitamin_d", Amount: d, Floor: floor(15)}, {Nutrient: "vitamin_b12", Amount: b12, Floor: floor(2.4)}}}
	}
	gave := []ration.Loosened{{Person: "Solveig", Kind: "plant drinks", Unit: "g", Amount: 1010, Limit: 500}}
	for _, c := range []struct {
		name  string
		d     float64
		b12   float64
		gave  []ration.Loosened
		named []string
	}{
		{"vitamin D is scarce", 15, 4, gave, []string{"vitamin D"}},
		{"both are scarce", 15, 2.4, gave, []string{"vitamin D", "vitamin B12"}},
		{"none is scarce", 20, 4, gave, nil},
		{"no rule gives", 15, 2.4, nil, nil},
		{"a rule gives for another", 15, 2.4, []ration.Loosened{{Person: "Ola", Kind: "rice", Unit: "g", Amount: 300, Limit: 200}}, nil},
	} {
		p := &ration.Plan{Eatable: &ration.Eatable{Loosened: c.gave}, People: []ration.PlanPerson{person("Solveig", c.d, c.b12), {Name: "Ola"}}}
		var said string
		for _, line := range Loosened(p) {
			if strings.HasPrefix(line, "A tablet may spare this: ") {
				said += line
			}
		}
		for _, name := range []string{"vitamin D", "vitamin B12", "iodine", "Solveig"} {
			want := name == "Solveig" && len(c.named) > 0
			for _, n := range c.named {
				want = want || n == name
			}
			if got := strings.Contains(said, name); got != want {
				t.Errorf("%s: %q, names %s: %v, want %v", c.name, said, name, got, want)
			}
		}
	}
}

// TestSecondAimByHand: what the second aim adds and brings is told where it changed anything;
// how many mains there are only where they are fewer than sought, 7 in a fortnight.
func TestSecondAimByHand(t *testing.T) {
	first := &ration.First{Value: 80, Products: 31, MostSizes: 2, Crumbs: 18}
	plan := func(e ration.Eatable) *ration.Plan {
		return &ration.Plan{Least: ration.LeastCost, Value: ptr(80.8), Totals: &ration.Totals{Currency: "TSD"}, Days: 14, First: first, Eatable: &e}
	}
	none := "Nothing that people would rather eat was found within the slack."
	for _, c := range []struct {
		name string
		e    ration.Eatable
		want []string
	}{
		{"as before", ration.Eatable{Products: 31, MostSizes: 2, Crumbs: 18, Price: ptr(0), Mains: 7}, []string{none}},
		{"stopped", ration.Eatable{Products: 31, MostSizes: 2, Crumbs: 18, Price: ptr(0), Mains: 7, Stopped: "by the clock"}, []string{none + " The search for these was stopped by the clock."}},
		{"one food fewer", ration.Eatable{Products: 30, MostSizes: 2, Crumbs: 18, Price: ptr(0), Mains: 8}, []string{"0.80 TSD more than the best found (0.00 %) brings meals that people would rather eat: 30 foods instead of 31, at most 2 pack sizes of any one, 18 amounts under a portion."}},
		{"dearer only", ration.Eatable{Products: 31, MostSizes: 2, Crumbs: 18, Price: ptr(0.01), Mains: 6}, []string{
			"0.80 TSD more than the best found (1.0 %) brings meals that people would rather eat: 31 foods, at most 2 pack sizes of any one, 18 amounts under a portion.",
			"Different mains that can be made of it: 6, of the 7 that are sought."}},
		{"not sought", ration.Eatable{Mains: 7, LittleSodium: &ration.LittleSodium{People: []string{"Odd"}, Amount: 1400}}, []string{"Sodium of Odd: 1,400 mg a day; there was no time to seek less within the slack: more --time does."}},
	} {
		lines(t, c.name, eatable(plan(c.e), sheet.Metric), c.want...)
	}
	if got := eatable(&ration.Plan{First: first}, sheet.Metric); got != nil {
		t.Errorf("%q", got)
	}
	p := plan(ration.Eatable{Mains: 1})
	p.First = nil
	if got := eatable(p, sheet.Metric); len(got) != 0 {
		t.Errorf("no second aim was sought: %q", got)
	}
}

// TestLittleSodium: what is proven stands beside what was found; where that is more than a
// quarter more, there may be less.
func TestLittleSodium(t *testing.T) {
	for amount, more := range map[float64]bool{1250: false, 1251: true} {
		got := littleSodium(&ration.LittleSodium{People: []string{"Odd", "Maja"}, Amount: amount, Least: 1000})
		has(t, "little sodium", got, []string{"Sodium of Odd and Maja together: 1,25", "no plan within it has less than 1,000 mg."})
		if strings.Contains(got, "more --time looks for them") != more {
			t.Errorf("%g of 1000: %q", amount, got)
		}
	}
}

// TestRulesThatGive: three are told one by one, others counted; an amount is a day's unless
// it is a share.
func TestRulesThatGive(t *testing.T) {
	rule := func(unit string) ration.Loosened {
		return ration.Loosened{Person: "Odd", Kind: "rice", Unit: unit, Amount: 310, Limit: 200}
	}
	p := &ration.Plan{Eatable: &ration.Eatable{Loosened: []ration.Loosened{rule("g"), rule("% of energy"), rule("g")}}}
	head, day, share := "Nothing fits all of this program's own rules of what people gladly eat, so they give, by as little as was found: ", "Odd has 310 g a day of rice, over 200", "Odd has 310 % of energy of rice, over 200"
	lines(t, "three", Loosened(p), head+day+"; "+share+"; "+day+".")
	p.Eatable.Loosened = append(p.Eatable.Loosened, rule("g"))
	lines(t, "four", Loosened(p), head+day+"; "+share+"; "+day+"; 1 more.")
	if got := Loosened(&ration.Plan{}); got != nil {
		t.Errorf("%q", got)
	}
	if got := Loosened(&ration.Plan{Eatable: &ration.Eatable{}}); got != nil {
		t.Errorf("%q", got)
	}
	// 2 % over its floor a need still is scarce.
	for amount, scarce := range map[float64]bool{15.3: true, 15.31: false} {
		p.People = []ration.PlanPerson{{Name: "Odd", AskAbout: []nutrients.Tablet{{Name: "D", Nutrient: "vitamin_d"}}, Needs: []ration.PersonNeed{{Nutrient: "vitamin_d", Amount: amount, Floor: ptr(15)}}}}
		if got := len(Loosened(p)) == 2; got != scarce {
			t.Errorf("%g of 15: asked about a tablet %v, want %v", amount, got, scarce)
		}
	}
}

// TestRoomForDishes: for whom rules give so that there are dishes, each named once; why there
// is no plan by dishes stands alone.
func TestRoomForDishes(t *testing.T) {
	p := &ration.Plan{Least: ration.LeastCost, Totals: &ration.Totals{Currency: "TSD"}, Menu: &ration.Menu{Notice: "A notice."}, Dishes: &ration.DishesCost{Value: 80, Price: 0.02, Room: 0.4},
		Eatable: &ration.Eatable{Loosened: []ration.Loosened{{Person: "Odd"}, {Person: "Maja"}, {Person: "Odd"}}}}
	lines(t, "with room", byDishes(p, sheet.Metric), "Packs and dishes are chosen together: that adds 1.60 TSD (2.0 %) to the best found without dishes, 80.00 TSD.",
		"So that there are dishes for all days, this program's own rules of what people gladly eat give up to 40 % more for Odd and Maja than without dishes.", "A notice.")
	p.Dishes.Room, p.Menu = 0, nil
	if got := byDishes(p, sheet.Metric); len(got) != 1 {
		t.Errorf("%q", got)
	}
	p.Eatable = nil
	if got := gaveFor(p); got != nil {
		t.Errorf("%q", got)
	}
	p.Dishes.None = "the heat is short"
	lines(t, "no plan by dishes", byDishes(p, sheet.Metric), "No plan was found in which every gram has its dish: the heat is short. This is the plan without dishes; menu shows the nearest to one.")
	p.Dishes = nil
	if got := byDishes(p, sheet.Metric); got != nil {
		t.Errorf("%q", got)
	}
}
