package foods

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// Every cell of the tables of published figures equals the extract of the
// publication (testdata/reference), so that a can of meat cannot come to stay
// open 8 h instead of 2.
func TestTablesAreThePublishedOnes(t *testing.T) {
	added := map[string]int{"preparation.csv": 3} // rows added at the end, see data/README.md
	for _, name := range []string{"keeping.csv", "preparation.csv", "density.csv", "packages.csv"} {
		want, got := records(t, "../testdata/reference/"+name), records(t, "data/"+name)
		if len(got) != len(want)+added[name] || len(want) < 30 {
			t.Errorf("%s: %d rows, the extract has %d", name, len(got), len(want))
			continue
		}
		for i := range want {
			if !slices.Equal(got[i], want[i]) {
				t.Errorf("%s, row %d:\n got %q\nwant %q", name, i+1, got[i], want[i])
			}
		}
	}
}

// The keeping times that the program reads are those that the table prints.
func TestKeepingIsReadAsPublished(t *testing.T) {
	tab := load(t)
	for _, row := range readCSV(t, "../testdata/reference/keeping.csv") {
		k := tab.keeping[row["form"]]
		if k == nil {
			t.Errorf("no keeping of %s", row["form"])
			continue
		}
		months := 0.0
		if row["use_by_months"] != "" {
			months = number(t, row["use_by_months"])
		}
		if k.AfterOpenHours != number(t, row["after_open_hours_no_fridge"]) || k.UseByMonths != months ||
			k.MaxStorageC != number(t, row["max_storage_c"]) || k.AfterOpenBasis != row["after_open_basis"] || k.LabelDateBinds != (row["label_date_binding"] == "yes") {
			t.Errorf("%s is read as %+v, the table prints %v", k.Form, k, row)
		}
	}
}

// The most at a sitting that foods.csv takes from a named row of the cooking
// practice or of the reference amounts is the figure of that row.
func TestSittingsAreOfTheirSource(t *testing.T) {
	most := map[string]string{}
	for _, row := range readCSV(t, "../testdata/reference/cooking_absurd.csv") {
		if row["unit"] == "g" {
			most[row["food"]] = row["max_per_occasion"]
		}
	}
	racc := map[string]string{}
	for _, row := range readCSV(t, "../testdata/reference/racc.csv") {
		racc[row["id"]] = row["grams_approx"]
	}
	quoted := regexp.MustCompile(`cooking_absurd.csv "([^"]+)"`)
	twice := regexp.MustCompile(`racc.csv (R\d+) x 2`)
	checked := 0
	for _, f := range load(t).Foods {
		want := 0.0
		if m := quoted.FindStringSubmatch(f.CapSource); m != nil && most[m[1]] != "" {
			want, _ = strconv.ParseFloat(most[m[1]], 64)
		} else if m := twice.FindStringSubmatch(f.CapSource); m != nil {
			want = 2 * number(t, racc[m[1]])
		}
		if strings.Contains(f.CapSource, "/ 1.95") {
			want /= 1.95 // of the condensed soup as sold
		}
		if want > 0 {
			checked++
			if math.Abs(f.OccasionG-want) > 0.01 {
				t.Errorf("%s %s: %g g at a sitting, %s gives %g", f.NDB, f.Name, f.OccasionG, f.CapSource, want)
			}
		}
	}
	if checked < 150 {
		t.Errorf("only %d foods checked", checked)
	}
}
