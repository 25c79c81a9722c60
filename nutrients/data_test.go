package nutrients

import (
	"encoding/csv"
	"math"
	"slices"
	"strings"
	"testing"
)

// Every row of every embedded table names its source and says whether the
// figure was seen in a copy.
func TestEveryFigureHasASource(t *testing.T) {
	files, err := dataFiles.ReadDir("data")
	if err != nil {
		t.Fatal(err)
	}
	if len(files) != 10 {
		t.Errorf("%d tables, want 10", len(files))
	}
	for _, entry := range files {
		file, err := dataFiles.Open("data/" + entry.Name())
		if err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(file).ReadAll()
		if err != nil {
			t.Fatalf("%s: %v", entry.Name(), err)
		}
		source, verified := slices.Index(rows[0], "source"), slices.Index(rows[0], "verified")
		if source < 0 || verified < 0 {
			t.Fatalf("%s has no source or verified column", entry.Name())
		}
		for i, row := range rows[1:] {
			mark := row[verified]
			if row[source] == "" || !(strings.HasPrefix(mark, "yes: ") || strings.HasPrefix(mark, "from memory") || mark == "common practice, no source") {
				t.Errorf("%s row %d: source %q, verified %q", entry.Name(), i+2, row[source], mark)
			}
		}
	}
}

func mustData(t *testing.T) *published {
	t.Helper()
	d, err := data()
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// Every requirement converts into its column's unit, or is one of those that
// are named as not checked or have rules of their own.
func TestEveryRequirementIsAccountedFor(t *testing.T) {
	d := mustData(t)
	seen := map[string]bool{}
	for stage, figures := range d.dri {
		for key, f := range figures {
			seen[key.Nutrient] = true
			n, ok := ByName(key.Nutrient)
			switch {
			case key.Nutrient == "water" || key.Nutrient == "protein" || key.Nutrient == "protein_per_kg":
			case slices.Contains(notChecked, key.Nutrient):
				if ok {
					t.Errorf("%s is said not to be checked but has a column", key.Nutrient)
				}
			case !ok || !slices.Contains(driColumns, n):
				t.Errorf("%s is neither checked nor named as not checked", key.Nutrient)
			case f.set():
				if _, err := f.inColumn(n); err != nil {
					t.Errorf("%s, %s: %v", stage, key.Nutrient, err)
				}
			}
		}
	}
	for _, n := range driColumns {
		if !seen[n.Name()] {
			t.Errorf("%s has no row in the DRI table", n)
		}
	}
	if !slices.IsSorted(notChecked) {
		t.Error("notChecked is not sorted")
	}
}

// Each life stage has one goal for each nutrient, and EAR ≤ RDA ≤ UL where the
// UL counts food.
func TestTablesAreConsistent(t *testing.T) {
	d := mustData(t)
	figures := 0
	for _, stage := range d.dri {
		figures += len(stage)
	}
	if figures != 1633 {
		t.Errorf("%d figures in the DRI table, want the 1633 rows of the file: none twice", figures)
	}
	if len(d.stages) != 22 {
		t.Errorf("%d life stages, want 22 (DRI summary tables)", len(d.stages))
	}
	for _, s := range d.stages {
		for _, n := range driColumns {
			_, rda := d.find(s, n.Name(), "RDA")
			_, ai := d.find(s, n.Name(), "AI")
			if rda && ai {
				t.Errorf("%s, %s: both RDA and AI", s.Name, n)
			}
			infant := s.Max <= infantBelow
			if !rda && !ai && !(infant && n == Fibre) && !(!infant && n == Fat) {
				t.Errorf("%s, %s: neither RDA nor AI", s.Name, n)
			}
			goal, _, ok := d.goal(s, n.Name())
			if ear, has := d.find(s, n.Name(), "EAR"); has && ear.Value > goal.Value {
				t.Errorf("%s, %s: EAR %g above RDA %g", s.Name, n, ear.Value, goal.Value)
			}
			if ul, has := d.find(s, n.Name(), "UL"); has && ok && totalUL[n] && ul.Value <= goal.Value {
				t.Errorf("%s, %s: UL %g not above %g", s.Name, n, ul.Value, goal.Value)
			}
		}
	}
}

// Every row of special.csv that the remarks and refusals name is there, and a
// remark that repeats a quantity has one.
func TestEveryNamedRuleIsInTheTable(t *testing.T) {
	d := mustData(t)
	for _, r := range remarks {
		if r.group == "" {
			continue // the meaning of a word
		}
		f, ok := d.special[r.group+": "+r.rule]
		if !ok {
			t.Errorf("special.csv has no %s: %s", r.group, r.rule)
		}
		if strings.Contains(r.text, "{q}") == math.IsNaN(f.Value) && strings.Contains(r.text, "{q}") {
			t.Errorf("%q repeats a quantity that the table does not have", r.text)
		}
	}
	for _, r := range refusals {
		if _, ok := d.special[r.group+": "+r.rule]; !ok && r.group != "" {
			t.Errorf("special.csv has no %s: %s", r.group, r.rule)
		}
	}
	for _, a := range Allergens {
		if _, ok := d.special["food_allergy: "+allergenRules[a]]; !ok {
			t.Errorf("special.csv has no rule for %s", a)
		}
	}
}
