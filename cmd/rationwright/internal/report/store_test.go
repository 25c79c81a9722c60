package report

import (
	"bytes"
	"encoding/csv"
	"slices"
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods/stores"
	"rationwright/solver/check"
	"rationwright/solver/ration"
	"rationwright/solver/stockpile"
)

// has holds a text to lines that must be in it and to others that must not.
func has(t *testing.T, what, text string, lines []string, not ...string) {
	t.Helper()
	for _, l := range lines {
		if !strings.Contains(text, l) {
			t.Errorf("%s lacks %q:\n%s", what, l, text)
		}
	}
	for _, l := range not {
		if strings.Contains(text, l) {
			t.Errorf("%s has %q:\n%s", what, l, text)
		}
	}
}

// facts are the rows of a table of facts as maps.
func factsOf(t *testing.T, text string) []map[string]string {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var list []map[string]string
	for _, row := range rows[1:] {
		m := map[string]string{}
		for k, v := range row {
			m[rows[0][k]] = v
		}
		list = append(list, m)
	}
	return list
}

// lines holds what was written to what must be, line by line.
func lines(t *testing.T, what string, got []string, want ...string) {
	t.Helper()
	for i := range max(len(got), len(want)) {
		switch {
		case i >= len(got):
			t.Errorf("%s lacks line %d, %q", what, i+1, want[i])
		case i >= len(want):
			t.Errorf("%s has a line %d too many, %q", what, i+1, got[i])
		case got[i] != want[i]:
			t.Errorf("%s, line %d: %q, want %q", what, i+1, got[i], want[i])
		}
	}
}

// barred are the rows of a table, with their titles, the cells between bars.
func barred(g *sheet.Grid) []string {
	var rows []string
	for _, b := range g.Blocks {
		for _, row := range b.Rows {
			rows = append(rows, sheet.Around("", b.Title, ": ")+strings.Join(row, "|"))
		}
	}
	return rows
}

// headings are the names of the columns of a table, between bars.
func headings(g *sheet.Grid) string {
	var names []string
	for _, h := range g.Headings {
		names = append(names, h.Name)
	}
	return strings.Join(names, "|")
}

// filled are the rows of a table of facts of some sections, only their cells that are not
// empty, as "section column=value column=value".
func filled(t *testing.T, table *facts.Table, sections ...string) []string {
	t.Helper()
	var out bytes.Buffer
	if err := table.Write(&out); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&out).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var list []string
	for _, row := range rows[1:] {
		if len(sections) > 0 && !slices.Contains(sections, row[0]) {
			continue
		}
		text := row[0]
		for k, v := range row[1:] {
			text += sheet.Around(" "+rows[0][k+1]+"=", v, "")
		}
		list = append(list, text)
	}
	return list
}

// TestProgrammeByHand: two lines held for good, one of which cannot be without waste, as
// text and as facts; what became of them is added up over both.
func TestProgrammeByHand(t *testing.T) {
	r := &stockpile.Rotation{Start: "2026-11-25", TempC: 21, Factor: 1, Months: 12, Currency: "TSD",
		Programme: stores.Programme{PerMonth: 3.5, YearCost: 84, Unpriced: 1, Lines: []stores.ProgrammeLine{
			{Pack: "rice", Name: "rice", Target: 6, KeepDays: 1800, PerMonth: 0.5, PerYear: 6, Rhythm: "1 every 2 months", YearCost: 84, HasCost: true, NoWaste: true},
			{Pack: "chips", Name: "chips", Target: 3, Rhythm: "not to be held in store", Why: "it keeps 40 days"},
		}},
		Followed: []stockpile.FollowedPack{{Pack: "rice", Months: 60, Bought: 30, Eaten: 28, Wasted: 0, Least: 6, Target: 6}, {Pack: "chips", Months: 60, Bought: 20, Eaten: 9, Wasted: 1, Tight: 2, Least: 2, Target: 3}},
	}
	text := laidOut(t, Rotate(r, sheet.Metric))
	has(t, "the programme", text, []string{"1 every 2 months", "1,800", "84.00", "3.5 packs a month, 84.00 TSD a year", "1 line without a price or a rhythm is not counted", "- chips: it keeps 40 days.",
		"\n50 packs bought, 37 eaten, 1 thrown away.", "- chips: 1 pack goes out of date.", "- chips: down to 2 of 3.", "- chips: 2 packs are due inside the month"},
		"- rice:", "ever goes out of date", "never falls below")
	r.Followed = r.Followed[:1]
	r.Programme.Unpriced, r.Programme.Lines = 0, r.Programme.Lines[:1]
	has(t, "without waste", laidOut(t, Rotate(r, sheet.Metric)), []string{"\n30 packs bought, 28 eaten, 0 thrown away.", "ever goes out of date", "never falls below"}, "Not without waste", "not counted")
	var out bytes.Buffer
	if err := RotateCSV(r).Write(&out); err != nil {
		t.Fatal(err)
	}
	rows := factsOf(t, out.String())
	if len(rows) != 1 || rows[0]["count"] != "6" || rows[0]["cost_per_year"] != "84" || rows[0]["bought"] != "30" || rows[0]["eaten"] != "28" || rows[0]["wasted"] != "0" || rows[0]["no_waste"] != "true" || rows[0]["months"] != "60" {
		t.Errorf("%v", rows)
	}
}

// TestShareByHand: three households share, one of them apart with a reason, one short; what
// is handed out and what is bought are told apart, and what is left is listed.
func TestShareByHand(t *testing.T) {
	totals := &ration.Totals{WeightKg: 9, WaterL: 40}
	totals.Cost = 70
	s := &Shared{Stopped: "by the clock", Level: 0.937, LevelBound: 0.95, LevelGap: 0.0139, Cost: 140, Bound: 133, Gap: 0.05, Currency: "TSD", Left: []SharedRemain{{"rice", "white rice", 4}, {"salt", "salt", 0}},
		Households: []SharedTo{
			{ID: "H1", Totals: totals, Packs: []ration.PlanPack{{Pack: "rice", Food: "white rice", Count: 7, FromStock: 5, Cost: 4}}},
			{ID: "H2", Totals: totals, Shortfalls: []ration.Shortfall{{Person: "Signe", Nutrient: "iron", Unit: "mg", Amount: 17, Target: 18}}, Refused: []ration.Refused{{Name: "Arne", Reason: "kidneys"}}},
			{ID: "H3", Errors: []string{"no such food"}},
		}}
	text := laidOut(t, Share(s, sheet.Metric))
	has(t, "the share", strings.Join(strings.Fields(text), " "), []string{"2 households share. The household that is served worst gets 93 % of all that its people need; it is proven that no way of sharing gives it more than 95 %", "(gap 1.4 %)", "140.00 TSD", "less than 133.00 (gap 5.0 %). (by the clock)",
		"1 household is short of something", "H2 DOES NOT FEED Arne: kidneys", "H3 gets nothing here: no such food"}, "salt")
	for _, line := range strings.Split(text, "\n") {
		if f := strings.Fields(line); len(f) > 3 && f[0] == "rice" && strings.Contains(line, "4.00") && (f[len(f)-3] != "5" || f[len(f)-2] != "2") {
			t.Errorf("5 from the stock and 2 to buy: %q", line)
		}
	}
	sections := Share(s, sheet.Metric).Sections
	lines(t, "what is left", barred(sections[len(sections)-1].Table), "rice|white rice|4") // no salt
	lines(t, "all together", filled(t, ShareCSV(s), "all", "stopped", "left"), "all cost=140 currency=TSD level=0.937 level_bound=0.95 bound=133", "stopped text=by the clock", "left pack=rice food=white rice from_stock=4", "left pack=salt food=salt from_stock=0")
	none := *s
	none.Stopped, none.Households = "", s.Households[:1]
	if lead := Share(&none, sheet.Metric).Sections[0].Lead; len(lead) != 3 || strings.Contains(lead[1], "clock") || len(filled(t, ShareCSV(&none), "stopped")) != 0 {
		t.Errorf("nobody is short and nothing was stopped: %q", lead)
	}
	var out bytes.Buffer
	if err := ShareCSV(s).Write(&out); err != nil {
		t.Fatal(err)
	}
	seen := map[string]map[string]string{}
	for _, row := range factsOf(t, out.String()) {
		seen[row["row"]+" "+row["household"]] = row
	}
	if p := seen["pack H1"]; p["from_stock"] != "5" || p["to_buy"] != "2" || p["cost"] != "4" {
		t.Errorf("%v", p)
	}
	if seen["short H2"]["text"] != "Signe: iron 17 of 18 mg" || seen["refused H2"]["text"] != "Arne: kidneys" || seen["apart H3"]["text"] != "no such food" || seen["household H3"] != nil || seen["household H1"]["water_l"] != "40" {
		t.Errorf("%v", seen)
	}
}

// TestEatByFacts: what must be eaten soon tells its date, the day on which it was opened, or
// both.
func TestEatByFacts(t *testing.T) {
	c := &check.StockCheck{EatBy: []check.EatBy{{Pack: "a", BestBefore: "2026-12-01", EatenG: 90, Grams: 100}, {Pack: "b", Opened: "2026-11-24"}, {Pack: "c", BestBefore: "2026-12-02", Opened: "2026-11-25"}}}
	var out bytes.Buffer
	if err := CheckCSV(c).Write(&out); err != nil {
		t.Fatal(err)
	}
	want := map[string]string{"a": "2026-12-01", "b": "opened 2026-11-24", "c": "2026-12-02 opened 2026-11-25"}
	n := 0
	for _, row := range factsOf(t, out.String()) {
		if row["section"] != "eat_by" {
			continue
		}
		n++
		if row["text"] != want[row["key"]] || row["key"] == "a" && (row["amount"] != "90" || row["ceiling"] != "100") {
			t.Errorf("%v, want %q", row, want[row["key"]])
		}
	}
	if n != 3 {
		t.Errorf("%d rows, want 3", n)
	}
}

// TestWhatAStockLacksAndPasses: each need that is not met, each ceiling that the share-out
// passes and each that all of it would pass is a row of its own sort with whose it is, the
// amount, and the limit in the column of its side; so is what is to be bought and what is of
// no use.
func TestWhatAStockLacksAndPasses(t *testing.T) {
	c := &check.StockCheck{
		Short:   []check.StockShort{{Person: "Signe", Nutrient: "iron", Unit: "mg", Amount: 9, Floor: 18}, {Nutrient: "water", Unit: "L", Amount: 3, Floor: 4}},
		Over:    []ration.Over{{Person: "Odd", Nutrient: "sodium", Unit: "mg", Amount: 2500, Ceiling: 2300}, {Person: "Signe", Nutrient: "retinol", Unit: "µg", Amount: 3100, Ceiling: 3000}},
		Excess:  []check.StockShort{{Person: "Ask", Nutrient: "zinc", Unit: "mg", Amount: 50, Ceiling: 40}},
		Buy:     []check.Buy{{Pack: "rice-1kg", Food: "rice", Count: 3}},
		Useless: []check.Useless{{Pack: "salt-1kg", Food: "salt", Count: 7, Reason: "past its date"}},
	}
	var out bytes.Buffer
	if err := CheckCSV(c).Write(&out); err != nil {
		t.Fatal(err)
	}
	got := map[string][]string{}
	for _, row := range factsOf(t, out.String()) {
		got[row["section"]] = append(got[row["section"]], strings.Join([]string{row["person"], row["key"], row["name"], row["count"], row["amount"], row["unit"], row["floor"], row["ceiling"], row["text"]}, "|"))
	}
	for section, want := range map[string][]string{
		"short":   {"Signe|iron|||9|mg|18||", "|water|||3|L|4||"},
		"over":    {"Odd|sodium|||2500|mg||2300|", "Signe|retinol|||3100|µg||3000|"},
		"excess":  {"Ask|zinc|||50|mg||40|"},
		"buy":     {"|rice-1kg|rice|3|||||"},
		"useless": {"|salt-1kg|salt|7|||||past its date"},
	} {
		if !slices.Equal(got[section], want) {
			t.Errorf("%s: %q, want %q", section, got[section], want)
		}
	}
}
