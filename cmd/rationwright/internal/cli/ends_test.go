package cli

import (
	"cmp"
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/exit"
	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/nutrients/table"
)

// TestCheckEnds: a stock that is short ends with a code of its own; where a clinician must plan
// for everyone there is no ration, whatever the stock.
func TestCheckEnds(t *testing.T) {
	write := writer(t, t.TempDir())
	stock := write("s.csv", "pack,count,best_before\nwhite-rice-1000g-bag,1,2028-01-01\n")
	for rows, want := range map[string]int{"Aud,60,f,kidney-disease\n": exit.NoRation, "Aud,60,f,kidney-disease\nOla,34,m,\n": exit.Short, "Ola,34,m,\n": exit.Short} {
		home := write("h.csv", "name,age_years,sex,conditions\n"+rows)
		code, answer, said := ran("check", "--stock", stock, "--household", home, "--standard", "basic", "--days", "1", "--time", "2s", "--start", "2026-01-05", "--format", "json")
		var c struct {
			Refused []struct{ Name string }
			People  []struct{ Name string }
		}
		if err := json.Unmarshal([]byte(answer), &c); err != nil || code != want || len(c.Refused) != strings.Count(rows, "kidney") || len(c.People) != strings.Count(rows, "Ola") {
			t.Errorf("%q: %d, want %d; %v, %s, %+v", rows, code, want, err, said, c)
		}
	}
}

// TestFaultsByFlag: what is wrong in the row that a command line makes is said of its flag, with
// what to do; name, pack and number have no flag.
func TestFaultsByFlag(t *testing.T) {
	fault := func(field, value string) *table.Error {
		return &table.Error{File: "f", Line: 2, Column: 3, Field: field, Value: value, Err: errors.New("bad " + field), Fix: "mend " + field}
	}
	err := byFlag(&table.Errors{List: []*table.Error{fault("grams", "x"), fault("name", "y"), fault("pack", "p"), fault("ndb", "n"), fault("label", "z")}})
	want := []string{`--grams "x": bad grams; mend grams`, `name "y": bad name; mend name`, `pack "p": bad pack; mend pack`, `ndb "n": bad ndb; mend ndb`, `--label "z": bad label; mend label`}
	if err == nil || err.Error() != strings.Join(want, "\n") {
		t.Errorf("%v, want %q", err, want)
	}
	if other := errors.New("other"); byFlag(other) != other {
		t.Error("another error is worded anew")
	}
}

// needsOf are the needs of a household by person and nutrient: the least, else what is shown.
func needsOf(t *testing.T, home string, args ...string) map[string]string {
	t.Helper()
	list := map[string]string{}
	for _, row := range rowsOf(t, append([]string{"needs", "--household", home}, args...)...) {
		list[row["person"]+" "+row["nutrient"]] = cmp.Or(row["floor"], row["target"])
	}
	return list
}

// TestFlagsOfNeeds: each flag reaches the needs. Energy with --lean-energy is 97 % of that
// without for who is 19 to 64, and the same for others; --standard basic looks at energy, protein
// and water only; iron of a woman of 30 is 18 mg by RDA and 8.1 mg by EAR (the extract
// testdata/nutrients/extract/dri.csv).
func TestFlagsOfNeeds(t *testing.T) {
	home := writer(t, t.TempDir())("h.csv", "name,age_years,sex,height_cm,weight_kg\nSigne,30,f,165,60\nTuva,70,f,160,60\n")
	usual, lean := needsOf(t, home), needsOf(t, home, "--lean-energy")
	figure := func(text string) (v float64) {
		if err := json.Unmarshal([]byte(text), &v); err != nil {
			t.Errorf("%q: %v", text, err)
		}
		return v
	}
	for name, share := range map[string]float64{"Signe": 0.97, "Tuva": 1} {
		a, b := figure(usual[name+" energy"]), figure(lean[name+" energy"])
		if got := b / a; got < share-1e-3 || got > share+1e-3 {
			t.Errorf("%s: %g of %g kcal with --lean-energy, want %g of it", name, b, a, share)
		}
	}
	for standard, iron := range map[string]float64{"rda": 18, "ear": 8.1} {
		if got := figure(needsOf(t, home, "--standard", standard)["Signe iron"]); got != iron {
			t.Errorf("iron by %s is %g mg, want %g", standard, got, iron)
		}
	}
	if basic := needsOf(t, home, "--standard", "basic"); basic["Signe iron"] != "" || basic["Signe energy"] == "" || basic["Signe protein"] == "" || len(basic) >= len(usual) {
		t.Errorf("%v", basic)
	}
	seen := map[string]bool{}
	for _, set := range []string{"2023", "2005", "guidelines"} {
		seen[needsOf(t, home, "--energy", set)["Signe energy"]] = true
	}
	if len(seen) != 3 {
		t.Errorf("three sets of equations give %v", seen)
	}
}

// TestAskedAboutMilk: a child of 12 to 23 months who may have no milk is to be asked about, in the words of the
// caution and with its source; nothing is added for one who may, nor for one who is refused.
func TestAskedAboutMilk(t *testing.T) {
	var n nutrients.Needs
	n.Notes = []nutrients.Note{{Text: "first"}}
	askAboutMilk(&n)
	cautions := stores.CautionsAbout(stores.NoMilk)
	if len(cautions) == 0 || len(n.Notes) != 1+len(cautions) || n.Notes[0].Text != "first" {
		t.Fatalf("%+v", n.Notes)
	}
	for i, c := range cautions {
		if got := n.Notes[i+1]; got.Text+"." != c.Text+" "+strings.TrimSuffix(c.Action, ".")+"." || got.Source != c.Source || got.Verified != c.Verified || got.Source == "" {
			t.Errorf("%+v, want %+v", got, c)
		}
	}
	write := writer(t, t.TempDir())
	for row, asked := range map[string]bool{"Liv,20,f,milk,": true, "Liv,24,f,milk,": false, "Liv,20,f,egg,": false, "Liv,20,f,milk,kidney-disease": false} {
		code, answer, said := ran("needs", "--household", write("h.csv", "name,age_months,sex,allergies,conditions\n"+row+"\n"), "--format", "json")
		if got := strings.Contains(answer, strings.Trim(string(mustJSON(t, cautions[0].Source)), `"`)) && strings.Contains(answer, firstWords(cautions[0].Text)); code != exit.Done || got != asked {
			t.Errorf("%s: %d, %s, asked %v", row, code, said, got)
		}
	}
}

// mustJSON is text as it stands in JSON.
func mustJSON(t *testing.T, text string) []byte {
	t.Helper()
	out, err := json.Marshal(text)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// firstWords are the first four words of a sentence.
func firstWords(text string) string {
	words := strings.Fields(text)
	return strings.Join(words[:min(4, len(words))], " ")
}
