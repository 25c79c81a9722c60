package foods

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"rationwright/nutrients"
)

// Every published amount of data/pattern.csv equals the Dietary Guidelines'
// row in testdata/reference/food_pattern.csv; vegetables go without their beans, which are
// counted as protein.
func TestPatternIsPublished(t *testing.T) {
	type key struct{ pattern, level, group, subgroup string }
	published := map[key]float64{}
	for _, row := range readCSV(t, "../testdata/reference/food_pattern.csv") {
		v, err := strconv.ParseFloat(row["amount"], 64)
		if err != nil {
			continue // a range: the limit on other uses
		}
		if row["per"] == "week" {
			v /= 7
		}
		published[key{row["pattern"], row["kcal_level"], row["group"], row["subgroup"]}] = v
	}
	names := map[string]string{"us": "healthy_us_style", "vegetarian": "healthy_vegetarian", "toddler-us": "toddler_us_style_12_23mo", "toddler-vegetarian": "toddler_vegetarian_12_23mo"}
	groups := map[string][2]string{"grains": {"grains", ""}, "whole-grains": {"grains", "whole"}, "vegetables": {"vegetables", ""}, "fruits": {"fruits", ""}, "dairy": {"dairy", ""}, "protein": {"protein foods", ""}}
	rows := readCSV(t, "data/pattern.csv")
	for _, row := range rows {
		g := groups[row["group"]]
		k := key{names[row["pattern"]], row["kcal_level"], g[0], g[1]}
		want, ok := published[k]
		if !ok {
			t.Errorf("%v is not published", k)
			continue
		}
		if row["group"] == "vegetables" {
			want -= published[key{k.pattern, k.level, "vegetables", "beans, peas, lentils"}]
		}
		if got, err := strconv.ParseFloat(row["published_per_day"], 64); err != nil || math.Abs(got-want) > 0.0001 {
			t.Errorf("%v: %s, want %.4f", k, row["published_per_day"], want)
		}
	}
	// What part of the published servings a store without fresh food asks for:
	// common practice, no source; regression values.
	scale := map[string]string{"grains": "0.6", "whole-grains": "0.4", "vegetables": "0.5", "fruits": "0.5", "dairy": "0.5", "protein": "0.6"}
	for _, row := range rows {
		if row["scale"] != scale[row["group"]] {
			t.Errorf("%s at %s kcal, %s: scale %s, want %s", row["pattern"], row["kcal_level"], row["group"], row["scale"], scale[row["group"]])
		}
	}
	if want := 12*2*6 + 4*2*6; len(rows) != want {
		t.Errorf("%d rows, want %d: 12 and 4 levels, 2 styles, 6 groups", len(rows), want)
	}
}

func floorOf(floors []PatternFloor, group string) *PatternFloor {
	for i := range floors {
		if floors[i].Group == group {
			return &floors[i]
		}
	}
	return nil
}

func needsOf(p nutrients.Person, kcal float64) *nutrients.Needs {
	return &nutrients.Needs{Person: p, EER: nutrients.Limit{Amount: kcal}}
}

// Published amounts: Dietary Guidelines for Americans 2020-2025, tables A3-2,
// A3-4 (vegetarian) and A1 (toddlers); between two levels in proportion.
func TestPattern(t *testing.T) {
	tab := load(t)
	vegetarian := with("vegetarian")
	for _, test := range []struct {
		name  string
		p     nutrients.Person
		kcal  float64
		group string
		want  float64 // published per day
	}{
		{"2,000 kcal", person(), 2000, "grains", 6},
		{"2,000 kcal", person(), 2000, "fruits", 2},
		{"2,000 kcal", person(), 2000, "dairy", 3},
		{"2,000 kcal", person(), 2000, "protein", 5.5},
		{"2,000 kcal less 1.5 cups of beans a week", person(), 2000, "vegetables", 2.5 - 1.5/7},
		{"half way to 2,200", person(), 2100, "grains", 6.5},
		{"above the table", person(), 4000, "grains", 10},
		{"below the table", person(months(30)), 900, "grains", 3},
		{"vegetarian", person(vegetarian), 2000, "protein", 3.5},
		{"vegan", person(with("vegan")), 2000, "grains", 6.5},
		{"toddler", person(months(15)), 900, "dairy", 2},
		{"toddler, the last month", person(months(23)), 1000, "whole-grains", 2},
		{"no toddler any more", person(months(24)), 1000, "whole-grains", 1.5},
		{"vegetarian toddler", person(months(15), vegetarian), 700, "dairy", 1.5},
	} {
		floor := floorOf(tab.Pattern(needsOf(test.p, test.kcal), tab.Foods), test.group)
		if floor == nil {
			t.Errorf("%s: no floor for %s", test.name, test.group)
			continue
		}
		if math.Abs(floor.Published-test.want) > 0.0005 {
			t.Errorf("%s: %s published %.4f, want %.4f", test.name, test.group, floor.Published, test.want)
		}
		if math.Abs(floor.PerDay-floor.Published*floor.Scale) > 1e-12 || floor.Scale <= 0 || floor.Scale > 1 {
			t.Errorf("%s: %s floor %.3f is not %.3f × %.2f", test.name, test.group, floor.PerDay, floor.Published, floor.Scale)
		}
	}
}

func TestPatternDropsWhatCannotBe(t *testing.T) {
	tab := load(t)
	if floors := tab.Pattern(needsOf(person(months(8), fed("formula")), 700), tab.Foods); floors != nil {
		t.Errorf("an infant has floors: %v", floors)
	}
	refused := needsOf(person(), 2000)
	refused.Refused = &nutrients.Refusal{}
	if floors := tab.Pattern(refused, tab.Foods); floors != nil {
		t.Errorf("a refused person has floors: %v", floors)
	}
	var noMilk []*Food
	for _, f := range tab.Foods {
		if f.PerGram("dairy") <= 0 {
			noMilk = append(noMilk, f)
		}
	}
	for _, test := range []struct {
		name  string
		p     nutrients.Person
		eaten []*Food
		drop  string
		note  string
	}{
		{"nothing of the group", person(), noMilk, "dairy", "no such food"},
		{"lactose", person(with("lactose")), tab.Foods, "dairy", "lactose"},
		{"too little of it", person(), []*Food{{OccasionG: 1, DayG: 1, Serves: []Serving{{Group: "fruits", Per100g: 1}}}}, "fruits", "all that"},
	} {
		floor := floorOf(tab.Pattern(needsOf(test.p, 2000), test.eaten), test.drop)
		if floor == nil || !floor.Dropped || floor.PerDay != 0 || !strings.Contains(floor.Note, test.note) {
			t.Errorf("%s: floor of %s is %+v, want it dropped with a note on %q", test.name, test.drop, floor, test.note)
		}
	}
	if floor := floorOf(tab.Pattern(needsOf(person(), 2000), noMilk), "grains"); floor == nil || floor.Dropped {
		t.Errorf("without milk the floor of grains is %+v", floor)
	}
}

func TestReadPattern(t *testing.T) {
	tab := load(t)
	own := "pattern,kcal_level,group,published_per_day,scale,unit,source\nus,2000,fruits,2,0.25,cup-eq,own\n"
	var err error
	if tab.pattern, err = readPattern("own.csv", strings.NewReader(own)); err != nil {
		t.Fatal(err)
	}
	floors := tab.Pattern(needsOf(person(), 1500), tab.Foods)
	if len(floors) != 1 || math.Abs(floors[0].PerDay-0.5) > 1e-12 {
		t.Errorf("floors %+v, want 0.5 cup-eq of fruits alone", floors)
	}
	bad := "pattern,kcal_level,group,published_per_day,scale,unit,source\nus,2000,fruit,2,0.25,oz-eq,own\nus,-1,dairy,2,9,oz-eq,own\n"
	_, err = readPattern("own.csv", strings.NewReader(bad))
	if err == nil {
		t.Fatal("a faulty pattern is read")
	}
	for _, want := range []string{`own.csv:2:9: group "fruit"`, `own.csv:3:4: kcal_level "-1"`, `unit "oz-eq": not the unit of this group; write cup-eq`} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("the errors lack %q:\n%v", want, err)
		}
	}
}

func TestCompanions(t *testing.T) {
	tab := load(t)
	oil, rice := food(t, tab, "04044"), food(t, tab, "20044")
	found := false
	for _, c := range tab.Companions(oil) {
		if c.Food == oil || c.Food.Group == "fats and oils" {
			t.Errorf("oil is a companion of oil: %s", c.Food.Name)
		}
		if c.Food == rice {
			found = true
			// cooking_absurd.csv: at most 27.2 g oil and 112.5 g dry rice at one sitting.
			if want := 27.2 / 112.5; math.Abs(c.Ratio-want) > 1e-9 {
				t.Errorf("oil per gram of rice %.4f, want %.4f", c.Ratio, want)
			}
		}
	}
	if !found {
		t.Error("rice is no companion of oil")
	}
	if with := tab.Companions(rice); with != nil {
		t.Errorf("rice needs companions: %v", with)
	}
	for _, f := range tab.Foods {
		if len(f.Companions) > 0 && len(tab.Companions(f)) == 0 {
			t.Errorf("%s is eaten with nothing of the table", f.Name)
		}
		for _, c := range tab.Companions(f) {
			if c.Ratio <= 0 {
				t.Errorf("%s with %s: ratio %g", f.Name, c.Food.Name, c.Ratio)
			}
		}
	}
}

// A floor stands where what is eaten of the group in a day just reaches it, all foods of
// the group together: at 2,000 kcal 0.6 of 6 oz-eq of grains, 3.6, which 360 g of 1 oz-eq in
// 100 g are; that the published 6 are not reached does not matter.
func TestFloorThatIsJustReached(t *testing.T) {
	tab := load(t)
	grains := func(dayG ...float64) []*Food {
		var all []*Food
		for _, g := range dayG {
			all = append(all, &Food{OccasionG: g, DayG: g, Serves: []Serving{{Group: "grains", Per100g: 1}}})
		}
		return append(all, &Food{OccasionG: 900, DayG: 900, Serves: []Serving{{Group: "fruits", Per100g: 1}}})
	}
	for _, test := range []struct {
		eaten []*Food
		kept  bool
		note  string
	}{
		{grains(361), true, ""}, {grains(359), false, "no grains floor: all that Ada may and will eat of it in a day is 3.6 oz-eq"},
		{grains(181, 180), true, ""}, {grains(180, 179), false, "no grains floor: all that"}, {grains(), false, "no grains floor: there is no such food that Ada may and will eat"},
		{grains(100), false, "in a day is 1.0 oz-eq"},
	} {
		floor := floorOf(tab.Pattern(needsOf(person(), 2000), test.eaten), "grains")
		if floor == nil || floor.Dropped == test.kept || test.kept && math.Abs(floor.PerDay-3.6) > 1e-9 || !test.kept && (floor.PerDay != 0 || !strings.Contains(floor.Note, test.note)) {
			t.Errorf("%d foods: %+v, want kept %v, %q", len(test.eaten), floor, test.kept, test.note)
		}
	}
	kidney := floorOf(tab.Pattern(needsOf(person(with(nutrients.KidneyDisease)), 2000), tab.Foods), "dairy")
	if kidney == nil || !kidney.Dropped || !strings.Contains(kidney.Note, "kidney disease") {
		t.Errorf("dairy with kidney disease: %+v", kidney)
	}
	const header = "pattern,kcal_level,group,published_per_day,scale,unit,source\n"
	for rows, sound := range map[string]bool{
		"us,100,grains,1,1,oz-eq,s\nus,10000,grains,1,1,oz-eq,s\n": true, "us,99,grains,1,1,oz-eq,s\n": false, "us,10001,grains,1,1,oz-eq,s\n": false,
		"us,1000,grains,0,0,oz-eq,s\n": true, "us,1000,grains,1000,2,oz-eq,s\n": true, "us,1000,grains,1001,2,oz-eq,s\n": false, "us,1000,grains,1000,2.1,oz-eq,s\n": false,
		"us,1000,grains,1,1,oz-eq,s\nus,1000,grains,2,1,oz-eq,s\n": false, "us,1000,grains,1,1,oz-eq,s\nus,1000,fruits,2,1,cup-eq,s\n": true,
		"us,1000,grains,1,1,oz-eq,s\nvegetarian,1000,grains,2,1,oz-eq,s\n": true, "danish,1000,grains,1,1,oz-eq,s\n": false,
	} {
		if got, err := readPattern("p.csv", strings.NewReader(header+rows)); (err == nil) != sound || err == nil && len(got) != strings.Count(rows, "\n") {
			t.Errorf("%s: %+v, %v", rows, got, err)
		}
	}
}
