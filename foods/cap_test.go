package foods

import (
	"math"
	"strings"
	"testing"

	"rationwright/foods/kinds"
	"rationwright/nutrients"
)

// Child amounts as a share of the adult cap: testdata/reference/cooking_absurd.csv, RULE:
// portion scale: 1-3 y 0.35, 4-8 y 0.6, 9-13 y 0.8, 14 and over 1 (common
// practice, no source).
func TestPortionScale(t *testing.T) {
	f := &Food{OccasionG: 100, DayG: 250, CapSource: "test"}
	for _, test := range []struct {
		months int
		share  float64
	}{
		{12, 0.35}, {47, 0.35}, {48, 0.6}, {107, 0.6}, {108, 0.8}, {167, 0.8}, {168, 1}, {1200, 1},
	} {
		p := person(months(test.months))
		occasion, day, why := Cap(&p, f)
		if math.Abs(occasion-100*test.share) > 1e-9 || math.Abs(day-250*test.share) > 1e-9 {
			t.Errorf("at %d months Cap = %g, %g, want %g times 100 and 250", test.months, occasion, day, test.share)
		}
		if why.Text == "" || why.Source == "" {
			t.Errorf("at %d months the cap has no source", test.months)
		}
	}
}

func TestCapOfFeeds(t *testing.T) {
	tab := load(t)
	powder, ready := food(t, tab, "C0001"), food(t, tab, "C0003")
	// infant_feeding.csv: volume per feed up to 120 mL at 0-1 months and 240 mL
	// from 6 months (AAP), at most 946 mL a day (AAP, 32 fl oz); powder 13.2 g per
	// 100 mL of ready feed (computed from the USDA median of soy powders).
	for _, test := range []struct {
		months        int
		f             *Food
		occasion, day float64
	}{
		{1, powder, 120 * 0.132, 946 * 0.132},
		{7, powder, 240 * 0.132, 946 * 0.132},
		{3, ready, 150, 946},
		{7, ready, 240, 946},
	} {
		p := person(months(test.months), fed("formula"))
		occasion, day, _ := Cap(&p, test.f)
		if math.Abs(occasion-test.occasion) > 0.01 || math.Abs(day-test.day) > 0.01 {
			t.Errorf("at %d months Cap(%s) = %.2f, %.2f g, want %.2f, %.2f", test.months, test.f.Name, occasion, day, test.occasion, test.day)
		}
	}
}

// WHO/UNICEF complementary feeding guidance: up to half a cup (125 mL) a meal,
// 2 to 3 meals and 1 to 2 snacks at 7 and 8 months. Dry cereal takes 450 mL
// water per 100 g (preparation.csv, baby_cereal_dry).
func TestCapOfInfantFood(t *testing.T) {
	tab := load(t)
	p := person(months(8), fed("formula"))
	jar, cereal := food(t, tab, "03116"), food(t, tab, "03194")
	if occasion, day, _ := Cap(&p, jar); math.Abs(occasion-125) > 1e-9 || math.Abs(day-340) > 1e-9 {
		t.Errorf("Cap(applesauce) = %g, %g, want 125 and 340 g", occasion, day)
	}
	if occasion, _, _ := Cap(&p, cereal); math.Abs(occasion-125/5.5) > 1e-9 {
		t.Errorf("Cap(cereal) = %g g dry, want %g", occasion, 125/5.5)
	}
	toddler := person(months(20))
	if occasion, _, _ := Cap(&toddler, jar); math.Abs(occasion-170) > 1e-9 {
		t.Errorf("a toddler's Cap(applesauce) = %g, want the jar's own 170 g", occasion)
	}
}

func TestCapWithoutDay(t *testing.T) {
	p := person()
	if occasion, day, _ := Cap(&p, &Food{OccasionG: 60}); occasion != 60 || day != 120 {
		t.Errorf("Cap without a day = %g, %g, want 60 and two sittings", occasion, day)
	}
	// Half a gram is an amount; and who may eat 50 g in a day may do so at once.
	if occasion, day, _ := Cap(&p, &Food{OccasionG: 0.5, DayG: 0.8}); occasion != 0.5 || day != 0.8 {
		t.Errorf("Cap of a spice = %g, %g, want 0.5 and 0.8", occasion, day)
	}
	if occasion, day, _ := Cap(&p, &Food{DayG: 50}); occasion != 50 || day != 50 {
		t.Errorf("Cap without a sitting = %g, %g, want 50 twice", occasion, day)
	}
	if occasion, day, _ := Cap(&p, &Food{}); occasion != 0 || day != 0 {
		t.Errorf("Cap without figures = %g, %g, want 0", occasion, day)
	}
}

// Every food of the table that somebody may eat has a cap.
func TestEveryFoodHasACap(t *testing.T) {
	tab := load(t)
	for _, p := range []nutrients.Person{person(), person(months(15)), person(months(8), fed("mixed")), person(months(2), fed("mixed"))} {
		for _, f := range tab.Foods {
			if ok, _ := Eligible(p, nil, f); !ok {
				continue
			}
			occasion, day, _ := Cap(&p, f)
			if occasion <= 0 || day < occasion-1e-9 {
				t.Errorf("Cap(%d months, %s) = %g, %g", p.AgeMonths, f.Name, occasion, day)
			}
		}
	}
}

func TestWindowG(t *testing.T) {
	p := person()
	for _, test := range []struct {
		hours float64
		want  float64
	}{
		{0, 100}, {2, 100}, {5.9, 100}, // one sitting under 6 h
		{6, 250}, {12, 250}, {24, 250}, {47, 250}, // a day's cap up to two whole days
		{48, 500}, {71, 500}, {72, 750}, {168, 1750}, // cap × whole days
		{336, 3500}, {8760, 3500}, // at most 14 days
	} {
		f := &Food{OccasionG: 100, DayG: 250, Keeping: &Keeping{AfterOpenHours: test.hours}}
		if got := WindowG(&p, f, 14); math.Abs(got-test.want) > 1e-9 {
			t.Errorf("WindowG(%g h) = %g g, want %g", test.hours, got, test.want)
		}
	}
	if got := WindowG(&p, &Food{OccasionG: 100, DayG: 250}, 14); got != 100 {
		t.Errorf("WindowG without a keeping time = %g, want one sitting", got)
	}
}

// groupCap returns the cap of p called name.
func groupCap(t *testing.T, p nutrients.Person, name string) *GroupCap {
	t.Helper()
	caps := GroupCaps(&p)
	for i := range caps {
		if caps[i].Name == name {
			return &caps[i]
		}
	}
	return nil
}

// The most grams of one food alone that a cap leaves in a week.
func weekOf(c *GroupCap, f *Food) float64 { return 7 * c.PerDay / c.Coefficient(f) }

func TestGroupCaps(t *testing.T) {
	tab := load(t)
	albacore := &Food{Mercury: "good"}
	light := food(t, tab, "15121")
	juice := food(t, tab, "09207")
	wholeMilk, dryMilk := food(t, tab, "01077"), food(t, tab, "01092")
	oil, sugar := food(t, tab, "04044"), food(t, tab, "19335")
	coffee := food(t, tab, "14214")
	const oz = 28.349523125
	for _, test := range []struct {
		cap    string
		p      nutrients.Person
		f      *Food
		week   float64 // g a week; 0: there is no such cap
		source string
	}{
		// Fish ounces are before cooking; 4 oz raw is about 3 oz canned.
		{"fish, counted by its mercury,", person(in("pregnant-2")), light, 12 * oz * 0.75, "EPA and FDA: 12 oz of best choices a week"},
		{"fish, counted by its mercury,", person(in("pregnant-2")), albacore, 4 * oz * 0.75, "EPA and FDA: 4 oz of a good choice a week; special.csv at most 113 g"},
		{"fish, counted by its mercury,", person(months(30)), light, 2 * oz * 0.75, "EPA and FDA: 2 × 1 oz, 1 to 3 years"},
		{"fish, counted by its mercury,", person(months(60)), light, 4 * oz * 0.75, "EPA and FDA: 2 × 2 oz, 4 to 7 years"},
		{"fish, counted by its mercury,", person(months(100)), light, 6 * oz * 0.75, "EPA and FDA: 2 × 3 oz, 8 to 10 years"},
		{"fruit juice", person(months(12)), juice, 7 * 120, "AAP 2017: 4 fl oz, 1 to 3 years"},
		{"fruit juice", person(months(48)), juice, 7 * 180, "AAP 2017: 4 to 6 years"},
		{"fruit juice", person(months(84)), juice, 7 * 240, "AAP 2017: 7 years and over"},
		{"fruit juice", person(), juice, 0, "AAP 2017 is about children"},
		// 0.41 cup-eq of 236.6 mL in 100 g.
		{"milk", person(months(12)), wholeMilk, 7 * 710 / (0.41 * 236.588 / 100), "AAP: 24 fl oz"},
		{"milk", person(), wholeMilk, 0, "toddlers only"},
		{"oil and fat as such", person(), oil, 7 * 45, "cooking_absurd RULE: no bare fat 45 g"},
		{"oil and fat as such", person(months(60)), oil, 7 * 45 * 0.6, "and RULE: portion scale"},
		{"sugar and jam as such", person(), sugar, 7 * 60, "cooking_absurd RULE: no bare sugar 60 g"},
		{"caffeine", person(in("pregnant-1")), coffee, 7 * 200 / 30.0, "ACOG 462: 200 mg; 30 mg a gram"},
		{"caffeine", person(in("lactating-1")), coffee, 7 * 300 / 30.0, "CDC: 300 mg"},
		{"lactose", person(with("lactose")), dryMilk, 7 * 12 / 0.5219, "NIH 2010: 12 g a dose; 52.19 g in 100 g"},
		{"lactose", person(), dryMilk, 0, "only with the condition"},
	} {
		c := groupCap(t, test.p, test.cap)
		if test.week == 0 {
			if c != nil {
				t.Errorf("%s at %d months: a cap of %g %s, want none (%s)", test.cap, test.p.AgeMonths, c.PerDay, c.Unit, test.source)
			}
			continue
		}
		if c == nil {
			t.Errorf("no cap %s at %d months (%s)", test.cap, test.p.AgeMonths, test.source)
			continue
		}
		if got := weekOf(c, test.f); math.Abs(got-test.week) > 0.002*test.week {
			t.Errorf("%s at %d months: %.1f g a week, want %.1f (%s)", test.cap, test.p.AgeMonths, got, test.week, test.source)
		}
		if c.Text == "" || c.Source == "" || c.Verified == "" || c.Unit == "" {
			t.Errorf("%s: %+v lacks text, source or unit", test.cap, c.Reason)
		}
	}
}

// One serving of a good choice and no other fish (EPA and FDA): the cap is met
// exactly with albacore alone and broken by any fish beside it.
func TestGoodChoiceLeavesNoRoom(t *testing.T) {
	p := person(in("lactating-1"))
	c := groupCap(t, p, "fish, counted by its mercury,")
	good, best := &Food{Mercury: "good"}, &Food{Mercury: "best"}
	serving := 4 * gPerOz * 0.75 / 7
	used := c.Coefficient(good) * serving
	if math.Abs(used-c.PerDay) > 0.001*c.PerDay {
		t.Errorf("one serving uses %.2f of %.2f", used, c.PerDay)
	}
	if used+c.Coefficient(best)*10 <= c.PerDay {
		t.Error("10 g of other fish a day fit beside it")
	}
}

func TestLactoseAtMost(t *testing.T) {
	milky := Food{Allergens: []string{"milk"}, Per100g: nutrients.Unknown()}
	for _, test := range []struct {
		name   string
		change func(*Food)
		want   float64
	}{
		{"figure", func(f *Food) { f.LactoseG, f.HasLactose = 3, true }, 3},
		{"no milk", func(f *Food) { f.Allergens = nil }, 0},
		{"sugars bound it", func(f *Food) { f.Per100g[nutrients.Sugars] = 9 }, 9},
		{"else carbohydrate", func(f *Food) { f.Per100g[nutrients.Carbohydrate] = 40 }, 40},
		{"else all", func(*Food) {}, 100},
	} {
		f := milky
		test.change(&f)
		if got := f.LactoseAtMost(); got != test.want {
			t.Errorf("%s: %g, want %g", test.name, got, test.want)
		}
	}
}

// TestPublishedDay: of a food that counts in a published amount of a day nobody has more at
// a sitting or in a day: fruit juice of a child of two 120 mL, of nine 240 mL (AAP 2017), milk
// of a child of two 710 mL (AAP), here 1 g each, or 0.41 cups of 236.588 mL in 100 g; of 12 to 23
// months 480 mL of one milk (Dietary Guidelines 2020-2025, toddler pattern, in infant_feeding.csv)
// and no part of what a grown person has, though at most as much; caffeine 200 mg in pregnancy
// (ACOG 462), 400 mg else (FDA), at 30 mg a gram of instant coffee and 2.5 of cocoa; lactose 12 g where it is not digested (NIH 2010); a man has what the table says.
// The portion scale at two is 0.35, at nine 0.8 (common practice, no source).
func TestPublishedDay(t *testing.T) {
	juice := Food{OccasionG: 1000, DayG: 2000, Tags: []string{TagJuice}}
	plain := Food{OccasionG: 1000, DayG: 2000, CapSource: "test"}
	milk := Food{OccasionG: 1000, DayG: 3000, Tags: []string{TagDairyDrink}, Serves: []Serving{{"dairy", 0.41}}}
	little := Food{OccasionG: 100, DayG: 200, Tags: []string{TagDairyDrink}, Serves: []Serving{{"dairy", 0.41}}}
	noMilk := Food{OccasionG: 1000, DayG: 3000, Tags: []string{TagDairyDrink}}
	coffee := Food{OccasionG: 1000, DayG: 2000, Tags: []string{TagCaffeine}, Form: "coffee_instant"}
	cocoa := Food{OccasionG: 1000, DayG: 2000, Tags: []string{TagCaffeine}, Form: "cocoa_powder"}
	cream := Food{OccasionG: 1000, DayG: 2000, Allergens: []string{"milk"}, LactoseG: 4, HasLactose: true}
	unknown := Food{OccasionG: 1000, DayG: 2000, Allergens: []string{"milk"}, Per100g: nutrients.Unknown()}
	lactose := with(nutrients.Lactose)
	for _, c := range []struct {
		name          string
		food          Food
		p             nutrients.Person
		sitting, dayG float64
		rule          string
	}{
		{"juice at two", juice, person(months(24)), 120, 120, "juice-day"},
		{"juice at nine", juice, person(months(108)), 240, 240, "juice-day"},
		{"juice of a man", juice, person(months(480)), 1000, 2000, ""},
		{"a food at two", plain, person(months(24)), 350, 700, "portion-scale"},
		{"a food at nine", plain, person(months(108)), 800, 1600, "portion-scale"},
		{"a food at fourteen", plain, person(months(168)), 1000, 2000, ""},
		{"milk at twelve months", milk, person(months(12)), 350, 480 / (0.0041 * 236.588), "milk-usual"},
		{"milk at 23 months", milk, person(months(23)), 350, 480 / (0.0041 * 236.588), "milk-usual"},
		{"milk of which a man has less", little, person(months(23)), 35, 200, "milk-usual"},
		{"a drink that is no milk, at 23 months", noMilk, person(months(23)), 350, 1050, "portion-scale"},
		{"milk at two", milk, person(months(24)), 350, 710 / (0.0041 * 236.588), "milk-day"},
		{"milk at four", milk, person(months(48)), 600, 1800, "portion-scale"},
		{"coffee", coffee, person(), 400 / 30.0, 400 / 30.0, "caffeine-day"},
		{"coffee in pregnancy", coffee, person(in("pregnant-1")), 200 / 30.0, 200 / 30.0, "caffeine-day"},
		{"cocoa", cocoa, person(), 160, 160, "caffeine-day"},
		{"cocoa in pregnancy", cocoa, person(in("pregnant-1")), 80, 80, "caffeine-day"},
		// A girl of 15 who is pregnant has what the AAP lets her age have, 100 mg.
		{"cocoa in pregnancy at 15", cocoa, person(months(180), in("pregnant-1")), 40, 40, "caffeine-day"},
		{"milk sugar not digested", cream, person(lactose), 300, 300, "lactose-day"},
		{"milk sugar not digested and not known", unknown, person(lactose), 12, 12, "lactose-day"},
		{"milk sugar", cream, person(), 1000, 2000, ""},
		{"no milk", plain, person(lactose), 1000, 2000, ""},
	} {
		sitting, day, why := Cap(&c.p, &c.food)
		if math.Abs(sitting-c.sitting) > 0.001 || math.Abs(day-c.dayG) > 0.001 || why.Rule != c.rule {
			t.Errorf("%s: %g g at a sitting, %g g a day by %q, want %g and %g by %q", c.name, sitting, day, why.Rule, c.sitting, c.dayG, c.rule)
		}
	}
}

// Each food with caffeine counts by its form: instant coffee and tea 30 mg a gram,
// unsweetened cocoa 2.5, chocolate 0.8, anything else with the tag 0.2 (usual tables, on
// the safe side; caps.csv says how each is known), and nothing without the tag.
func TestCaffeineByForm(t *testing.T) {
	p := person()
	c := groupCap(t, p, "caffeine")
	for form, mg := range map[string]float64{"coffee_instant": 30, "tea_bags": 30, "cocoa_powder": 2.5, "chocolate": 0.8, "cookies": 0.2} {
		f := &Food{Form: form, Tags: []string{TagCaffeine}}
		if got := c.Coefficient(f); got != mg {
			t.Errorf("%s: %g mg a gram, want %g", form, got, mg)
		}
		if got := f.Counts(kinds.MgCaffeine); got != mg {
			t.Errorf("%s counts %g mg a gram, want %g", form, got, mg)
		}
		f.Tags = nil
		if got := c.Coefficient(f); got != 0 {
			t.Errorf("%s without caffeine: %g mg a gram", form, got)
		}
	}
}

// What a cap is not about is not counted in it: bread is in none of them; what holds
// dairy and is no drink is no milk; human milk and infant formula are no complementary food.
func TestNotCounted(t *testing.T) {
	bread := &Food{Form: "crackers", HasLactose: true}
	yogurt := &Food{Serves: []Serving{{"dairy", 0.4}}, HasLactose: true}
	for _, p := range []nutrients.Person{person(with(nutrients.Lactose)), person(months(30)), person(months(60))} {
		for _, c := range GroupCaps(&p) {
			if c.Coefficient(bread) != 0 || c.Coefficient(yogurt) != 0 {
				t.Errorf("%s at %d months: bread counts %g, yogurt %g", c.Name, p.AgeMonths, c.Coefficient(bread), c.Coefficient(yogurt))
			}
		}
	}
	// Fish that the advice keeps from everybody fills no cap: it is not eaten at all.
	p := person()
	if got := groupCap(t, p, "fish, counted by its mercury,").Coefficient(&Food{Mercury: "avoid"}); got != 0 {
		t.Errorf("fish to avoid counts %g", got)
	}
	for _, form := range []string{"oil_vegetable", "shortening", "ghee"} {
		if groupCap(t, p, "oil and fat as such").Coefficient(&Food{Form: form}) != 1 {
			t.Errorf("%s is no bare fat", form)
		}
	}
	for _, form := range []string{"sugar_white", "honey", "syrup", "jam_jelly"} {
		if groupCap(t, p, "sugar and jam as such").Coefficient(&Food{Form: form}) != 1 {
			t.Errorf("%s is no bare sugar", form)
		}
	}
	// A child of three gets no good-choice fish: an ounce of it, 3/4 oz canned, fills the week.
	fish := groupCap(t, person(months(40)), "fish, counted by its mercury,")
	if used := fish.Coefficient(&Food{Mercury: "good"}) * gPerOz * 0.75; math.Abs(used-7*fish.PerDay) > 0.001*used {
		t.Errorf("an ounce of good-choice fish uses %.1f of %.1f g of a child's week", used, 7*fish.PerDay)
	}
}

// Complementary food of an infant: half a cup (125 mL) a meal, 3 meals at 6 months, 3 and
// 2 snacks at 7 and 8, 4 and 2 from 9 (WHO/UNICEF), the water of dry food included, the
// feeds apart; none under 6 months.
func TestComplementaryFood(t *testing.T) {
	dry := &Food{OccasionG: 500, DayG: 5000, Preparation: &Preparation{EatenML: 150}}
	wet := &Food{OccasionG: 500, DayG: 5000}
	for _, test := range []struct {
		months int
		meals  float64
		text   string
	}{
		{5, 0, ""}, {6, 3, ", 3 times a day at most"}, {7, 5, ", 5 times a day at most"}, {8, 5, ", 5 times a day at most"},
		{9, 6, ", 6 times a day at most"}, {11, 6, ", 6 times a day at most"}, {12, 0, ""},
	} {
		p := person(months(test.months), fed("formula"))
		c := groupCap(t, p, "complementary food")
		if test.meals == 0 {
			if c != nil {
				t.Errorf("at %d months: a cap of %g", test.months, c.PerDay)
			}
			continue
		}
		if c == nil || c.PerDay != 125*test.meals || !strings.HasSuffix(c.Text, test.text) {
			t.Errorf("at %d months: %+v, want %g g%s", test.months, c, 125*test.meals, test.text)
			continue
		}
		if w, d, feed := c.Coefficient(wet), c.Coefficient(dry), c.Coefficient(&Food{Tags: []string{TagInfantFormula}}); w != 1 || d != 2.5 || feed != 0 {
			t.Errorf("at %d months a gram counts %g, dry %g, of formula %g, want 1, 2.5 and 0", test.months, w, d, feed)
		}
		for _, f := range []*Food{wet, dry} {
			g := 125 / c.Coefficient(f)
			if sitting, day, why := Cap(&p, f); math.Abs(sitting-g) > 1e-9 || math.Abs(day-g*test.meals) > 1e-9 || why.Rule != "infant-meal" {
				t.Errorf("at %d months Cap = %g, %g by %q, want %g and %g", test.months, sitting, day, why.Rule, g, g*test.meals)
			}
		}
	}
	young := person(months(5), fed("formula"))
	if sitting, day, why := Cap(&young, wet); sitting != 0 || day != 0 || why.Text != "" {
		t.Errorf("at 5 months Cap = %g, %g, want no food", sitting, day)
	}
	adult := person()
	if sitting, day, why := Cap(&adult, &Food{Tags: []string{TagInfantFormula}, OccasionG: 100, DayG: 100}); sitting != 0 || day != 0 || why.Text != "" {
		t.Errorf("an adult's Cap of formula = %g, %g, want none", sitting, day)
	}
}
