package verify

import (
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// TestFeedIsHeldToItsVolume: of each milk of a feed an infant has its volume a day and neither
// more nor less, over ten days: formula made ready has 67 kcal in 100 mL (special.csv: 20 kcal a
// fluid ounce), so that 100 g of 67 kcal are 100 mL and 100 g of powder of 502.5 kcal 750 mL; of a
// mother's milk 30.8 g (USDA) are a fluid ounce of 29.5735295625 mL.
func TestFeedIsHeldToItsVolume(t *testing.T) {
	milk := func(tag string, kcal float64) *foods.Food {
		f := &foods.Food{Name: tag, Per100g: nutrients.Unknown(), Tags: []string{tag}}
		f.Per100g[nutrients.Energy] = kcal
		return f
	}
	ready, powder := milk(foods.TagInfantFormula, 67), milk(foods.TagInfantFormula, 502.5) // 502.5 / 67: 7.5 mL a gram
	human, pears := milk(foods.TagHumanMilk, 70), milk(foods.TagInfantFood, 67)
	limit := func(v float64) *nutrients.Limit { return &nutrients.Limit{Amount: v} }
	formula, breast := &nutrients.Feed{FormulaML: limit(750)}, &nutrients.Feed{HumanMilkML: limit(295.735295625)} // 308 g
	both := &nutrients.Feed{FormulaML: limit(750), HumanMilkML: limit(295.735295625)}
	for _, c := range []struct {
		name  string
		feed  *nutrients.Feed
		eaten []helping
		found int
	}{
		{"the volume", formula, []helping{{ready, 7500}}, 0},
		{"a tenth more", formula, []helping{{ready, 8250}}, 1},
		{"a tenth less", formula, []helping{{ready, 6750}}, 1},
		{"a gram more", formula, []helping{{ready, 7501}}, 1},
		{"a gram less", formula, []helping{{ready, 7499}}, 1},
		{"none", formula, nil, 1},
		{"of powder", formula, []helping{{powder, 1000}}, 0},
		{"a gram of powder more", formula, []helping{{powder, 1001}}, 1},
		{"a gram of powder less", formula, []helping{{powder, 999}}, 1},
		{"half powder, half ready", formula, []helping{{powder, 500}, {ready, 3750}}, 0},
		{"food is no milk", formula, []helping{{ready, 7500}, {pears, 900}}, 0},
		{"food in place of milk", formula, []helping{{pears, 7500}}, 1},
		{"a mother's milk in place of formula", formula, []helping{{human, 7500}}, 1},

		{"a mother's milk", breast, []helping{{human, 3080}}, 0},
		{"a gram of it more", breast, []helping{{human, 3081}}, 1},
		{"a gram of it less", breast, []helping{{human, 3079}}, 1},
		{"formula in place of it", breast, []helping{{ready, 3080}}, 1},

		{"both", both, []helping{{ready, 7500}, {human, 3080}}, 0},
		{"both, more formula", both, []helping{{ready, 7501}, {human, 3080}}, 1},
		{"both, more of the mother's", both, []helping{{ready, 7500}, {human, 3081}}, 1},
		{"more of one, less of the other", both, []helping{{ready, 7400}, {human, 3180}}, 2},
		{"both, and none is had", both, nil, 2},

		{"no infant", nil, []helping{{ready, 9000}}, 0},
	} {
		check := &checker{req: &ration.Request{Days: 10}, plan: &ration.Plan{}}
		personal{check}.feed(&diner{needs: nutrients.Needs{Person: nutrients.Person{Name: "Liv"}, Feed: c.feed}, eaten: c.eaten})
		if len(check.found) != c.found {
			t.Errorf("%s: %v, want %d findings", c.name, check.found, c.found)
		}
	}
}

// TestInfantFoods: what holds for an infant's foods by the figures beside each case, of
// ten days. A rule of a choice holds only where there is one, and none holds for somebody
// who is no infant, of a stock that is all there is, or under six months.
func TestInfantFoods(t *testing.T) {
	jar := func(name, group string, tags ...string) *foods.Food {
		f := &foods.Food{Name: name, Form: "baby_food_jar", Per100g: nutrients.Unknown(), Tags: append(tags, foods.TagInfantFood)}
		if group != "" {
			f.Serves = []foods.Serving{{Group: group, Per100g: 100 / gPerOz}}
		}
		return f
	}
	rice := &foods.Food{Name: "infant rice cereal", Form: "baby_cereal_dry", Per100g: nutrients.Unknown()}
	oats := &foods.Food{Name: "infant oat cereal", Form: "baby_cereal_dry", Per100g: nutrients.Unknown()}
	pears, peas, squash := jar("pears", "fruits"), jar("peas", "vegetables"), jar("squash", "vegetables")
	beef, stew := jar("beef", "protein", foods.TagMeat), jar("stew", "", foods.TagMeat)
	turkey := jar("turkey", "protein", foods.TagPoultry)
	powder := &foods.Food{Name: "powder", Form: "infant_formula_powder", Per100g: nutrients.Unknown(), Tags: []string{foods.TagInfantFormula}}
	ready := &foods.Food{Name: "ready", Form: "infant_formula_ready_to_feed", Per100g: nutrients.Unknown(), Tags: []string{foods.TagInfantFormula}}
	limit := func(v float64) *nutrients.Limit { return &nutrients.Limit{Amount: v} }
	older := func() *nutrients.Feed { return &nutrients.Feed{} }
	type example struct {
		name  string
		feed  *nutrients.Feed
		open  []*foods.Food
		eaten []helping
		stock bool // only what there is
		rule  func(personal, *diner)
		found int
	}
	cereal, puree, meat, form := personal.cereal, personal.puree, personal.meat, personal.oneForm
	pureed := &nutrients.Feed{PureeG: limit(80)}
	fed := &nutrients.Feed{MeatG: limit(20)}
	for _, c := range []example{
		{"rice is all there is", older(), []*foods.Food{rice}, []helping{{rice, 100}}, false, cereal, 0},
		{"rice only, and oats are there", older(), []*foods.Food{rice, oats}, []helping{{rice, 100}}, false, cereal, 1},
		{"half rice, half oats", older(), []*foods.Food{rice, oats}, []helping{{rice, 50}, {oats, 50}}, false, cereal, 0},
		{"more rice than oats", older(), []*foods.Food{rice, oats}, []helping{{rice, 51}, {oats, 49}}, false, cereal, 1},
		{"no cereal", older(), []*foods.Food{rice, oats}, nil, false, cereal, 0},
		{"more rice, of a stock", older(), []*foods.Food{rice, oats}, []helping{{rice, 100}}, true, cereal, 0},
		{"more rice, under six months", &nutrients.Feed{Only: true}, []*foods.Food{rice, oats}, []helping{{rice, 100}}, false, cereal, 0},
		{"more rice, no infant", nil, []*foods.Food{rice, oats}, []helping{{rice, 100}}, false, cereal, 0},

		{"80 g of one of two", pureed, []*foods.Food{pears, peas}, []helping{{pears, 800}}, false, puree, 0},
		{"79 g a day", pureed, []*foods.Food{pears, peas}, []helping{{pears, 790}}, false, puree, 1},
		{"80 g of one of three: two fifths is 32 g", pureed, []*foods.Food{pears, peas, squash}, []helping{{pears, 800}}, false, puree, 1},
		{"two fifths of two, a fifth of the third", pureed, []*foods.Food{pears, peas, squash}, []helping{{pears, 320}, {peas, 320}, {squash, 160}}, false, puree, 0},
		{"80 g of one of three, of a stock", pureed, []*foods.Food{pears, peas, squash}, []helping{{pears, 800}}, true, puree, 0},
		{"none there is", pureed, []*foods.Food{beef}, nil, false, puree, 0},
		{"meat is no puree", pureed, []*foods.Food{pears, beef}, []helping{{beef, 800}}, false, puree, 1},

		{"20 g of beef", fed, []*foods.Food{beef}, []helping{{beef, 200}}, false, meat, 0},
		{"20 g of turkey", fed, []*foods.Food{turkey}, []helping{{turkey, 200}}, false, meat, 0},
		{"19 g of beef", fed, []*foods.Food{beef}, []helping{{beef, 190}}, false, meat, 1},
		{"stew is no plain meat", fed, []*foods.Food{beef, stew}, []helping{{stew, 500}}, false, meat, 1},
		{"none there is", fed, []*foods.Food{stew, pears}, nil, false, meat, 0},
		{"of a stock", fed, []*foods.Food{beef}, nil, true, meat, 0},
		{"no meat is asked for", older(), []*foods.Food{beef}, nil, false, meat, 0},

		{"powder alone", older(), nil, []helping{{powder, 900}}, false, form, 0},
		{"ready alone", older(), nil, []helping{{ready, 900}}, false, form, 0},
		{"both", older(), nil, []helping{{powder, 900}, {ready, 200}}, false, form, 1},
		{"both, of which one is what rounds", older(), nil, []helping{{powder, 900}, {ready, 0.01}}, false, form, 0},
		{"both, the other is what rounds", older(), nil, []helping{{powder, 0.01}, {ready, 900}}, false, form, 0},
		{"both, of a stock", older(), nil, []helping{{powder, 900}, {ready, 200}}, true, form, 0},
	} {
		check := &checker{req: &ration.Request{Days: 10, StockOnly: c.stock}, plan: &ration.Plan{}}
		d := &diner{needs: nutrients.Needs{Person: nutrients.Person{Name: "Liv"}, Feed: c.feed}, open: c.open, eaten: c.eaten}
		c.rule(personal{check}, d)
		if len(check.found) != c.found {
			t.Errorf("%s: %v, want %d findings", c.name, check.found, c.found)
		}
	}
}

// TestMilksAndJarsTogether: powder of two tins beside ready feed of two is told as one; a closest
// ration may hold both, since it is no plan; jars with poultry or meat are no purees.
func TestMilksAndJarsTogether(t *testing.T) {
	formula := func(form string) *foods.Food {
		return &foods.Food{Name: form, Form: form, Tags: []string{foods.TagInfantFormula}}
	}
	tin, other, ready, carton := formula("infant_formula_powder"), formula("infant_formula_powder"), formula("infant_formula_ready_to_feed"), formula("")
	for _, c := range []struct {
		name    string
		eaten   []helping
		closest bool
		found   bool
	}{
		{"two tins", []helping{{tin, 900}, {other, 900}}, false, false},
		{"two ready", []helping{{ready, 900}, {carton, 900}}, false, false},
		{"two of each, the last what rounds", []helping{{tin, 900}, {other, 0.01}, {ready, 900}, {carton, 0.01}}, false, true},
		{"the same of a closest ration", []helping{{tin, 900}, {ready, 900}}, true, false},
	} {
		check := &checker{req: &ration.Request{Days: 10}, plan: &ration.Plan{}, closest: c.closest}
		personal{check}.oneForm(&diner{needs: nutrients.Needs{Feed: &nutrients.Feed{}}, eaten: c.eaten})
		if (len(check.found) > 0) != c.found || c.found && (check.found[0].Amount != 900.01 || check.found[0].Bound != 0) {
			t.Errorf("%s: %v", c.name, check.found)
		}
	}
	jar := func(tags ...string) *foods.Food {
		return &foods.Food{Name: "peas", Form: "baby_food_jar", Tags: append(tags, foods.TagInfantFood), Serves: []foods.Serving{{Group: "vegetables", Per100g: 1}}}
	}
	custard := jar()
	custard.Serves = []foods.Serving{{Group: "dairy", Per100g: 1}}
	for _, c := range []struct {
		jar   *foods.Food
		found int
	}{{jar(), 0}, {jar(foods.TagMeat), 1}, {jar(foods.TagPoultry), 1}, {custard, 1}} {
		check := &checker{req: &ration.Request{Days: 10}, plan: &ration.Plan{}}
		peas := jar()
		personal{check}.puree(&diner{needs: nutrients.Needs{Feed: &nutrients.Feed{PureeG: limitOf(50)}}, open: []*foods.Food{peas}, eaten: []helping{{c.jar, 500}}})
		if len(check.found) != c.found {
			t.Errorf("peas with %v: %v, want %d findings", c.jar.Tags, check.found, c.found)
		}
	}
}
