package verify

import (
	"math"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// food is an invented food without added sugar, of which nothing else is known but what
// change says.
func food(name string, change func(*foods.Food)) *foods.Food {
	f := &foods.Food{Name: name, Per100g: nutrients.Unknown()}
	f.Per100g[nutrients.AddedSugars] = 0
	if change != nil {
		change(f)
	}
	return f
}

// checkerOf is the check of a request of so many days with the tables of the data files.
func checkerOf(t *testing.T, req *ration.Request) *checker {
	t.Helper()
	tables, err := readTables()
	if err != nil {
		t.Fatal(err)
	}
	if req.Table == nil {
		req.Table = &foods.Table{}
	}
	return &checker{req: req, tables: tables, plan: &ration.Plan{}, without: map[*foods.Food]string{}}
}

// dinerOf is somebody called Signe, of an age in months, who eats some foods.
func dinerOf(months int, eaten ...helping) *diner {
	return &diner{needs: nutrients.Needs{Person: nutrients.Person{Name: "Signe", AgeMonths: months}}, heads: 1, eaten: eaten,
		wishes: &foods.Wishes{}, may: map[*foods.Food]amount{}, plan: &ration.PlanPerson{Name: "Signe"}}
}

func near(a, b float64) bool {
	return a == b || math.Abs(a-b) <= 1e-9*math.Max(1, math.Min(math.Abs(a), math.Abs(b)))
}

// made gives a food a form that is eaten with so many mL of water a gram.
func (c *checker) made(form string, mLPerGram float64) func(*foods.Food) {
	tables := *c.tables
	tables.making = map[string]making{form: {eatenL: mLPerGram / 10}} // of 100 g
	c.tables = &tables
	return func(f *foods.Food) { f.Form, f.Preparation = form, &foods.Preparation{Form: form} }
}

// TestSittingAndDay: what somebody eats of a food at one sitting and in a day, by hand from the
// row of the food (80 and 160 g, say) and the rows of caps.csv: a small child's part of a portion
// (0.35 to 47 months, 0.6 to 107, 0.8 to 167), two sittings a day where the day is not known, half
// a cup (125 mL) a meal of an infant, three meals a day at 6 months, five at 7 and 8, six from 9
// (WHO/UNICEF), a feed of 150 mL at 2 and 3 months and 946 mL a day (AAP), and the published
// amounts of a day of juice, milk, lactose and caffeine, and of one milk at 12 to 23 months (480 mL,
// Dietary Guidelines 2020-2025, toddler pattern).
func TestSittingAndDay(t *testing.T) {
	const grown = 400
	of := func(sitting, day float64, change func(*foods.Food)) *foods.Food {
		return food("food", func(f *foods.Food) {
			f.OccasionG, f.DayG = sitting, day
			if change != nil {
				change(f)
			}
		})
	}
	tag := func(tags ...string) func(*foods.Food) { return func(f *foods.Food) { f.Tags = tags } }
	check := checkerOf(t, &ration.Request{Days: 10})
	mashed := check.made("mash", 4) // 1 g of it makes 5 g to eat
	ready := checkerOf(t, &ration.Request{Days: 10})
	watered := ready.made("concentrate", 1)
	dairy := func(f *foods.Food) {
		f.Tags, f.Serves = []string{foods.TagDairyDrink}, []foods.Serving{{Group: "dairy", Per100g: 4}}
	}
	lactose := func(f *foods.Food) { f.HasLactose, f.LactoseG = true, 50 }
	coffee := func(f *foods.Food) { f.Form, f.Tags = "coffee_instant", []string{foods.TagCaffeine} }
	powder := func(f *foods.Food) { f.Form, f.Tags = "infant_formula_powder", []string{foods.TagInfantFormula} }
	for _, c := range []struct {
		name         string
		months       int
		is           []nutrients.Condition
		state        nutrients.State
		food         *foods.Food
		sitting, day float64
	}{
		{"grown", grown, nil, "", of(80, 160, nil), 80, 160},
		{"no figure of a day: two sittings", grown, nil, "", of(80, 0, nil), 80, 160},
		{"no figure of a sitting: the day's", grown, nil, "", of(0, 160, nil), 160, 160},
		{"no figure", grown, nil, "", of(0, 0, nil), 0, 0},
		{"a sitting is no more than the day", grown, nil, "", of(200, 160, nil), 160, 160},
		{"12 months", 12, nil, "", of(80, 160, nil), 28, 56},
		{"47 months", 47, nil, "", of(80, 160, nil), 28, 56},
		{"48 months", 48, nil, "", of(80, 160, nil), 48, 96},
		{"107 months", 107, nil, "", of(80, 160, nil), 48, 96},
		{"108 months", 108, nil, "", of(80, 160, nil), 64, 128},
		{"167 months", 167, nil, "", of(80, 160, nil), 64, 128},
		{"168 months", 168, nil, "", of(80, 160, nil), 80, 160},
		{"a child's jar is as it is", 47, nil, "", of(80, 160, tag(foods.TagInfantFood)), 80, 160},
		{"an infant of 6 months", 6, nil, "", of(200, 1000, nil), 125, 375},
		{"of 7 months", 7, nil, "", of(200, 1000, nil), 125, 625},
		{"of 8 months", 8, nil, "", of(200, 1000, nil), 125, 625},
		{"of 9 months", 9, nil, "", of(200, 1000, nil), 125, 750},
		{"of 11 months", 11, nil, "", of(200, 1000, nil), 125, 750},
		{"an infant takes no more than a grown person", 11, nil, "", of(80, 160, nil), 80, 160},
		{"mash of an infant", 9, nil, "", of(200, 1000, mashed), 25, 150},
		{"an infant under 6 months", 5, nil, "", of(200, 1000, nil), 0, 0},
		{"a ready feed", 3, nil, "", of(80, 160, tag(foods.TagInfantFormula)), 150, 946},
		{"a mother's milk", 3, nil, "", of(80, 160, tag(foods.TagHumanMilk)), 150, 946},
		{"a feed of powder, 13.2 g in 100 mL", 3, nil, "", of(80, 160, powder), 19.8, 124.872},
		{"a feed of a concentrate, 1 mL of water a gram", 3, nil, "", of(80, 160, func(f *foods.Food) { watered(f); f.Tags = []string{foods.TagInfantFormula} }), 75, 473},
		{"juice at 47 months", 47, nil, "", of(240, 480, tag(foods.TagJuice)), 84, 120},
		{"juice at 48 months", 48, nil, "", of(240, 480, tag(foods.TagJuice)), 144, 180},
		{"a sitting of juice is no more than the day", 12, nil, "", of(400, 900, tag(foods.TagJuice)), 120, 120},
		{"juice at 228 months", 228, nil, "", of(240, 480, tag(foods.TagJuice)), 240, 480},
		{"milk powder of 4 cups in 100 g at 12 months: 480 mL", 12, nil, "", of(1000, 1000, dairy), 480 / (0.04 * 236.5882365), 480 / (0.04 * 236.5882365)},
		{"milk powder at 23 months", 23, nil, "", of(100, 1000, dairy), 35, 480 / (0.04 * 236.5882365)},
		{"milk powder of which a grown person has less", 23, nil, "", of(10, 20, dairy), 3.5, 20},
		{"a drink that counts as no milk at 23 months", 23, nil, "", of(200, 1000, tag(foods.TagDairyDrink)), 70, 350},
		{"milk powder at 24 months", 24, nil, "", of(100, 1000, dairy), 35, 710 / (0.04 * 236.5882365)},
		{"milk powder of 4 cups in 100 g at 47 months: 710 mL", 47, nil, "", of(1000, 1000, dairy), 710 / (0.04 * 236.5882365), 710 / (0.04 * 236.5882365)},
		{"milk powder at 48 months", 48, nil, "", of(200, 1000, dairy), 120, 600},
		{"12 g of lactose", grown, []nutrients.Condition{nutrients.Lactose}, "", of(20, 160, lactose), 20, 24},
		{"lactose does not matter", grown, nil, "", of(20, 160, lactose), 20, 160},
		{"200 mg of caffeine in pregnancy", grown, nil, nutrients.Pregnant1, of(5, 100, coffee), 5, 200.0 / 30},
		{"300 mg in lactation", grown, nil, nutrients.Lactating2, of(5, 100, coffee), 5, 10},
		{"400 mg", grown, nil, "", of(5, 100, coffee), 5, 400.0 / 30},
		{"100 mg at 215 months", 215, nil, "", of(5, 100, coffee), 100.0 / 30, 100.0 / 30},
		{"bare fat is a rule of kitchens, for all of it", grown, nil, "", of(30, 160, func(f *foods.Food) { f.Form = "ghee" }), 30, 160},
		{"fish is counted by the week", grown, nil, "", of(80, 160, func(f *foods.Food) { f.Mercury = "best" }), 80, 160},
	} {
		use := check
		if c.food.Form == "concentrate" {
			use = ready
		}
		d := dinerOf(c.months)
		d.needs.Person.Conditions, d.needs.Person.State = c.is, c.state
		for range 2 { // the second time from what the first kept
			if sitting, day := use.sittingAndDay(d, c.food); !near(sitting, c.sitting) || !near(day, c.day) {
				t.Errorf("%s: %g g at a sitting and %g g a day, want %g and %g", c.name, sitting, day, c.sitting, c.day)
			}
		}
	}
}

// TestWindow: out of one open pack are eaten before it spoils, by how many hours it keeps: one
// sitting under six hours, a day's amount to 24, and as many days' as it keeps beyond, to the
// last day of the plan (common practice, no source). Of ten days, 80 g a sitting and 160 g a day.
func TestWindow(t *testing.T) {
	keeps := func(hours float64) *foods.Food {
		return food("food", func(f *foods.Food) {
			f.OccasionG, f.DayG = 80, 160
			f.Keeping = &foods.Keeping{AfterOpenHours: hours, UseByMonths: 12, MaxStorageC: 21}
		})
	}
	for _, c := range []struct {
		name string
		days int
		food *foods.Food
		want float64
	}{
		{"nothing known", 10, food("food", func(f *foods.Food) { f.OccasionG, f.DayG = 80, 160 }), 80},
		{"2 hours", 10, keeps(2), 80},
		{"just under 6 hours", 10, keeps(5.9), 80},
		{"6 hours", 10, keeps(6), 160},
		{"24 hours", 10, keeps(24), 160},
		{"30 hours", 10, keeps(30), 200},
		{"three days", 10, keeps(72), 480},
		{"ten days", 10, keeps(240), 1600},
		{"half a year", 10, keeps(24 * 180), 1600},
		{"half a year, of two days", 2, keeps(24 * 180), 320},
	} {
		check := checkerOf(t, &ration.Request{Days: c.days})
		if got := check.windowG(dinerOf(400), c.food); !near(got, c.want) {
			t.Errorf("%s: %g g out of a pack, want %g", c.name, got, c.want)
		}
	}
}

// TestMenu: what may be eaten of each food over ten days, what out of one pack, and of which
// foods anything is had. Formula of 67 kcal in 100 g is 1 mL a gram, of a feed of 700 mL a day
// 7000 g; 308 g of a mother's milk are ten fluid ounces of 29.5735295625 mL.
func TestMenu(t *testing.T) {
	pack := &foods.Pack{Key: "rice-1kg", EasyOpen: true, GrossG: 1000}
	rice := food("rice", func(f *foods.Food) {
		f.OccasionG, f.DayG, f.Packs = 80, 160, []*foods.Pack{pack}
		f.Keeping = &foods.Keeping{AfterOpenHours: 12}
	})
	formula := food("formula", func(f *foods.Food) {
		f.Tags, f.Packs = []string{foods.TagInfantFormula}, []*foods.Pack{{Key: "formula", EasyOpen: true}}
		f.Per100g[nutrients.Energy] = 67
	})
	human := food("a mother's milk", func(f *foods.Food) { f.Tags = []string{foods.TagHumanMilk} })
	porridge := food("porridge", func(f *foods.Food) {
		f.OccasionG, f.DayG, f.Packs, f.Tags, f.Texture = 80, 160, rice.Packs, []string{foods.TagInfantFood}, "puree"
		f.Per100g[nutrients.Sodium] = 0
	})
	none := food("of which nobody eats any", func(f *foods.Food) { f.Packs = []*foods.Pack{{Key: "none", EasyOpen: true}} })
	gone := food("sold no more", func(f *foods.Food) { f.OccasionG, f.DayG = 80, 160 })
	ml := func(v float64) *nutrients.Limit { return &nutrients.Limit{Amount: v} }
	for _, c := range []struct {
		name   string
		months int
		feed   *nutrients.Feed
		most   map[*foods.Food]float64
		open   string
	}{
		{"grown", 400, nil, map[*foods.Food]float64{rice: 1600, formula: 0, human: 0, none: 0, gone: 1600}, "[rice]"},
		{"an infant of both", 8, &nutrients.Feed{FormulaML: ml(700), HumanMilkML: ml(29.5735295625)}, map[*foods.Food]float64{rice: 1600, formula: 7000, human: 308, none: 0}, "[porridge formula a mother's milk]"},
		{"an infant of formula", 8, &nutrients.Feed{FormulaML: ml(700)}, map[*foods.Food]float64{formula: 7000, human: 0}, "[porridge formula]"},
		{"under 6 months", 5, &nutrients.Feed{Only: true, FormulaML: ml(700)}, map[*foods.Food]float64{rice: 0, formula: 7000}, "[formula]"},
	} {
		check := checkerOf(t, &ration.Request{Days: 10, Table: &foods.Table{Foods: []*foods.Food{rice, porridge, formula, human, none, gone}}})
		d := dinerOf(c.months)
		d.needs.Feed, d.may = c.feed, nil
		d.needs.Person.Feeding = feeding(c.feed)
		check.menu(d)
		for f, want := range c.most {
			if got := d.may[f].most; !near(got, want) {
				t.Errorf("%s: at most %g g of %s, want %g", c.name, got, f.Name, want)
			}
		}
		if names := namesOf(d.open); names != c.open {
			t.Errorf("%s: may eat %s, want %s", c.name, names, c.open)
		}
	}
	soy := food("soy formula", func(f *foods.Food) {
		f.Tags, f.Packs, f.Allergens = formula.Tags, formula.Packs, []string{"soy"}
		f.Per100g[nutrients.Energy] = 67
	})
	check := checkerOf(t, &ration.Request{Days: 10, Table: &foods.Table{Foods: []*foods.Food{formula, soy}}})
	d := dinerOf(8)
	d.needs.Feed, d.needs.Person.Feeding = &nutrients.Feed{FormulaML: ml(700)}, nutrients.FormulaFed
	if check.menu(d); namesOf(d.open) != "[formula]" {
		t.Errorf("an infant of formula on milk may have %s", namesOf(d.open))
	}
	d.needs.Feed.SpareFactor = 1.1
	if got, other := boughtPerGram(d, formula), boughtPerGram(d, rice); got != 1.1 || other != 1 || boughtPerGram(dinerOf(400), formula) != 1 {
		t.Errorf("for a gram of formula %g are bought, of rice %g", got, other)
	}
	check = checkerOf(t, &ration.Request{Days: 10, Table: &foods.Table{Foods: []*foods.Food{rice}}})
	d = dinerOf(400)
	if check.menu(d); d.may[rice].window != 160 {
		t.Errorf("%g g of rice out of a pack that keeps half a day, want the day's 160", d.may[rice].window)
	}
	check.req.Days = 1
	rice.Keeping.AfterOpenHours, rice.OccasionG, rice.DayG = 2, 160, 80 // no more than in all the days
	if check.menu(d); d.may[rice].window != 80 || d.may[rice].most != 80 {
		t.Errorf("of one day %+v, want 80 g both", d.may[rice])
	}
}

// feeding is the word of the household for a feed.
func feeding(feed *nutrients.Feed) nutrients.Feeding {
	switch {
	case feed == nil:
		return ""
	case feed.HumanMilkML == nil:
		return nutrients.FormulaFed
	case feed.FormulaML == nil:
		return nutrients.BreastFed
	}
	return nutrients.MixedFed
}

func namesOf(list []*foods.Food) string {
	s := ""
	for i, f := range list {
		if i > 0 {
			s += " "
		}
		s += f.Name
	}
	return "[" + s + "]"
}

// TestBarsOfAPlan: who is kept from a food by what the household says, by the milk that is an
// infant's alone, and by nothing.
func TestBarsOfAPlan(t *testing.T) {
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	rice := table.Foods[0] // any food
	formula := food("formula", func(f *foods.Food) { f.Tags = []string{foods.TagInfantFormula} })
	human := food("a mother's milk", func(f *foods.Food) { f.Tags = []string{foods.TagHumanMilk} })
	honey := food("honey", func(f *foods.Food) { f.Tags = []string{foods.TagHoney} })
	wishes, err := table.Wishes(nutrients.Person{Name: "Signe", Dislikes: []string{rice.Name}})
	if err != nil {
		t.Fatal(err)
	}
	limit := &nutrients.Limit{Amount: 700}
	for _, c := range []struct {
		name   string
		months int
		feed   *nutrients.Feed
		wishes *foods.Wishes
		out    string // why nobody gets it
		food   *foods.Food
		want   string
	}{
		{"nothing", 400, nil, &foods.Wishes{}, "", rice, ""},
		{"formula of a grown person", 400, nil, &foods.Wishes{}, "", formula, "it is the milk of infants who are fed by it"},
		{"formula of an infant", 8, &nutrients.Feed{FormulaML: limit}, &foods.Wishes{}, "", formula, ""},
		{"formula of an infant who is nursed", 8, &nutrients.Feed{HumanMilkML: limit}, &foods.Wishes{}, "", formula, "it is the milk of infants who are fed by it"},
		{"a mother's milk of an infant who is nursed", 8, &nutrients.Feed{HumanMilkML: limit}, &foods.Wishes{}, "", human, ""},
		{"a mother's milk of an infant of formula", 8, &nutrients.Feed{FormulaML: limit}, &foods.Wishes{}, "", human, "it is the milk of infants who are fed by it"},
		{"milk under 6 months", 5, &nutrients.Feed{Only: true, FormulaML: limit}, &foods.Wishes{}, "", formula, ""},
		{"food under 6 months", 5, &nutrients.Feed{Only: true, FormulaML: limit}, &foods.Wishes{}, "", rice, "under 6 months nothing but milk"},
		{"honey under 12 months", 8, &nutrients.Feed{FormulaML: limit}, &foods.Wishes{}, "", honey, "honey under 12 months"},
		{"left out", 400, nil, &foods.Wishes{}, "without rice", rice, "without rice"},
		{"disliked", 400, nil, wishes, "", rice, "Signe does not like " + rice.Name},
	} {
		check := checkerOf(t, &ration.Request{Days: 10})
		if c.out != "" {
			check.without[c.food] = c.out
		}
		d := dinerOf(c.months)
		d.needs.Feed, d.wishes, d.needs.Person.Feeding = c.feed, c.wishes, feeding(c.feed)
		check.req.People = []nutrients.Person{d.needs.Person}
		if got := check.bar(d, c.food); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
	// A rule of the table alone: no added sugar under 24 months.
	check := checkerOf(t, &ration.Request{Days: 10})
	sweet := food("jam", func(f *foods.Food) { f.Per100g[nutrients.AddedSugars] = 50 })
	for _, months := range []int{23, 24} {
		if got := check.bar(dinerOf(months), sweet); (got != "") != (months < 24) {
			t.Errorf("jam at %d months: %q", months, got)
		}
	}
}

// TestHad: a food is had where a pack of it is sold or in stock that the household can open
// (an easy lid, at most 1500 g full: common practice, no source); a mother's milk always.
func TestHad(t *testing.T) {
	easy, hard := &foods.Pack{Key: "easy", EasyOpen: true, GrossG: 1500}, &foods.Pack{Key: "hard", GrossG: 400}
	heavy := &foods.Pack{Key: "heavy", EasyOpen: true, GrossG: 1501}
	for _, c := range []struct {
		name             string
		sold, stock      *foods.Pack
		human, easy, own bool // own: of the stock alone
		want             bool
	}{
		{"sold", hard, nil, false, false, false, true},
		{"not sold", nil, nil, false, false, false, false},
		{"in stock", nil, hard, false, false, false, true},
		{"sold, of the stock alone", hard, nil, false, false, true, false},
		{"in stock, of the stock alone", nil, hard, false, false, true, true},
		{"a mother's milk", nil, nil, true, true, true, true},
		{"weak hands and a hard lid", hard, nil, false, true, false, false},
		{"weak hands and an easy lid of 1500 g", easy, nil, false, true, false, true},
		{"weak hands and an easy lid of 1501 g", heavy, nil, false, true, false, false},
		{"weak hands and a hard lid in stock", hard, hard, false, true, false, false},
		{"weak hands and an easy lid in stock", hard, easy, false, true, false, true},
	} {
		f := food("food", func(f *foods.Food) {
			if c.sold != nil {
				f.Packs = []*foods.Pack{c.sold}
			}
			if c.human {
				f.Tags = []string{foods.TagHumanMilk}
			}
		})
		req := &ration.Request{EasyOpen: c.easy, StockOnly: c.own, Stock: []foods.StockLine{{Pack: &foods.Pack{Key: "other", EasyOpen: true, Food: food("other", nil)}}}}
		if c.stock != nil {
			own := *c.stock
			own.Food = f
			req.Stock = append(req.Stock, foods.StockLine{Pack: &own})
		}
		if got := checkerOf(t, req).had(f); got != c.want {
			t.Errorf("%s: had %v", c.name, got)
		}
	}
}

// TestOneFormula: an infant gets the kind of formula that is planned while that can be had, soy
// where the child's diet asks for it; and what the house keeps out is let in again where the
// feed would be without milk, of two the one that holds it not. Nobody else's is changed.
func TestOneFormula(t *testing.T) {
	const out, kind = "kept out of the house", "formula of another kind is planned"
	formula := func(name string, allergens ...string) *foods.Food {
		return food(name, func(f *foods.Food) {
			f.Tags, f.Allergens, f.Packs = []string{foods.TagInfantFormula}, allergens, []*foods.Pack{{Key: name}}
			f.Form = "infant_formula_powder"
		})
	}
	milk, soy, both := formula("milk", "milk"), formula("soy", "soy"), formula("both", "milk", "soy")
	human := food("human", func(f *foods.Food) { f.Tags = []string{foods.TagHumanMilk} })
	rice := food("rice", func(f *foods.Food) { f.Packs = []*foods.Pack{{Key: "rice"}} })
	unsold := formula("unsold", "milk")
	unsold.Packs = nil
	limit := &nutrients.Limit{Amount: 700}
	fed, onSoy := &nutrients.Feed{FormulaML: limit}, &nutrients.Feed{FormulaML: limit, Soy: true}
	mixed := &nutrients.Feed{FormulaML: limit, HumanMilkML: limit}
	type bars map[*foods.Food]string
	for _, c := range []struct {
		name         string
		feed         *nutrients.Feed
		months       int
		all          []*foods.Food
		keeps        string // what somebody keeps out of the house
		allergic     string // what the infant does not stand
		before, want bars
	}{
		{"all can be had", fed, 8, []*foods.Food{milk, soy, both, rice}, "", "", bars{}, bars{soy: kind}},
		{"soy is planned", onSoy, 8, []*foods.Food{milk, soy, both, rice}, "", "", bars{}, bars{milk: kind, both: kind}},
		{"soy alone", fed, 8, []*foods.Food{soy}, "", "", bars{}, bars{}},
		{"soy is planned, none there is", onSoy, 8, []*foods.Food{milk}, "", "", bars{}, bars{}},
		{"soy is barred already", fed, 8, []*foods.Food{milk, soy}, "", "", bars{soy: out}, bars{soy: out}},
		{"milk is not sold", fed, 8, []*foods.Food{unsold, soy}, "", "", bars{}, bars{}},
		{"milk is barred: soy stays", fed, 8, []*foods.Food{milk, soy}, "", "", bars{milk: out}, bars{milk: out}},
		{"all is left out", fed, 8, []*foods.Food{milk, soy, rice}, "", "", bars{milk: out, soy: out, rice: out}, bars{rice: out}},
		{"all is left out, milk is kept out of the house", fed, 8, []*foods.Food{milk, soy}, "milk", "", bars{milk: out, soy: out}, bars{milk: out}},
		{"all holds what is kept out", fed, 8, []*foods.Food{milk, both}, "milk", "", bars{milk: out, both: out}, bars{}},
		{"the infant's own allergy stays", fed, 8, []*foods.Food{milk, soy}, "", "soy", bars{milk: out, soy: out}, bars{soy: out}},
		{"a mother's milk", &nutrients.Feed{HumanMilkML: limit}, 8, []*foods.Food{milk, human}, "", "", bars{milk: out, human: out}, bars{milk: out}},
		{"both, the mother's is left out", mixed, 8, []*foods.Food{milk, human}, "", "", bars{human: out}, bars{}},
		{"both, formula is left out", mixed, 8, []*foods.Food{milk, human}, "", "", bars{milk: out}, bars{}},
		{"no infant", nil, 400, []*foods.Food{milk, soy}, "", "", bars{milk: out}, bars{milk: out}},
	} {
		check := checkerOf(t, &ration.Request{Days: 10, Table: &foods.Table{Foods: c.all}})
		d := dinerOf(c.months)
		d.needs.Feed, d.needs.Person.Feeding = c.feed, feeding(c.feed)
		if c.allergic != "" {
			d.needs.Person.Allergies = []nutrients.Allergy{{Allergen: c.allergic, Level: nutrients.AllergyStrict}}
		}
		other := nutrients.Person{Name: "Odd", AgeMonths: 400, Allergies: []nutrients.Allergy{{Allergen: "peanut", Level: nutrients.AllergyHousehold}, {Allergen: "soy", Level: nutrients.AllergyStrict}}}
		if c.keeps != "" {
			other.Allergies = append(other.Allergies, nutrients.Allergy{Allergen: c.keeps, Level: nutrients.AllergyHousehold})
		}
		check.req.People = []nutrients.Person{other, d.needs.Person}
		for _, f := range c.all {
			d.may[f] = amount{most: 100, bar: c.before[f]}
		}
		check.oneFormula(d)
		for _, f := range c.all {
			if got := d.may[f]; got.bar != c.want[f] || got.most != 100 {
				t.Errorf("%s: %s is barred by %q, want %q", c.name, f.Name, got.bar, c.want[f])
			}
		}
	}
}

// TestEatenCold: what may be eaten cold takes no heat where the household does not cook so far
// or has a limit of heat.
func TestEatenCold(t *testing.T) {
	limit := 1.0
	for _, c := range []struct {
		class string
		cold  bool
		cook  ration.Cook
		heat  *float64
		want  bool
	}{
		{"boil", true, ration.CookBoil, nil, false}, {"boil", true, ration.CookWarm, nil, true}, {"boil", true, ration.CookNone, nil, true},
		{"warm", true, ration.CookNone, nil, true}, {"warm", true, ration.CookWarm, nil, false}, {"simmer", true, ration.CookBoil, nil, true},
		{"simmer", true, ration.CookSimmer, nil, false}, {"none", true, ration.CookNone, nil, false},
		{"boil", true, ration.CookBoil, &limit, true}, {"boil", false, ration.CookNone, &limit, false},
	} {
		check := checkerOf(t, &ration.Request{Cook: c.cook, Limits: ration.Limits{HeatMJ: c.heat}})
		f := food("food", func(f *foods.Food) { f.Preparation = &foods.Preparation{Class: c.class, ColdOK: c.cold} })
		if got := check.eatenCold(f); got != c.want {
			t.Errorf("%+v: cold %v", c, got)
		}
	}
	if checkerOf(t, &ration.Request{}).eatenCold(food("food", nil)) {
		t.Error("a food without a preparation is said to be eaten cold")
	}
}
