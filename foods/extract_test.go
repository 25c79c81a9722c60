package foods

import (
	"bytes"
	"encoding/csv"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// records returns the lines of a CSV file, header first: of data/ the embedded
// one, which the program reads.
func records(t testing.TB, path string) [][]string {
	t.Helper()
	var text []byte
	var err error
	if strings.HasPrefix(path, "data/") {
		text, err = data.ReadFile(path)
	} else {
		text, err = os.ReadFile(path)
	}
	if err != nil {
		t.Fatal(err)
	}
	all, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// readCSV returns the rows of a CSV file, cells by the names of their columns.
func readCSV(t testing.TB, path string) []map[string]string {
	t.Helper()
	all := records(t, path)
	var rows []map[string]string
	for _, record := range all[1:] {
		row := map[string]string{}
		for i, h := range all[0] {
			row[h] = record[i]
		}
		rows = append(rows, row)
	}
	return rows
}

// Caps and eligibility: every age and figure is that of the extract, which
// names the published row that each was taken from.
func TestCapsAndEligibilityAreThePublishedOnes(t *testing.T) {
	for _, name := range []string{"caps.csv", "eligibility.csv"} {
		want, have := readCSV(t, "../testdata/foods/"+name), readCSV(t, "data/"+name)
		if len(want) != len(have) || len(want) < 30 {
			t.Errorf("%s: %d rows, the extract has %d", name, len(have), len(want))
			continue
		}
		for i, row := range want {
			for column, value := range row {
				if column != "row" && have[i][column] != value {
					t.Errorf("%s, row %d: %s %q, the extract has %q (%s)", name, i+2, column, have[i][column], value, row["row"])
				}
			}
		}
	}
}

// Amounts, servings, sugars, lactose, glycaemic index and mercury of every food
// are those of the extract, which names the published row of each; and the
// extract has a row for every figure.
func TestFiguresOfFoodsAreThePublishedOnes(t *testing.T) {
	type figure struct{ ndb, column string }
	want := map[figure]map[string]string{}
	for _, row := range readCSV(t, "../testdata/foods/foods.csv") {
		want[figure{row["ndb"], row["column"]}] = row
	}
	checked := 0
	is := func(food map[string]string, column, have string) {
		if have == "" {
			return
		}
		row := want[figure{food["ndb"], column}]
		delete(want, figure{food["ndb"], column})
		a, err := strconv.ParseFloat(have, 64)
		b, err2 := strconv.ParseFloat(row["value"], 64)
		if have != row["value"] && (err != nil || err2 != nil || a != b) {
			t.Errorf("%s %s: %s %q, the extract has %q (%s)", food["ndb"], food["name"], column, have, row["value"], row["row"])
		}
		checked++
	}
	for _, food := range readCSV(t, "data/foods.csv") {
		for _, column := range []string{"occasion_g", "day_g", "added_sugars_g", "lactose_g", "gi", "gi_class", "mercury"} {
			is(food, column, food[column])
		}
		for _, serving := range strings.Split(food["serves"], ";") {
			group, amount, _ := strings.Cut(serving, ":")
			is(food, "serves "+group, amount)
		}
	}
	for f := range want {
		t.Errorf("the table lacks %s of %s", f.column, f.ndb)
	}
	if checked < 1500 {
		t.Errorf("only %d figures were compared", checked)
	}
}

// The rows that preparation.csv has beside the published ones: whole wheat flour
// as white flour, degermed cornmeal as cornmeal mush, and baking powder, which
// takes neither water nor heat of its own.
func TestAddedPreparation(t *testing.T) {
	as := map[string]string{"flour_whole_wheat": "flour_white", "cornmeal_degermed": "cornmeal_mush", "baking_powder": "salt"}
	published := map[string]map[string]string{}
	for _, row := range readCSV(t, "../testdata/reference/preparation.csv") {
		published[row["form"]] = row
	}
	added := 0
	for _, row := range readCSV(t, "data/preparation.csv") {
		if published[row["form"]] != nil {
			continue
		}
		added++
		want := published[as[row["form"]]]
		for column, value := range row {
			if !slices.Contains([]string{"form", "utensils", "note", "source", "verified"}, column) && value != want[column] {
				t.Errorf("%s: %s %q, %s has %q", row["form"], column, value, as[row["form"]], want[column])
			}
		}
	}
	if added != len(as) {
		t.Errorf("%d rows are added, want %d", added, len(as))
	}
}
