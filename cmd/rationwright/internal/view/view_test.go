package view

import (
	"encoding/json"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/ration"
)

func ptr(v float64) *float64 { return &v }

// specimen is invented for this test: no figure in it means anything.
func specimen() *ration.Plan {
	return &ration.Plan{
		Status: "optimal", Days: 10, Least: "cost", WeakHands: true,
		Request: &ration.RequestRecord{Version: "none", Start: "2026-02-25", Demo: ration.Demo{Prices: true}, Household: [][]string{
			{"name", "allergies", "dislikes"}, {"Maja", "milk!; egg", "liver"}, {"Arne", "", "fish"}}},
		Totals: &ration.Totals{WaterL: 50},
		Packs: []ration.PlanPack{
			{Pack: "sugar-500g-bag", Food: "sugar, white", Group: "sweets", Count: 1, Reserve: true, EasyOpen: true},
			{Pack: "tuna-142g-can", Food: "tuna, canned, drained", Group: "canned fish", Count: 5, FromStock: 2, NetG: 113, EasyOpen: true},
			{Pack: "rice-2268g-bag", Food: "white rice, enriched", Group: "grains", Count: 1},
			{Pack: "tuna-1.5kg-can", Food: "tuna, canned, drained", Group: "canned fish", Count: 1},
			{Pack: "oddly named", Food: "own", Count: 1, EasyOpen: true},
		},
		People: []ration.PlanPerson{{Name: "Maja\x1b", Count: 3, Foods: []ration.PersonFood{{Food: "own", Grams: 5}, {Food: "tuna, canned, drained", Grams: 300}},
			Needs: []ration.PersonNeed{{Nutrient: "iron", Amount: 17, Floor: ptr(18), Source: "S1"}, {Nutrient: "zinc", Amount: 9, Source: "S1"}}, Rules: []ration.RuleNote{{Text: "r", Source: "S2"}}}},
		Refused: []ration.Refused{{Name: "Arne", Reason: "r", Source: "S"}},
	}
}

func TestOf(t *testing.T) {
	p := specimen()
	p.People[0].Name = "Maja"
	v := Of(p)
	if v.Heads != 3 || !v.Fits || v.From != "2026-02-25" || v.Until != "2026-03-06" { // the tenth day, in a year of 28 days of February
		t.Errorf("%d heads, fits %v, %s to %s", v.Heads, v.Fits, v.From, v.Until)
	}
	if v.Demo != "Prices are invented for the demo." || len(v.Headline) < 2 || v.Headline[0] != "THIS PLAN DOES NOT FEED ARNE" || len(v.Shortfalls) != 1 {
		t.Errorf("%q, %q, %v", v.Demo, v.Headline, v.Shortfalls)
	}
	var names []string
	for _, a := range v.Shopping {
		names = append(names, a.Name)
		for _, f := range a.Foods {
			names = append(names, "  "+f.Name)
		}
	}
	want := []string{"canned fish", "  tuna", "grains", "  white rice, enriched", "other", "  own", SetAside, "  white sugar"}
	if !slices.Equal(names, want) {
		t.Errorf("the list is %q, want %q", names, want)
	}
	tuna := v.Shopping[0].Foods[0].Packs
	if len(tuna) != 2 || tuna[0].Buy != 3 || tuna[0].Own != 2 || tuna[0].Size != "142 g can" || tuna[0].Hands || tuna[1].Size != "1.5 kg can" || !tuna[1].Hands {
		t.Errorf("%+v", tuna)
	}
	maja, arne := v.People[0], v.People[1]
	if !reflect.DeepEqual(maja.Eats, []Portion{{"tuna, canned, drained", 30}, {"own", 0.5}}) { // of 10 days
		t.Errorf("%v", maja.Eats)
	}
	if !slices.Equal(maja.MustNotEat, []string{"milk!", "egg", "liver"}) || !slices.Equal(arne.MustNotEat, []string{"fish"}) || arne.Refused == nil || maja.Refused != nil {
		t.Errorf("%q, %q", maja.MustNotEat, arne.MustNotEat)
	}
	if !slices.Equal(v.Sources, []string{"S1", "S2"}) || v.Water == nil || v.Water.PlanL != 50 || v.Water.AdviceL != 0 {
		t.Errorf("%q, %+v", v.Sources, v.Water)
	}
	text, err := json.Marshal(v)
	if err != nil || strings.Contains(string(text), "null") {
		t.Errorf("%v: %s", err, text)
	}
	p = specimen()
	p.WeakHands = false
	for _, a := range Of(p).Shopping {
		for _, f := range a.Foods {
			if slices.ContainsFunc(f.Packs, func(k Packs) bool { return k.Hands }) || f.Reserve != (a.Name == SetAside) {
				t.Errorf("nobody has weak hands; in %s: %+v", a.Name, f)
			}
		}
	}
	p = specimen()
	p.Status = ration.StatusInfeasible
	if v := Of(p); v.Fits || v.People[0].Name != "Maja " {
		t.Errorf("fits %v, %q", v.Fits, v.People[0].Name)
	}
	Of(&ration.Plan{}) // nothing is not a fault
}

func TestSizeAndEveryday(t *testing.T) {
	for key, want := range map[string]string{"a-907g-bag": "907 g bag", "a-2268g-bag": "2.268 kg bag", "a-1.42l-bottle": "1.42 L bottle", "a-200ml-carton": "200 mL carton", "a-1000ml-jar": "1 L jar", "a-999g-jar": "999 g jar", "a": "", "a-5oz-can": ""} {
		if got := size(key); got != want {
			t.Errorf("size(%q) = %q, want %q", key, got, want)
		}
	}
	for _, c := range [][3]string{
		{"pink salmon, canned, drained", "canned fish", "pink salmon"}, {"pink salmon, canned", "other", "pink salmon, canned"},
		{"sugar, brown", "sweets", "brown sugar"}, {"orange juice, calcium and vitamin D", "juice", "orange juice, calcium and vitamin D"},
		{"chickpeas, dry", "dry beans", "chickpeas"}, {"whole egg, dried", "eggs and soy", "whole egg, dried"}, {"salt", "seasonings", "salt"},
	} {
		if got := everyday(c[0], c[1]); got != c[2] {
			t.Errorf("everyday(%q, %q) = %q, want %q", c[0], c[1], got, c[2])
		}
	}
	for _, c := range []struct {
		d    ration.Demo
		want string
	}{{ration.Demo{}, ""}, {ration.Demo{Household: true}, "This is the demo household of Ternsund: these people are invented."}, {ration.Demo{Household: true, Prices: true}, "This is the demo household of Ternsund at demo prices: people and prices are invented."}} {
		if got := Demo(c.d); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// TestMustNotEatOfRows: allergies, then dislikes, of each by name; rows that end early, or a
// table without these columns, have none.
func TestMustNotEatOfRows(t *testing.T) {
	for _, c := range []struct {
		rows [][]string
		want map[string][]string
	}{
		{[][]string{{"name", "allergies", "dislikes"}, {"Maja", "milk!; egg", "liver"}, {"Arne"}, {"Ola", "fish"}, {"Siv", "", " tuna ;; "}}, map[string][]string{"Maja": {"milk!", "egg", "liver"}, "Ola": {"fish"}, "Siv": {"tuna"}}},
		{[][]string{{"allergies", "name"}, {"milk", "Maja"}, {"egg"}}, map[string][]string{"Maja": {"milk"}}},
		{[][]string{{"name", "dislikes"}, {"Maja", "liver"}}, map[string][]string{"Maja": {"liver"}}},
		{[][]string{{"allergies"}, {"milk"}}, map[string][]string{}}, {nil, map[string][]string{}},
	} {
		if got := mustNotEat(c.rows); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%q: %q, want %q", c.rows, got, c.want)
		}
	}
}

// TestWhoMustNotHaveWhat: what holds an allergen, and what may, is named in the words of the
// list, and by the table's where it is not on it.
func TestWhoMustNotHaveWhat(t *testing.T) {
	p := specimen()
	p.People[0].Rules = []ration.RuleNote{{Text: "no fish", Apart: &ration.Apart{Allergen: "fish", Holds: []string{"tuna, canned, drained", "eel"}, MayHold: []string{"sugar, white"}}}}
	if got, want := Of(p).Apart, []string{"Not for Maja  (fish). It is in: tuna; eel. It may be in: white sugar. Keep these apart."}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	for want, in := range map[string]ration.Apart{"Not for Odd (soy). It is in: a. Keep these apart.": {Allergen: "soy", Holds: []string{"a"}}, "Not for Odd (soy). It may be in: a. Keep these apart.": {Allergen: "soy", MayHold: []string{"a"}}} {
		if got := apart("Odd", &in, nil); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// TestListByHand: what a pack is, costs and weighs; how many the refused are; what is eaten
// stands in the order of the list, and of no days as of one.
func TestListByHand(t *testing.T) {
	p := specimen()
	p.Packs = []ration.PlanPack{{Pack: "rice-1kg-bag", Food: "rice", Group: "grains", Count: 7, FromStock: 2, NetG: 1000, Cost: 12.5, WeightKg: 7.2, VolumeL: 9}, {Pack: "salt-500g-bag", Food: "salt", Count: 1}}
	p.Days, p.People[0].Foods = 0, []ration.PersonFood{{Food: "salt", Grams: 3}, {Food: "own", Grams: 5}, {Food: "rice", Grams: 40}, {Food: "rice", Grams: 60}}
	v := Of(p)
	if got, want := v.Shopping[0].Foods[0].Packs[0], (Packs{Key: "rice-1kg-bag", Size: "1 kg bag", Buy: 5, Own: 2, NetG: 1000, Cost: 12.5, Kg: 7.2, Hands: true}); got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
	if got, want := v.People[0].Eats, []Portion{{"rice", 100}, {"salt", 3}, {"own", 5}}; !reflect.DeepEqual(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	if arne := v.People[1]; arne.Name != "Arne" || arne.Count != 1 || v.Heads != 3 {
		t.Errorf("%+v, %d heads", arne, v.Heads)
	}
}

// TestAdvisedWater: for one person and fourteen days the published advice, a US gallon a head
// a day (water.csv, FEMA and American Red Cross), is 14 × 3.785411784 = 53.0 L; where a plan
// counts that, or more, nothing is advised; where it counts less than several, the most of them is.
func TestAdvisedWater(t *testing.T) {
	for plan, advised := range map[float64]bool{0: true, 20: true, 30: true, 52.6: true, 52.8: false, 60: false} {
		p := &ration.Plan{Days: 14, People: []ration.PlanPerson{{Name: "Odd", Count: 1}}, Totals: &ration.Totals{WaterL: plan, WeightKg: 1, VolumeL: 2},
			Request: ration.Record(ration.Filled(&ration.Request{People: []nutrients.Person{{Name: "Odd", Sex: nutrients.Male, AgeMonths: 480, YearsOnly: true, Activity: nutrients.LowActive, Count: 1}}}))}
		w := water(p)
		if w.PlanL != plan || (w.AdviceL > 0) != advised || (w.Advice != "") != advised {
			t.Errorf("a plan of %g L: %+v, advised %v", plan, w, advised)
		}
		if advised && (math.Abs(w.AdviceL-14*3.785411784) > 1e-6 || !strings.HasSuffix(w.Advice, ", 3.79 L a head a day")) {
			t.Errorf("%+v", w)
		}
	}
	if w := water(&ration.Plan{}); w != nil {
		t.Errorf("no totals: %+v", w)
	}
}
