package solver

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/plantest"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// editable is a plan with something in every part: an allergy, an order, diabetes, a
// refused person, stock, water on hand, a price and a budget.
func editable(t *testing.T) string {
	t.Helper()
	mother := rationtest.Adult("Signe", 34, nutrients.Female)
	mother.Allergies = []nutrients.Allergy{{Allergen: "milk"}}
	rule, _, err := nutrients.ParseRule("floor calcium 900 mg")
	if err != nil {
		t.Fatal(err)
	}
	mother.Rules = []nutrients.Rule{rule}
	father := rationtest.Adult("Eskil", 41, nutrients.Male)
	father.Conditions = []nutrients.Condition{"diabetes-2-diet"}
	refused := rationtest.Adult("Arne", 66, nutrients.Male)
	refused.Conditions = []nutrients.Condition{"kidney-disease"}
	larder := rationtest.Table(t)
	stock := [][]string{{"pack", "count", "best_before"}, {larder.Packs[0].Key, "2", "2027-06-30"}, {"water", "20", ""}}
	list, err := larder.ReadStockOn("2026-11-25", "stock", foods.FromRows(stock))
	if err != nil {
		t.Fatal(err)
	}
	prices := [][]string{{"pack", "price"}, {larder.Packs[1].Key, "2.5"}}
	if _, err := larder.ReadPrices("prices", foods.FromRows(prices)); err != nil {
		t.Fatal(err)
	}
	budget := 900.0
	plan := plantest.MustMake(t, &ration.Request{
		People: []nutrients.Person{mother, father, refused}, Table: larder, Least: ration.LeastCost,
		Stock: list.Lines, StockWaterL: list.WaterL, Files: ration.Files{Stock: stock, Prices: prices},
		Without: []string{"raisins"}, Ill: []string{"Signe"},
		Days: 14, Within: 0.2, Time: time.Minute, Start: "2026-11-25", Limits: ration.Limits{Budget: &budget},
	})
	text, err := json.Marshal(plan)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// edit changes the value at a path such as people[0].foods[1].grams of a plan; a
// path that ends in "-" takes the value away, one in "+" adds it to a list.
func edit(t *testing.T, plan map[string]any, path string, to any) {
	t.Helper()
	how := path[len(path)-1]
	steps := strings.FieldsFunc(strings.TrimRight(path, "+-"), func(r rune) bool { return strings.ContainsRune(".[]", r) })
	var change func(v any, steps []string) any
	change = func(v any, steps []string) any {
		if len(steps) == 0 {
			if how == '+' {
				return append(v.([]any), to)
			}
			if f, ok := to.(func(any) any); ok {
				return f(v)
			}
			return to
		}
		last := len(steps) == 1 && how == '-'
		if list, ok := v.([]any); ok {
			i, err := strconv.Atoi(steps[0])
			if err != nil || i >= len(list) {
				t.Fatalf("%s: no such place", path)
			}
			if last {
				return append(list[:i:i], list[i+1:]...)
			}
			list[i] = change(list[i], steps[1:])
			return list
		}
		object, ok := v.(map[string]any)
		if !ok {
			t.Fatalf("%s: no such place at %s", path, steps[0])
		}
		if last {
			if _, there := object[steps[0]]; !there {
				t.Fatalf("%s: no such place", path)
			}
			delete(object, steps[0])
		} else {
			object[steps[0]] = change(object[steps[0]], steps[1:])
		}
		return object
	}
	change(plan, steps)
}

func times(n float64) func(any) any { return func(v any) any { return v.(float64) * n } }

// cell returns a change of a row of a table: the first cell in which old stands.
func cell(old, to string) func(any) any {
	return func(v any) any {
		var rows [][]string
		text, _ := json.Marshal(v)
		_ = json.Unmarshal(text, &rows)
		for _, row := range rows {
			for i := range row {
				if strings.Contains(row[i], old) {
					row[i] = strings.Replace(row[i], old, to, 1)
					return rows
				}
			}
		}
		panic("no cell holds " + old)
	}
}

// TestEditedPlans changes one thing at a time in a plan as written. Each change is
// refused with its part named. Where always is true it is refused even when the
// digests are made anew, since the part follows from others.
func TestEditedPlans(t *testing.T) {
	text := editable(t)
	if err := reread([]byte(text)); err != nil {
		t.Fatalf("as it was written: %v", err)
	}
	for _, c := range []struct {
		path   string
		to     any
		place  string
		always bool
	}{
		{"request.household", cell("milk", ""), "request.household", false},
		{"request.household", cell("900 mg", "901 mg"), "request.household", true},
		{"request.household", cell("diabetes-2-diet", ""), "request.household", true},
		{"request.household", cell("34", "24"), "request.household", false},
		{"request.household", cell("34", "034"), "request.household", true},
		{"request.household", cell("f", "m"), "request.household", true},
		{"request.household", cell("kidney-disease", ""), "request.household", true},
		{"request.household[3]-", nil, "request.household", true},
		{"request.stock[2][1]", "200", "request.stock", true},
		{"request.stock[1]-", nil, "request.stock", true},
		{"request.stock", cell("2027", "2026"), "request.stock", false},
		{"request.stock-", nil, "request.stock", true},
		{"request.prices", cell("2.5", "0.5"), "request.prices", false},
		{"request.prices-", nil, "request.prices", false},
		{"request.foods", [][]string{{"ndb"}}, "foods", true},
		{"request.without", []string{}, "request.without", false},
		{"request.without+", "nosuch", "request.without", true},
		{"request.ill-", nil, "request.ill", true},
		{"request.limits.budget", 9000.0, "request.limits", false},
		{"request.limits.budget", 1.0, "budget", true},
		{"request.limits.nosuch", 1.0, "nosuch", true},
		{"request.start", "2026-11-24", "request.start", false},
		{"request.start", "tomorrow", "request.start", true},
		{"request.version", "0", "version", true},
		{"request.demo.prices", true, "request.demo", false},
		{"request.options.days", "7", "request.options", true},
		{"request.options.days", "014", "request.options", true},
		{"request.options.days", "0x0e", "request.options", true},
		{"request.options.pets", "3", "request.options", true},
		{"request.options.hot", "true", "request.options", true},
		{"request.options.hot", "1", "request.options", true},
		{"request.options.within", "0.5", "request.options", false},
		{"request.options.within", "1e-1", "request.options", true},
		{"request.options.cook", "none", "request.options", true},
		{"request.options.standard", "basic", "request.options", true},
		{"request.options.time", "60s", "request.options", true},
		{"request.options.nosuch", "1", "request.options.nosuch", true},
		{"request.nosuch", 1.0, "nosuch", true},
		{"notice-", nil, "notice", true},
		{"notice", "All is well", "notice", true},
		{"status", "limit", "status", true},
		{"status", "infeasible", "status", true},
		{"stopped", "by the moon", "stopped", true},
		{"value", times(0.9), "value", true},
		{"bound", times(0.9), "bound", true},
		{"bound-", nil, "bound", true},
		{"gap", 0.0, "gap", true},
		{"days", 15.0, "days", true},
		{"standard", "ear", "standard", true},
		{"totals.currency", "USD", "totals", true},
		{"totals.water_l", times(10), "totals", true},
		{"totals.heat_mj", times(0.5), "totals", true},
		{"totals.own_water_l", times(2), "totals", true},
		{"totals.own_water_l-", nil, "totals", true},
		{"totals.food.cost", times(0.5), "totals", true},
		{"packs[0].count", times(2), "packs", true},
		{"packs[0].net_g", times(2), "packs", true},
		{"packs[0].ndb", "99999", "packs", true},
		{"packs[0].group", "drinks", "packs", true},
		{"packs[0].easy_open", func(v any) any { return v == nil }, "packs", true},
		{"packs[0].nosuch", 1.0, "nosuch", true},
		{"packs[0]-", nil, "packs", true},
		{"people[0].name", "Tora", "people", true},
		{"people[0].count", 2.0, "people", true},
		{"people[0].foods[0].grams", times(3), "people", true},
		{"people[0].foods[0].ndb", "99999", "people", true},
		{"people[0].needs[0].amount", times(1.1), "people", true},
		{"people[0].needs[0].unit", "kJ", "people", true},
		{"people[0].needs[0].source", "hearsay", "people", true},
		{"people[0].needs[3]-", nil, "people", true},
		{"people[0].rules-", nil, "people", true},
		{"people[0].rules+", map[string]any{"text": "may eat anything", "source": ""}, "people", true},
		{"people[1].carbohydrate_per_meal.mean_g", times(0.5), "people", true},
		{"people[1].carbohydrate_per_meal.high_g", times(2), "people", true},
		{"people[1].carbohydrate_per_meal-", nil, "people", true},
		{"people[1]-", nil, "people", true},
		{"people[0].drink_l_per_day", 1.0, "people", true},
		{"refused-", nil, "refused", true},
		{"refused[0].reason", "none", "refused", true},
		{"refused[0].name", "Bo", "refused", true},
		{"cautions[0]-", nil, "cautions", true},
		{"cautions[0].text", "eat at will", "cautions", true},
		{"cautions[0].severity", "info", "cautions", true},
		{"not_checked-", nil, "not_checked", true},
		{"notes+", "all is well", "notes", true},
		{"prices[0].marginal", times(2), "prices", false},
		{"prices[0]-", nil, "prices", false},
		{"shortfalls", []any{map[string]any{"person": "Signe", "nutrient": "iron", "unit": "mg", "amount": 1.0, "target": 18.0}}, "shortfalls", true},
		{"weak_hands", true, "weak_hands", true},
		{"digest.packs", "00", "packs", false},
		{"digest-", nil, "digest", false},
		{"conflict", []any{map[string]any{"limit": "none"}}, "conflict", false},
		{"nosuch", 1.0, "nosuch", true},
	} {
		t.Run(fmt.Sprintf("%s to %v", c.path, c.to), func(t *testing.T) {
			var plan map[string]any
			if err := json.Unmarshal([]byte(text), &plan); err != nil {
				t.Fatal(err)
			}
			edit(t, plan, c.path, c.to)
			edited, err := json.Marshal(plan)
			if err != nil {
				t.Fatal(err)
			}
			refusal := reread(edited)
			if refusal == nil {
				t.Fatal("taken")
			}
			if !strings.Contains(refusal.Error(), c.place) {
				t.Errorf("%q is not named: %v", c.place, refusal)
			}
			if strings.HasPrefix(c.path, "digest") {
				return
			}
			// Through JSON once more, so that only what a reader sees counts.
			if err := json.Unmarshal(edited, &plan); err != nil {
				t.Fatal(err)
			}
			if plan["digest"], err = ration.Digests(plan); err != nil {
				t.Fatal(err)
			}
			if edited, err = json.Marshal(plan); err != nil {
				t.Fatal(err)
			}
			if refusal := reread(edited); c.always && refusal == nil {
				t.Error("taken with digests made anew")
			}
		})
	}
}

// TestEditedText: what no JSON value shows.
func TestEditedText(t *testing.T) {
	text := editable(t)
	for name, c := range map[string]struct{ text, place string }{
		"behind the end":     {text + "\n{}", "behind its end"},
		"a word behind it":   {text + " x", "behind its end"},
		"two plans":          {text + text, "behind its end"},
		"invalid UTF-8":      {strings.Replace(text, "Signe", "Sign\xe9", 1), "no UTF-8"},
		"a key twice":        {strings.Replace(text, `"days":14`, `"days":14,"days":14`, 1), "days is there twice"},
		"a key twice inside": {strings.Replace(text, `"mean_g":`, `"mean_g":1,"mean_g":`, 1), "people[1].carbohydrate_per_meal.mean_g is there twice"},
		"another case":       {strings.Replace(text, `"status":`, `"Status":`, 1), "Status"},
		"a huge number":      {strings.Replace(text, `"days":14`, `"days":1e999`, 1), "number 1e999"},
		"deep":               {strings.Repeat("[", 1e6), "further than a plan does"},
		"null":               {"null", "no version"},
	} {
		t.Run(name, func(t *testing.T) {
			if err := reread([]byte(c.text)); err == nil {
				t.Error("taken")
			} else if !strings.Contains(err.Error(), c.place) {
				t.Errorf("%q is not named: %v", c.place, err)
			}
		})
	}
	endless := strings.NewReader("{" + strings.Repeat(" ", ration.MaxPlanBytes))
	if _, err := ration.ReadPlan(endless); !errors.Is(err, ration.ErrPlan) || !strings.Contains(err.Error(), "larger than") {
		t.Errorf("a plan without end: %v", err)
	}
	// Layout, a byte order mark and the form of numbers are no changes.
	var indented bytes.Buffer
	if err := json.Indent(&indented, []byte(text), "", "\t"); err != nil {
		t.Fatal(err)
	}
	for name, same := range map[string]string{
		"indented": indented.String(), "a byte order mark": "\xef\xbb\xbf" + text,
		"a number with decimals": strings.Replace(text, `"days":14`, `"days":14.0`, 1),
		"inside an answer":       `{"out":[],"plan":` + text + `}`,
	} {
		if err := reread([]byte(same)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A changed request is told as that, with nothing else wrong.
func TestChangedRequestIsNamed(t *testing.T) {
	text := strings.Replace(editable(t), "milk", "", 1)
	if err := reread([]byte(text)); !errors.Is(err, ration.ErrChangedRequest) || !errors.Is(err, ration.ErrTampered) {
		t.Errorf("an allergy taken out: %v", err)
	}
}
