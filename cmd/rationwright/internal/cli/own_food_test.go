package cli

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/exit"
)

// TestFoodsAdd: a food of one's own and a pack of it are written into a file and read back;
// what it says is shown with its figures, and what was not understood is said by its flag.
func TestFoodsAdd(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "own.csv")
	write := writer(t, dir)
	content := func() string {
		t.Helper()
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	label := write("label.txt", "per 100 g\n\nEnergy 1500 kJ\nFat 5 g\nCarbohydrate 67 g\nProtein 9.5 g\nSalt 1.25 g\n")
	add := func(args ...string) (int, string) {
		return said(t, append([]string{"foods", "add", "--foods", file}, args...)...)
	}
	for _, c := range []struct {
		name string
		args []string
		code int
		said string
	}{
		{"no grams", []string{"--like", "white rice"}, exit.Usage, "say at least --grams and --like"}, {"no like", []string{"--grams", "500"}, exit.Usage, "say at least --grams and --like"},
		{"no allergens", []string{"flatbread", "--grams", "500", "--like", "rye crispbread"}, exit.Usage, "say the allergens on the label"},
		{"allergens of no food", []string{"--grams", "500", "--like", "white rice", "--allergens", "wheat"}, exit.Usage, "give it a NAME"}, {"kinds of no food", []string{"--grams", "500", "--like", "white rice", "--kinds", "snacks"}, exit.Usage, "give it a NAME"},
		{"label of no food", []string{"--grams", "500", "--like", "white rice", "--label", label}, exit.Usage, "give it a NAME"},
		{"two names", []string{"a", "b", "--grams", "500", "--like", "white rice"}, exit.Usage, "takes one NAME; 2 given"},
		{"no such food", []string{"flatbread", "--grams", "500", "--like", "zwrnk", "--allergens", "none"}, exit.BadInput, `--like "zwrnk"`},
		{"grams in words", []string{"flatbread", "--grams", "many", "--like", "rye crispbread", "--allergens", "none"}, exit.BadInput, `--grams "many"`},
		{"a name that is there", []string{"White rice", "--grams", "500", "--like", "white rice", "--allergens", "none"}, exit.BadInput, "there already"},
		{"no such label", []string{"flatbread", "--grams", "500", "--like", "rye crispbread", "--allergens", "none", "--label", filepath.Join(dir, "none.txt")}, exit.BadInput, "none.txt"},
		{"a label that says nothing", []string{"flatbread", "--grams", "500", "--like", "rye crispbread", "--allergens", "none", "--label", write("bad.txt", "per 100 g\nEnergy many kJ\n")}, exit.BadInput, "bad.txt:2:"},
	} {
		if c.name == "a name that is there" {
			_, text := said(t, "foods", "show", "20044") // the name of NDB 20044 in the table
			c.args[0] = strings.ToUpper(strings.TrimSuffix(strings.ToLower(strings.SplitN(text, ", NDB", 2)[0]), ", ndb"))
		}
		if code, text := add(c.args...); code != c.code || !strings.Contains(text, c.said) {
			t.Errorf("%s: %d, want %d and %q:\n%s", c.name, code, c.code, c.said, text)
		}
		if _, err := os.Stat(file); err == nil {
			t.Fatalf("%s: a file was written", c.name)
		}
	}
	if code, text := said(t, "foods", "add", "--grams", "500", "--like", "white rice"); code != exit.Usage || !strings.Contains(text, "say which file of foods is yours") {
		t.Errorf("no file: %d %s", code, text)
	}
	if code, text := said(t, "foods", "add", "--foods", "-", "--grams", "500", "--like", "white rice"); code != exit.Usage {
		t.Errorf("standard input as the file: %d %s", code, text)
	}

	code, text := add("Ternsund flatbread", "--grams", "500", "--price", "3.50", "--allergens", "wheat", "--like", "rye crispbread", "--label", label)
	flat := strings.Join(strings.Fields(text), " ")
	// 1500 kJ are 358.5 kcal, of 4.184 kJ each (the thermochemical calorie, exact); salt is
	// sodium times 2.5 (Regulation (EU) 1169/2011, annex I), so that 1.25 g hold 500 mg.
	for _, want := range []string{"500 g on the label", "price 3.50", "TERNSUND FLATBREAD", "Allergens: wheat.", "energy 359 kcal", "protein 9.50 g", "sodium 500 mg", "Unknown, which is not zero:", "written to " + file} {
		if code != 0 || !strings.Contains(flat, want) {
			t.Errorf("%d, no %q in\n%s", code, want, text)
		}
	}
	first := content()
	if strings.Count(first, "\n") != 2 || !strings.Contains(first, ",Ternsund flatbread,") {
		t.Errorf("%q", first)
	}
	if units := rowsOf(t, "foods", "list", "20044", "--units", "us"); len(units) == 0 || units[0]["net_g"] != "500" { // csv is always metric
		t.Errorf("%v", units)
	}
	code, text = add("--grams", "1000", "--like", "Ternsund flatbread", "--container", "bag", "--yes")
	if code != 0 || !strings.Contains(strings.Join(strings.Fields(text), " "), "1,000 g on the label") || !strings.Contains(text, "no price") {
		t.Errorf("%d %s", code, text)
	}
	if second := content(); !strings.Contains(second, ",Ternsund flatbread,ternsund-flatbread-500g-box-own,500,3.50,wheat,") || strings.Count(second, "\n") != 3 {
		t.Errorf("%q", second)
	}
	rows := rowsOf(t, "foods", "list", "Ternsund flatbread", "--foods", file)
	if len(rows) != 2 || rows[0]["label_g"] != "500" || rows[0]["price"] != "3.5" || rows[0]["price_invented"] != "false" || rows[0]["allergens"] != "wheat" || rows[1]["label_g"] != "1000" || rows[1]["pack"] != "ternsund-flatbread-1000g-bag-own" || rows[1]["price"] != "" {
		t.Errorf("%v", rows)
	}
	if code, text := add("Ternsund flatbread", "--grams", "500", "--like", "rye crispbread", "--allergens", "none"); code != exit.BadInput || !strings.Contains(text, "there already") || strings.Count(content(), "\n") != 3 {
		t.Errorf("it is there: %d %s", code, text)
	}
	write("own.csv", "what is this\n")
	if code, _ := add("other bread", "--grams", "500", "--like", "rye crispbread", "--allergens", "none"); code != exit.BadInput || content() != "what is this\n" {
		t.Errorf("%d: %q", code, content())
	}
}

// TestFoodsShown: one food by any of its names, a kind with its foods; a list of those that
// are named, in the order of the table, each once.
func TestFoodsShown(t *testing.T) {
	all := rowsOf(t, "foods", "list")
	some := rowsOf(t, "foods", "list", "20044", "rice")
	if len(some) == 0 || len(some) >= len(all) {
		t.Fatalf("%d of %d rows", len(some), len(all))
	}
	at, seen := 0, map[string]bool{}
	for _, row := range some {
		for at < len(all) && all[at]["pack"] != row["pack"] {
			at++
		}
		if at == len(all) || seen[row["pack"]] {
			t.Fatalf("%s stands in another order, or twice", row["pack"])
		}
		seen[row["pack"]] = true
	}
	name := ""
	for _, row := range all {
		if row["ndb"] == "20044" {
			name = row["food"]
		}
	}
	for _, by := range []string{"20044", name} {
		if code, text := said(t, "foods", "show", by); code != 0 || !strings.HasPrefix(text, strings.ToUpper(name)+", NDB 20044\n") {
			t.Errorf("%s: %d %.80q", by, code, text)
		}
	}
	if code, text := said(t, "foods", "show", "oats"); code != 0 || !strings.HasPrefix(text, "OATS: ") {
		t.Errorf("%d %.80q", code, text)
	}
	if code, text := said(t, "foods", "list", "zwrnk"); code != exit.BadInput || !strings.Contains(text, "zwrnk") {
		t.Errorf("%d %.80q", code, text)
	}
	if code, text := said(t, "foods", "list", "--foods", "-", "--prices", "-"); code != exit.Usage || !strings.Contains(text, "--foods and --prices cannot all read standard input") {
		t.Errorf("%d %.200q", code, text)
	}
}
