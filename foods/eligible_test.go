package foods

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"rationwright/nutrients"
)

// food returns the food of the table with the NDB number.
func food(t testing.TB, tab *Table, ndb string) *Food {
	t.Helper()
	f := tab.byNDB(ndb)
	if f == nil {
		t.Fatalf("NDB %s is not in the table", ndb)
	}
	return f
}

// person returns an adult woman, changed by the options.
func person(change ...func(*nutrients.Person)) nutrients.Person {
	p := nutrients.Person{Name: "Ada", AgeMonths: 30 * 12, Sex: nutrients.Female, Count: 1}
	for _, c := range change {
		c(&p)
	}
	return p
}

func months(m int) func(*nutrients.Person) { return func(p *nutrients.Person) { p.AgeMonths = m } }

func fed(f nutrients.Feeding) func(*nutrients.Person) {
	return func(p *nutrients.Person) { p.Feeding = f }
}

func with(c nutrients.Condition) func(*nutrients.Person) {
	return func(p *nutrients.Person) { p.Conditions = append(p.Conditions, c) }
}

func in(s nutrients.State) func(*nutrients.Person) {
	return func(p *nutrients.Person) { p.State = s }
}

func allergic(allergen string, level nutrients.AllergyLevel) func(*nutrients.Person) {
	return func(p *nutrients.Person) {
		p.Allergies = append(p.Allergies, nutrients.Allergy{Allergen: allergen, Level: level})
	}
}

// Foods by tag, made for the test: the rules go by tags, and TestRulesBite
// shows that foods of the table carry them.
func tagged1(tags ...string) *Food {
	return &Food{NDB: "T", Name: "test food", Tags: tags, Texture: "puree", Per100g: zero()}
}

func zero() nutrients.Amounts { return nutrients.Amounts{} }

// Every case names the publication that its limit comes from.
func TestEligible(t *testing.T) {
	tab := load(t)
	milkPowder, soyPowder := food(t, tab, "C0001"), food(t, tab, "C0002")
	human := food(t, tab, "01107")
	applesauce := food(t, tab, "03116") // infant, strained
	rice, oats := food(t, tab, "20044"), food(t, tab, "08120")
	tuna := food(t, tab, "15121")
	soyDrink, sweetSoy := food(t, tab, "16222"), food(t, tab, "16139") // both with calcium and vitamin D
	for _, test := range []struct {
		source string
		p      nutrients.Person
		f      *Food
		want   bool
	}{
		{"WHO; AAP: nothing but milk under 6 months", person(months(5), fed("formula")), applesauce, false},
		{"WHO; AAP: from about 6 months", person(months(6), fed("formula")), applesauce, true},
		{"WHO; AAP", person(months(3), fed("formula")), milkPowder, true},
		{"WHO; AAP", person(months(3), fed("formula")), human, false},
		{"WHO; AAP", person(months(3), fed("breast")), human, true},
		{"WHO; AAP", person(months(3), fed("breast")), milkPowder, false},
		{"WHO; AAP", person(months(3), fed("mixed")), milkPowder, true},
		{"WHO; AAP", person(months(3), fed("mixed")), human, true},
		{"formula is for infants", person(months(12)), milkPowder, false},
		{"formula is for infants", person(), soyPowder, false},
		{"human milk is no store food", person(months(12)), human, false},
		{"AAP: milk allergy needs another formula", person(months(3), fed("formula"), allergic("milk", nutrients.AllergyStrict)), soyPowder, false},
		{"CDC / AAP / WHO: honey", person(months(11), fed("formula")), tagged1("honey"), false},
		{"CDC / AAP / WHO: honey", person(months(12)), tagged1("honey"), true},
		{"CDC / AAP: milk drinks", person(months(11), fed("formula")), tagged1("dairy-drink", "whole-milk"), false},
		{"CDC / AAP: milk drinks", person(months(12)), tagged1("dairy-drink", "whole-milk"), true},
		{"IOM 2002: whole milk to 23 months", person(months(23)), tagged1("dairy-drink"), false},
		{"IOM 2002: whole milk to 23 months", person(months(24)), tagged1("dairy-drink"), true},
		{"CDC / AAP: plant drinks", person(months(11), fed("formula")), soyDrink, false},
		{"DGA 2020-2025: fortified soy beverage from 12 months", person(months(12)), soyDrink, true},
		{"DGA 2020-2025: fortified soy beverage", person(months(23)), soyDrink, true},
		{"DGA 2020-2025: fortified soy beverage", person(months(20), allergic("milk", nutrients.AllergyHousehold)), soyDrink, true},
		{"DGA 2020-2025: fortified soy beverage", person(months(20), with("vegan")), soyDrink, true},
		{"FALCPA", person(months(20), allergic("soy", nutrients.AllergyTraces)), soyDrink, false},
		{"DGA 2020-2025: added sugar under 24 months", person(months(23)), sweetSoy, false},
		{"DGA 2020-2025: added sugar under 24 months", person(months(24)), sweetSoy, true},
		{"DGA 2020-2025: no other plant drink under 24 months", person(months(23)), food(t, tab, "14091"), false}, // almond
		{"DGA 2020-2025: no other plant drink under 24 months", person(months(23)), food(t, tab, "14639"), false}, // rice
		{"DGA 2020-2025: no other plant drink under 24 months", person(months(24)), food(t, tab, "14639"), true},
		{"IOM 2002: whole milk to 23 months", person(months(23)), food(t, tab, "01082"), false}, // low-fat milk
		{"AAP 2017: juice", person(months(11), fed("formula")), tagged1("juice"), false},
		{"AAP 2017: juice", person(months(12)), tagged1("juice"), true},
		{"DGA 2020-2025: added sugar under 24 months", person(months(23)), tagged1("added-sugar"), false},
		{"DGA 2020-2025: added sugar under 24 months", person(months(24)), tagged1("added-sugar"), true},
		{"DGA 2020-2025: added salt under 12 months", person(months(11), fed("formula")), tagged1("added-salt"), false},
		{"DGA 2020-2025: added salt under 12 months", person(months(12)), tagged1("added-salt"), true},
		{"AAP: choking under 4 years", person(months(47)), tagged1("choking"), false},
		{"AAP: choking under 4 years", person(months(48)), tagged1("choking"), true},
		{"AAP: fish with bones", person(months(47)), tagged1("bones"), false},
		{"WHO/UNICEF: mashed to 8 months", person(months(7), fed("formula")), rice, false},
		{"WHO/UNICEF: soft from 8 months", person(months(8), fed("formula")), rice, true},
		{"WHO; DGA: caffeine", person(months(23)), tagged1("caffeine"), false},
		{"strained food for infants and toddlers", person(months(47)), applesauce, true},
		{"strained food for infants and toddlers", person(months(48)), applesauce, false},
		{"UK NHS / WHO: liver", person(in("pregnant-1")), tagged1("liver"), false},
		{"UK NHS / WHO: liver", person(in("lactating-1")), tagged1("liver"), true},
		{"EPA and FDA: avoid", person(), &Food{Mercury: "avoid"}, false},
		{"EPA and FDA: good choice from 11 years", person(months(131)), &Food{Mercury: "good"}, false},
		{"EPA and FDA: good choice from 11 years", person(months(132)), &Food{Mercury: "good"}, true},
		{"EPA and FDA: best choice", person(in("pregnant-2")), tuna, true},
		{"FDA 21 CFR 101.91: gluten", person(with("coeliac")), &Food{Allergens: []string{"wheat"}}, false},
		{"FDA 21 CFR 101.91: gluten", person(with("coeliac")), tagged1("gluten"), false},
		{"FDA 21 CFR 101.91: 20 mg/kg", person(with("coeliac")), &Food{MayContain: []string{"wheat"}}, false},
		{"FDA: oats", person(with("coeliac")), oats, false},
		{"FDA: rice", person(with("coeliac")), rice, true},
		{"diet", person(with("vegetarian")), tuna, false},
		{"diet", person(with("vegetarian")), tagged1("animal"), true},
		{"diet", person(with("vegan")), tagged1("animal"), false},
		{"diet", person(with("vegan")), &Food{Allergens: []string{"egg"}}, false},
		{"soft diet lists", person(with("soft-food")), &Food{Texture: "hard"}, false},
		{"soft diet lists", person(with("soft-food")), &Food{Texture: "regular"}, false},
		{"soft diet lists", person(with("soft-food")), &Food{Texture: "soft"}, true},
		{"ADA: sugary drinks", person(with("diabetes-2")), tagged1("sugary-drink"), false},
		{"ADA: sugary drinks", person(), tagged1("sugary-drink"), true},
		{"FALCPA", person(allergic("fish", nutrients.AllergyTraces)), tuna, false},
		{"FALCPA", person(allergic("fish", nutrients.AllergyStrict)), tuna, false},
		{"a clinician's word: traces", person(allergic("egg", nutrients.AllergyTraces)), &Food{MayContain: []string{"egg"}}, true},
		{"FDA: may contain", person(allergic("egg", nutrients.AllergyStrict)), &Food{MayContain: []string{"egg"}}, false},
		{"FDA: may contain", person(allergic("egg", nutrients.AllergyHousehold)), &Food{MayContain: []string{"egg"}}, false},
		{"NIH 2010: lactose is a cap, no ban", person(with("lactose")), tagged1("dairy-drink"), true},
	} {
		ok, why := Eligible(test.p, []nutrients.Person{test.p}, test.f)
		if ok != test.want {
			t.Errorf("Eligible(%d months %v, %s %v) = %v (%s), want %v (%s)",
				test.p.AgeMonths, test.p.Conditions, test.f.Name, test.f.Tags, ok, why.Text, test.want, test.source)
		}
		if ok != (why == Reason{}) || !ok && (why.Text == "" || why.Source == "" || why.Verified == "") {
			t.Errorf("Eligible(%s): reason %+v does not fit %v", test.f.Name, why, ok)
		}
	}
}

// An unknown amount never counts as little: a food without a figure for added
// sugars or sodium is kept from those who must have none.
func TestUnknownIsNotZero(t *testing.T) {
	f := tagged1()
	f.Per100g = nutrients.Unknown()
	for _, m := range []int{6, 11, 12, 23} {
		p := person(months(m), fed("formula"))
		if ok, _ := Eligible(p, nil, f); ok {
			t.Errorf("at %d months a food of unknown added sugars is eligible", m)
		}
	}
	f.Per100g[nutrients.AddedSugars], f.Per100g[nutrients.Sodium] = 0, 0
	if ok, why := Eligible(person(months(6), fed("formula")), nil, f); !ok {
		t.Errorf("a puree without sugar and salt is refused at 6 months: %s", why.Text)
	}
}

func TestSharedKitchen(t *testing.T) {
	nuts := &Food{Name: "nuts", Allergens: []string{"tree-nut"}}
	traces := &Food{Name: "bar", MayContain: []string{"tree-nut"}}
	mild, severe := person(allergic("tree-nut", nutrients.AllergyStrict)), person(allergic("tree-nut", nutrients.AllergyHousehold))
	other := person()
	for _, test := range []struct {
		name      string
		household []nutrients.Person
		f         *Food
		want      bool
	}{
		{"plain allergy of another", []nutrients.Person{other, mild}, nuts, true},
		{"severe allergy of another", []nutrients.Person{other, severe}, nuts, false},
		{"severe allergy of another, traces", []nutrients.Person{other, severe}, traces, false},
		{"plain allergy of another, traces", []nutrients.Person{other, mild}, traces, true},
	} {
		if ok, _ := Eligible(other, test.household, test.f); ok != test.want {
			t.Errorf("%s: eligible %v, want %v", test.name, ok, test.want)
		}
	}
}

// Every rule that bars or handles does so for some food of the table, or is
// named here with the reason why no embedded food needs it.
func TestRulesBite(t *testing.T) {
	none := map[string]string{
		"mercury-avoid":      "no such fish is sold in cans",
		"alcohol-pregnant":   "the table holds no alcohol; a user's food may",
		"alcohol-lactating":  "the table holds no alcohol; a user's food may",
		"alcohol-young":      "the table holds no alcohol; a user's food may",
		"caffeine-child-tea": "tea leaves are in no row, a user's may be",
		"sweetener":          "a user's food may hold a sweetener",
	}
	rules, err := embeddedRules()
	if err != nil {
		t.Fatal(err)
	}
	tab := load(t)
	for _, r := range rules {
		bites := slices.ContainsFunc(tab.Foods, func(f *Food) bool {
			return !slices.ContainsFunc(r.food, func(x term) bool { return !x.holds(f) })
		})
		reason, excused := none[r.Rule]
		if !bites && !excused && !strings.Contains(r.Rule, "-may-") {
			t.Errorf("rule %s is about no food of the table", r.Rule)
		}
		if bites && excused {
			t.Errorf("rule %s is said to be about no food (%s) and is", r.Rule, reason)
		}
		for _, x := range r.food {
			if x.kind == "tag" && !slices.Contains(tab.tags, x.word) && x.word != "gluten-free" {
				t.Errorf("rule %s asks for the tag %q, which tags.csv lacks", r.Rule, x.word)
			}
		}
	}
}

// Over random households nobody gets what they are allergic to, nothing that a
// severe allergy in the house rules out, and no infant under 6 months anything
// but a feed.
func TestNoForbiddenFoodReachesAnybody(t *testing.T) {
	tab := load(t)
	rng := rand.New(rand.NewPCG(5, 14))
	conditions := []nutrients.Condition{"diabetes-2", "soft-food", "coeliac", "lactose", "vegetarian", "vegan", "low-sodium"}
	pick := func(share float64) bool { return rng.Float64() < share }
	served := 0
	for range 300 {
		household := make([]nutrients.Person, 1+rng.IntN(5))
		for i := range household {
			p := person(months(rng.IntN(90 * 12)))
			p.Name = fmt.Sprint("p", i)
			if p.AgeMonths < infantMonths {
				p.Feeding = []nutrients.Feeding{"breast", "formula", "mixed"}[rng.IntN(3)]
			}
			for _, a := range Allergens {
				if pick(0.1) {
					p.Allergies = append(p.Allergies, nutrients.Allergy{Allergen: a, Level: nutrients.AllergyLevel(rng.IntN(3))})
				}
			}
			for _, c := range conditions {
				if pick(0.1) {
					p.Conditions = append(p.Conditions, c)
				}
			}
			household[i] = p
		}
		for _, p := range household {
			for _, f := range tab.Foods {
				if ok, _ := Eligible(p, household, f); !ok {
					continue
				}
				served++
				for _, a := range p.Allergies {
					if slices.Contains(f.Allergens, a.Allergen) || a.Level != nutrients.AllergyTraces && slices.Contains(f.MayContain, a.Allergen) {
						t.Fatalf("%v gets %s (%v, may contain %v)", p.Allergies, f.Name, f.Allergens, f.MayContain)
					}
				}
				for _, q := range household {
					for _, a := range q.Allergies {
						if a.Level == nutrients.AllergyHousehold && (slices.Contains(f.Allergens, a.Allergen) || slices.Contains(f.MayContain, a.Allergen)) {
							t.Fatalf("%s comes into a kitchen with a severe allergy to %s", f.Name, a.Allergen)
						}
					}
				}
				switch {
				case p.AgeMonths < 6 && !f.HasTag("infant-formula") && !f.HasTag("human-milk"),
					p.AgeMonths < 12 && (f.HasTag("honey") || f.HasTag("dairy-drink") || f.HasTag("juice") || f.HasTag("added-salt")),
					p.AgeMonths < 24 && f.HasTag("added-sugar"),
					p.AgeMonths < 48 && f.HasTag("choking"),
					p.Has("coeliac") && (f.HasTag("gluten") || f.HasTag("oats")),
					p.Has("vegan") && p.AgeMonths >= 12 && f.HasTag("animal"),
					p.Has("vegetarian") && (f.HasTag("meat") || f.HasTag("poultry") || f.HasTag("fish") || f.HasTag("gelatin") || f.HasTag("rennet") || f.HasTag("meat-stock")),
					p.AgeMonths < 21*12 && f.HasTag("alcohol"),
					p.Has("soft-food") && f.Texture != "soft" && f.Texture != "puree":
					t.Fatalf("%d months, %v gets %s (%v, %s)", p.AgeMonths, p.Conditions, f.Name, f.Tags, f.Texture)
				}
			}
		}
	}
	if served < 10_000 {
		t.Errorf("only %d foods were served in all", served)
	}
}

func TestHandling(t *testing.T) {
	for _, test := range []struct {
		p    nutrients.Person
		f    *Food
		want string
	}{
		{person(months(47)), tagged1("whole-pieces"), "mash"},
		{person(months(48)), tagged1("whole-pieces"), ""},
		{person(months(30)), tagged1("sticky"), "spread thin"},
		{person(with("soft-food")), tagged1("sticky"), "spread thin"},
		{person(with("coeliac")), tagged1("naturally-free"), "gluten-free"},
		{person(), tagged1("naturally-free"), ""},
		{person(), tagged1("raw-flour"), "bake"},
		{person(), tagged1("egg-raw"), "cook"},
	} {
		how := Handling(test.p, test.f)
		if test.want == "" && len(how) > 0 || test.want != "" && (len(how) == 0 || !strings.Contains(how[0].Text, test.want)) {
			t.Errorf("Handling(%d months, %v) = %v, want %q", test.p.AgeMonths, test.f.Tags, how, test.want)
		}
	}
}

func TestWishes(t *testing.T) {
	tab := load(t)
	p := person()
	p.Dislikes = []string{"seafood", "Honey"}
	p.Rules = []nutrients.Rule{
		{Kind: nutrients.RuleNo, Food: "20044", Text: "no 20044"},
		{Kind: nutrients.RuleMost, Food: "rolled oats", Low: 50, Text: "most rolled oats 50 g/day"},
		{Kind: nutrients.RuleLeast, Food: "canned fruit", Low: 100, Text: "least canned fruit 100 g/day"},
	}
	w, err := tab.Wishes(p)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range tab.Foods {
		want := f.Group == "canned fish" || f.Name == "honey" || f.NDB == "20044"
		if why, refused := w.Refuses(f); refused != want || refused && why.Text == "" {
			t.Errorf("Refuses(%s) = %v %q, want %v", f.Name, refused, why.Text, want)
		}
	}
	if len(w.Most) != 1 || len(w.Most[0].Foods) != 1 || w.Most[0].GramsPerDay != 50 {
		t.Errorf("Most = %+v, want one food at 50 g", w.Most)
	}
	if len(w.Least) != 1 || len(w.Least[0].Foods) < 2 || w.Least[0].GramsPerDay != 100 {
		t.Errorf("Least = %+v, want the canned fruit at 100 g", w.Least)
	}

	p.Dislikes = []string{"canned frut", "xyzzy"}
	_, err = tab.Wishes(p)
	if !errors.Is(err, ErrUnknown) {
		t.Fatalf("Wishes of unknown foods: %v, want ErrUnknown", err)
	}
	for _, want := range []string{"canned frut", "canned fruit", "xyzzy"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("the error %q does not name %q", err, want)
		}
	}
}

// Every rule that bars a food is told, in the order of the table, and the first is the one
// that is given where one is asked for: eligibility.csv, honey and juice under 12 months,
// choking under 4 years, honey for vegans.
func TestAllBars(t *testing.T) {
	f := tagged1("honey", "juice", "choking")
	for _, test := range []struct {
		p    nutrients.Person
		want []string
	}{
		{person(months(11), fed("formula")), []string{"honey", "juice", "choking"}}, {person(months(12)), []string{"choking"}}, {person(months(47)), []string{"choking"}},
		{person(months(48)), nil}, {person(with("vegan")), []string{"vegan-honey"}}, {person(months(47), with("vegan")), []string{"choking", "vegan-honey"}},
	} {
		var got []string
		for _, r := range Bars(test.p, nil, f) {
			got = append(got, r.Rule)
		}
		ok, why := Eligible(test.p, nil, f)
		if !slices.Equal(got, test.want) || ok != (test.want == nil) || !ok && why.Rule != test.want[0] {
			t.Errorf("%d months, %v: %v, eligible %v by %q, want %v", test.p.AgeMonths, test.p.Conditions, got, ok, why.Rule, test.want)
		}
	}
}
