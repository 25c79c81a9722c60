package foods

import (
	"math"
	"slices"
	"strings"
	"testing"

	"rationwright/nutrients"
	"rationwright/nutrients/table"
)

// Who a rule is about, as its cell says it; what no person is called is refused, as is an
// allergy to what is no allergen.
func TestParseWho(t *testing.T) {
	for s, want := range map[string]who{
		"all": {"all", "all"}, "pregnant": {"state", "pregnant"}, "lactating": {"state", "lactating"}, "breast-fed": {"feeding", "breast-fed"},
		"formula-fed": {"feeding", "formula-fed"}, "mixed-fed": {"feeding", "mixed-fed"}, "vegan": {"condition", "vegan"}, "kidney-disease": {"condition", "kidney-disease"},
		"allergy:milk": {"allergy", "milk"}, "strict:egg": {"strict", "egg"}, "kitchen:tree-nut": {"kitchen", "tree-nut"},
	} {
		if got, err := parseWho(s); err != nil || got != want {
			t.Errorf("%s: %+v, %v, want %+v", s, got, err, want)
		}
	}
	for _, s := range []string{"", "nobody", "allergy", "allergy:", "allergy:nuts", "strict:rye", "kitchen:none", "traces:milk", "state:milk", "condition:milk"} {
		if got, err := parseWho(s); err == nil {
			t.Errorf("%q is taken for %+v", s, got)
		}
	}
}

// Whom each word means and whom not: allergies by their levels, a shared kitchen by
// everybody in it, feedings under 12 months only, an infant without one as formula-fed.
func TestWhoIsMeant(t *testing.T) {
	traces, strict, kitchen := allergic("milk", nutrients.AllergyTraces), allergic("milk", nutrients.AllergyStrict), allergic("milk", nutrients.AllergyHousehold)
	for _, test := range []struct {
		who   string
		p     nutrients.Person
		means bool
	}{
		{"all", person(), true},
		{"pregnant", person(in(nutrients.Pregnant2)), true}, {"pregnant", person(in(nutrients.Lactating1)), false}, {"pregnant", person(), false},
		{"lactating", person(in(nutrients.Lactating1)), true}, {"lactating", person(in(nutrients.Pregnant2)), false}, {"lactating", person(), false},
		{"breast-fed", person(months(11), fed(nutrients.BreastFed)), true}, {"breast-fed", person(months(12), fed(nutrients.BreastFed)), false},
		{"breast-fed", person(months(11), fed(nutrients.MixedFed)), false}, {"mixed-fed", person(months(11), fed(nutrients.MixedFed)), true},
		{"formula-fed", person(months(11), fed(nutrients.FormulaFed)), true}, {"formula-fed", person(months(11)), true}, {"formula-fed", person(months(12)), false},
		{"formula-fed", person(months(11), fed(nutrients.BreastFed)), false},
		{"vegan", person(with(nutrients.Vegan)), true}, {"vegan", person(with(nutrients.Vegetarian)), false},
		{"allergy:milk", person(traces), true}, {"allergy:milk", person(strict), true}, {"allergy:milk", person(kitchen), true}, {"allergy:egg", person(strict), false},
		{"strict:milk", person(traces), false}, {"strict:milk", person(strict), true}, {"strict:milk", person(kitchen), true},
		{"kitchen:milk", person(traces), false}, {"kitchen:milk", person(strict), false}, {"kitchen:milk", person(kitchen), true}, {"kitchen:egg", person(kitchen), false},
	} {
		w, err := parseWho(test.who)
		if err != nil {
			t.Fatal(err)
		}
		if got := w.selects(&test.p, nil); got != test.means {
			t.Errorf("%s means %+v: %v, want %v", test.who, test.p, got, test.means)
		}
		// Beside them another is meant by a rule of the kitchen alone.
		other := person()
		want := test.who == "all" || strings.HasPrefix(test.who, "kitchen") && test.means
		if got := w.selects(&other, []nutrients.Person{other, test.p}); got != want {
			t.Errorf("%s means somebody beside %+v: %v, want %v", test.who, test.p, got, want)
		}
	}
}

// What a rule's terms are true of: each kind of word, its contrary, and an amount over a
// limit, which one that is not known is.
func TestTerms(t *testing.T) {
	f := &Food{NDB: "00001", Group: "soups", Form: "soup", Class: "ready to eat", Texture: "soft", Mercury: "good",
		Tags: []string{"honey"}, Allergens: []string{"milk"}, MayContain: []string{"egg"}, Per100g: nutrients.Unknown()}
	f.Per100g[nutrients.Sodium] = 140
	for terms, want := range map[string]bool{
		"tag:honey": true, "tag:meat": false, "group:soups": true, "group:grains": false, "form:soup": true, "form:jam": false, "class:ready": false,
		"ndb:00001": true, "ndb:00002": false, "allergen:milk": true, "allergen:egg": false, "maycontain:egg": true, "maycontain:milk": false,
		"texture:soft": true, "texture:hard": false, "mercury:good": true, "mercury:best": false,
		"over:sodium_mg:139.9": true, "over:sodium_mg:140": false, "over:sodium_mg:0": true, "over:iron_mg:1000": true,
		"!tag:honey": false, "!tag:meat": true, "!over:sodium_mg:140": true, "!over:iron_mg:5": false,
		"tag:honey allergen:milk": true, "tag:honey allergen:egg": false, "tag:meat allergen:milk": false, " tag:honey  !tag:meat ": true,
	} {
		parsed, err := parseTerms(terms)
		if err != nil {
			t.Errorf("%q: %v", terms, err)
			continue
		}
		r := rule{who: who{"all", "all"}, food: parsed}
		p := person()
		if got := r.applies(&p, nil, f); got != want {
			t.Errorf("%q: %v, want %v", terms, got, want)
		}
	}
	f.Class = "ready"
	if parsed, err := parseTerms("class:ready"); err != nil || !parsed[0].holds(f) {
		t.Errorf("class: %v", err)
	}
	for _, s := range []string{
		"", " ", "honey", "tag:", ":honey", "!", "colour:red", "allergen:nuts", "maycontain:nuts", "texture:chewy", "mercury:some",
		"over:sodium_mg", "over:sodium_mg:", "over:sodium_mg:x", "over:salt:3", "over:sodium_mg:-1", "tag:honey egg",
	} {
		if got, err := parseTerms(s); err == nil {
			t.Errorf("%q is taken for %+v", s, got)
		}
	}
}

// A rule holds from its first month to the one before its last, in full months.
func TestAgesOfARule(t *testing.T) {
	terms, err := parseTerms("tag:honey")
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		from, under, months int
		want                bool
	}{{0, 12, 0, true}, {0, 12, 11, true}, {0, 12, 12, false}, {12, 0, 11, false}, {12, 0, 12, true}, {12, 0, 1400, true}, {6, 24, 5, false}, {6, 24, 6, true}, {6, 24, 23, true}, {6, 24, 24, false}} {
		r := rule{who: who{"all", "all"}, from: test.from, under: test.under, food: terms}
		p := person(months(test.months))
		if got := r.applies(&p, nil, tagged1("honey")); got != test.want {
			t.Errorf("from %d under %d at %d months: %v", test.from, test.under, test.months, got)
		}
	}
	for _, test := range []struct {
		cells       string
		from, under int
		sound       bool
	}{
		{"x,,", 0, 0, true}, {"x,6,", 6, 0, true}, {"x,,1", 0, 1, true}, {"x,6,7", 6, 7, true}, {"x,6,6", 6, 6, false}, {"x,7,6", 7, 6, false},
		{"x,0,1500", 0, 1500, true}, {"x,1501,", 0, 0, false}, {"x,,1501", 0, 0, false}, {"x,,0", 0, 0, false}, {"x,-1,", 0, 0, false},
	} {
		in, err := table.Read("f.csv", strings.NewReader("x,from_months,under_months\n"+test.cells+"\n"), columns("x from_months under_months"))
		if err != nil {
			t.Fatal(err)
		}
		from, under := readAges(in.Rows[0])
		if err := in.Err(); (err == nil) != test.sound || test.sound && (from != test.from || under != test.under) {
			t.Errorf("%s: from %d under %d, %v", test.cells, from, under, err)
		}
	}
}

// Every rule and every amount is its row: whom, which ages, whether it bars, is of safety
// and concerns everybody of every age.
func TestRulesAreTheirRows(t *testing.T) {
	rules, err := embeddedRules()
	if err != nil {
		t.Fatal(err)
	}
	rows := readCSV(t, "data/eligibility.csv")
	age := func(s string) int {
		if s == "" {
			return 0
		}
		return int(number(t, s))
	}
	if len(rules) != len(rows) {
		t.Fatalf("%d rules of %d rows", len(rules), len(rows))
	}
	for i, row := range rows {
		r := rules[i]
		everyone := row["who"] == "all" && age(row["from_months"]) == 0 && age(row["under_months"]) == 0
		want := Reason{row["rule"], row["reason"], row["safety"] == "yes", everyone, row["source"], row["verified"]}
		if r.Reason != want || r.advice != (row["effect"] == "handle") || r.from != age(row["from_months"]) || r.under != age(row["under_months"]) || len(r.food) != len(strings.Fields(row["food"])) {
			t.Errorf("%s: %+v, want %+v", row["rule"], r, want)
		}
	}
	caps, err := embeddedCaps()
	if err != nil {
		t.Fatal(err)
	}
	rows = readCSV(t, "data/caps.csv")
	if len(caps) != len(rows) {
		t.Fatalf("%d caps of %d rows", len(caps), len(rows))
	}
	for i, row := range rows {
		want := Reason{row["cap"], row["reason"], row["safety"] == "yes", false, row["source"], row["verified"]}
		if c := caps[i]; c.Reason != want || c.from != age(row["from_months"]) || c.under != age(row["under_months"]) || math.Abs(c.value-number(t, row["value"])) > 1e-12 {
			t.Errorf("%s: %+v, want %+v", row["cap"], c, want)
		}
	}
	// A second key of a rule would hide it.
	for i, r := range rules {
		if slices.ContainsFunc(rules[:i], func(o rule) bool { return o.Rule == r.Rule }) {
			t.Errorf("rule %s is there twice", r.Rule)
		}
	}
}
