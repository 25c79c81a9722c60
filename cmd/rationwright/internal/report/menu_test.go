package report

import (
	"bytes"
	"testing"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/menu"
	"rationwright/solver/ration"
)

// TestMenuByHand: two days written by hand: what is opened is counted and when it is to be
// finished, what each gets in grams and measures, which food is called by its short name,
// who has a dish of their own.
func TestMenuByHand(t *testing.T) {
	rice := menu.Amount{Food: "white rice, enriched", NDB: "20044", Dish: "rice-and-beans", Grams: 80, Measure: "1/2 cup"}
	m := &menu.Menu{Start: "2026-01-05", Notice: "Spread over two days.", WaterL: 6, HeatMJ: 1.5, Cautions: []string{"wash hands"}, Misfits: []menu.Misfit{{Person: "Signe", Text: "20 g of salt fit no dish"}, {Text: "the heat is short"}},
		Days: []menu.Day{
			{Day: 1, Date: "2026-01-05", WaterL: 4, HeatMJ: 1, Tonight: []string{"soak for beans tomorrow midday"}, Meals: []menu.Meal{{Meal: "midday", Hour: 12,
				Dishes: []menu.Dish{{Key: "rice-and-beans", Name: "rice and beans", How: "Boil.", Minutes: 25, WaterML: 400}, {Key: "gruel", Name: "gruel", How: "Stir.", Minutes: 5, WaterML: 9, For: []string{"Liv"}}},
				Opens:  []string{"beans-400g-can", "beans-400g-can", "rice-1kg-bag"}, Keeps: []menu.Kept{{Pack: "beans-400g-can", Until: "this meal"}},
				People: []menu.Served{{Name: "Signe", Count: 1, Foods: []menu.Amount{rice, {Food: "milk, dry", Grams: 9.94}, {Food: "milk, human", Grams: 100}}}, {Name: "Liv", Count: 1, Foods: []menu.Amount{{Food: "oats", Grams: 30}}, EatenAs: []string{"mashed."}}}}}},
			{Day: 2, Date: "2026-01-06", WaterL: 2, HeatMJ: 0.5, Cold: true, Meals: []menu.Meal{{Meal: "breakfast", People: []menu.Served{{Name: "Signe", Count: 1, Foods: []menu.Amount{rice}}}}}},
		}}
	p := &ration.Plan{}
	all := laidOut(t, Menu(m, p, MenuAll, sheet.Metric))
	has(t, "the menu", all, []string{"Spread over two days.", "6.0 L of water over these days, and 1.5 MJ of useful heat", "- Signe: 20 g of salt fit no dish.", "- the heat is short.", "- wash hands",
		"DAY 1, MONDAY 5 JANUARY 2026", "Water into food 4.0 L, useful heat 1.0 MJ.", "MIDDAY: rice and beans; gruel (Liv).", "2 beans-400g-can (finish by this meal), 1 rice-1kg-bag", "- rice and beans: Boil. (25 minutes, 0.40 L water for all who have it)",
		"- gruel: Stir. (5 minutes)", "- Signe: rice and beans: white rice 80 g (1/2 cup). Beside: milk, dry 9.9 g; milk 100 g", "oats 30 g. Serve it so: mashed", "TONIGHT: soak for beans tomorrow midday.", "A cold day: nothing is heated.", "BREAKFAST: what there is, by itself."})
	has(t, "the overview", laidOut(t, Menu(m, p, MenuOverview, sheet.Metric)), []string{"rice and beans", "what there is, by itself", "4.0 L"}, "TONIGHT", "finish by")
	has(t, "the days", laidOut(t, Menu(m, p, MenuDays, sheet.US)), []string{"TONIGHT", "2.8 oz (1/2 cup)"}, "Spread over two days", "wash hands")
	var out bytes.Buffer
	if err := MenuCSV(m, p).Write(&out); err != nil {
		t.Fatal(err)
	}
	count := map[string]int{}
	for _, row := range factsOf(t, out.String()) {
		count[row["section"]]++
		if row["section"] == "eat" && row["food"] == "white rice, enriched" && (row["grams"] != "80" || row["measure"] != "1/2 cup" || row["person"] != "Signe" || row["ndb"] != "20044") {
			t.Errorf("%v", row)
		}
		if row["section"] == "dish" && row["dish"] == "rice-and-beans" && (row["water_l"] != "0.4" || row["day"] != "1") {
			t.Errorf("%v", row)
		}
	}
	for section, want := range map[string]int{"day": 2, "dish": 2, "open": 3, "eat": 5, "soak": 1, "misfit": 2} {
		if count[section] != want {
			t.Errorf("%d rows of %s, want %d", count[section], section, want)
		}
	}
	// Half of the people or more with the dish: it is the household's; fewer: each has one.
	for n, want := range map[int]string{1: "each a dish of their own", 2: "stew", 0: "stew"} {
		meal := menu.Meal{Dishes: []menu.Dish{{Name: "stew", For: []string{"a", "b", "c", "d"}[:n]}}, People: make([]menu.Served, 4)}
		if got := mainDish(meal); got != want {
			t.Errorf("a dish for %d of four: %q, want %q", n, got, want)
		}
	}
}

// TestShortFoodNames: what a food stands for and that it is dried stay, as 14 g of dried egg
// are no 14 g of egg.
func TestShortFoodNames(t *testing.T) {
	for name, want := range map[string]string{
		"white rice, long grain, enriched": "white rice", "whole egg, dried": "whole egg, dried", "beans": "beans",
		"soy flour, defatted (as textured soy protein)": "textured soy protein", "lima beans, large, dry": "lima beans, dry", "pink salmon, canned, drained": "pink salmon",
	} {
		if got := shortFoodName(name); got != want {
			t.Errorf("%s: %s, want %s", name, got, want)
		}
	}
}

// TestServedDishByDish: what a person gets stands by its dish where there are more, so that
// one milk is not taken for the other.
func TestServedDishByDish(t *testing.T) {
	names := map[string]string{"rice": "rice", "milk": "milk", "salt": "salt"}
	two := []menu.Dish{{Key: "a", Name: "rice in milk"}, {Key: "b", Name: "a cup of milk"}}
	foods := []menu.Amount{{Food: "rice", Dish: "a", Grams: 60}, {Food: "milk", Dish: "b", Grams: 200}, {Food: "milk", Dish: "a", Grams: 120}}
	for _, c := range []struct {
		served menu.Served
		dishes []menu.Dish
		want   string
	}{
		{menu.Served{Foods: foods, EatenAs: []string{"rice: soft"}}, two, "rice in milk: rice 60 g; milk 120 g. A cup of milk: milk 200 g. Serve it so: rice: soft"},
		{menu.Served{Foods: foods[:1]}, two, "rice in milk: rice 60 g"},
		{menu.Served{Foods: foods[:1]}, two[:1], "rice 60 g"},
		{menu.Served{Foods: []menu.Amount{foods[0], {Food: "salt", Grams: 1}}}, two[:1], "rice in milk: rice 60 g. Beside: salt 1.0 g"},
		{menu.Served{Foods: []menu.Amount{{Food: "salt", Grams: 1}}}, nil, "salt 1.0 g"},
	} {
		if got := servedText(c.served, c.dishes, names, sheet.Metric); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// TestMenuAtItsEdges: a day is told apart from the next, a meal at which nothing is opened
// says nothing of it, little water is not told, foods that would be called the same are
// called by their whole names, and refused people stand first in the facts.
func TestMenuAtItsEdges(t *testing.T) {
	day := &menu.Day{Day: 3, Meals: []menu.Meal{{Meal: "midday", Opens: []string{"rice-1kg"}}, {Meal: "evening"}}}
	lines(t, "a day", menuDay(day, nil, sheet.Metric).Notes, "", "MIDDAY: what there is, by itself.", "Open: 1 rice-1kg.", "", "EVENING: what there is, by itself.")
	for ml, want := range map[float64]string{9.9: "", 10: ", 0.01 L water for all who have it", 1500: ", 1.50 L water for all who have it"} {
		if got := dishWater(menu.Dish{WaterML: ml, Minutes: 700 - ml}, sheet.Metric); got != want {
			t.Errorf("%g mL: %q, want %q", ml, got, want)
		}
	}
	eats := func(foods ...string) menu.Meal {
		s := menu.Served{Name: "Odd"}
		for _, f := range foods {
			s.Foods = append(s.Foods, menu.Amount{Food: f, Grams: 5})
		}
		return menu.Meal{People: []menu.Served{s}}
	}
	names := shortFoodNames(&menu.Menu{Days: []menu.Day{{Meals: []menu.Meal{eats("milk, dry", "rice, white", "soup (as stock) thin"), eats("rice, brown", "rice, white", "oats, rolled")}}}})
	for food, want := range map[string]string{"rice, white": "rice, white", "rice, brown": "rice, brown", "oats, rolled": "oats", "milk, dry": "milk, dry", "soup (as stock) thin": "soup (as stock) thin"} {
		if names[food] != want {
			t.Errorf("%s is called %q, want %q", food, names[food], want)
		}
	}
	m := &menu.Menu{Days: []menu.Day{{Day: 1, WaterL: 4, HeatMJ: 2, Meals: []menu.Meal{{Meal: "midday", People: []menu.Served{{Name: "Odd", Count: 2}}}}}}}
	lines(t, "the facts", filled(t, MenuCSV(m, &ration.Plan{Refused: []ration.Refused{{Name: "Arne", Reason: "kidneys"}}})), "refused person=Arne text=THIS PLAN DOES NOT FEED Arne: kidneys", "day day=1 water_l=4 heat_mj=2")
}
