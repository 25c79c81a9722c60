package report

import (
	"encoding/csv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/clipperhouse/displaywidth"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/ration"
)

func ptr(v float64) *float64 { return &v }

// specimen is a plan with every part filled in, made up for these tests: no
// figure in it means anything.
func specimen() *ration.Plan {
	return &ration.Plan{
		Version: "1", Request: &ration.RequestRecord{Demo: ration.Demo{Household: true, Prices: true}, Options: map[string]string{"energy": "2023", "cook": "boil"}, Start: "2026-11-25"},
		Status: "optimal", Least: ration.LeastCost, Days: 14, Standard: "rda",
		Value: ptr(263.1), Bound: ptr(260.9), Gap: ptr((263.1 - 260.9) / 263.1),
		Totals: &ration.Totals{Cost: 263.1, Currency: "demo crowns", WeightKg: 151.4, VolumeL: 190.2, WaterL: 84.7, HeatMJ: 21.3,
			Food: ration.FoodTotals{Cost: 250, WeightKg: 60.5, VolumeL: 98}},
		Packs: []ration.PlanPack{
			{Pack: "rice-white-2000", Food: "rice, white, long-grain", NDB: "20044", Count: 3, NetG: 2000, Cost: 12.3, WeightKg: 6.03, VolumeL: 7.1, Group: "grains"},
			{Pack: "tuna-142", Food: "tuna, light, canned in water", NDB: "15121", Count: 12, FromStock: 4, NetG: 113, Cost: 14.4, WeightKg: 2.1, VolumeL: 2.4, Group: "fish"},
			{Pack: "sugar-500", Food: "sugar", NDB: "19335", Count: 1, NetG: 500, Cost: 1, WeightKg: 0.5, VolumeL: 0.6, Group: "sweets", Reserve: true},
		},
		People: []ration.PlanPerson{
			{Name: "Maja", Count: 1, DrinkLPerDay: 1.62,
				Foods: []ration.PersonFood{{Food: "rice, white, long-grain", NDB: "20044", Grams: 2100.25}},
				Needs: []ration.PersonNeed{
					{Nutrient: "energy", Unit: "kcal", Amount: 2104.4, Floor: ptr(2104.4), Ceiling: ptr(2314.84), Source: "S1"},
					{Nutrient: "vitamin_b6", Unit: "mg", Amount: 1.29, Floor: ptr(1.3), Target: ptr(1.3), Source: "S2"},
					{Nutrient: "zinc", Unit: "mg", Amount: 4, Target: ptr(2), Source: "S3"},
					{Nutrient: "retinol", Unit: "µg", Amount: 120, Ceiling: ptr(3000), Source: "S3", Unknown: true},
					{Nutrient: "sodium", Unit: "mg", Amount: 2300, Floor: ptr(1500), Ceiling: ptr(2300), Source: "S4"},
				},
				Rules: []ration.RuleNote{{Text: "low-sodium: 2,000 mg", Source: "S5"}}},
			{Name: "Knut <b>&\x1b[31m\nEvil", Count: 3, Needs: []ration.PersonNeed{{Nutrient: "vitamin_b12", Unit: "µg", Amount: 1, Floor: ptr(2.4), Source: "S"}}},
		},
		Shortfalls: []ration.Shortfall{{Person: "Maja", Nutrient: "vitamin_d", Amount: 12, Target: 15}},
		Refused:    []ration.Refused{{Name: "Åse", Reason: "kidney disease: a clinician must plan", Source: "S6"}},
		Prices:     []ration.Price{{Limit: "energy at least", Person: "Maja", Unit: "100 kcal a day", Marginal: 0.3456}, {Limit: "budget", Marginal: -1234.5}},
		Cautions:   []ration.Caution{{ID: "C01", Severity: "stop", Text: "do not taste from a bulging can", Source: "USDA FSIS", People: []string{"Maja", "Knut"}}},
		NotChecked: []string{"iodine", "linoleic_acid"},
		Notes:      []string{"a note of the model"},
	}
}

func text(t *testing.T, s *sheet.Sheet) string {
	t.Helper()
	var b strings.Builder
	if err := s.Text(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestTableIsReadInOrder(t *testing.T) {
	got := text(t, Plan(specimen(), sheet.Metric))
	at := 0
	for _, want := range []string{
		"THIS PLAN DOES NOT FEED ÅSE", "Ration for 4 people for 14 days, least cost: 263.10 demo crowns.",
		"Proven within 0.84 % of the best possible", "people and prices are invented.",
		"WHAT TO BUY", "grains", "rice-white-2000", "fish", "set aside, not part of the ration",
		"TOTALS", "84.7 L",
		"WHO IS SHORT", "vitamin D", "80",
		"WHO EATS WHAT", "rice, white, long-grain  150.0",
		"WHAT MAJA GETS A DAY", "at the floor", "vitamin B6", "99  SHORT", "(2)", "200  for information", "some foods unknown", "at the ceiling", "Drinks 1.62 L",
		"Rules:", "Low-sodium", "Take care:", "STOP. Do not taste",
		"WHAT DRIVES THE COST", "+0.35", "-1,200",
		"TAKE CARE", "STOP. Knut: Do not taste",
		"WHAT IS ASSUMED", "Every price is invented for the demo", "Standard rda", "A note of the model.", "iodine and linoleic acid",
	} {
		i := strings.Index(got[at:], want)
		if i < 0 {
			t.Fatalf("%q does not follow in:\n%s", want, got)
		}
		at += i
	}
	if first, _, _ := strings.Cut(got, "\n"); first != "THIS PLAN DOES NOT FEED ÅSE" {
		t.Errorf("first line = %q", first)
	}
}

func TestNoLineIsTooWide(t *testing.T) {
	p := specimen()
	long := strings.Repeat("Långtnamn 長い名前 ", 20) + strings.Repeat("x", 300)
	p.People[0].Name, p.Refused[0].Name, p.Packs[0].Food, p.Packs[1].Pack = long, long, long, long
	p.Prices[0].Limit, p.Prices[0].Person, p.Cautions[0].Text, p.Notes[0] = long, long, long, long
	p.Closest = &ration.Closest{People: p.People, Packs: p.Packs, Shortfalls: []ration.Shortfall{{Person: long, Nutrient: long, Unit: long}}}
	p.Conflict = []ration.ConflictLimit{{Limit: long, Person: long}}
	p.WaysOut = []ration.WayOut{{Change: long, Cost: ptr(1)}}
	for _, status := range []string{"optimal", "limit", "infeasible"} {
		p.Status = status
		for _, u := range []sheet.Units{sheet.Metric, sheet.US} {
			for line := range strings.Lines(text(t, Plan(p, u))) {
				if n := displaywidth.String(strings.TrimRight(line, "\n")); n > sheet.MaxColumns {
					t.Errorf("%s, %s: %d columns: %s", status, u, n, line)
				}
			}
		}
	}
}

// TestControlCharactersStayOut: a name from a file can neither colour nor move
// the terminal, nor open a line of its own.
func TestControlCharactersStayOut(t *testing.T) {
	got := text(t, Plan(specimen(), sheet.Metric))
	for _, r := range got {
		if r < ' ' && r != '\n' || r == 0x7f || r == utf8.RuneError {
			t.Fatalf("control character %q in the output", r)
		}
	}
	if strings.Contains(got, "\nEvil") {
		t.Error("a line break in a name broke the line")
	}
}

func TestUSUnits(t *testing.T) {
	got := text(t, Plan(specimen(), sheet.US))
	// 2000 g ÷ 453.59237 g/lb = 4.409 lb; 113 g ÷ 28.349523125 g/oz = 3.986 oz;
	// 84.7 L ÷ 3.785411784 L/gal = 22.38 gal; 190.2 L ÷ 28.316846592 L/cu ft =
	// 6.717 cu ft; 1.62 L ÷ 0.0295735295625 L/fl oz = 54.78 fl oz: exact factors
	// by definition.
	// 2100.25 g in 14 days are 150.0 g or 5.29 oz a day.
	for _, want := range []string{"OUNCES A DAY", "5.29", "4.41 lb", "4.0 oz", "22.4 gal", "6.7 cu ft", "55 fl oz"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in:\n%s", want, got)
		}
	}
}

func TestInfeasibleSheet(t *testing.T) {
	p := specimen()
	p.Status, p.Value, p.Bound, p.Gap = "infeasible", nil, nil, nil
	proven := true
	p.Proven = &proven
	p.Conflict = []ration.ConflictLimit{{Limit: "budget of 20"}, {Limit: "protein at least 46 g", Person: "Maja"}}
	p.WaysOut = []ration.WayOut{{Change: "11.40 more in the budget", Cost: ptr(31.4), Tested: true}}
	p.Closest = &ration.Closest{Shortfalls: []ration.Shortfall{{Person: "Maja", Nutrient: "protein", Amount: 40, Target: 46}}}
	got := text(t, Plan(p, sheet.Metric))
	for _, want := range []string{"No ration meets all of these limits.", "- Budget of 20.", "- Maja: protein at least 46 g",
		"any one of these less", "11.40 more in the budget. A plan then costs at most 31.40 demo crowns. Tested", "protein"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in:\n%s", want, got)
		}
	}
	if strings.Contains(got, "WHAT TO BUY") {
		t.Error("an infeasible answer offers a shopping list")
	}
}

func TestCSVIsOneFlatTable(t *testing.T) {
	var b strings.Builder
	if err := PlanCSV(specimen()).Write(&b); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(strings.NewReader(b.String())).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	at := map[string]int{}
	for c, name := range rows[0] {
		at[name] = c
	}
	sections := map[string]int{}
	for _, row := range rows[1:] {
		sections[row[at["section"]]]++
	}
	for section, want := range map[string]int{"plan": 8, "total": 4, "pack": 3, "food": 1, "need": 6, "drink": 1, "rule": 1,
		"shortfall": 1, "refused": 1, "price": 2, "caution": 1, "not_checked": 2, "note": 1} {
		if sections[section] != want {
			t.Errorf("%d rows of section %q, want %d", sections[section], section, want)
		}
	}
	if first := rows[1][at["text"]]; !strings.HasPrefix(first, "THIS PLAN DOES NOT FEED Åse") {
		t.Errorf("first row says %q", first)
	}
	for _, row := range rows {
		if row[at["section"]] == "need" && row[at["key"]] == "retinol" && row[at["floor"]] != "" {
			t.Errorf("an absent floor is written %q", row[at["floor"]])
		}
	}
}
