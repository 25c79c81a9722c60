package report

import (
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/check"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
	"rationwright/solver/stockpile"
	"rationwright/solver/swap"
	"rationwright/solver/why"
)

// answers are all the forms of all the answers about one plan.
func answers(p *ration.Plan) (sheets map[string]*sheet.Sheet, tables map[string]func(io.Writer) error) {
	news := p.NotFed()
	replacing := &swap.Replacing{NotFed: news}
	check := &check.StockCheck{NotFed: ration.NotFed{Refused: p.Refused}, People: p.People, TopUp: p, Horizon: 14}
	swap := &swap.Swap{NotFed: news, Plan: p, Out: []swap.PackChange{}, In: []swap.PackChange{}}
	why, rotation := &why.Why{NotFed: news}, &stockpile.Rotation{NotFed: news, Start: "2026-01-05", Factor: 1}
	pile := &stockpile.Stockpile{NotFed: news}
	compared := &plan.Comparison{NotFed: news, Plans: []*ration.Plan{p}}
	sheets = map[string]*sheet.Sheet{
		"plan": Brief(p, sheet.Metric), "plan --full": Plan(p, sheet.Metric), "check": Check(check, sheet.Metric), "swap": Swap(swap, sheet.Metric),
		"swap --instead-of": Replacing(replacing, p, sheet.Metric), "why": Why(why, false), "rotate": Rotate(rotation, sheet.Metric),
		"compare": Compare(compared, sheet.Metric), "stores": Stores(pile, sheet.Metric),
	}
	tables = map[string]func(io.Writer) error{
		"plan":              PlanCSV(p).Write,
		"check":             CheckCSV(check).Write,
		"swap":              SwapCSV(swap).Write,
		"swap --instead-of": ReplacingCSV(replacing, p).Write,
		"why":               WhyCSV(why).Write,
		"rotate":            RotateCSV(rotation).Write,
		"compare":           CompareCSV(compared).Write,
		"stores":            StoresCSV(pile).Write,
	}
	return sheets, tables
}

// The first line of every output of every command says the worst, as text and as
// the first row of csv.
func TestEveryFormBeginsWithTheWorst(t *testing.T) {
	for _, c := range []struct {
		refused, short, over bool
		line                 string // first of the text, but of check
		row                  string // first cell of the first row
	}{
		{line: "", row: ""},
		{refused: true, line: "THIS PLAN DOES NOT FEED ÅSE", row: "refused"},
		{short: true, line: "SHORT OF WHAT IS NEEDED: Maja gets 80 % of the vitamin D.", row: "headline"},
		{over: true, line: "ABOVE A CEILING: Maja gets 110 % of the retinol.", row: "headline"},
		{refused: true, short: true, over: true, line: "THIS PLAN DOES NOT FEED ÅSE", row: "refused"},
	} {
		p := specimen()
		p.People = p.People[:1]
		p.People[0].Needs = []ration.PersonNeed{{Nutrient: "retinol", Amount: 100, Ceiling: ptr(3000)}}
		if c.over {
			p.People[0].Needs[0].Amount = 3300
		}
		if !c.refused {
			p.Refused = nil
		}
		if !c.short {
			p.Shortfalls = nil
		}
		sheets, tables := answers(p)
		for name, s := range sheets {
			first := ""
			if len(s.Alerts) > 0 {
				first = s.Alerts[0]
			}
			want := c.line
			if name == "check" && !c.refused { // what a stock is short of is its own answer
				want = "THIS STOCK IS SHORT of a balanced ration for 14 days."
			}
			if first != want {
				t.Errorf("%+v: the first line of %s is %q, want %q", c, name, first, want)
			}
		}
		for name, write := range tables {
			var b strings.Builder
			if err := write(&b); err != nil {
				t.Fatal(err)
			}
			rows, err := csv.NewReader(strings.NewReader(b.String())).ReadAll()
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			first := ""
			if len(rows) > 1 {
				first = rows[1][0]
			}
			bad := c.row != "" || name == "check"
			if want := c.row; name == "check" && want == "" {
				if first != "headline" {
					t.Errorf("%s: the first row is %q", name, first)
				}
			} else if bad && first != want {
				t.Errorf("%+v: the first row of %s is %q, want %q", c, name, first, want)
			} else if !bad && (first == "headline" || first == "refused") {
				t.Errorf("%s: the first row is %q, and nothing is bad", name, first)
			}
			if c.short && c.refused && name != "check" && (len(rows) < 3 || rows[2][0] != "headline" || !slices.ContainsFunc(rows[2], func(s string) bool { return strings.HasPrefix(s, "SHORT") })) {
				t.Errorf("%s: the second row does not say who is short", name)
			}
		}
	}
}

// needs says first whom no plan is made for, and has them by key.
func TestNeedsBeginsWithTheRefused(t *testing.T) {
	people := []nutrients.Needs{
		{Person: nutrients.Person{Name: "Maja"}},
		{Person: nutrients.Person{Name: "Arne"}, Refused: &nutrients.Refusal{Reason: "a clinician must plan", Source: "S"}},
	}
	if got := Needs(people, sheet.Metric, false, true).Alerts; len(got) != 2 || got[0] != "THIS PLAN DOES NOT FEED ARNE" || strings.Contains(got[1], "water") {
		t.Errorf("%q", got)
	}
	var b strings.Builder
	if err := NeedsCSV(people).Write(&b); err != nil {
		t.Fatal(err)
	}
	if _, rest, _ := strings.Cut(b.String(), "\n"); !strings.HasPrefix(rest, "Arne,") || !strings.Contains(rest, "THIS PLAN DOES NOT FEED ARNE: a clinician must plan,S") {
		t.Errorf("%s", b.String())
	}
	b.Reset()
	if err := JSON(&b, NeedsJSON(people, false)); err != nil {
		t.Fatal(err)
	}
	if !strings.HasPrefix(b.String(), "{\n  \"refused\": [\n    {\n      \"name\": \"Arne\"") {
		t.Errorf("%s", b.String())
	}
}

// The first screen holds who, how long, what it comes to and the list in a shop's
// words, in at most 40 lines, 45 for a list of 60 foods, and no key of a pack.
func TestBriefFitsAScreen(t *testing.T) {
	for _, n := range []int{3, 26, 60} {
		p := specimen()
		p.Refused, p.Shortfalls, p.Cautions = nil, nil, append(p.Cautions, ration.Caution{Severity: "warn"})
		p.Packs, p.People = nil, []ration.PlanPerson{{Name: "Maja", Count: 1}, {Name: "Knut", Count: 3}}
		for i := range n {
			p.Packs = append(p.Packs, ration.PlanPack{Pack: fmt.Sprintf("beans%d-1.5l-can", i), Food: fmt.Sprintf("beans %d, canned", i), Count: 3, FromStock: i % 2, Group: fmt.Sprint("canned ", i/4)})
		}
		got := text(t, Brief(p, sheet.Metric))
		if lines := strings.Count(got, "\n"); lines > 40 && n <= 26 || lines > 45 {
			t.Errorf("%d foods take %d lines:\n%s", n, lines, got)
		}
		for _, want := range []string{"Ration for 4 people for 14 days, 2026-11-25 to 2026-12-08: Maja and Knut.\n", "It comes to 263.10 demo crowns, 151.4 kg and 190 L of shelf",
			"proven within 0.84 %", "Store 84.7 L of water. Cooking takes 21.3 MJ of heat.", "Everyone fed gets all that the standard rda asks for.",
			"canned 0", "beans 0: 3 × 1.5 L can", "beans 1: 2 × 1.5 L can, 1 × 1.5 L can from your", "2 warnings, 1 of them marked STOP"} {
			if !strings.Contains(strings.Join(strings.Fields(got), " "), strings.Join(strings.Fields(want), " ")) {
				t.Errorf("%d foods: no %q in\n%s", n, want, got)
			}
		}
		if strings.Contains(got, "-can") {
			t.Errorf("a key is shown in\n%s", got)
		}
	}
	p := specimen()
	p.Packs, p.Request = nil, nil
	if got := text(t, Brief(p, sheet.Metric)); !strings.Contains(got, "WHAT TO BUY\nNothing.") || strings.Contains(got, "Everyone fed gets all") {
		t.Errorf("%s", got)
	}
}

// check answers in its first lines: days, what runs out first, what is shortest,
// what completes it, water and heat.
func TestCheckAnswersFirst(t *testing.T) {
	c := &check.StockCheck{
		People: []ration.PlanPerson{{Name: "Maja"}, {Name: "Emil"}}, Horizon: 14, Days: 0, DaysEnergy: 9, First: "vitamin_c", BuyCost: ptr(12.5), Currency: "TSD",
		Buy:   []check.Buy{{Pack: "a", Count: 1}, {Pack: "b", Count: 2}},
		Short: []check.StockShort{{Person: "Maja", Nutrient: "iron", Amount: 9, Floor: 18}, {Person: "Emil", Nutrient: "iron", Amount: 4, Floor: 8}, {Person: "Emil", Nutrient: "vitamin_c", Amount: 5, Floor: 50}, {Person: "Maja", Nutrient: "zinc", Amount: 7, Floor: 8}, {Person: "Maja", Nutrient: "calcium", Amount: 950, Floor: 1000}},
	}
	lines := strings.Split(text(t, Check(c, sheet.Metric)), "\n")
	want := []string{
		"THIS STOCK IS SHORT of a balanced ration for 14 days.", "",
		"It meets every need for less than one day, and gives everyone the energy for 9 days.",
		"What runs out first: vitamin C. Shortest, of what is needed: vitamin C 10 %, iron 50 %, zinc 87 %.",
		"2 things to buy, 12.50 TSD, complete it; the list is below.",
		"The ration takes 0.0 L of stored water and 0.0 MJ of useful heat for cooking.",
	}
	if len(lines) < 6 || !slices.Equal(lines[:6], want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(lines[:min(8, len(lines))], "\n"), strings.Join(want, "\n"))
	}
}

// No key of the food table is broken in the list of foods, at any width.
func TestFoodListBreaksNoKey(t *testing.T) {
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	list := FoodList(table.Foods, table.Groups(), sheet.Metric)
	for _, limit := range []int{60, 80, 100, 200} {
		var b strings.Builder
		if err := list.Fit(&b, limit); err != nil {
			t.Fatal(err)
		}
		words := strings.Fields(b.String())
		for _, f := range table.Foods {
			for _, k := range f.Packs {
				if !slices.Contains(words, k.Key) {
					t.Errorf("at %d columns %s is broken", limit, k.Key)
				}
			}
		}
	}
}

// One pet is one pet.
func TestPetsInWords(t *testing.T) {
	for n, want := range map[string]string{"1": "Water is stored for 1 pet", "2": "Water is stored for 2 pets"} {
		p := &ration.Plan{Request: &ration.RequestRecord{Options: map[string]string{"pets": n}}}
		if !slices.Contains(asked(p), want) {
			t.Errorf("%q in %q", want, asked(p))
		}
	}
	a := stores.Action{Count: 1}
	if countOf(&a) != "1" {
		t.Error(countOf(&a))
	}
}
