package cli

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/exit"
	"rationwright/foods/stores"
)

// rowsOf reads what a command writes as csv, row by row under the names of the columns.
func rowsOf(t *testing.T, args ...string) []map[string]string {
	t.Helper()
	var out, errs bytes.Buffer
	code := Run(append(args, "--format", "csv"), strings.NewReader(""), &out, &errs)
	rows, err := csv.NewReader(&out).ReadAll()
	if code != 0 || err != nil {
		t.Fatalf("%q: %d, %v: %s", args, code, err, errs.String())
	}
	var list []map[string]string
	for _, row := range rows[1:] {
		m := map[string]string{}
		for k, v := range row {
			m[rows[0][k]] = v
		}
		list = append(list, m)
	}
	return list
}

// TestTreat: the doses are those of the table (disinfection.csv: CDC, Make Water Safe, of
// bleach of 5 to 6 per cent: 40 drops or 2.5 mL to 5 US gallons that are clear, 16 drops to
// one that is cloudy; 30 minutes), a US gallon being 3.785411784 L.
func TestTreat(t *testing.T) {
	for _, c := range []struct {
		args         []string
		litres       string
		water, drops string
	}{
		{[]string{"5gal"}, "18.92705892", "clear", "40"}, {[]string{"1gal", "--condition", "cloudy"}, "3.785411784", "cloudy", "16"},
	} {
		rows := rowsOf(t, append(append([]string{"stores", "treat"}, c.args...), "--agent", "bleach", "--strength", "6%")...)
		if len(rows) != 2 || rows[0]["agent"] != "boil" || rows[0]["volume_l"] != c.litres || rows[1]["agent"] != "bleach" || rows[1]["volume_l"] != c.litres || rows[1]["water"] != c.water || rows[1]["drops"] != c.drops || rows[1]["wait_min"] != "30" {
			t.Errorf("%q: %v", c.args, rows)
		}
	}
	// Without an agent there is every one that has a dose, and every strength of it.
	seen := map[string]int{}
	for _, row := range rowsOf(t, "stores", "treat", "20") {
		seen[row["agent"]]++
	}
	for _, a := range stores.Agents() {
		if n := seen[a.Key]; n > len(a.Strengths) || a.Key == "bleach" && n != len(a.Strengths) {
			t.Errorf("%d doses of %s, which has the strengths %q", n, a.Key, a.Strengths)
		}
	}
	if seen["boil"] != 1 || len(seen) < 4 {
		t.Errorf("%v", seen)
	}
	one := map[string]int{}
	for _, row := range rowsOf(t, "stores", "treat", "20", "--agent", "iodine") {
		one[row["agent"]]++
	}
	if one["iodine"] == 0 || len(one) != 2 {
		t.Errorf("of iodine alone: %v", one)
	}
	for _, c := range []struct {
		args []string
		code int
		said string
	}{
		{[]string{"0.1"}, 0, "0.1 L of clear water"}, {[]string{"1000000"}, 0, "1,000,000.0 L"},
		{[]string{"0.09"}, exit.Usage, "must be 0.1 to 1000000 L"}, {[]string{"1000001"}, exit.Usage, "must be 0.1 to 1000000 L"}, {[]string{"2,5"}, exit.Usage, `VOLUME "2,5": write the decimals with a point`},
		{[]string{}, exit.Usage, "takes one VOLUME, such as 20L; 0 given"}, {[]string{"5", "--strength", "6%"}, exit.Usage, "say of which --agent"}, {[]string{"5", "--agent", "bleach", "--strength", "40%"}, exit.Usage, "40%"},
		{[]string{"5", "--agent", "gin"}, exit.Usage, "gin"}, {[]string{"5", "--altitude", "9001"}, exit.Usage, "no place is that high"},
		{[]string{"5", "--altitude", "100"}, 0, "at 100 m"}, {[]string{"5"}, 0, "the altitude is not known"},
	} {
		if code, text := said(t, append([]string{"stores", "treat"}, c.args...)...); code != c.code || !strings.Contains(strings.Join(strings.Fields(text), " "), c.said) {
			t.Errorf("%q: %d, want %d and %q:\n%s", c.args, code, c.code, c.said, text)
		}
	}
	// Whoever must not have iodine, and that bleach is not any bleach, is said of the agent.
	topics := func(args ...string) map[string]bool {
		found := map[string]bool{}
		_, text := said(t, append([]string{"stores", "treat", "5", "--format", "json", "--agent"}, args...)...)
		for _, topic := range []string{"bleach_type", "iodine", "nitrate", "infant_water", "water_treatment_limits"} {
			found[topic] = strings.Contains(text, `"topic": "`+topic+`"`)
		}
		return found
	}
	if b, i := topics("bleach"), topics("iodine"); !b["bleach_type"] || b["iodine"] || !i["iodine"] || i["bleach_type"] || !b["water_treatment_limits"] || !i["infant_water"] {
		t.Errorf("bleach %v, iodine %v", b, i)
	}
	lines := agentLines()
	for _, a := range stores.Agents() {
		if strings.Count(lines, "  "+a.Key+" ") != 1 {
			t.Errorf("%s is not named once in\n%s", a.Key, lines)
		}
		for _, strength := range a.Strengths {
			if !strings.Contains(lines, strength+"\n") {
				t.Errorf("%s of %s is not named", a.Key, strength)
			}
		}
	}
}
