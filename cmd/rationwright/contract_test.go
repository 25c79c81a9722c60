package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"rationwright/nutrients"
)

// household writes a household file and returns its name.
func household(t *testing.T, rows string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "household.csv")
	if err := os.WriteFile(name, []byte("name,age_years,sex,conditions\n"+rows), 0o644); err != nil {
		t.Fatal(err)
	}
	return name
}

// answer runs the program, which must end with code, and decodes its JSON.
func answer(t *testing.T, code int, args ...string) map[string]any {
	t.Helper()
	var out, messages bytes.Buffer
	if got := run(args, strings.NewReader(""), &out, &messages); got != code {
		t.Fatalf("%s: exit code %d, want %d: %s", strings.Join(args, " "), got, code, messages.String())
	}
	var v map[string]any
	if err := json.Unmarshal(out.Bytes(), &v); err != nil {
		t.Fatalf("%s: %v", strings.Join(args, " "), err)
	}
	return v
}

// small are the flags of a plan that is found at once.
func small(home string, more ...string) []string {
	return append([]string{"plan", "--household", home, "--days", "3", "--start", "2026-01-05", "--time", "1m", "--format", "json"}, more...)
}

// has fails for every key that v lacks.
func has(t *testing.T, where string, v any, keys ...string) {
	t.Helper()
	m, ok := v.(map[string]any)
	if !ok {
		t.Errorf("%s is %T, want an object", where, v)
		return
	}
	for _, k := range keys {
		if _, ok := m[k]; !ok {
			t.Errorf("%s has no key %q", where, k)
		}
	}
}

// noNulls fails where a value is null: an absent value is an absent key.
func noNulls(t *testing.T, where string, v any) {
	t.Helper()
	switch v := v.(type) {
	case nil:
		t.Errorf("%s is null", where)
	case map[string]any:
		for k, x := range v {
			noNulls(t, where+"."+k, x)
		}
	case []any:
		for i, x := range v {
			noNulls(t, fmt.Sprintf("%s[%d]", where, i), x)
		}
	}
}

func list(t *testing.T, v map[string]any, key string) []any {
	t.Helper()
	l, ok := v[key].([]any)
	if !ok || len(l) == 0 {
		t.Fatalf("%q is %v, want a list that is not empty", key, v[key])
	}
	return l
}

// TestPlanJSON holds a plan against what other programs rely on: its keys, the
// value against the totals, the gap against value and bound, the units of
// nutrients against the food table.
func TestPlanJSON(t *testing.T) {
	home := household(t, "Maja,38,f,\nKnut,70,m,kidney-disease\n")
	for least, total := range map[string]string{"cost": "cost", "weight": "weight_kg", "volume": "volume_l"} {
		p := answer(t, 0, small(home, "--least", least, "--within", "5%")...)
		noNulls(t, "plan", p)
		has(t, "plan", p, "status", "least", "days", "standard", "value", "bound", "gap", "totals", "packs", "people", "refused", "prices", "cautions", "not_checked", "request", "version")
		if s := p["status"]; s != "optimal" {
			t.Errorf("least %s: status %v, want optimal within 5 %%", least, s)
		}
		totals, _ := p["totals"].(map[string]any)
		has(t, "totals", totals, "cost", "currency", "weight_kg", "volume_l", "water_l", "heat_mj", "food")
		has(t, "totals.food", totals["food"], "cost", "weight_kg", "volume_l")
		value, bound := p["value"].(float64), p["bound"].(float64)
		if got := totals[total].(float64); math.Abs(got-value) > 1e-6 {
			t.Errorf("least %s: value %v, totals say %v", least, value, got)
		}
		if want := (value - bound) / value; math.Abs(p["gap"].(float64)-math.Max(0, want)) > 1e-9 {
			t.Errorf("least %s: gap %v, want %v", least, p["gap"], want)
		}
		var cost, weight float64
		for _, k := range list(t, p, "packs") {
			has(t, "pack", k, "pack", "food", "count", "net_g", "cost", "weight_kg", "volume_l")
			line := k.(map[string]any)
			if ndb, ok := line["ndb"].(string); ok && len(ndb) != 5 {
				t.Errorf("NDB number %q", ndb)
			}
			cost, weight = cost+line["cost"].(float64), weight+line["weight_kg"].(float64)
		}
		food := totals["food"].(map[string]any)
		if math.Abs(cost-food["cost"].(float64)) > 1e-6 || math.Abs(weight-food["weight_kg"].(float64)) > 1e-6 {
			t.Errorf("least %s: packs come to %v and %v kg, totals.food says %v", least, cost, weight, food)
		}
		for _, e := range list(t, p, "people") {
			has(t, "person", e, "name", "count", "foods", "needs")
			for _, n := range list(t, e.(map[string]any), "needs") {
				has(t, "need", n, "nutrient", "unit", "amount", "source")
				checkNeed(t, n.(map[string]any))
			}
		}
		for _, r := range list(t, p, "refused") {
			has(t, "refused", r, "name", "reason", "source")
		}
		for _, c := range list(t, p, "cautions") {
			has(t, "caution", c, "id", "severity", "text", "source")
		}
	}
}

// checkNeed holds one need against the food table's unit and its own limits.
func checkNeed(t *testing.T, n map[string]any) {
	t.Helper()
	name := n["nutrient"].(string)
	if col, ok := nutrients.ByName(name); ok && name != "water" && n["unit"] != col.Unit() {
		t.Errorf("%s in %v, want the unit of its column, %s", name, n["unit"], col.Unit())
	}
	amount := n["amount"].(float64)
	if floor, ok := n["floor"].(float64); ok && amount < floor*(1-1e-6) {
		t.Errorf("%s: %v under its floor %v", name, amount, floor)
	}
	if ceiling, ok := n["ceiling"].(float64); ok && amount > ceiling*(1+1e-6) {
		t.Errorf("%s: %v over its ceiling %v", name, amount, ceiling)
	}
}

// TestInfeasibleJSON: what stands in place of a plan when nothing fits.
func TestInfeasibleJSON(t *testing.T) {
	p := answer(t, 4, small(household(t, "Maja,38,f,\n"), "--standard", "basic", "--budget", "5")...)
	noNulls(t, "plan", p)
	has(t, "plan", p, "status", "conflict", "proven", "closest", "ways_out", "request")
	if p["status"] != "infeasible" {
		t.Errorf("status %v", p["status"])
	}
	for _, key := range []string{"value", "packs", "people", "totals"} {
		if _, ok := p[key]; ok {
			t.Errorf("an infeasible answer has %q", key)
		}
	}
	for _, c := range list(t, p, "conflict") {
		has(t, "conflict", c, "limit")
	}
	for _, w := range list(t, p, "ways_out") {
		has(t, "way out", w, "change", "tested")
	}
}

// TestSameRequestSameBytes: nothing depends on map order, the clock or chance.
func TestSameRequestSameBytes(t *testing.T) {
	home := household(t, "Maja,38,f,\nJorunn,7,f,\n")
	var first []byte
	for range 2 {
		var out bytes.Buffer
		if code := run(small(home, "--least", "weight", "--within", "5%"), strings.NewReader(""), &out, &bytes.Buffer{}); code != 0 {
			t.Fatalf("exit code %d", code)
		}
		if first == nil {
			first = out.Bytes()
		} else if !bytes.Equal(first, out.Bytes()) {
			t.Error("the same request gave other bytes")
		}
	}
}

// TestFoodsListCSV: the columns by which other programs know the table, and an
// NDB number of five characters on every USDA row.
func TestFoodsListCSV(t *testing.T) {
	var out bytes.Buffer
	if code := run([]string{"foods", "list", "--format", "csv"}, strings.NewReader(""), &out, &bytes.Buffer{}); code != 0 {
		t.Fatalf("exit code %d", code)
	}
	rows, err := csv.NewReader(&out).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	at := map[string]int{}
	for _, name := range []string{"food", "ndb", "group", "pack", "net_g", "price", "allergens"} {
		if at[name] = slices.Index(rows[0], name); at[name] < 0 {
			t.Fatalf("no column %q in %v", name, rows[0])
		}
	}
	foods, packs := map[string]bool{}, map[string]bool{}
	for _, row := range rows[1:] {
		foods[row[at["food"]]] = true
		if key := row[at["pack"]]; key == "" || packs[key] {
			t.Errorf("pack %q is empty or there twice", key)
		} else {
			packs[key] = true
		}
		if ndb := row[at["ndb"]]; ndb != "" && len(ndb) != 5 {
			t.Errorf("NDB number %q", ndb)
		}
		for word := range strings.SplitSeq(row[at["allergens"]], ";") {
			if word != "" && !slices.Contains([]string{"milk", "egg", "fish", "shellfish", "tree-nut", "wheat", "peanut", "soy", "sesame"}, word) {
				t.Errorf("allergen %q", word)
			}
		}
	}
	if len(foods) < 170 || len(packs) < 260 {
		t.Errorf("%d foods and %d packs, want at least 170 and 260", len(foods), len(packs))
	}
}
