package rules

import (
	"slices"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// TestWhatIsKeptApart: to keep from the kitchen of one person are the stored foods that hold
// what harms that one or may hold it, each named once; in coeliac disease all that holds
// gluten, wheat or not: barley, rye and malt hold it without a word of wheat among the
// allergens. What others must leave, and what is in the table alone, is not named.
func TestWhatIsKeptApart(t *testing.T) {
	table := &foods.Table{}
	store := func(name string, tags, holds, may string) ration.PlanPack {
		f := &foods.Food{Name: name, Tags: strings.Fields(tags), Allergens: strings.Fields(holds), MayContain: strings.Fields(may)}
		table.Foods, table.Packs = append(table.Foods, f), append(table.Packs, &foods.Pack{Key: name + "-1kg", Food: f})
		return ration.PlanPack{Pack: name + "-1kg", Count: 1}
	}
	var packs []ration.PlanPack
	for _, f := range [][4]string{
		{"barley", foods.TagGluten, "", "wheat soy"},
		{"flour", foods.TagGluten, "wheat", "soy"},
		{"starch", "", "wheat", ""},
		{"oats", "oats", "", "wheat"},
		{"shake", "", "milk soy", "tree-nut"},
		{"nuts", "", "tree-nut peanut", "sesame"},
		{"fish pie", foods.TagGluten, "fish shellfish egg", ""},
		{"rice", "", "", ""},
	} {
		packs = append(packs, store(f[0], f[1], f[2], f[3]))
	}
	packs = append(packs, packs[0], ration.PlanPack{Pack: "unknown", Count: 1})
	store("tahini", foods.TagGluten, "sesame wheat", "") // in the shops, and not in the store
	type told struct{ holds, may string }
	nuts := told{"nuts", "shake"}
	for _, c := range []struct {
		name      string
		coeliac   bool
		allergies []string
		want      []told
	}{
		{"nothing", false, nil, nil},
		{"coeliac", true, nil, []told{{"barley, flour, starch, fish pie", "oats"}}},
		{"wheat", false, []string{"wheat"}, []told{{"flour, starch", "barley, oats"}}},
		{"wheat and coeliac", true, []string{"wheat"}, []told{{"flour, starch", "barley, oats"}, {"barley, flour, starch, fish pie", "oats"}}},
		{"milk", false, []string{"milk"}, []told{{"shake", ""}}},
		{"egg", false, []string{"egg"}, []told{{"fish pie", ""}}},
		{"fish", false, []string{"fish"}, []told{{"fish pie", ""}}},
		{"shellfish", false, []string{"shellfish"}, []told{{"fish pie", ""}}},
		{"tree nut and peanut", false, []string{"tree-nut", "peanut"}, []told{nuts, {"nuts", ""}}},
		{"soy", false, []string{"soy"}, []told{{"shake", "barley, flour"}}},
		{"sesame", false, []string{"sesame"}, []told{{"", "nuts"}}},
	} {
		p := nutrients.Person{Name: "Signe"}
		if c.coeliac {
			p.Conditions = []nutrients.Condition{nutrients.Coeliac}
		}
		for _, a := range c.allergies {
			p.Allergies = append(p.Allergies, nutrients.Allergy{Allergen: a})
		}
		others := nutrients.Person{Name: "Odd", Conditions: []nutrients.Condition{nutrients.Coeliac}, Allergies: []nutrients.Allergy{{Allergen: "egg"}}}
		req := &ration.Request{Table: table, People: []nutrients.Person{p, others}}
		notes := Apart(req, &p, packs)
		if len(notes) != len(c.want) {
			t.Errorf("%s: %d notes, want %d", c.name, len(notes), len(c.want))
			continue
		}
		for i, n := range notes {
			if n.Apart == nil {
				t.Errorf("%s: nothing is told of: %s", c.name, n.Text)
				continue
			}
			if got := (told{strings.Join(n.Apart.Holds, ", "), strings.Join(n.Apart.MayHold, ", ")}); got != c.want[i] {
				t.Errorf("%s: %+v, want %+v", c.name, got, c.want[i])
			}
			for _, name := range slices.Concat(n.Apart.Holds, n.Apart.MayHold) {
				if !strings.Contains(n.Text, name) {
					t.Errorf("%s: %s is not in %q", c.name, name, n.Text)
				}
			}
			if !strings.Contains(n.Text, "Read every label") || !strings.Contains(n.Text, "Signe") {
				t.Errorf("%s: %q", c.name, n.Text)
			}
		}
		for i, n := range Apart(req, &p, packs[7:8]) { // rice alone
			if n.Apart != nil || !strings.Contains(n.Text, "No food of this store holds") {
				t.Errorf("%s, rice alone: note %d %+v", c.name, i, n)
			}
		}
	}
}
