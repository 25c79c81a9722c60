package solver

import (
	"encoding/csv"
	"math"
	"os"
	"slices"
	"strconv"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/plantest"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// usdaRows are the rows of the USDA table by NDB number, read with nothing of
// the program: National Nutrient Database for Standard Reference, release 28,
// abbreviated table. An empty cell is absent.
func usdaRows(t testing.TB) map[string]map[string]float64 {
	t.Helper()
	file, err := os.Open("../testdata/usda/extract.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	records, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	rows := map[string]map[string]float64{}
	for _, r := range records[1:] {
		row := map[string]float64{}
		for i, name := range records[0] {
			if v, err := strconv.ParseFloat(r[i], 64); err == nil {
				row[name] = v
			}
		}
		rows[r[0]] = row
	}
	return rows
}

// perDay adds up a column of the USDA table over what a person eats in a plan
// of 14 days. An unknown content counts nothing.
func perDay(t testing.TB, usda map[string]map[string]float64, p ration.PlanPerson, column string) float64 {
	t.Helper()
	total := 0.0
	for _, f := range p.Foods {
		row := usda[f.NDB]
		if row == nil {
			t.Fatalf("%s is no row of the USDA table", f.Food)
		}
		total += row[column] * f.Grams / 100 / 14
	}
	return total
}

// published is one figure of a publication, typed from it: the least or the
// most of a column of the USDA table per day. 0 means none.
type published struct {
	column      string
	least, most float64
	source      string
}

// share is a range of the energy, in per cent, at the general Atwater factors.
type share struct {
	column      string
	kcalPerG    float64
	least, most float64
	source      string
}

const (
	iom1998   = "IOM DRI, B vitamins and choline (1998), summary tables: RDA or AI"
	iom2000   = "IOM DRI, vitamin C, vitamin E, selenium (2000), summary tables"
	iom2001   = "IOM DRI, vitamin A … zinc (2001), summary tables: RDA, AI or UL"
	iom2005   = "IOM DRI, energy and macronutrients (2002/2005), summary tables"
	iom2011   = "IOM DRI, calcium and vitamin D (2011), summary tables"
	iomWater  = "IOM DRI, water, potassium, sodium (2005): AI of total water"
	nasem2019 = "NASEM DRI, sodium and potassium (2019): CDRR"
)

// Each group's rules hold on the finished plan: its limits, typed here from the
// publications, are held against what each person eats, added up from the USDA
// rows, and the foods against the plain words of their labels.
func TestGroups(t *testing.T) {
	usda := usdaRows(t)
	with := func(p nutrients.Person, conditions ...nutrients.Condition) nutrients.Person {
		p.Conditions = conditions
		return p
	}
	state := func(p nutrients.Person, s nutrients.State) nutrients.Person {
		p.State = s
		return p
	}
	months := func(name string, m int) nutrients.Person {
		return nutrients.Person{Name: name, AgeMonths: m, Sex: nutrients.Female, Activity: nutrients.LowActive, Count: 1}
	}
	carbohydrate := share{"carbohydrate_g", 4, 0, 55, iom2005 + ": AMDR, planned over its lower half"}
	const counting = "carbohydrate counting: meals of 45 to 60 g (paperzz.com 8572655), to 75 g for men, snacks of 15 to 30 g (from memory)"
	weighty := func(p nutrients.Person, kg float64) nutrients.Person {
		p.WeightKg = kg
		return p
	}
	for _, c := range []struct {
		name   string
		person nutrients.Person
		limits []published
		shares []share
		check  func(*testing.T, *ration.Plan, ration.PlanPerson)
	}{
		{name: "toddler of 18 months", person: months("Tuva", 18), limits: []published{
			{"iron_mg", 7, 40, iom2001}, {"calcium_mg", 700, 2500, iom2011}, {"retinol_ug", 0, 600, iom2001 + ", preformed vitamin A"},
			{"sodium_mg", 0, 1200, nasem2019}, {"zinc_mg", 3, 7, iom2001}, {"protein_g", 13, 0, iom2005},
		}, shares: []share{
			{"fat_g", 9, 30, 40, iom2005 + ": AMDR of 1 to 3 years"},
			{"protein_g", 4, 5, 20, iom2005 + ": AMDR of 1 to 3 years"},
		}, check: checkToddler},
		{name: "child of 3", person: months("Alva", 40), limits: []published{
			{"iron_mg", 7, 40, iom2001}, {"sodium_mg", 0, 1200, nasem2019},
		}, shares: []share{{"fat_g", 9, 30, 40, iom2005 + ": AMDR of 1 to 3 years"}}, check: checkToddler},

		{name: "diabetes, type 1", person: with(rationtest.Adult("Rolf", 30, nutrients.Male), nutrients.Diabetes1), limits: []published{
			{"carbohydrate_g", 165, 285, counting}, {"fibre_g", 38, 0, iom2005 + ": AI, men of 19 to 50"}, {"sodium_mg", 0, 2300, nasem2019},
		}, shares: []share{carbohydrate}, check: checkDiabetes},
		{name: "diabetes, type 2 on tablets", person: with(rationtest.Adult("Rolf", 57, nutrients.Male), nutrients.Diabetes2), limits: []published{
			{"carbohydrate_g", 165, 285, counting}, {"fibre_g", 30, 0, iom2005 + ": AI, men over 50"}, {"sodium_mg", 0, 2300, nasem2019},
		}, shares: []share{carbohydrate}, check: checkDiabetes},
		{name: "diabetes, type 2 by diet", person: with(rationtest.Adult("Gerd", 61, nutrients.Female), nutrients.Diabetes2Diet), limits: []published{
			{"carbohydrate_g", 165, 240, counting}, {"fibre_g", 21, 0, iom2005 + ": AI, women over 50"}, {"sodium_mg", 0, 2300, nasem2019},
		}, shares: []share{carbohydrate}, check: checkDiabetes},
		{name: "diabetes in pregnancy", person: with(state(rationtest.Adult("Ingrid", 31, nutrients.Female), nutrients.Pregnant2), nutrients.DiabetesPregnancy), limits: []published{
			{"carbohydrate_g", 175, 210, iom2005 + ": RDA in pregnancy, to 3 meals of 40 g and 3 snacks of 30 g"}, {"fibre_g", 28, 0, iom2005 + ": AI in pregnancy"}, {"iron_mg", 27, 45, iom2001},
		}, shares: []share{carbohydrate}, check: checkDiabetes},

		{name: "woman of 82 with poor teeth", person: weighty(with(rationtest.Adult("Borghild", 82, nutrients.Female), nutrients.SoftFood), 58), limits: []published{
			{"protein_g", 58, 0, "PROT-AGE (2013), ESPEN (2014): 1.0 g per kg and day, at 58 kg"}, {"vitamin_d_ug", 20, 100, iom2011 + ", over 70"},
			{"vitamin_b12_ug", 2.4, 0, iom1998}, {"calcium_mg", 1200, 2000, iom2011}, {"sodium_mg", 0, 2300, nasem2019}, {"fibre_g", 21, 0, iom2005},
		}, check: drinksAtLeast(1.6, "ESPEN geriatrics guideline (2018/2022), recommendation 61: women")},
		{name: "man of 72", person: weighty(rationtest.Adult("Halvor", 72, nutrients.Male), 74), limits: []published{
			{"protein_g", 74, 0, "PROT-AGE (2013), ESPEN (2014): 1.0 g per kg and day, at 74 kg"}, {"vitamin_d_ug", 20, 100, iom2011 + ", over 70"},
			{"fibre_g", 30, 0, iom2005},
		}, check: drinksAtLeast(2.0, "ESPEN geriatrics guideline (2018/2022), recommendation 61: men")},

		{name: "pregnant, second trimester", person: state(rationtest.Adult("Ingrid", 31, nutrients.Female), nutrients.Pregnant2), limits: []published{
			{"folate_dfe_ug", 600, 0, iom1998}, {"iron_mg", 27, 45, iom2001}, {"choline_mg", 450, 3500, iom1998},
			{"retinol_ug", 0, 3000, iom2001 + ": UL of preformed vitamin A"}, {"protein_g", 71, 0, iom2005}, {"calcium_mg", 1000, 2500, iom2011},
		}, check: checkFish},
		{name: "breast-feeding, first half-year", person: state(rationtest.Adult("Randi", 29, nutrients.Female), nutrients.Lactating1), limits: []published{
			{"vitamin_a_rae_ug", 1300, 0, iom2001}, {"choline_mg", 550, 3500, iom1998}, {"vitamin_c_mg", 120, 2000, iom2000},
			{"retinol_ug", 0, 3000, iom2001}, {"carbohydrate_g", 210, 0, iom2005},
		}, check: func(t *testing.T, plan *ration.Plan, p ration.PlanPerson) {
			checkFish(t, plan, p)
			water := 0.0
			for _, f := range p.Foods {
				water += usda[f.NDB]["water_g"] * f.Grams / 100 / 14 / 1000
			}
			if atFloor := p.DrinkLPerDay < 0.45*3.8*(1+1e-6); !atFloor && p.DrinkLPerDay+water > 3.8*1.001 || p.Need("water").Amount < 3.8*(1-1e-6) {
				t.Errorf("water: drinks %g L beside %g L in food, printed %g, want 3.8 L (%s)", p.DrinkLPerDay, water, p.Need("water").Amount, iomWater)
			}
		}},

		{name: "low sodium", person: with(rationtest.Adult("Helge", 50, nutrients.Male), nutrients.LowSodium), limits: []published{
			{"sodium_mg", 0, 2000, "WHO, sodium intake for adults and children (2012)"},
		}},
		{name: "coeliac disease", person: with(rationtest.Adult("Marit", 30, nutrients.Female), nutrients.Coeliac)},
		{name: "lactose intolerance", person: with(rationtest.Adult("Marit", 30, nutrients.Female), nutrients.Lactose), check: checkLactose},
		{name: "vegetarian", person: with(rationtest.Adult("Solveig", 30, nutrients.Female), nutrients.Vegetarian), limits: []published{
			{"iron_mg", 18 * 1.8, 45, iom2001 + ": 1.8 times the RDA of 18 mg for vegetarians"},
		}, check: says("No meat, poultry, fish or shellfish", "iron at least 32.4 mg", "18 mg × 1.8")},
		{name: "vegan", person: with(rationtest.Adult("Solveig", 30, nutrients.Female), nutrients.Vegan), limits: []published{
			{"iron_mg", 18 * 1.8, 45, iom2001 + ": 1.8 times the RDA of 18 mg for vegetarians"}, {"protein_g", 46, 0, iom2005},
		}, check: says("Nothing from animals", "iron at least 32.4 mg")},
		{name: "pregnant vegetarian", person: with(state(rationtest.Adult("Solveig", 30, nutrients.Female), nutrients.Pregnant3), nutrients.Vegetarian), limits: []published{
			{"iron_mg", 0.9 * 45, 45, iom2001 + ": 1.8 times 27 mg is over the UL of 45 mg; stopped at 0.9 of it"},
		}, check: says("stopped at 0.9 × the upper level of 45 mg")},
	} {
		t.Run(c.name, func(t *testing.T) {
			req := rationtest.Request(t, c.person)
			req.Within = 0.2 // the rules hold at any gap
			plan := plantest.MustMake(t, req)
			if plan.Status == ration.StatusInfeasible || len(plan.People) != 1 {
				t.Fatalf("%s: %v", plan.Status, plan.Conflict)
			}
			p := plan.People[0]
			for _, l := range c.limits {
				got := perDay(t, usda, p, l.column)
				if l.least > 0 && got < l.least*(1-ration.CheckTolerance) && !declared(plan, l.column) || l.most > 0 && got > l.most*(1+ration.CheckTolerance) {
					t.Errorf("%s: %g a day, want %g to %g (%s)", l.column, got, l.least, l.most, l.source)
				}
				floor, ceiling := enforced(t, p, l.column)
				if l.least > 0 && floor < l.least*(1-1e-9) || l.most > 0 && ceiling > l.most*(1+1e-9) {
					t.Errorf("%s: held between %g and %g, want %g to %g (%s)", l.column, floor, ceiling, l.least, l.most, l.source)
				}
			}
			energy := perDay(t, usda, p, "energy_kcal")
			for _, s := range c.shares {
				percent := 100 * s.kcalPerG * perDay(t, usda, p, s.column) / energy
				if percent < s.least-1e-4 || percent > s.most+1e-4 {
					t.Errorf("%s: %g %% of energy, want %g to %g (%s)", s.column, percent, s.least, s.most, s.source)
				}
				floor, ceiling := enforced(t, p, s.column)
				if 100*s.kcalPerG*floor/energy < s.least-1e-4 || 100*s.kcalPerG*ceiling/energy > s.most+1e-4 {
					t.Errorf("%s: held between %g and %g g of %g kcal, want %g to %g %% (%s)", s.column, floor, ceiling, energy, s.least, s.most, s.source)
				}
			}
			rationtest.CheckForbidden(t, req, plan)
			checkSection(t, p)
			if c.check != nil {
				c.check(t, plan, p)
			}
		})
	}
}

// enforced are the limits that a plan prints for a column of the USDA table, 0
// and +Inf where it has none.
func enforced(t *testing.T, p ration.PlanPerson, column string) (floor, ceiling float64) {
	t.Helper()
	ceiling = math.Inf(1)
	for n := range nutrients.Count {
		if n.Column() != column {
			continue
		}
		if need := p.Need(n.Name()); need != nil {
			if need.Floor != nil {
				floor = *need.Floor
			}
			if need.Ceiling != nil {
				ceiling = *need.Ceiling
			}
			return floor, ceiling
		}
	}
	t.Errorf("the plan of %s has no line for %s", p.Name, column)
	return floor, ceiling
}

// declared reports whether the plan says that the nutrient of a column is short;
// only vitamins that the body stores may be.
func declared(plan *ration.Plan, column string) bool {
	stored := map[string]string{"vitamin_d_ug": "vitamin_d", "vitamin_a_rae_ug": "vitamin_a", "vitamin_b12_ug": "vitamin_b12"}
	return slices.ContainsFunc(plan.Shortfalls, func(s ration.Shortfall) bool { return s.Nutrient == stored[column] })
}

// checkSection wants a rule set with a source in every line, each line once.
func checkSection(t *testing.T, p ration.PlanPerson) {
	t.Helper()
	seen := map[string]bool{}
	for _, r := range p.Rules {
		if r.Text == "" || r.Source == "" {
			t.Errorf("%s: rule %q has the source %q", p.Name, r.Text, r.Source)
		}
		if seen[r.Text] {
			t.Errorf("%s: rule %q twice", p.Name, r.Text)
		}
		seen[r.Text] = true
	}
	if len(p.Rules) == 0 {
		t.Errorf("%s has no rule set", p.Name)
	}
}

// checkToddler holds juice and milk to the AAP's amounts: 4 fl oz of juice at 1
// to 3 years (AAP 2017), 24 fl oz of milk. A gram of either is under a mL.
func checkToddler(t *testing.T, plan *ration.Plan, p ration.PlanPerson) {
	all := rationtest.Table(t)
	const flOz = 29.5735
	juice, milk := 0.0, 0.0
	for _, f := range p.Foods {
		food, err := all.Food(f.Food)
		if err != nil {
			t.Fatal(err)
		}
		if food.HasTag("juice") {
			juice += f.Grams / 14
		}
		if food.Group == "milk" && food.HasTag("dairy-drink") && food.Preparation != nil && food.Preparation.EatenML <= 0 {
			milk += f.Grams / 14 / 1.03 // density of whole milk: 30.5 g per fl oz (USDA measures)
		}
	}
	if juice > 4*flOz*1.02 {
		t.Errorf("%g mL of juice a day, want at most 4 fl oz (American Academy of Pediatrics 2017)", juice)
	}
	if milk > 24*flOz*1.01 {
		t.Errorf("%g mL of milk a day, want at most 24 fl oz (American Academy of Pediatrics)", milk)
	}
}

// checkDiabetes wants fast sugar set aside and not eaten, the counting range
// shown, the day's carbohydrate over its meals, low glycaemic staples and the
// questions for the clinician.
func checkDiabetes(t *testing.T, plan *ration.Plan, p ration.PlanPerson) {
	all := rationtest.Table(t)
	doses := 0.0
	for _, line := range plan.Packs {
		if !line.Reserve {
			continue
		}
		food, err := all.Food(line.Food)
		if err != nil {
			t.Fatal(err)
		}
		sugars, _ := food.Per100g.Get(nutrients.Sugars)
		inPack := math.Floor(line.NetG * sugars / 100 / 15)
		if food.Group == "juice" || food.Group == "drinks" { // does not keep once it is opened
			inPack = math.Min(inPack, 1)
		}
		if inPack > 20 {
			t.Errorf("sets %s aside, which is no pack of doses", line.Pack)
		}
		doses += float64(line.Count) * inPack
	}
	if least := map[string]float64{"Rolf": 5, "Ingrid": 5, "Gerd": 2}[p.Name]; doses < least {
		t.Errorf("%g doses of 15 g set aside (American Diabetes Association, 15-15 rule), want %g (own planning rule)", doses, least)
	}
	rationtest.CheckReserveUneaten(t, plan)
	for _, f := range p.Foods {
		if rationtest.ContainsText(f.Food, "candy") || rationtest.ContainsText(f.Food, "gumdrops") || f.Food == "honey" || rationtest.ContainsText(f.Food, "sugar, ") || rationtest.ContainsText(f.Food, "raisins") || rationtest.ContainsText(f.Food, "dates, ") || rationtest.ContainsText(f.Food, "syrup") || rationtest.ContainsText(f.Food, "juice cocktail") {
			t.Errorf("eats %s: quick sugar is kept for a low", f.Food)
		}
	}
	m := p.Carbohydrate
	low, high, snacks := 45.0, 60.0, 2
	switch p.Name {
	case "Rolf":
		high = 75
	case "Ingrid":
		low, high, snacks = 25, 40, 3
	}
	if m == nil || m.LowG != low || m.HighG != high || m.Enforced || m.Source == "" {
		t.Fatalf("carbohydrate of a meal %+v, want the counting range of 45 to 60 g (paperzz.com 8572655: 3 to 4 choices of 15 g), to 75 g for men", m)
	}
	if m.MeanG < low-1e-6 || m.MeanG > m.HighG+1e-6 || m.SnackG < 15-1e-6 || m.SnackG > 30+1e-6 {
		t.Errorf("meals of %g g and snacks of %g g, want them in the range of %g to %g and 15 to 30", m.MeanG, m.SnackG, low, high)
	}
	perDay := p.Need("carbohydrate").Amount
	if got := m.MeanG*3 + float64(snacks)*m.SnackG; math.Abs(got-perDay) > 1e-6 || m.Meals != 3 || m.Snacks != snacks {
		t.Errorf("3 meals of %g g and snacks of %g g are %g g, the day has %g", m.MeanG, m.SnackG, got, perDay)
	}
	for _, word := range []string{"Ask the clinician: medicine", "insulin without refrigeration", "clinician comes first", "usual counting range, ", "Days of illness", "doses of 15 g of quick sugar"} {
		if !saysRule(p, word) {
			t.Errorf("no rule of %s says %q", p.Name, word)
		}
	}
}

// says wants each part in a person's rule set.
func says(parts ...string) func(*testing.T, *ration.Plan, ration.PlanPerson) {
	return func(t *testing.T, _ *ration.Plan, p ration.PlanPerson) {
		for _, part := range parts {
			if !saysRule(p, part) {
				t.Errorf("no rule of %s says %q", p.Name, part)
			}
		}
	}
}

func saysRule(p ration.PlanPerson, part string) bool {
	return slices.ContainsFunc(p.Rules, func(r ration.RuleNote) bool { return rationtest.ContainsText(r.Text, part) })
}

// drinksAtLeast wants so many litres drunk a day.
func drinksAtLeast(litres float64, source string) func(*testing.T, *ration.Plan, ration.PlanPerson) {
	return func(t *testing.T, _ *ration.Plan, p ration.PlanPerson) {
		if p.DrinkLPerDay < litres*(1-ration.CheckTolerance) {
			t.Errorf("drinks %g L a day, want %g (%s)", p.DrinkLPerDay, litres, source)
		}
	}
}

// checkFish holds the fish of a week to 12 oz before cooking, and to 4 oz with
// nothing else of a good-choice fish (EPA and FDA, Advice about Eating Fish).
// Four ounces raw are three canned (FDA).
func checkFish(t *testing.T, plan *ration.Plan, p ration.PlanPerson) {
	all := rationtest.Table(t)
	const oz = 28.349523125
	best, good := 0.0, 0.0
	for _, f := range p.Foods {
		food, err := all.Food(f.Food)
		if err != nil {
			t.Fatal(err)
		}
		raw := f.Grams / 14 * 7 * 4 / 3
		switch food.Mercury {
		case "best":
			best += raw
		case "good":
			good += raw
		}
	}
	if best+3*good > 12*oz*1.001 {
		t.Errorf("%g g of best-choice and %g g of good-choice fish a week, raw, want 12 oz or 4 oz at most", best, good)
	}
}

// checkLactose adds up lactose, by the figure of the food or, where there is
// none, all sugars of a food with milk: 12 g a day, one dose that is tolerated.
func checkLactose(t *testing.T, plan *ration.Plan, p ration.PlanPerson) {
	all := rationtest.Table(t)
	lactose := 0.0
	for _, f := range p.Foods {
		food, err := all.Food(f.Food)
		if err != nil {
			t.Fatal(err)
		}
		switch {
		case food.HasLactose:
			lactose += food.LactoseG * f.Grams / 100 / 14
		case slices.Contains(food.Allergens, "milk"):
			sugars, known := food.Per100g.Get(nutrients.Sugars)
			if !known {
				sugars, _ = food.Per100g.Get(nutrients.Carbohydrate)
			}
			lactose += sugars * f.Grams / 100 / 14
		}
	}
	if lactose > 12.001 {
		t.Errorf("%g g of lactose a day, want at most 12 (NIH consensus statement 2010; AHRQ: 12 to 15 g tolerated in one dose)", lactose)
	}
}

// The nine major allergens, three people with three each: none reaches them
// (FALCPA 2004, FASTER Act 2021).
func TestNineAllergens(t *testing.T) {
	var people []nutrients.Person
	for i, list := range [][]string{{"milk", "egg", "peanut"}, {"fish", "shellfish", "tree-nut"}, {"wheat", "soy", "sesame"}} {
		p := rationtest.Adult([]string{"Signe", "Arvid", "Gerd"}[i], 30+10*i, nutrients.Female)
		for _, a := range list {
			p.Allergies = append(p.Allergies, nutrients.Allergy{Allergen: a})
		}
		people = append(people, p)
	}
	req := rationtest.Request(t, people...)
	req.Within = 0.2 // the rules hold at any gap
	plan := plantest.MustMake(t, req)
	if plan.Status == ration.StatusInfeasible {
		t.Fatalf("nothing fits: %v", plan.Conflict)
	}
	rationtest.CheckForbidden(t, req, plan)
	for _, p := range plan.People {
		if !saysRule(p, "Read every label") {
			t.Errorf("%s is not told to read every label", p.Name)
		}
	}
}
