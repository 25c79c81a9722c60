package verify_test

import (
	"context"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
	"rationwright/solver/verify"
)

// made makes a plan quickly: a gap of a tenth is enough to have one to spoil.
func made(t testing.TB, req *ration.Request) *ration.Plan {
	t.Helper()
	req.Within, req.Work, req.Time, req.Start = 0.2, 3000, time.Minute, "2026-11-25"
	plan, err := plan.Make(context.Background(), req, nil)
	if err != nil {
		t.Fatal(err)
	}
	if plan.Totals == nil {
		t.Fatalf("no plan: %s", plan.Status)
	}
	return plan
}

var foodTable = sync.OnceValue(func() *foods.Table {
	t, err := foods.Load()
	if err != nil {
		panic(err)
	}
	return t
})

// person is somebody invented of the island community of Ternsund.
func person(name string, months int, sex nutrients.Sex) nutrients.Person {
	return nutrients.Person{Name: name, AgeMonths: months, Sex: sex, Activity: nutrients.LowActive, Count: 1}
}

func of(people ...nutrients.Person) *ration.Request {
	return &ration.Request{People: people, Table: foodTable(), Least: ration.LeastWeight}
}

func signe() nutrients.Person { return person("Signe", 30*12, nutrients.Female) }
func odd() nutrients.Person   { return person("Odd", 2*12, nutrients.Male) }
func formulaInfant() nutrients.Person {
	p := person("Liv", 8, nutrients.Female)
	p.Feeding = nutrients.FormulaFed
	return p
}
func withDiabetes() nutrients.Person {
	p := person("Torleif", 50*12, nutrients.Male)
	p.Conditions = []nutrients.Condition{nutrients.Diabetes1}
	return p
}

// plans are made once and copied before they are spoilt.
var plans sync.Map

type onceMade struct {
	sync.Once
	req  *ration.Request
	plan *ration.Plan
}

// fresh returns copies of a request and its plan that may be spoilt.
func fresh(t testing.TB, name string, ask func() *ration.Request) (*ration.Request, *ration.Plan) {
	t.Helper()
	v, _ := plans.LoadOrStore(name, new(onceMade))
	o := v.(*onceMade)
	o.Do(func() {
		o.req = ask()
		o.plan = made(t, o.req)
	})
	if o.plan == nil {
		t.Fatal("the plan was not made")
	}
	req := *o.req
	req.People = append([]nutrients.Person(nil), req.People...)
	req.Stock = append([]foods.StockLine(nil), req.Stock...)
	plan := *o.plan
	plan.Packs = append([]ration.PlanPack(nil), plan.Packs...)
	plan.People = append([]ration.PlanPerson(nil), plan.People...)
	for i := range plan.People {
		p := &plan.People[i]
		p.Foods = append([]ration.PersonFood(nil), p.Foods...)
		p.ByDate = append([]ration.DatedFood(nil), p.ByDate...)
		p.Needs = append([]ration.PersonNeed(nil), p.Needs...)
		if p.Carbohydrate != nil {
			c := *p.Carbohydrate
			p.Carbohydrate = &c
		}
	}
	totals := *plan.Totals
	plan.Totals = &totals
	return &req, &plan
}

// reprinted writes into the plan what a consistent writer would print, so that
// only the limits that are passed are left to find.
func reprinted(req *ration.Request, p *ration.Plan) {
	for range 3 {
		for _, v := range verify.Check(req, p) {
			what, ok := strings.CutSuffix(v.Limit, " as printed")
			if !ok {
				continue
			}
			switch what {
			case "cost of food":
				p.Totals.Food.Cost = v.Bound
			case "weight of food":
				p.Totals.Food.WeightKg = v.Bound
			case "volume of food":
				p.Totals.Food.VolumeL = v.Bound
			case "cost":
				p.Totals.Cost = v.Bound
			case "weight":
				p.Totals.WeightKg = v.Bound
			case "volume":
				p.Totals.VolumeL = v.Bound
			case "value":
				value := v.Bound
				p.Value = &value
			default:
				for i := range p.People {
					if person := &p.People[i]; person.Name == v.Person {
						if n := person.Need(what); n != nil {
							n.Amount = v.Bound
						} else if what == "carbohydrate of a meal" {
							person.Carbohydrate.MeanG = v.Bound
						}
					}
				}
			}
		}
	}
}

// give adds grams of a food to what a person eats, and packs of it to the store.
func give(t testing.TB, p *ration.Plan, who int, food string, grams float64) {
	t.Helper()
	f, err := foodTable().Food(food)
	if err != nil {
		t.Fatal(err)
	}
	for i := range p.People[who].Foods {
		if p.People[who].Foods[i].Food == f.Name {
			p.People[who].Foods[i].Grams += grams
			grams = 0
		}
	}
	if grams > 0 {
		p.People[who].Foods = append(p.People[who].Foods, ration.PersonFood{Food: f.Name, Grams: grams})
	}
	p.Packs = append(p.Packs, ration.PlanPack{Pack: f.Packs[0].Key, Food: f.Name, Count: 200})
}

// foodWith is the name of a food of the table for which is holds.
func foodWith(t testing.TB, is func(*foods.Food) bool) string {
	t.Helper()
	for _, f := range foodTable().Foods {
		if len(f.Packs) > 0 && is(f) {
			return f.Name
		}
	}
	t.Fatal("the table has no such food")
	return ""
}

func tagged(tag string) func(*foods.Food) bool {
	return func(f *foods.Food) bool { return f.HasTag(tag) }
}

// stockOf is a request of Signe with packs of rice in stock, some of which must be
// eaten by a day of the horizon.
func stockOf() *ration.Request {
	r := of(signe())
	for _, name := range []string{"rice, white, long-grain", "white rice, long-grain"} {
		if f, err := foodTable().Food(name); err == nil {
			r.Stock = append(r.Stock, foods.StockLine{Pack: f.Packs[0], Count: 6, BestBefore: "2026-12-01"})
			return r
		}
	}
	for _, f := range foodTable().Foods {
		if f.Group == "grains" && len(f.Packs) > 0 && f.DayG >= 100 && f.Packs[0].NetG <= 1000 {
			r.Stock = append(r.Stock, foods.StockLine{Pack: f.Packs[0], Count: 6, BestBefore: "2026-12-01"})
			break
		}
	}
	return r
}

type spoiled struct {
	name string
	of   string
	ask  func() *ration.Request
	how  func(t *testing.T, r *ration.Request, p *ration.Plan)
	want string // in what is found
}

// Every rule that a plan rests on, broken alone in a plan that kept it, is found by
// its own name.
func TestSpoiledPlansAreRefused(t *testing.T) {
	woman := func() *ration.Request { return of(signe()) }
	nursery := func() *ration.Request { return of(signe(), formulaInfant(), odd()) }
	diabetes := func() *ration.Request { return of(withDiabetes()) }
	stocked := func() *ration.Request {
		r := stockOf()
		water, heat := 10.0, 1.0
		r.StockWaterL, r.StockHeatMJ, r.Pets = &water, &heat, 1
		return r
	}
	limit := func(v float64) *float64 { return &v }
	most := func(p *ration.PlanPerson) *ration.PersonFood {
		best := &p.Foods[0]
		for i := range p.Foods {
			if p.Foods[i].Grams > best.Grams {
				best = &p.Foods[i]
			}
		}
		return best
	}
	scale := func(p *ration.PlanPerson, by float64) {
		for i := range p.Foods {
			p.Foods[i].Grams *= by
		}
	}
	cases := []spoiled{
		// who is in the plan
		{"nobody", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { p.People = nil }, "missing from the plan"},
		{"somebody more", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { p.People = append(p.People, p.People[0]) }, "not in the household"},
		{"two printed as one", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { r.People[0].Count = 2 }, "missing from the plan"},
		// amounts
		{"a negative amount", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { p.People[0].Foods[0].Grams = -1 }, "negative"},
		{"an unknown food", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { p.People[0].Foods[0].Food = "moon cheese" }, "not in the table"},
		{"an unknown pack", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { p.Packs[0].Pack = "moon-cheese-1kg" }, "unknown"},
		{"more than one can eat", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			give(t, p, 0, foodWith(t, func(f *foods.Food) bool {
				return f.DayG > 0 && f.Group == "grains" && (f.Preparation == nil || f.Preparation.Class != "simmer")
			}), 14*2000)
		}, "most of "},
		{"a printed nutrient", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { p.People[0].Needs[0].Amount += 100 }, "as printed"},
		{"a nutrient left out", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { p.People[0].Needs = p.People[0].Needs[1:] }, "missing from the plan"},
		{"energy under the floor", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { scale(&p.People[0], 0.99) }, "energy"},
		{"energy over the ceiling", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			scale(&p.People[0], 1.2)
			for i := range p.Packs {
				p.Packs[i].Count *= 2
			}
		}, "energy"},
		{"a share of energy", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			give(t, p, 0, foodWith(t, func(f *foods.Food) bool { return f.Form == "oil_vegetable" }), 2500)
		}, "as a share of energy"},
		{"bare fat", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			give(t, p, 0, foodWith(t, func(f *foods.Food) bool { return f.Form == "oil_vegetable" }), 14*46)
		}, "most oil and fat"},
		{"bare sugar", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			give(t, p, 0, foodWith(t, func(f *foods.Food) bool { return f.Form == "sugar_white" }), 14*61)
		}, "most sugar"},
		{"an ingredient by itself", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			p.People[0].Foods = []ration.PersonFood{{Food: foodWith(t, func(f *foods.Food) bool { return len(f.Companions) > 0 }), Grams: 10}}
		}, "what it is cooked with"},
		{"a group of food left out", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			var kept []ration.PersonFood
			for _, line := range p.People[0].Foods {
				if f, _ := foodTable().Food(line.Food); f.PerGram("vegetables") == 0 {
					kept = append(kept, line)
				}
			}
			p.People[0].Foods = kept
		}, "servings of vegetables"},
		{"too much fish", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			give(t, p, 0, foodWith(t, func(f *foods.Food) bool { return f.Mercury == "best" }), 14*60)
		}, "most fish"},
		{"too much of a kind, in two jars", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			butters := 0
			for _, f := range foodTable().Foods {
				if slices.Contains(f.Kinds, "nut butters") && len(f.Packs) > 0 && butters < 2 {
					butters++
					give(t, p, 0, f.Name, 14*21)
				}
			}
		}, "most nut butters"},
		{"a kind beyond what the plan says", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			give(t, p, 0, foodWith(t, func(f *foods.Food) bool { return slices.Contains(f.Kinds, "nut butters") }), 14*80)
			p.Eatable = &ration.Eatable{Loosened: []ration.Loosened{{Person: "Signe", Kind: "nut butters", Unit: "g", Amount: 45, Limit: 40}}}
		}, "most nut butters"},
		{"a kind over what is safe, whatever the plan says", "nursery", nursery, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			give(t, p, 2, foodWith(t, func(f *foods.Food) bool { return slices.Contains(f.Kinds, "flaxseed") }), 14)
			p.Eatable = &ration.Eatable{Loosened: []ration.Loosened{{Person: "Odd", Kind: "flaxseed", Unit: "g", Amount: 50}}}
		}, "most flaxseed"},
		{"one food for all meals", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			give(t, p, 0, foodWith(t, func(f *foods.Food) bool {
				return f.Group == "grains" && f.Preparation != nil && f.Preparation.Class == "boil"
			}), 14*250)
		}, "as a share of all energy"},
		{"less drunk", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { p.People[0].DrinkLPerDay = 0.5 }, "drinks"},
		{"too little water in all", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { p.People[0].Foods = nil }, "water"},
		// who may eat what
		{"an allergy", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			r.People[0].Allergies = []nutrients.Allergy{{Allergen: "milk"}}
			give(t, p, 0, foodWith(t, func(f *foods.Food) bool { return len(f.Allergens) > 0 && f.Allergens[0] == "milk" }), 50)
		}, "holds milk"},
		{"traces of an allergen", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			r.People[0].Allergies = []nutrients.Allergy{{Allergen: "peanut"}}
			give(t, p, 0, foodWith(t, func(f *foods.Food) bool { return slices.Contains(f.MayContain, "peanut") }), 50)
		}, "may hold peanut"},
		{"an allergen in a house that keeps it out", "nursery", nursery, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			r.People[2].Allergies = []nutrients.Allergy{{Allergen: "fish", Level: nutrients.AllergyHousehold}}
			give(t, p, 0, foodWith(t, func(f *foods.Food) bool { return slices.Contains(f.Allergens, "fish") }), 50)
		}, "which this house keeps out"},
		{"vegan after all", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			r.People[0].Conditions = []nutrients.Condition{nutrients.Vegan}
			give(t, p, 0, foodWith(t, tagged(foods.TagMeat)), 50)
		}, "meat"},
		{"coeliac after all", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			r.People[0].Conditions = []nutrients.Condition{nutrients.Coeliac}
			give(t, p, 0, foodWith(t, func(f *foods.Food) bool { return len(f.Allergens) == 1 && f.Allergens[0] == "wheat" }), 50)
		}, "wheat"},
		{"chews badly after all", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			r.People[0].Conditions = []nutrients.Condition{nutrients.SoftFood}
			give(t, p, 0, foodWith(t, func(f *foods.Food) bool { return f.Texture == "hard" }), 50)
		}, "not soft"},
		{"does not digest lactose", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			r.People[0].Conditions = []nutrients.Condition{nutrients.Lactose}
			give(t, p, 0, foodWith(t, func(f *foods.Food) bool { return f.HasLactose && f.LactoseG > 30 }), 14*50)
		}, "most lactose"},
		{"pregnant after all", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { r.People[0].State = nutrients.Pregnant2 }, "folate"},
		{"coffee in pregnancy", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			r.People[0].State = nutrients.Pregnant2
			give(t, p, 0, foodWith(t, func(f *foods.Food) bool { return f.Form == "coffee_instant" }), 14*7)
		}, "most caffeine"},
		{"an exclusion", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { r.Without = []string{most(&p.People[0]).Food} }, "without "},
		{"a dislike", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			r.People[0].Dislikes = []string{most(&p.People[0]).Food}
		}, "does not like"},
		{"an own ceiling on a food", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			r.People[0].Rules = []nutrients.Rule{{Kind: nutrients.RuleMost, Food: most(&p.People[0]).Food, Low: 0.1, Text: "most of it 0.1 g/day"}}
		}, "most of it 0.1 g/day"},
		{"an own floor on a food", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			r.People[0].Rules = []nutrients.Rule{{Kind: nutrients.RuleLeast, Food: most(&p.People[0]).Food, Low: 1900, Text: "least of it 1900 g/day"}}
		}, "least of it 1900 g/day"},
		{"no cooking after all", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			r.Cook = ration.CookNone
			give(t, p, 0, foodWith(t, func(f *foods.Food) bool {
				return f.Preparation != nil && !f.Preparation.ColdOK && f.Preparation.Class == "boil"
			}), 50)
		}, "more cooking than none"},
		// infants and toddlers
		{"less milk than the feed", "nursery", nursery, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			for i, line := range p.People[1].Foods {
				if f, _ := foodTable().Food(line.Food); f.HasTag(foods.TagInfantFormula) {
					p.People[1].Foods[i].Grams *= 0.99
				}
			}
		}, "infant formula"},
		{"more milk than the feed", "nursery", nursery, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			for i, line := range p.People[1].Foods {
				if f, _ := foodTable().Food(line.Food); f.HasTag(foods.TagInfantFormula) {
					p.People[1].Foods[i].Grams *= 1.01
				}
			}
		}, "infant formula"},
		{"formula without a tenth to spare", "nursery", nursery, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			for i, line := range p.Packs {
				if f, _ := foodTable().Food(line.Food); f.HasTag(foods.TagInfantFormula) {
					p.Packs[i].Count--
				}
			}
		}, "packs of "},
		{"formula for a grown woman", "nursery", nursery, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			give(t, p, 0, foodWith(t, tagged(foods.TagInfantFormula)), 50)
		}, "milk of infants"},
		{"honey for an infant", "nursery", nursery, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			give(t, p, 1, foodWith(t, tagged(foods.TagHoney)), 5)
		}, "honey"},
		{"a choking hazard for a toddler", "nursery", nursery, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			give(t, p, 2, foodWith(t, func(f *foods.Food) bool { return f.HasTag(foods.TagChoking) && !f.HasTag(foods.TagHoney) }), 5)
		}, "choking"},
		{"fish of the second class for a toddler", "nursery", nursery, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			give(t, p, 2, foodWith(t, func(f *foods.Food) bool { return f.Mercury == "good" && !f.HasTag("bones") }), 5)
		}, "mercury"},
		{"juice for a toddler", "nursery", nursery, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			give(t, p, 2, foodWith(t, tagged(foods.TagJuice)), 14*121)
		}, "most fruit juice"},
		{"milk for a toddler", "nursery", nursery, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			give(t, p, 2, foodWith(t, func(f *foods.Food) bool {
				return f.HasTag(foods.TagDairyDrink) && f.Form == "milk_powder" || f.Form == "dry_milk_nonfat"
			}), 14*120)
		}, "most milk"},
		{"no iron-rich food", "nursery", nursery, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			var kept []ration.PersonFood
			for _, line := range p.People[1].Foods {
				if f, _ := foodTable().Food(line.Food); f.HasTag(foods.TagInfantFormula) {
					kept = append(kept, line)
				}
			}
			p.People[1].Foods = kept
		}, "iron-rich"},
		{"an infant's mouthfuls", "nursery", nursery, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			for i, line := range p.People[1].Foods {
				if f, _ := foodTable().Food(line.Food); !f.HasTag(foods.TagInfantFormula) {
					p.People[1].Foods[i].Grams *= 20
				}
			}
		}, "food beside the milk"},
		// diabetes
		{"no sugar set aside", "diabetes", diabetes, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			var kept []ration.PlanPack
			for _, line := range p.Packs {
				if !line.Reserve {
					kept = append(kept, line)
				}
			}
			p.Packs = kept
		}, "doses of quick sugar set aside"},
		{"bread set aside", "diabetes", diabetes, func(t *testing.T, r *ration.Request, p *ration.Plan) { p.Packs[0].Reserve = true }, "may not be set aside"},
		{"honey set aside beside an infant", "diabetes", diabetes, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			f, _ := foodTable().Food(foodWith(t, tagged(foods.TagHoney)))
			p.Packs = append(p.Packs, ration.PlanPack{Pack: f.Packs[0].Key, Food: f.Name, Count: 1, Reserve: true})
			p.People = append(p.People, ration.PlanPerson{Name: "Liv", Count: 1})
			r.People = append(r.People, formulaInfant())
		}, "may not be set aside"},
		{"a meal as printed", "diabetes", diabetes, func(t *testing.T, r *ration.Request, p *ration.Plan) { p.People[0].Carbohydrate.MeanG += 5 }, "carbohydrate of a meal"},
		{"a meal left out", "diabetes", diabetes, func(t *testing.T, r *ration.Request, p *ration.Plan) { p.People[0].Carbohydrate = nil }, "carbohydrate of a meal"},
		{"grains of high index alone", "diabetes", diabetes, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			give(t, p, 0, foodWith(t, func(f *foods.Food) bool { return f.PerGram("grains") > 0 && f.GIClass == "high" }), 14*200)
		}, "glycaemic"},
		// portions and sizes
		{"less than a portion", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			for i, line := range p.People[0].Foods {
				f, _ := foodTable().Food(line.Food)
				if line.Grams > f.OccasionG && f.OccasionG > 0 { // more than two half sittings
					p.People[0].Foods[i].Grams = 0.9 * f.OccasionG
					return
				}
			}
			t.Fatal("nobody eats a portion")
		}, "amounts under a portion"},
		{"a crumb that is not counted", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { said(p).Crumbs-- }, "amounts under a portion"},
		{"a size that is not counted", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			for _, line := range p.Packs {
				f, _ := foodTable().Food(line.Food)
				for _, k := range f.Packs {
					if p.Eatable.MostSizes == 1 && k.Key != line.Pack {
						p.Packs = append(p.Packs, ration.PlanPack{Pack: k.Key, Food: f.Name, Count: 1})
						return
					}
				}
			}
			said(p).MostSizes = 1
		}, "most sizes of a food"},
		{"a food that is not counted", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { said(p).Products-- }, "different foods"},
		// packs and stock
		{"half of the packs", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			most := 0
			for i, line := range p.Packs {
				if line.Count > p.Packs[most].Count {
					most = i
				}
			}
			p.Packs[most].Count /= 2
		}, "packs of "},
		{"more eaten than bought", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { most(&p.People[0]).Grams *= 1.5 }, "packs of "},
		{"too many sittings out of one pack", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			f, _ := foodTable().Food(foodWith(t, func(f *foods.Food) bool {
				return f.Keeping != nil && f.Keeping.AfterOpenHours < 6 && f.Mercury == "" && f.OccasionG > 0 && f.Packs[0].NetG > 2*f.OccasionG && !f.HasTag(foods.TagInfantFood)
			}))
			p.People[0].Foods = []ration.PersonFood{{Food: f.Name, Grams: 2 * f.OccasionG}}
			p.Packs = []ration.PlanPack{{Pack: f.Packs[0].Key, Food: f.Name, Count: 1}}
		}, "opened packs of "},
		{"from stock that is not there", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { p.Packs[0].FromStock = 1 }, "stock of "},
		{"bought where only stock may be used", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { r.StockOnly = true }, "bought "},
		{"hard to open", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			r.EasyOpen = true
			for _, k := range foodTable().Packs {
				if !k.EasyOpen {
					p.Packs = append(p.Packs, ration.PlanPack{Pack: k.Key, Food: k.Food.Name, Count: 1})
					return
				}
			}
		}, "hard to open"},
		{"eaten after its date", "stocked", stocked, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			for i := range r.Stock {
				r.Stock[i].BestBefore = "2026-11-20"
			}
			for i := range p.Packs {
				p.Packs[i].FromStock = 1
			}
		}, "stock of "},
		{"dated food twice", "stocked", stocked, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			p.People[0].ByDate = []ration.DatedFood{{Food: r.Stock[0].Pack.Food.Name, Day: 3, Grams: 50}}
		}, "of day 3"},
		{"eaten ahead of the days", "stocked", stocked, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			p.People[0].ByDate = []ration.DatedFood{{Food: r.Stock[0].Pack.Food.Name, Day: 1, Grams: 2000}}
		}, "by day 1"},
		{"all the energy before a date", "stocked", stocked, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			p.People[0].ByDate = nil
			for _, line := range p.People[0].Foods {
				p.People[0].ByDate = append(p.People[0].ByDate, ration.DatedFood{Food: line.Food, Day: 7, Grams: line.Grams})
			}
		}, "energy after day 7"},
		{"a date that is none of the horizon", "stocked", stocked, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			p.People[0].ByDate = []ration.DatedFood{{Food: r.Stock[0].Pack.Food.Name, Day: 14, Grams: 1}}
		}, "day 14"},
		{"water that is not on hand", "stocked", stocked, func(t *testing.T, r *ration.Request, p *ration.Plan) { p.Totals.OwnWaterL = 11 }, "water on hand"},
		{"fuel that is not on hand", "stocked", stocked, func(t *testing.T, r *ration.Request, p *ration.Plan) { p.Totals.OwnHeatMJ = 1.1 }, "heat on hand"},
		// water and heat
		{"water of a litre less", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { p.Totals.WaterL-- }, "stored water"},
		{"a pet more", "stocked", stocked, func(t *testing.T, r *ration.Request, p *ration.Plan) { r.Pets = 2 }, "stored water"},
		{"a hot climate", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { r.Hot = true }, "water"},
		{"ill after all", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { r.Ill = []string{"Signe"} }, "stored water"},
		{"somebody whom no plan feeds", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			q := person("Ragna", 70*12, nutrients.Female)
			q.Conditions = []nutrients.Condition{nutrients.KidneyDisease}
			r.People = append(r.People, q)
		}, "stored water"},
		{"water that must be boiled", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { r.BoilWater = true }, "heat"},
		{"heat of a tenth less", "nursery", nursery, func(t *testing.T, r *ration.Request, p *ration.Plan) { p.Totals.HeatMJ *= 0.9 }, "heat"},
		{"heat of a tenth more", "nursery", nursery, func(t *testing.T, r *ration.Request, p *ration.Plan) { p.Totals.HeatMJ *= 1.1 }, "heat"},
		{"the usual allowance", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { r.Allowance = true; p.Totals.WaterL = 20 }, "water allowance"},
		// totals and limits
		{"a lower weight", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { p.Totals.WeightKg *= 0.999 }, "weight as printed"},
		{"a lower cost", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { p.Totals.Cost *= 0.999 }, "cost as printed"},
		{"a smaller volume", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { p.Totals.VolumeL *= 0.999 }, "volume as printed"},
		{"a cheaper basket", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { p.Totals.Food.Cost *= 0.999 }, "cost of food"},
		{"a lighter basket", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { p.Totals.Food.WeightKg *= 0.999 }, "weight of food"},
		{"a smaller basket", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { p.Totals.Food.VolumeL *= 0.999 }, "volume of food"},
		{"a lower value", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { v := *p.Value * 0.999; p.Value = &v }, "value"},
		{"past the budget", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { r.Limits.Budget = limit(1) }, "budget"},
		{"past the weight", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { r.Limits.WeightKg = limit(1) }, "weight"},
		{"past the litres", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { r.Limits.VolumeL = limit(1) }, "shelf space"},
		{"past the water", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) { r.Limits.WaterL = limit(1) }, "stored water"},
		{"past the heat", "nursery", nursery, func(t *testing.T, r *ration.Request, p *ration.Plan) { r.Limits.HeatMJ = limit(0.0001) }, "heat"},
		{"more than the shelf bears", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			r.Shelves = []stores.Shelf{{Name: "board", WidthCm: 300, DepthCm: 60, HeightCm: 60, LoadKg: 5}}
		}, "load of the shelves"},
		{"more than the shelf holds", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			r.Shelves = []stores.Shelf{{Name: "board", WidthCm: 40, DepthCm: 40, HeightCm: 60, LoadKg: 500}}
		}, "room on the shelves"},
		{"a shelf on which nothing stands", "woman", woman, func(t *testing.T, r *ration.Request, p *ration.Plan) {
			r.Shelves = []stores.Shelf{{Name: "board", WidthCm: 300, DepthCm: 60, HeightCm: 2, LoadKg: 500}}
		}, "stands on none"},
	}
	if len(cases) < 40 {
		t.Fatalf("%d ways of spoiling a plan, want at least 40", len(cases))
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			req, plan := fresh(t, c.of, c.ask)
			if found := verify.Check(req, plan); len(found) > 0 {
				t.Fatalf("the plan as made is refused: %v", found[0])
			}
			c.how(t, req, plan)
			if !strings.Contains(c.want, "printed") && c.name != "a printed nutrient" {
				found := verify.Check(req, plan)
				for _, v := range found {
					if strings.Contains(v.Limit, c.want) {
						return
					}
				}
				reprinted(req, plan)
			}
			found := verify.Check(req, plan)
			if len(found) == 0 {
				t.Fatal("nothing is found")
			}
			for _, v := range found {
				if strings.Contains(v.Limit, c.want) {
					return
				}
			}
			t.Errorf("found %v, want something about %q", found, c.want)
		})
	}
}

// said is what the plan says of how far people will eat it, to be changed.
func said(p *ration.Plan) *ration.Eatable {
	e := *p.Eatable
	p.Eatable = &e
	return p.Eatable
}
