package foods

import (
	"math"
	"testing"

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
// of a child of two 710 mL (AAP), here 1 g each; a man has what the table says.
func TestPublishedDay(t *testing.T) {
	juice := &Food{OccasionG: 1000, DayG: 2000, Tags: []string{TagJuice}}
	plain := &Food{OccasionG: 1000, DayG: 2000}
	for _, c := range []struct {
		food          *Food
		months        int
		sitting, dayG float64
	}{{juice, 24, 120, 120}, {juice, 108, 240, 240}, {juice, 480, 1000, 2000}, {plain, 24, 350, 700}} {
		if sitting, day, _ := Cap(&nutrients.Person{AgeMonths: c.months}, c.food); math.Abs(sitting-c.sitting) > 1e-9 || math.Abs(day-c.dayG) > 1e-9 {
			t.Errorf("%v at %d months: %g g at a sitting, %g g a day, want %g and %g", c.food.Tags, c.months, sitting, day, c.sitting, c.dayG)
		}
	}
}
