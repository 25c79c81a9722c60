package report

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/nutrients"
)

// signe and odd are people made up for these tests, each of their figures another one.
func signe() nutrients.Needs {
	limit := func(v float64, kind, source, verified, note string) *nutrients.Limit {
		return &nutrients.Limit{Amount: v, Kind: kind, Source: source, Verified: verified, Note: note}
	}
	return nutrients.Needs{
		Person: nutrients.Person{Name: "Signe", AgeMonths: 400, WeightKg: 61, Activity: "low", State: "lactating", Conditions: []nutrients.Condition{"diabetes", "celiac"}, Count: 3},
		Stage:  "female_31_50y", HeightCm: 167, WeightKg: 61,
		EER: nutrients.Limit{Amount: 2040, Kind: "EER", Source: "E", Verified: "from memory", Note: "resting"},
		List: []nutrients.Need{
			{Nutrient: nutrients.Iron, Floor: limit(18, "RDA", "A", "from memory", "n1"), Ceiling: limit(45, "UL", "A", "from memory", "n2"), Target: limit(18, "RDA", "A", "from memory", "n1")},
			{Nutrient: nutrients.Zinc, Target: limit(8, "AI", "B", "", ""), Shown: true},
			{Nutrient: nutrients.Calcium, Floor: limit(1000, "AI", "A", "from memory", ""), Target: limit(1200, "RDA", "C", "", ""), Shown: true},
		},
		Shares: []nutrients.Share{{Nutrient: nutrients.Fat, Min: limit(20, "AMDR", "C", "", ""), Max: limit(35, "AMDR", "E", "from memory", "")}},
		Water:  nutrients.WaterNeed{Total: limit(3.8, "AI", "W", "", ""), Drinks: limit(3.1, "AI", "W", "", "")},
		Feed:   &nutrients.Feed{FormulaML: limit(400, "feed", "F", "", ""), HumanMilkML: limit(300, "feed", "F", "", "")},
		Meals:  &nutrients.MealBand{Low: limit(40, "guideline", "D", "", ""), High: limit(60, "guideline", "D", "", "")},

		NotChecked: []string{"iodine", "vitamin_k"},
		Notes:      []nutrients.Note{{Text: "more with milk", Source: "A", Verified: "from memory"}, {Text: "no source says so"}},
	}
}

func odd() nutrients.Needs {
	return nutrients.Needs{
		Person: nutrients.Person{Name: "Odd", HeightCm: 180, WeightKg: 80, Count: 1}, Stage: "male_70y", HeightCm: 180, WeightKg: 80,
		EER:  nutrients.Limit{Amount: 2500, Kind: "EER"},
		List: []nutrients.Need{{Nutrient: nutrients.Energy, Floor: &nutrients.Limit{Amount: 2425, Kind: "rule"}, Target: &nutrients.Limit{Amount: 2500, Kind: "EER"}}},

		NotChecked: []string{"iodine"},
	}
}

// TestNeedsByHand: what is to be had of everything, energy first, floors and ceilings in
// their columns; what is shown without being enforced says so; sources are numbered in order
// of first use, and a person is described as the household has them.
func TestNeedsByHand(t *testing.T) {
	refused := nutrients.Needs{Person: nutrients.Person{Name: "Arne"}, Refused: &nutrients.Refusal{Reason: "kidneys"}, NotChecked: []string{"fluoride"}}
	people := []nutrients.Needs{signe(), refused, odd()}
	got := Needs(people, sheet.Metric, true, true).Sections
	if len(got) != 5 || !strings.Contains(got[0].Lead[0], "invented") || got[1].Title != "What Signe needs a day" || got[2].Title != "What Odd needs a day" || got[4].Title != "Sources" {
		t.Fatalf("%+v", got)
	}
	if got, want := headings(got[1].Table), "nutrient|at least|at most|unit|kind|source"; got != want {
		t.Errorf("the columns are %q, want %q", got, want)
	}
	lines(t, "for whom", got[1].Lead, "Life stage female 31-50 y, 167 cm, 61.0 kg (reference body where not given), low, lactating, diabetes, celiac; the row stands for 3 people.")
	lines(t, "what Signe needs", barred(got[1].Table),
		"energy requirement|||kcal|EER|[1]", "iron|18|45|mg|RDA, UL|[2]", "zinc|8||mg|AI, for information|[3]", "calcium|1,000||mg|AI, RDA, for information|[2] [4]",
		"fat share|20|35|% of energy|AMDR|[4] [1]", "water total|3.8||L|AI|[5]", "water drinks|3.1||L|AI|[5]", "formula|400||mL ready feed|feed|[6]", "human milk|300||mL|feed|[6]",
		"carbohydrate meal|40|60|g a main meal|guideline, for information|[7]")
	lines(t, "the notes", got[1].Notes, "- More with milk. [2]", "- No source says so.")
	lines(t, "for whom", got[2].Lead, "Life stage male 70 y, 180 cm, 80.0 kg.")
	lines(t, "what Odd needs", barred(got[2].Table), "energy|2,425||kcal|rule, EER|")
	lines(t, "what is not checked", got[3].Lead, "Required, but the food table has no column for it: iodine, vitamin K and fluoride.")
	lines(t, "the sources", got[4].Lead, "[1] E (from memory).", "[2] A (from memory).", "[3] B.", "[4] C.", "[5] W.", "[6] F.", "[7] D.")

	plain := Needs(people[2:], sheet.US, false, false).Sections
	if len(plain) != 2 || headings(plain[0].Table) != "nutrient|at least|at most|unit|kind" {
		t.Fatalf("without sources and demo: %+v", plain)
	}
	lines(t, "in US units", plain[0].Lead, "Life stage male 70 y, 71 in, 176.4 lb.") // 180 cm are 70.87 in, 80 kg 176.37 lb
	given := odd()
	given.NotChecked = nil
	for _, body := range [][2]float64{{0, 0}, {0, 80}, {180, 0}} {
		given.Person.HeightCm, given.Person.WeightKg = body[0], body[1]
		if line := whose(&given, sheet.Metric); !strings.Contains(line, "(reference body where not given)") {
			t.Errorf("%v is given: %q", body, line)
		}
	}
	if n := len(Needs([]nutrients.Needs{given}, sheet.Metric, false, false).Sections); n != 1 {
		t.Errorf("all is checked, and there are %d sections, want 1", n)
	}
	given.List, given.EER.Amount = nil, 0
	if rows := needRows(&given); len(rows) != 0 {
		t.Errorf("nothing is needed: %+v", rows)
	}
}

// TestNeedsAsFacts: a row a requirement with whose it is and for how many, the limits each in
// its column.
func TestNeedsAsFacts(t *testing.T) {
	lone := odd()
	lone.Person.Count = 0 // not counted: one
	lines(t, "the facts", filled(t, NeedsCSV([]nutrients.Needs{signe(), lone})),
		"Signe count=3 stage=female_31_50y nutrient=energy unit=kcal target=2040 kind=EER enforced=true note=resting source=E (from memory)",
		"Signe count=3 stage=female_31_50y nutrient=iron unit=mg floor=18 ceiling=45 target=18 kind=RDA, UL enforced=true note=n1; n2 source=A (from memory)",
		"Signe count=3 stage=female_31_50y nutrient=zinc unit=mg floor=8 target=8 kind=AI, for information enforced=false source=B",
		"Signe count=3 stage=female_31_50y nutrient=calcium unit=mg floor=1000 target=1200 kind=AI, RDA, for information enforced=false source=A (from memory); C",
		"Signe count=3 stage=female_31_50y nutrient=fat_share unit='% of energy floor=20 ceiling=35 kind=AMDR enforced=true source=C; E (from memory)",
		"Signe count=3 stage=female_31_50y nutrient=water_total unit=L floor=3.8 kind=AI enforced=true source=W",
		"Signe count=3 stage=female_31_50y nutrient=water_drinks unit=L floor=3.1 kind=AI enforced=true source=W",
		"Signe count=3 stage=female_31_50y nutrient=formula unit=mL ready feed floor=400 kind=feed enforced=true source=F",
		"Signe count=3 stage=female_31_50y nutrient=human_milk unit=mL floor=300 kind=feed enforced=true source=F",
		"Signe count=3 stage=female_31_50y nutrient=carbohydrate_meal unit=g a main meal floor=40 ceiling=60 kind=guideline, for information enforced=false source=D",
		"Odd count=1 stage=male_70y nutrient=energy unit=kcal floor=2425 target=2500 kind=rule, EER enforced=true")
	refused := nutrients.Needs{Person: nutrients.Person{Name: "Arne"}, Refused: &nutrients.Refusal{Reason: "kidneys", Source: "R", Verified: "from memory"}, List: lone.List}
	lines(t, "of the refused", filled(t, NeedsCSV([]nutrients.Needs{refused})), "Arne kind=refused note=THIS PLAN DOES NOT FEED ARNE: kidneys source=R (from memory)")

	var out bytes.Buffer
	if err := JSON(&out, NeedsJSON([]nutrients.Needs{refused, signe(), lone}, true)); err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Refused []struct{ Name, Reason, Source string }
		Demo    bool
		People  []personNeedsJSON
	}
	if err := json.Unmarshal(out.Bytes(), &doc); err != nil {
		t.Fatal(err)
	}
	if !doc.Demo || len(doc.Refused) != 1 || len(doc.People) != 3 || doc.People[0].Refused != "kidneys" || doc.People[0].Needs != nil || doc.People[1].Refused != "" {
		t.Fatalf("%+v", doc)
	}
	p := doc.People[1]
	if p.Name != "Signe" || p.Count != 3 || doc.People[2].Count != 1 || p.Stage != "female_31_50y" || p.HeightCm != 167 || p.WeightKg != 61 || p.EER != 2040 || len(p.Needs) != 10 || len(p.NotChecked) != 2 {
		t.Errorf("%+v", p)
	}
	if len(p.Notes) != 2 || p.Notes[0] != (noteJSON{"more with milk", "A (from memory)"}) || p.Notes[1] != (noteJSON{"no source says so", ""}) {
		t.Errorf("%+v", p.Notes)
	}
}
