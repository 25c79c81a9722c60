package page

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

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
