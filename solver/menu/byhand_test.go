package menu

import (
	"context"
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/menucheck"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// packed is packs of a plan by hand, and who eats of them by what part.
type packed struct {
	pack  string
	count int
	of    map[string]float64
}

// byHand is a plan of so many days in which every pack is eaten, with water and heat for it.
func byHand(t *testing.T, days int, people []nutrients.Person, list []packed) *Request {
	t.Helper()
	req := &ration.Request{People: people, Table: rationtest.Table(t), Start: "2026-01-05", Days: days, Cook: ration.CookBoil}
	book, err := dishes.Load(req.Table)
	if err != nil {
		t.Fatal(err)
	}
	plan := &ration.Plan{Days: days, Totals: &ration.Totals{WaterL: 1e4, HeatMJ: 1e4}}
	for _, p := range people {
		plan.People = append(plan.People, ration.PlanPerson{Name: p.Name, Count: p.Count})
	}
	for _, line := range list {
		i := slices.IndexFunc(req.Table.Packs, func(k *foods.Pack) bool { return k.Key == line.pack })
		if i < 0 {
			t.Fatal("no pack", line.pack)
		}
		k := req.Table.Packs[i]
		plan.Packs = append(plan.Packs, ration.PlanPack{Pack: k.Key, Food: k.Food.Name, Count: line.count})
		parts := 0.0
		for i := range plan.People {
			parts += line.of[plan.People[i].Name] * float64(plan.People[i].Count)
		}
		for i := range plan.People {
			if p := &plan.People[i]; line.of[p.Name] > 0 {
				p.Foods = append(p.Foods, ration.PersonFood{Food: k.Food.Name, Grams: float64(line.count) * k.NetG * line.of[p.Name] / parts})
			}
		}
	}
	return &Request{Plan: plan, Of: req, Book: book}
}

// broken are the rules that a menu breaks.
func broken(t *testing.T, m *Menu, req *Request) map[menucheck.Rule][]menucheck.Finding {
	t.Helper()
	found, err := menucheck.Check([]byte(text(t, m)), req.Plan, req.Of, req.Book)
	if err != nil {
		t.Fatal(err)
	}
	all := map[menucheck.Rule][]menucheck.Finding{}
	for _, f := range found {
		all[f.Rule] = append(all[f.Rule], f)
	}
	return all
}

// text is a menu as it is written.
func text(t *testing.T, m *Menu) string {
	t.Helper()
	out, err := json.Marshal(m)
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

// pantry is food of two grown-ups and a small child for six days.
func pantry(all, grown map[string]float64) []packed {
	return []packed{
		{"white-rice-2268g-bag", 1, all}, {"rolled-oats-1191g-canister", 1, all}, {"whole-dry-milk-360g-can", 2, all},
		{"canned-kidney-beans-439g-can", 6, all}, {"canned-chickpeas-439g-can", 4, all}, {"light-tuna-oil-142g-can", 6, all},
		{"luncheon-meat-198g-can", 4, all}, {"peanut-butter-454g-jar", 1, all}, {"sunflower-oil-0.5l-bottle", 1, all},
		{"sugar-454g-bag", 1, all}, {"raisins-340g-bag", 1, grown}, {"tomatoes-411g-can", 6, all}, {"peaches-juice-425g-can", 4, all},
	}
}

// TestMenusOfPlansByHand: plans in which each pack is eaten give menus that break no rule of
// the check, which shares nothing with what makes them: plain, with two cold days, with an
// infant, and with one who counts carbohydrate and takes a medicine that asks for even days.
// What is said of dishes, water, heat and people is so.
func TestMenusOfPlansByHand(t *testing.T) {
	trio := func() []nutrients.Person {
		tuva := nutrients.Person{Name: "Tuva", AgeMonths: 30, Sex: nutrients.Female, Activity: nutrients.LowActive, Count: 1}
		return []nutrients.Person{rationtest.Adult("Ida", 33, nutrients.Female), rationtest.Adult("Leif", 60, nutrients.Male), tuva}
	}
	all, grown := map[string]float64{"Ida": 1, "Leif": 1.2, "Tuva": 0.5}, map[string]float64{"Ida": 1, "Leif": 1}
	own := map[string]float64{"Bo": 1}
	cold := byHand(t, 6, trio(), append(pantry(all, grown), packed{"whole-wheat-crackers-255g-box", 2, grown}))
	cold.ColdDays, cold.FromDay = []int{5, 6}, 3 // the third and fourth of these days
	infant := byHand(t, 6, append(trio(), rationtest.Infant("Bo", 8, 8.5, nutrients.FormulaFed)), append(pantry(all, grown), packed{"formula-milk-powder-352g-can", 2, own},
		packed{"infant-beef-junior-71g-jar", 6, own}, packed{"infant-applesauce-strained-113g-jar", 6, own}))
	counts := byHand(t, 6, trio(), pantry(all, grown))
	counts.Of.People[0].Conditions = []nutrients.Condition{nutrients.Diabetes2, nutrients.PotassiumSparing}
	counts.Plan.People[0].Carbohydrate = &ration.MealRange{}
	for _, c := range []struct {
		name string
		req  *Request
	}{{"plain", byHand(t, 6, trio(), pantry(all, grown))}, {"cold days", cold}, {"infant", infant}, {"carbohydrate", counts}} {
		t.Run(c.name, func(t *testing.T) {
			m, err := Make(context.Background(), c.req)
			if err != nil {
				t.Fatal(err)
			}
			if found := broken(t, m, c.req); len(found) > 0 {
				t.Error(found)
			}
			served(t, m, c.req)
			if c.name == "plain" { // all may have all of it: one pot for the household
				for _, d := range m.Days {
					for _, x := range d.Meals {
						if main := slices.IndexFunc(x.Dishes, func(d Dish) bool { return isMain(c.req.Book.Dish(d.Key)) }); main >= 0 && !strings.Contains(x.Meal, "snack") && x.Dishes[main].For != nil {
							t.Errorf("day %d, %s: %s is for %v alone", d.Day, x.Meal, x.Dishes[main].Name, x.Dishes[main].For)
						}
					}
				}
			}
		})
	}
}

// served holds what a menu says of its meals to the tables of foods and dishes.
func served(t *testing.T, m *Menu, req *Request) {
	t.Helper()
	people, size := map[string]*nutrients.Person{}, map[string]float64{}
	atTable := 0
	for i := range req.Of.People {
		p := &req.Of.People[i]
		people[p.Name] = p
		if p.AgeMonths >= 12 {
			atTable++
		}
		for _, f := range req.Plan.People[i].Foods {
			size[p.Name] += f.Grams / 100 * food(t, req, f.Food).Per100g.Known(nutrients.Energy) / float64(req.Plan.Days) / 2050 // an adult's usual day, as the dish table reckons
		}
	}
	first := max(req.FromDay, 1)
	inDishes, energy := 0.0, 0.0
	for n, d := range m.Days {
		if d.Day != first+n || d.Cold != slices.Contains(req.ColdDays, d.Day) {
			t.Errorf("day %d after %d, cold %v", d.Day, first+n, d.Cold)
		}
		water, heat := 0.0, 0.0
		for _, x := range d.Meals {
			water, heat = water+x.WaterL, heat+x.HeatMJ
			eats := map[string][]string{}
			for _, p := range x.People {
				for _, a := range p.Foods {
					f := food(t, req, a.Food)
					kcal := a.Grams / 100 * f.Per100g.Known(nutrients.Energy)
					if people[p.Name].AgeMonths >= 12 {
						energy += kcal
						if a.Dish != "" {
							inDishes += kcal
						}
					}
					if a.Dish != "" && !slices.Contains(eats[a.Dish], p.Name) {
						eats[a.Dish] = append(eats[a.Dish], p.Name)
					}
				}
			}
			for _, said := range x.Dishes {
				dish, who := req.Book.Dish(said.Key), eats[said.Key]
				slot := map[string]dishes.Slot{"breakfast": dishes.Breakfast, "midday": dishes.Midday, "evening": dishes.Evening, "feeds": dishes.Drink}[x.Meal]
				if !dish.Has(slot) && !dish.Has(dishes.Snack) && !dish.Has(dishes.Drink) || ration.CookRank[dish.Cooking] > ration.CookRank[string(req.Of.Cook)] {
					t.Errorf("day %d, %s: %s is not for it", d.Day, x.Meal, said.Key)
				}
				if whose := said.For; len(who) == 0 || len(whose) > 0 && !slices.Equal(whose, who) || len(whose) == 0 && len(who) != atTable {
					t.Errorf("day %d, %s: %s is for %v, %v eat of it", d.Day, x.Meal, said.Key, whose, who)
				}
				for _, name := range who {
					if !dish.ServedTo(people[name].AgeMonths) {
						t.Errorf("day %d, %s: %s at %d months", d.Day, x.Meal, said.Key, people[name].AgeMonths)
					}
					whole := size[name]
					if dish.UnderMonths > 0 {
						whole = 1
					}
					for _, p := range dish.Parts {
						grams := 0.0
						for _, s := range x.People {
							for _, a := range s.Foods {
								if factor, ok := p.Makes(food(t, req, a.Food)); ok && s.Name == name && a.Dish == said.Key {
									grams += a.Grams / factor
								}
							}
						}
						if x.Meal != "feeds" && grams > 2*p.MaxG*whole {
							t.Errorf("day %d, %s: %s has %.1f g of %s, a serving of most is %.1f g", d.Day, x.Meal, name, grams, p.Name, p.MaxG*whole)
						}
					}
				}
				delete(eats, said.Key)
			}
			for key := range eats {
				t.Errorf("day %d, %s: %s is eaten and not on the table", d.Day, x.Meal, key)
			}
		}
		if math.Abs(water-d.WaterL) > 1e-9 || math.Abs(heat-d.HeatMJ) > 1e-9 {
			t.Errorf("day %d takes %g L and %g MJ, its meals %g and %g", d.Day, d.WaterL, d.HeatMJ, water, heat)
		}
	}
	if m.InDishes > inDishes/energy+1e-9 || m.InDishes < 0.9 {
		t.Errorf("%g of the energy in dishes, %g by what is written", m.InDishes, inDishes/energy)
	}
}

func food(t *testing.T, req *Request, name string) *foods.Food {
	t.Helper()
	f, err := req.Of.Table.Food(name)
	if err != nil {
		t.Fatal(err)
	}
	return f
}
