package cli

import (
	"bytes"
	"encoding/json"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// TestDayFromWhichRotationCounts: a plan alone is counted from its own first day; a stock is
// what is there today, also with the plan that it is held to; a day that is said goes before
// both.
func TestDayFromWhichRotationCounts(t *testing.T) {
	dir := t.TempDir()
	write := writer(t, dir)
	stock := write("stock.csv", "pack,count,best_before\nwhite-rice-1000g-bag,4,2040-01-01\n")
	plan := filepath.Join(dir, "plan.json")
	if code, text := said(t, "plan", "--household", write("jonas.csv", "name,age_years,sex\nJonas,36,m\n"), "--standard", "basic", "--days", "3", "--least", "weight",
		"--within", "50%", "--time", "1m", "--start", "2026-01-05", "--format", "json", "--out", plan); code != 0 {
		t.Fatalf("plan: %d, %s", code, text)
	}
	for _, c := range []struct {
		args []string
		want string // "" is today
	}{
		{[]string{"--plan", plan}, "2026-01-05"},
		{[]string{"--stock", stock}, ""},
		{[]string{"--plan", plan, "--stock", stock}, ""},
		{[]string{"--plan", plan, "--start", "2026-03-01"}, "2026-03-01"},
		{[]string{"--stock", stock, "--start", "2026-03-01"}, "2026-03-01"},
		{[]string{"--plan", plan, "--stock", stock, "--start", "2026-03-01"}, "2026-03-01"},
	} {
		want := []string{c.want}
		if c.want == "" {
			want = []string{time.Now().Format(time.DateOnly)}
		}
		var out, errs bytes.Buffer
		if code := Run(append([]string{"rotate", "--format", "json"}, c.args...), strings.NewReader(""), &out, &errs); code != 0 {
			t.Fatalf("%v: %d, %s", c.args, code, errs.String())
		}
		if c.want == "" { // or what it is after midnight
			want = append(want, time.Now().Format(time.DateOnly))
		}
		var got struct {
			Start string `json:"start"`
		}
		if err := json.Unmarshal(out.Bytes(), &got); err != nil || !slices.Contains(want, got.Start) {
			t.Errorf("%v: counted from %q, %v, want %v", c.args, got.Start, err, want)
		}
	}
}
