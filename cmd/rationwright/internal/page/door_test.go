package page

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/view"
	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// cautionsOf are the warnings of a house of these people, from the table itself, with
// everything in it that may come with a store.
func cautionsOf(people ...nutrients.Person) []ration.Caution {
	var all []ration.Caution
	s := stores.Situation{People: people, Tags: []stores.Tag{stores.AnyFood, stores.AnyWater, stores.CarbonMonoxide, stores.Flame, "formula", "formula-powder", "choking", "can", "jar"}}
	for _, c := range s.Cautions() {
		all = append(all, ration.Caution{ID: c.ID, Severity: c.Severity, Text: c.Text, Source: c.Source, People: c.People})
	}
	return all
}

func idsOf(list []ration.Caution) string {
	var ids []string
	for _, c := range list {
		ids = append(ids, c.ID)
	}
	return strings.Join(ids, " ")
}

// TestDoorFive: the numbers are those of the table of cautions, the choice is by the
// rules of door.go, worked out by hand.
func TestDoorFive(t *testing.T) {
	infant := nutrients.Person{Name: "Liv", AgeMonths: 4, Feeding: nutrients.FormulaFed}
	toddler := nutrients.Person{Name: "Tuva", AgeMonths: 24}
	insulin := nutrients.Person{Name: "Rolf", AgeMonths: 57 * 12, Conditions: []nutrients.Condition{nutrients.Diabetes1}}
	adult := nutrients.Person{Name: "Maja", AgeMonths: 38 * 12}
	allergic := nutrients.Person{Name: "Eskil", AgeMonths: 15 * 12, Allergies: []nutrients.Allergy{{Allergen: "peanut"}}}
	for _, c := range []struct {
		who    string
		people []nutrients.Person
		want   string
	}{
		{"nobody at risk: fumes, cans, food that stands, water, then cans again", []nutrients.Person{adult}, "C16 C01 C06 C12 C02"},
		{"an infant: two of the infant's, and the house's gravest", []nutrients.Person{adult, infant}, "C20 C21 C16 C01 C06"},
		{"three people at risk: one of each, what the sheet says elsewhere last", []nutrients.Person{infant, toddler, insulin, adult}, "C20 C41 C28 C16 C01"},
		{"four people at risk: three by name, no more", []nutrients.Person{infant, toddler, insulin, allergic}, "C20 C39 C41 C16 C01"},
	} {
		if got := idsOf(doorFive(cautionsOf(c.people...))); got != c.want {
			t.Errorf("%s: %s, want %s", c.who, got, c.want)
		}
	}
	packs := []ration.Caution{{ID: "C01", Severity: "stop"}, {ID: "C02", Severity: "stop"}, {ID: "C03", Severity: "stop"}, {ID: "C04", Severity: "stop"}}
	if got := idsOf(doorFive(packs)); got != "C01 C02" {
		t.Errorf("warnings about packs alone: %s, want two of one subject", got)
	}
	shared := []ration.Caution{{ID: "P1", Severity: "stop", People: []string{"Liv"}}, {ID: "P2", Severity: "stop", People: []string{"Liv", "Rolf"}}, {ID: "P3", Severity: "stop", People: []string{"Liv", "Maja"}}}
	if got := idsOf(doorFive(shared)); got != "P1 P2" {
		t.Errorf("three about Liv, two of them with another: %s, want two about Liv", got)
	}
	if got := doorFive(nil); got != nil {
		t.Errorf("of nothing: %v", got)
	}
}

// TestDoorSaidLast: what "Must not eat" says comes after what is as grave, among itself as the
// plan has it.
func TestDoorSaidLast(t *testing.T) {
	all := []ration.Caution{{ID: "C28", Severity: "stop", People: []string{"Rolf"}}, {ID: "C19", Severity: "stop", People: []string{"Liv"}}, {ID: "C20", Severity: "stop", People: []string{"Ask"}}}
	if got := idsOf(doorFive(all)); got != "C20 C28 C19" {
		t.Errorf("%s, want C20 C28 C19", got)
	}
}

// TestDoorHeight, worked by hand in type of 13 points: a line is 182 / (0.3528 · 0.52 · 13) =
// 76.3 letters wide. The title takes 1.8, its 3 letters and 12 more being under 0.6 of a
// line; the water 1.25, of 20 letters and 24 for each who drinks, in 0.8 of a line; a heading
// 2.2; what ends the door 5; six sevenths of all.
func TestDoorHeight(t *testing.T) {
	const base = 1.8 + 1.25 + 2.2 + 5
	long := func(n int) string { return strings.Repeat("x", n) }
	for _, c := range []struct {
		name string
		of   func(r *Report)
		more float64
	}{
		{"no more", func(r *Report) {}, 0},
		{"a title of 33 letters and 12, in 45.8", func(r *Report) { r.Who = long(33) }, 0},
		{"a title of 34 letters and 12", func(r *Report) { r.Who = long(34) }, 1.8},
		{"a title of 46 letters and 12, in 0.6 of a line: two lines", func(r *Report) { r.Who = long(46) }, 1.8},
		{"one who drinks: 44 letters of 61.0", func(r *Report) { r.People = []view.Person{{Name: "Ola", DrinkL: 2}} }, 0},
		{"two who drink: 68 letters of 61.0", func(r *Report) { r.People = []view.Person{{Name: "Ola", DrinkL: 2}, {Name: "Per", DrinkL: 0.5}} }, 1.25},
		{"two of whom one drinks", func(r *Report) { r.People = []view.Person{{Name: "Ola", DrinkL: 2}, {Name: "Liv"}} }, 0},
		{"77 letters of the demo: two lines", func(r *Report) { r.Demo = long(77) }, 2},
		{"a headline of 64 letters, in 0.85 of a line: one of them", func(r *Report) { r.Headline = []string{long(64)} }, 2},
		{"a headline of 65 letters: two", func(r *Report) { r.Headline = []string{long(65)} }, 3},
		{"what is not for somebody, 77 letters, under a heading", func(r *Report) { r.Apart = []string{long(77)} }, 2.2 + 2.2},
		{"what somebody must not eat, 62 letters in 0.8 of a line, under a heading", func(r *Report) { r.Avoid = []Avoid{{MustNot: []string{long(62)}, Dislike: []string{"a"}}} }, 2.2 + 2.2},
		{"what somebody dislikes", func(r *Report) { r.Avoid = []Avoid{{Dislike: []string{long(62)}}} }, 0},
		{"a warning of 70 letters, in 0.93 of a line", func(r *Report) { r.DoorFive = []ration.Caution{{Text: long(70)}} }, 1.1},
		{"a warning of 68 letters about Liv", func(r *Report) { r.DoorFive = []ration.Caution{{Text: long(68), People: []string{"Liv"}}} }, 2.1},
		{"a warning of 68 letters with a source of 5, in type of 9", func(r *Report) { r.DoorFive = []ration.Caution{{Text: long(68), Source: long(5)}} }, 2.1},
		{"a warning of 67 letters with such a source", func(r *Report) { r.DoorFive = []ration.Caution{{Text: long(67), Source: long(5)}} }, 1.1},
		{"one from memory, with the legend of a line", func(r *Report) { r.DoorFive = []ration.Caution{{Text: long(20), Source: "a (from memory)"}} }, 2.1},
	} {
		r := &Report{Plan: &view.Plan{}, Who: "Ola"}
		c.of(r)
		if got, want := r.doorHeight(13), (base+c.more)*6/7; math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: %g lines, want %g", c.name, got, want)
		}
	}
	// A sheet is 249 / (0.3528 · 1.25) = 564.6 lines of one point high: 37.6 of 15, 43.4 of 13
	// and 51.3 of 11. Each headline of a line takes 2: (10.25 + 2 n) · 6/7.
	for n, want := range map[int]string{0: " roomy", 16: " roomy", 17: "", 20: "", 21: " full", 24: " full", 40: " full"} {
		r := &Report{Plan: &view.Plan{}, Who: "Ola"}
		for range n {
			r.Headline = append(r.Headline, "short")
		}
		if got := r.doorSize(); got != want {
			t.Errorf("%d headlines: size %q, want %q", n, got, want)
		}
	}
}

// TestDoorSubjects: every number is one of the table, and stands once.
func TestDoorSubjects(t *testing.T) {
	known := map[string]bool{}
	f, err := os.Open(filepath.FromSlash("../../../../foods/stores/data/cautions.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] {
		known[row[0]] = true
	}
	seen := map[string]bool{}
	for _, id := range append(slices.Concat(doorSubjects...), doorSaid...) {
		if !known[id] || seen[id] {
			t.Errorf("%s is no caution of the table, or stands twice", id)
		}
		seen[id] = true
	}
}
