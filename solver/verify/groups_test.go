package verify

import (
	"math"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// told is what a check found, one limit a line, with whom it is about.
func told(c *checker) string {
	var lines []string
	for _, v := range c.found {
		lines = append(lines, strings.TrimPrefix(v.Person+": "+v.Limit, ": "))
	}
	return strings.Join(lines, "\n")
}

// TestGroupsAtTheirAmounts: foods that count together are held to the day's amount of caps.csv
// (fish to a seventh of the week's), from both sides: what is just the amount passes, a part in
// a thousand more does not. Grams a day by hand: fish in ounces of 28.349523125 g, an ounce
// before cooking is 1/1.3333 of one canned (EPA and FDA), one serving of a good choice is all of
// a week; juice AAP (2017), milk AAP, caffeine ACOG, CDC, FDA and AAP at 30 mg a gram of coffee.
func TestGroupsAtTheirAmounts(t *testing.T) {
	const ounce, raw = 28.349523125, 1.3333
	tag := func(tags ...string) *foods.Food { return food("food", func(f *foods.Food) { f.Tags = tags }) }
	form := func(form string, tags ...string) *foods.Food {
		return food("food", func(f *foods.Food) { f.Form, f.Tags = form, tags })
	}
	fish := func(choice string) *foods.Food { return food("food", func(f *foods.Food) { f.Mercury = choice }) }
	glass := food("food", func(f *foods.Food) { // 1 mL a gram
		f.Tags, f.Serves = []string{foods.TagDairyDrink}, []foods.Serving{{Group: "dairy", Per100g: 100 / 236.5882365}}
	})
	cheese := food("food", func(f *foods.Food) { f.Serves = []foods.Serving{{Group: "dairy", Per100g: 100}} })
	holds := func(change func(*foods.Food)) *foods.Food {
		return food("food", func(f *foods.Food) { f.Allergens = []string{"milk"}; change(f) })
	}
	lactose := []nutrients.Condition{nutrients.Lactose}
	none := math.Inf(1)
	for _, c := range []struct {
		name   string
		months int
		state  nutrients.State
		is     []nutrients.Condition
		food   *foods.Food
		group  string
		most   float64 // g a day
	}{
		{"fish at 5 months", 5, "", nil, fish("best"), "most fish", none},
		{"fish at 47 months", 47, "", nil, fish("best"), "most fish", 2 * ounce / raw / 7},
		{"fish at 48 months", 48, "", nil, fish("best"), "most fish", 4 * ounce / raw / 7},
		{"fish at 96 months", 96, "", nil, fish("best"), "most fish", 6 * ounce / raw / 7},
		{"fish at 131 months", 131, "", nil, fish("best"), "most fish", 6 * ounce / raw / 7},
		{"fish at 132 months", 132, "", nil, fish("best"), "most fish", 12 * ounce / raw / 7},
		{"a good choice", 400, "", nil, fish("good"), "most fish", 4 * ounce / raw / 7},
		{"no fish", 400, "", nil, fish(""), "most fish", none},
		{"juice at 11 months", 11, "", nil, tag(foods.TagJuice), "most fruit juice", none},
		{"juice at 12 months", 12, "", nil, tag(foods.TagJuice), "most fruit juice", 120},
		{"juice at 47 months", 47, "", nil, tag(foods.TagJuice), "most fruit juice", 120},
		{"juice at 48 months", 48, "", nil, tag(foods.TagJuice), "most fruit juice", 180},
		{"juice at 84 months", 84, "", nil, tag(foods.TagJuice), "most fruit juice", 240},
		{"juice at 227 months", 227, "", nil, tag(foods.TagJuice), "most fruit juice", 240},
		{"juice at 228 months", 228, "", nil, tag(foods.TagJuice), "most fruit juice", none},
		{"no juice", 30, "", nil, tag(), "most fruit juice", none},
		{"milk at 47 months", 47, "", nil, glass, "most milk", 710},
		{"milk at 48 months", 48, "", nil, glass, "most milk", none},
		{"cheese is no drink", 30, "", nil, cheese, "most milk", none},
		{"oil", 400, "", nil, form("oil_vegetable"), "most oil and fat as such", 45},
		{"ghee at 47 months", 47, "", nil, form("ghee"), "most oil and fat as such", 15.75},
		{"shortening at 48 months", 48, "", nil, form("shortening"), "most oil and fat as such", 27},
		{"peanut butter is not bare", 400, "", nil, form("peanut_butter"), "most oil and fat as such", none},
		{"sugar", 400, "", nil, form("sugar_white"), "most sugar and jam as such", 60},
		{"honey at 47 months", 47, "", nil, form("honey"), "most sugar and jam as such", 21},
		{"syrup", 400, "", nil, form("syrup"), "most sugar and jam as such", 60},
		{"jam", 400, "", nil, form("jam_jelly"), "most sugar and jam as such", 60},
		{"coffee", 400, "", nil, form("coffee_instant", foods.TagCaffeine), "most caffeine", 400.0 / 30},
		{"coffee without caffeine", 400, "", nil, form("coffee_instant"), "most caffeine", none},
		{"coffee in pregnancy", 400, nutrients.Pregnant3, nil, form("coffee_instant", foods.TagCaffeine), "most caffeine", 200.0 / 30},
		{"tea in lactation", 400, nutrients.Lactating1, nil, form("tea_bags", foods.TagCaffeine), "most caffeine", 300.0 / 30},
		{"cocoa at 215 months", 215, "", nil, form("cocoa_powder", foods.TagCaffeine), "most caffeine", 100 / 2.5},
		{"cocoa at 216 months", 216, "", nil, form("cocoa_powder", foods.TagCaffeine), "most caffeine", 400 / 2.5},
		{"chocolate", 400, "", nil, form("chocolate", foods.TagCaffeine), "most caffeine", 400 / 0.8},
		{"pudding with cocoa", 400, "", nil, form("pudding", foods.TagCaffeine), "most caffeine", 400 / 0.2},
		{"tea at 143 months", 143, "", nil, form("tea_bags", foods.TagCaffeine), "most caffeine", none},
		{"lactose of 50 in 100 g", 400, "", lactose, holds(func(f *foods.Food) { f.HasLactose, f.LactoseG, f.Own = true, 50, true }), "most lactose", 24},
		{"free of it", 400, "", lactose, holds(func(f *foods.Food) { f.HasLactose, f.Per100g[nutrients.Sugars] = true, 50 }), "most lactose", none},
		{"all sugars may be lactose", 400, "", lactose, holds(func(f *foods.Food) { f.Per100g[nutrients.Sugars], f.Per100g[nutrients.Carbohydrate] = 40, 60 }), "most lactose", 30},
		{"so may all carbohydrate", 400, "", lactose, holds(func(f *foods.Food) { f.Per100g[nutrients.Carbohydrate] = 60 }), "most lactose", 20},
		{"or all of it", 400, "", lactose, holds(func(f *foods.Food) {}), "most lactose", 12},
		{"sugars without milk", 400, "", lactose, food("food", func(f *foods.Food) { f.Per100g[nutrients.Sugars] = 40 }), "most lactose", none},
		{"lactose of who stands it", 400, "", nil, holds(func(f *foods.Food) {}), "most lactose", none},
		{"food at 6 months", 6, "", nil, tag(foods.TagInfantFood), "most food beside the milk", 375},
		{"food at 11 months", 11, "", nil, tag(foods.TagInfantFood), "most food beside the milk", 750},
		{"food at 12 months", 12, "", nil, tag(foods.TagInfantFood), "most food beside the milk", none},
		{"formula is no food beside it", 11, "", nil, tag(foods.TagInfantFormula), "most food beside the milk", none},
	} {
		for _, over := range []float64{1, 1.001} {
			perDay := c.most * over
			if c.most == none {
				perDay = 5000
			}
			check := checkerOf(t, &ration.Request{Days: 10})
			d := dinerOf(c.months, helping{food("bread", nil), 500}, helping{c.food, 3 * perDay}, helping{c.food, 7 * perDay})
			d.needs.Person.State, d.needs.Person.Conditions = c.state, c.is
			if c.months < infantUnder {
				d.eaten = d.eaten[1:]
			}
			personal{check}.groups(d)
			want := ""
			if over > 1 && c.most < none {
				want = "Signe: " + c.group
			}
			got := told(check)
			if c.most == none && !strings.Contains(got, c.group) {
				got = "" // other groups than the one in question
			}
			if got != want {
				t.Errorf("%s, %g g a day: %q, want %q", c.name, perDay, got, want)
			}
		}
	}
	// Best and good fish in one week: half of each amount is just all.
	for _, over := range []float64{1, 1.001} {
		check := checkerOf(t, &ration.Request{Days: 7})
		personal{check}.groups(dinerOf(400, helping{fish("best"), 6 * ounce / raw}, helping{fish("good"), 2 * ounce / raw * over}))
		if got := told(check); (got == "Signe: most fish") != (over > 1) {
			t.Errorf("half of each fish, %g: %q", over, got)
		}
	}
	// A gram of mash with 1 mL of water a gram is two of food beside the milk.
	for _, over := range []float64{1, 1.001} {
		check := checkerOf(t, &ration.Request{Days: 10})
		mash := food("mash", check.made("mash", 1))
		personal{check}.groups(dinerOf(11, helping{mash, 3750 * over}))
		if got := told(check); (got != "") != (over > 1) {
			t.Errorf("mash, %g: %q", over, got)
		}
	}
}

// TestDailyOf: what a publication gives for a day, by age and state, as caps.csv and
// kind_caps.csv have it; what is given for a week, a rule of kitchens and the planning rules are
// not among it. A feed counts nothing.
func TestDailyOf(t *testing.T) {
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	req := &ration.Request{Table: table}
	for _, c := range []struct {
		name   string
		months int
		state  nutrients.State
		is     []nutrients.Condition
		want   map[string]float64 // name and unit
	}{
		{"30 months", 30, "", nil, map[string]float64{"fruit juice mL": 120, "milk mL": 710, "flaxseed g": 0, "rice drink g": 0, "cinnamon g": 0.4, "spinach g": 60, "caffeine foods mg caffeine": 30}},
		{"100 months", 100, "", nil, map[string]float64{"fruit juice mL": 240, "flaxseed g": 3, "cinnamon g": 0.6, "caffeine foods mg caffeine": 45}},
		{"200 months", 200, "", nil, map[string]float64{"fruit juice mL": 240, "caffeine mg": 100, "flaxseed g": 10, "cinnamon g": 1.5, "caffeine foods mg caffeine": 100}},
		{"grown, does not digest lactose", 400, "", []nutrients.Condition{nutrients.Lactose}, map[string]float64{"caffeine mg": 400, "lactose g": 12, "flaxseed g": 10, "cinnamon g": 1.5, "caffeine foods mg caffeine": 400}},
		{"pregnant", 400, nutrients.Pregnant1, nil, map[string]float64{"caffeine mg": 200, "flaxseed g": 10, "cinnamon g": 1.5, "caffeine foods mg caffeine": 200}},
		{"nursing", 400, nutrients.Lactating1, nil, map[string]float64{"caffeine mg": 300, "flaxseed g": 10, "cinnamon g": 1.5, "caffeine foods mg caffeine": 200}},
		{"9 months", 9, "", nil, map[string]float64{"food beside the milk g": 750, "spinach g": 0}},
	} {
		list, err := DailyOf(req, &nutrients.Person{Name: "Signe", AgeMonths: c.months, State: c.state, Conditions: c.is})
		if err != nil {
			t.Fatal(err)
		}
		got := map[string]float64{}
		for _, d := range list {
			key := d.Name + " " + d.Unit
			if _, twice := got[key]; twice {
				t.Errorf("%s: %s twice", c.name, key)
			}
			got[key] = d.Most
			if want, ok := c.want[key]; !ok || !near(d.Most, want) {
				t.Errorf("%s: %s %g, want %g (%v)", c.name, key, d.Most, want, ok)
			}
		}
		for key := range c.want {
			if _, ok := got[key]; !ok {
				t.Errorf("%s: no %s", c.name, key)
			}
		}
	}
	list, err := DailyOf(req, &nutrients.Person{Name: "Signe", AgeMonths: 30})
	if err != nil {
		t.Fatal(err)
	}
	juice := food("juice", func(f *foods.Food) { f.Tags = []string{foods.TagJuice} })
	seeds := food("seeds", func(f *foods.Food) {
		f.Kinds = []string{"flaxseed", "caffeine foods"}
		f.Form = "chocolate"
		f.Tags = []string{foods.TagCaffeine}
	})
	feed := food("feed", func(f *foods.Food) {
		f.Kinds, f.Tags = []string{"flaxseed"}, []string{foods.TagJuice, foods.TagInfantFormula}
	})
	for _, d := range list {
		counts := [3]float64{d.Counts(juice), d.Counts(seeds), d.Counts(feed)}
		want := map[string][3]float64{"fruit juice": {1, 0, 0}, "flaxseed": {0, 1, 0}, "caffeine foods": {0, 0.8, 0}}[d.Name]
		if counts != want {
			t.Errorf("a gram of juice, seeds and feed counts %v as %s, want %v", counts, d.Name, want)
		}
	}
}
