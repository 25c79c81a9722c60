package foods

import (
	"slices"
	"testing"

	"rationwright/nutrients"
)

// A food with cholesterol in the publication itself (testdata/usda, SR28) holds
// something of an animal and reaches no grown vegan.
func TestCholesterolKeepsFoodFromVegans(t *testing.T) {
	tab := load(t)
	vegan := person(with(nutrients.Vegan))
	with := 0
	for _, row := range readCSV(t, "../testdata/usda/extract.csv") {
		if row["cholesterol_mg"] == "" || number(t, row["cholesterol_mg"]) <= 0 {
			continue
		}
		with++
		f := food(t, tab, row["ndb"])
		if ok, _ := Eligible(vegan, nil, f); ok {
			t.Errorf("%s %s, %s mg cholesterol in 100 g, reaches a vegan", f.NDB, f.Name, row["cholesterol_mg"])
		}
	}
	if with < 60 {
		t.Errorf("only %d foods with cholesterol", with)
	}
}

// Foods that hide an animal food or a trace, by what makers put in: a split pea
// soup with ham, sauces with cheese, gelatin in sweets, stock in noodle
// seasoning, anchovy in the sauce of jerky, wheat in the mill of other grains
// (testdata/reference/allergens.csv, gluten_grain: milling cross-contact).
func TestHiddenFoods(t *testing.T) {
	tab := load(t)
	vegetarian, vegan := person(with(nutrients.Vegetarian)), person(with(nutrients.Vegan))
	milk, milkSevere := person(allergic("milk", nutrients.AllergyTraces)), person(allergic("milk", nutrients.AllergyStrict))
	wheat, wheatSevere := person(allergic("wheat", nutrients.AllergyTraces)), person(allergic("wheat", nutrients.AllergyStrict))
	fishSevere, nutSevere := person(allergic("fish", nutrients.AllergyStrict)), person(allergic("tree-nut", nutrients.AllergyStrict))
	coeliac := person(with(nutrients.Coeliac))
	for _, test := range []struct {
		who  nutrients.Person
		ndb  string
		want bool
	}{
		{vegan, "06931", false}, {vegan, "06976", false}, {vegan, "06192", false}, {vegan, "19904", false},
		{milk, "06976", false}, {milkSevere, "06931", false}, {milk, "19904", false},
		{vegetarian, "19116", false}, {vegetarian, "19106", false}, {vegetarian, "06583", false},
		{vegetarian, "01032", false}, {vegetarian, "06192", false}, {vegetarian, "06931", false},
		{vegetarian, "01048", true}, {vegetarian, "01090", true}, {vegetarian, "06068", true}, {vegan, "06068", true},
		{fishSevere, "19002", false}, {fishSevere, "16059", false},
		{nutSevere, "19107", false}, {nutSevere, "09298", false},
		{milkSevere, "12037", false}, {milkSevere, "19107", false}, {milk, "19107", true},
		{wheatSevere, "20044", false}, {wheatSevere, "20035", false}, {wheatSevere, "20031", false}, {wheat, "20044", true},
		{coeliac, "20044", true}, {coeliac, "20031", true}, {coeliac, "20035", true}, {coeliac, "12016", false}, {coeliac, "08120", false},
	} {
		f := food(t, tab, test.ndb)
		if ok, why := Eligible(test.who, []nutrients.Person{test.who}, f); ok != test.want {
			t.Errorf("%s for %v %v: eligible %v (%s), want %v", f.Name, test.who.Conditions, test.who.Allergies, ok, why.Text, test.want)
		}
	}
	for _, ndb := range []string{"20044", "20031", "20035", "20022", "20133"} {
		if how := Handling(coeliac, food(t, tab, ndb)); len(how) == 0 {
			t.Errorf("%s: nothing tells a coeliac person to look for the gluten-free label", ndb)
		}
	}
}

// Alcohol is for no one under 21, pregnant or nursing (Dietary Guidelines for
// Americans 2020-2025), with near misses on both sides of the age.
func TestAlcohol(t *testing.T) {
	wine := tagged1("alcohol")
	for _, test := range []struct {
		who  nutrients.Person
		want bool
	}{
		{person(months(21*12 - 1)), false}, {person(months(21 * 12)), true}, {person(months(5 * 12)), false},
		{person(in(nutrients.Pregnant1)), false}, {person(in(nutrients.Lactating1)), false},
	} {
		if ok, _ := Eligible(test.who, nil, wine); ok != test.want {
			t.Errorf("alcohol at %d months, %v: eligible %v", test.who.AgeMonths, test.who.State, ok)
		}
	}
}

// The list of the American Academy of Pediatrics and CDC (requirements
// special.csv, child_under_4y_choking): what is left out, and what is mashed,
// until the fourth birthday and not after.
func TestChokingUnderFour(t *testing.T) {
	tab := load(t)
	under, over := person(months(47)), person(months(48))
	for _, test := range []struct {
		kind     string
		leaveOut bool
		ndb      []string
	}{
		{"chunks of meat", false, []string{"05311", "05336", "05284", "10158", "10184", "13166", "07045", "22905", "22904", "16059", "22912"}},
		{"whole beans", false, []string{"11715", "16071", "16018", "16335", "16056", "16006"}},
		{"pieces of fruit", false, []string{"09024", "09237", "09096", "09268"}},
		{"pieces of vegetable", false, []string{"43312", "11128", "11735", "11172", "11813", "43311"}},
		{"whole nuts and seeds", true, []string{"16390", "12061", "12037", "12016", "12135"}},
		{"hard or sticky candy", true, []string{"19107", "19106"}}, {"marshmallows", true, []string{"19116"}},
		{"nut butter", true, []string{"16098", "12195"}}, {"dried fruit", true, []string{"09298", "09011", "09291"}},
		{"sausage, jerky", true, []string{"07083", "19002"}}, {"olives", true, []string{"09193"}},
		{"fish with bones", true, []string{"15088", "15260", "15042"}}, {"chips, pretzels", true, []string{"18360", "19814"}},
	} {
		for _, ndb := range test.ndb {
			f := food(t, tab, ndb)
			ok, _ := Eligible(under, nil, f)
			handled := slices.ContainsFunc(Handling(under, f), func(r Reason) bool { return r.Rule == "mash" })
			if test.leaveOut && ok || !test.leaveOut && ok && !handled {
				t.Errorf("%s, %s: at 47 months eligible %v, mashed %v", test.kind, f.Name, ok, handled)
			}
			if ok, why := Eligible(over, nil, f); !ok {
				t.Errorf("%s: refused at 48 months: %s", f.Name, why.Text)
			}
			if slices.ContainsFunc(Handling(over, f), func(r Reason) bool { return r.Rule == "mash" }) {
				t.Errorf("%s is mashed at 48 months", f.Name)
			}
		}
	}
}
