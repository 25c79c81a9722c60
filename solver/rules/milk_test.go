package rules

import (
	"math"
	"rationwright/solver/ration"
	"slices"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
)

// milk is a food of an infant made for a test.
func milk(name, tag string, kcal float64, allergens ...string) *foods.Food {
	f := food(name, map[nutrients.Nutrient]float64{nutrients.Energy: kcal})
	f.Tags, f.Allergens = []string{tag}, allergens
	return f
}

// TestFeedByEnergy: formula made up as usual has 67 kcal per 100 mL, so that a gram of
// powder at 524 kcal per 100 g makes 7.82 mL; human milk is 30.8 g to the US fluid ounce
// of 29.57 mL.
func TestFeedByEnergy(t *testing.T) {
	powder, human := milk("powder", foods.TagInfantFormula, 524, "milk"), milk("human", foods.TagHumanMilk, 70)
	if got := ReadyMLPerGram(powder); math.Abs(got-5.24/0.67) > 1e-9 {
		t.Errorf("a gram of powder makes %g mL, want %g", got, 5.24/0.67)
	}
	if got := ReadyMLPerGram(human); math.Abs(got-29.5735295625/30.8) > 1e-9 {
		t.Errorf("a gram of human milk is %g mL, want %g", got, 29.5735295625/30.8)
	}
	formula := &nutrients.Needs{Feed: &nutrients.Feed{FormulaML: most(670), SpareFactor: 1.1}}
	mixed := &nutrients.Needs{Feed: &nutrients.Feed{FormulaML: most(335), HumanMilkML: most(295.735295625), SpareFactor: 1.1}}
	for _, c := range []struct {
		name  string
		needs *nutrients.Needs
		food  *foods.Food
		feed  bool
		grams float64 // in 14 days
		spare float64
	}{
		{"formula alone", formula, powder, true, 14 * 670 / (5.24 / 0.67), 1.1}, {"formula alone, human milk", formula, human, false, 0, 1},
		{"both, powder", mixed, powder, true, 14 * 335 / (5.24 / 0.67), 1.1}, {"both, human milk", mixed, human, true, 14 * 308, 1},
		{"no infant", &nutrients.Needs{}, powder, false, 0, 1}, {"rice", formula, food("rice", nil), false, 0, 1},
	} {
		if got := IsFeed(c.needs, c.food); got != c.feed {
			t.Errorf("%s: fed %v", c.name, got)
		}
		if got := SpareFactor(c.needs, c.food); got != c.spare {
			t.Errorf("%s: bought %g times, want %g", c.name, got, c.spare)
		}
		if c.feed {
			if got := feedG(c.needs, c.food, 14); math.Abs(got-c.grams) > 1e-6 {
				t.Errorf("%s: %g g, want %g", c.name, got, c.grams)
			}
		}
	}
	powder.Preparation = &foods.Preparation{WaterML: 640}
	if !IsPowder(powder) || IsPowder(human) || IsPowder(milk("ready", foods.TagInfantFormula, 67)) {
		t.Error("what is a powder and what is ready to feed is mixed up")
	}
}

// TestMilkIsKept: of an infant's milk the kind that is planned is fed; an exclusion that
// would leave none does not hold, first for milk that nobody of the house is harmed by.
func TestMilkIsKept(t *testing.T) {
	cow, soy := milk("cow", foods.TagInfantFormula, 500, "milk"), milk("soy", foods.TagInfantFormula, 500, "soy")
	human := milk("human", foods.TagHumanMilk, 70)
	house := []nutrients.Person{{Name: "Liv"}, {Name: "Ylva", Allergies: []nutrients.Allergy{{Allergen: "milk", Level: nutrients.AllergyHousehold}}}}
	const other = "formula of another kind is planned"
	for _, c := range []struct {
		name            string
		soy             bool
		house           []nutrients.Person
		cow, soyF, want [2]string // lock before, and after of cow and soy in want
		kept            string
	}{
		{"both open", false, nil, [2]string{}, [2]string{}, [2]string{"", other}, ""},
		{"soy is planned", true, nil, [2]string{}, [2]string{}, [2]string{other, ""}, ""},
		{"cow's is left out", false, nil, [2]string{"without milk"}, [2]string{}, [2]string{"without milk", ""}, ""},
		{"both left out", false, nil, [2]string{"without milk"}, [2]string{"without soy"}, [2]string{"", ""}, "without milk"},
		{"both left out, milk harms the house", false, house, [2]string{"allergy"}, [2]string{"without soy"}, [2]string{"allergy", ""}, ""},
	} {
		needs := &nutrients.Needs{Feed: &nutrients.Feed{Soy: c.soy}}
		list := []Appetite{{Food: cow, Lock: c.cow[0]}, {Food: soy, Lock: c.soyF[0]}, {Food: human}, {Food: food("rice", nil), Lock: "without rice"}}
		keepMilk(needs, c.house, list)
		if list[0].Lock != c.want[0] || list[1].Lock != c.want[1] || list[0].Kept != c.kept || list[3].Lock != "without rice" {
			t.Errorf("%s: cow %q kept in spite of %q, soy %q, want %q, %q", c.name, list[0].Lock, list[0].Kept, list[1].Lock, c.want, c.kept)
		}
	}
	list := []Appetite{{Food: cow, Lock: "without milk"}}
	keepMilk(&nutrients.Needs{}, nil, list)
	if list[0].Lock == "" {
		t.Error("milk is kept where no infant is fed")
	}
}

// TestNotesByFigures: what is told of fluid, of an upper level and of iron is what the food
// gives: by hand from 1400 g in 14 days, 100 g a day.
func TestNotesByFigures(t *testing.T) {
	juice := food("juice", map[nutrients.Nutrient]float64{nutrients.Water: 90, nutrients.Iron: 3, nutrients.Zinc: 2})
	juice.Tags = []string{foods.TagJuice}
	formula := milk("formula", foods.TagInfantFormula, 500)
	formula.Per100g[nutrients.Iron], formula.Per100g[nutrients.Zinc] = 8, 4
	eaten := []Portion{{juice, 1400}, {formula, 1400}}
	water := &nutrients.WaterNeed{Most: &nutrients.Limit{Amount: 1.2, Source: "M"}, Drinks: &nutrients.Limit{Amount: 1, Source: "D"}}
	if got := Fluid(water, eaten, 1.5, 14); !strings.Contains(got.Text, "Fluid: 1.59 L a day, which is 1.50 L of water to drink and 0.09 L in milk") || got.Source != "M" {
		t.Errorf("%+v", got)
	}
	water.Most = nil
	if got := Fluid(water, eaten, 1.5, 14); got.Source != "D" {
		t.Errorf("the source is %q", got.Source)
	}
	for upper, told := range map[float64]bool{5.9: true, 6: false, 6.1: false} { // zinc: 2 + 4 mg a day
		needs := &nutrients.Needs{List: []nutrients.Need{{Nutrient: nutrients.Zinc, Upper: most(upper)}, {Nutrient: nutrients.Iron}}}
		got := OverUpper(needs, eaten, 14)
		if (len(got) == 1) != told || told && !strings.HasPrefix(got[0].Text, "Zinc: 6 mg a day, over the upper level of 5.9") {
			t.Errorf("an upper level of %g: %+v", upper, got)
		}
	}
	needs := &nutrients.Needs{Feed: &nutrients.Feed{}, List: []nutrients.Need{{Nutrient: nutrients.Iron, Upper: most(40)}}}
	got := InfantIron(needs, eaten, 14)
	if len(got) != 1 || !strings.HasPrefix(got[0].Text, "Iron: 11 mg a day, 8 of it from the milk and 3 from fortified cereal and other food; the upper level is 40.") {
		t.Errorf("%+v", got)
	}
	needs.Feed.Only = true
	if got := InfantIron(needs, eaten, 14); got != nil {
		t.Errorf("of one who is fed milk alone: %+v", got)
	}
}

// TestMilkOfTwoKinds: what is left out already stays so in its own words where another kind is
// planned; and of two milks of one sort that are both left out only what harms nobody of the house
// is let in again. An iron-rich food is one of those that give a serving.
func TestMilkOfTwoKinds(t *testing.T) {
	cow, soy := milk("cow", foods.TagInfantFormula, 500, "milk"), milk("soy", foods.TagInfantFormula, 500, "soy")
	human, rice := milk("human", foods.TagHumanMilk, 70), food("rice", nil)
	house := []nutrients.Person{{Name: "Ylva", Allergies: []nutrients.Allergy{{Allergen: "milk", Level: nutrients.AllergyHousehold}, {Allergen: "soy", Level: nutrients.AllergyStrict}}}}
	for _, c := range []struct {
		name  string
		house []nutrients.Person
		list  []Appetite
		want  []string
	}{
		{"soy is left out, cow's is planned", nil, []Appetite{{Food: cow}, {Food: soy, Lock: "without soy"}}, []string{"", "without soy"}},
		{"all left out, of both sorts", house, []Appetite{{Food: cow, Lock: "a"}, {Food: human, Lock: "b"}, {Food: rice, Lock: "c"}}, []string{"", "", "c"}},
		{"cow's with oil of soy is of milk", nil, []Appetite{{Food: milk("oil", foods.TagInfantFormula, 500, "milk", "soy")}, {Food: soy}}, []string{"", "formula of another kind is planned"}},
		{"cow's is left out, a mother's is there", house, []Appetite{{Food: cow, Lock: "a"}, {Food: human}}, []string{"", ""}},
		{"cow's and soy are left out", house, []Appetite{{Food: cow, Lock: "a"}, {Food: soy, Lock: "b"}, {Food: human, Lock: "c"}}, []string{"a", "", ""}},
	} {
		keepMilk(&nutrients.Needs{Feed: &nutrients.Feed{}}, c.house, c.list)
		for i, a := range c.list {
			if a.Lock != c.want[i] {
				t.Errorf("%s: %s is left out by %q, want %q", c.name, a.Food.Name, a.Lock, c.want[i])
			}
		}
	}
	liv := &nutrients.Person{AgeMonths: 8}
	cereal := food("cereal", nil)
	cereal.Form = "baby_cereal_dry"
	if AnyIronFood(liv, []*foods.Food{rice, human}) || !AnyIronFood(liv, []*foods.Food{rice, cereal}) || AnyIronFood(liv, nil) {
		t.Error("whether there is an iron-rich food")
	}
}

// TestNotesOfNeeds: what a person's notes say by the figures of the needs, each with its source.
func TestNotesOfNeeds(t *testing.T) {
	of := func(v float64, note string) *nutrients.Limit {
		return &nutrients.Limit{Amount: v, Source: "S", Verified: "from memory", Note: note}
	}
	f := food("f", map[nutrients.Nutrient]float64{nutrients.Iron: 3, nutrients.Sodium: 100, nutrients.VitaminK: 20})
	eaten := []Portion{{f, 1400}} // 100 g a day
	needs := &nutrients.Needs{Feed: &nutrients.Feed{}, List: []nutrients.Need{{Nutrient: nutrients.Zinc, Ceiling: of(5, "")}, {Nutrient: nutrients.Iron, Upper: of(40, ""), Ceiling: of(50, "")}}}
	if got := InfantIron(needs, eaten, 14); len(got) != 1 || !strings.Contains(got[0].Text, "the upper level is 40.") || got[0].Source != "S (from memory)" {
		t.Errorf("iron: %+v", got)
	}
	needs.List[1].Upper = nil
	if got := InfantIron(needs, eaten, 14); len(got) != 1 || !strings.Contains(got[0].Text, "the upper level is 50.") {
		t.Errorf("iron of a ceiling: %+v", got)
	}
	needs.List[1].Ceiling = nil
	if got := InfantIron(needs, eaten, 14); got != nil {
		t.Errorf("iron of no level: %+v", got)
	}
	if got := InfantIron(&nutrients.Needs{List: []nutrients.Need{{Nutrient: nutrients.Iron, Upper: of(40, "")}}}, eaten, 14); got != nil {
		t.Errorf("iron of somebody grown: %+v", got)
	}
	// 210 g in three meals of at most 60 and two snacks of 15: 60 each.
	band := &nutrients.MealBand{Low: of(45, ""), High: of(60, ""), Enforced: true, Meals: 3, Snacks: 2, SnackG: 15, SnackHighG: 30}
	if got, want := *MealRange(band, 210), (ration.MealRange{MeanG: 60, LowG: 45, HighG: 60, Meals: 3, Snacks: 2, SnackG: 15, Enforced: true, Source: "S (from memory)"}); got != want {
		t.Errorf("meals %+v, want %+v", got, want)
	}
	rule := of(9, "by the household")
	rule.Kind = "rule"
	got := Adjusted(&nutrients.Needs{List: []nutrients.Need{
		{Nutrient: nutrients.Iron, Floor: of(14.4, "times 1.8 without meat."), Ceiling: of(45, "why")}, {Nutrient: nutrients.Zinc, Floor: of(8, ""), Ceiling: rule},
		{Nutrient: nutrients.Calcium, Shown: true, Floor: of(1, "shown")}, {Nutrient: nutrients.Energy, Floor: of(2000, "said elsewhere")}, {Nutrient: nutrients.Copper},
	}})
	want := []ration.RuleNote{{Text: "iron at least 14.4 mg: times 1.8 without meat.", Source: "S (from memory)"}, {Text: "iron at most 45 mg: why.", Source: "S (from memory)"}}
	if !slices.Equal(got, want) {
		t.Errorf("adjusted: %+v, want %+v", got, want)
	}
	wished := Wished(&nutrients.Person{Dislikes: []string{"peas"}, Rules: []nutrients.Rule{
		{Kind: nutrients.RuleNo, Food: "beans"}, {Kind: nutrients.RuleMost, Food: "oats", Low: 30}, {Kind: nutrients.RuleLeast, Food: "rice", Low: 5}, {Kind: nutrients.RuleFloor, Nutrient: nutrients.Iron, Low: 9},
	}})
	var texts []string
	for _, n := range wished {
		texts = append(texts, n.Text+" "+n.Source)
	}
	if want := []string{"Gets no peas: a dislike. household file, dislikes", "Own rule: no beans. household file, rules", "Own rule: most oats 30 g/day. household file, rules", "Own rule: least rice 5 g/day. household file, rules"}; !slices.Equal(texts, want) {
		t.Errorf("wished %q, want %q", texts, want)
	}
	// 100 mg of sodium a day.
	needs = &nutrients.Needs{Steady: []nutrients.Nutrient{nutrients.Sodium, nutrients.VitaminK}, List: []nutrients.Need{{Nutrient: nutrients.Iron, Ceiling: of(45, "")}, {Nutrient: nutrients.Sodium}}}
	for _, c := range []struct {
		top   *nutrients.Limit
		slack float64
		want  string
	}{
		{nil, 0, "Sodium: 100 mg a day; with --slack 0 nothing is spent on less, only the most is kept."},
		{of(1500, ""), 0.05, "Sodium: 100 mg a day, at most 1500; less was sought within the slack of 5 %. No salt is added."},
		{of(1500, ""), 0.5, "Sodium: 100 mg a day, at most 1500; less was sought within the slack of 50 %. No salt is added."},
	} {
		needs.List[1].Ceiling = c.top
		if got := Sodium(needs, eaten, 14, c.slack); got.Text != c.want {
			t.Errorf("%q, want %q", got.Text, c.want)
		}
	}
	steady := Steady(needs, append(eaten, Portion{food("g", map[nutrients.Nutrient]float64{nutrients.Sodium: 0}), 100}), 14)
	if len(steady) != 2 || !strings.HasPrefix(steady[0].Text, "Sodium: about 100 mg a day on average in this plan; spread") ||
		!strings.HasPrefix(steady[1].Text, "Vitamin K: about 20 µg a day on average in this plan, beside food without a figure for it; spread") {
		t.Errorf("steady: %+v", steady)
	}
}
