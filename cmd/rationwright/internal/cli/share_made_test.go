package cli

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/exit"
	"rationwright/cmd/rationwright/internal/report"
	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/community"
	"rationwright/solver/linear"
	"rationwright/solver/menu"
	"rationwright/solver/ration"
	"rationwright/solver/search"
)

// TestRegisterIsShared: households are read in their order; one that cannot be read gets nothing
// and is told why, and keeps its place, so that the others are not taken for it.
func TestRegisterIsShared(t *testing.T) {
	dir := t.TempDir()
	write := writer(t, dir)
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	read := func(text string) (*report.Shared, *community.Request, []int, error) {
		f := &shareFlags{households: write("r.csv", text)}
		to, req := &report.Shared{}, &community.Request{}
		places, err := f.read(&session{ctx: t.Context(), stderr: &bytes.Buffer{}}, &ration.Request{Table: table, Days: 5}, to, req)
		return to, req, places, err
	}
	to, req, places, err := read("household,name,age_years,sex\nH1,Ola,x,m\nH2,Kari,33,f\nH2,Siv,34,f\nH3,Per,35,m\n")
	if err != nil || fmt.Sprint(places) != "[1 2]" || len(to.Households) != 3 || len(req.Households) != 2 {
		t.Fatalf("%v, %v, %+v", err, places, to)
	}
	for i, id := range []string{"H1", "H2", "H3"} {
		h := to.Households[i]
		if h.ID != id || (h.Exit == exit.BadInput) != (i == 0) || (len(h.Errors) == 1) != (i == 0) {
			t.Errorf("%+v, want %s", h, id)
		}
	}
	for i, names := range []string{"Kari Siv", "Per"} {
		var got []string
		for _, p := range req.Households[i].People {
			got = append(got, p.Name)
		}
		if strings.Join(got, " ") != names || req.Households[i].Days != 5 {
			t.Errorf("household %d is of %q for %d days, want %s", i, got, req.Households[i].Days, names)
		}
	}
	_, _, _, err = read("household,name,age_years,sex\nH1,Ola,34,m\nH2,Kari,33,f\nh1,Siv,34,f\n")
	if err == nil || !strings.Contains(err.Error(), `r.csv:4:1: household "h1": it begins in line 2 already`) {
		t.Errorf("an id in two places: %v", err)
	}
	many := func(n int) string {
		text := "household,name,age_years,sex\n"
		for i := range n {
			text += fmt.Sprintf("H%d,Ola,34,m\n", i+1)
		}
		return text
	}
	if to, _, _, err := read(many(300)); err != nil || len(to.Households) != 300 {
		t.Errorf("300 households: %v", err)
	}
	if _, _, _, err := read(many(301)); err == nil || !strings.Contains(err.Error(), "r.csv:302:1: more than 300 households") { // the header is line 1
		t.Errorf("301 households: %v", err)
	}
	refused(t, exit.Usage, map[string]string{"share": "say which register", "share --households - --stock -": "cannot both read standard input", "share --households x --least volume": "made to cost the least", "share --households x --start soon": `--start "soon"`})
}

// TestSharedByProperty: what is handed out and what is left of each pack is what there was; what
// each gets is paid for by all, water and fuel of the stock being nobody's; a household that
// a clinician must plan for stands apart.
func TestSharedByProperty(t *testing.T) {
	write := writer(t, t.TempDir())
	register := write("r.csv", "household,name,age_years,sex,conditions\nH1,Ola,x,m,\nH2,Kari,33,f,\nH3,Aud,60,f,kidney-disease\n")
	stock := write("s.csv", "pack,count,best_before\nwhite-rice-1000g-bag,3,2028-01-01\nsalt-500g-box,0,\nwater,50,\n")
	args := []string{"share", "--households", register, "--stock", stock, "--standard", "basic", "--days", "1", "--each", "5ms", "--start", "2026-01-05", "--format", "json"}
	code, answer, said := ran(args...)
	var s report.Shared
	if err := json.Unmarshal([]byte(answer), &s); err != nil || code != exit.BadInput {
		t.Fatalf("%d, %v, %s", code, err, said)
	}
	if !strings.Contains(said, "water and fuel of a common stock are not shared out") {
		t.Errorf("%q", said)
	}
	out, cost := 0, 0.0
	for i, want := range []struct {
		id   string
		exit int
		fed  bool
	}{{"H1", exit.BadInput, false}, {"H2", exit.Done, true}, {"H3", exit.NoRation, false}} {
		h := s.Households[i]
		if h.ID != want.id || h.Exit != want.exit || (h.Totals != nil) != want.fed || (len(h.Packs) > 0) != want.fed {
			t.Fatalf("%+v, want %+v", h, want)
		}
		for _, k := range h.Packs {
			if k.Pack == "white-rice-1000g-bag" {
				out += k.FromStock
			} else if k.FromStock != 0 {
				t.Errorf("%s gets %d of %s, of which there is none", h.ID, k.FromStock, k.Pack)
			}
		}
		if h.Totals != nil {
			cost += h.Totals.Cost
		}
	}
	if len(s.Left) != 2 || s.Left[1] != (report.SharedRemain{Pack: "salt-500g-box", Food: "salt"}) || s.Left[0].Pack != "white-rice-1000g-bag" || out+s.Left[0].Count != 3 || s.Left[0].Food == "" {
		t.Errorf("%d of 3 are handed out, left is %+v", out, s.Left)
	}
	if math.Abs(cost-s.Cost) > 0.01*cost || s.Bound > s.Cost+1e-9 || s.Level < 1-1e-6 || s.LevelBound < s.Level-1e-9 || s.Currency == "" || s.Stopped != "" {
		t.Errorf("%g together, %+v", cost, s)
	}
}

// TestEndsWithoutAPlan: time that ran out, what the program could not compute and what was wrong
// with what it was given end with codes of their own.
func TestEndsWithoutAPlan(t *testing.T) {
	for _, c := range []struct {
		err  error
		code int
		said string
	}{
		{ration.ErrNoPlan, exit.Limit, "rationwright: " + ration.ErrNoPlan.Error() + "\n"}, {fmt.Errorf("here: %w", menu.ErrTime), exit.Limit, "rationwright: here: " + menu.ErrTime.Error() + "\n"},
		{ration.ErrNumerical, exit.Fault, ""}, {fmt.Errorf("here: %w", ration.ErrUnverified), exit.Fault, ""}, {nutrients.ErrOption, exit.BadInput, ""},
	} {
		var said bytes.Buffer
		if code := exitCode((&session{stderr: &said}).failed(t.Context(), c.err)); code != c.code || said.String() != c.said {
			t.Errorf("%v: %d, %q, want %d, %q", c.err, code, said.String(), c.code, c.said)
		}
	}
	if verdict(nil) != nil || verdict([]foods.Finding{{Severity: foods.Warning}}) != nil {
		t.Error("checks that pass end verify")
	}
	if err := verdict([]foods.Finding{{Severity: foods.Error}, {Severity: foods.Warning}, {Severity: foods.Error}}); exitCode(err) != exit.BadInput || err.Error() != "2 checks of the food table failed" {
		t.Error(err)
	}
}

// TestAnswerOfAProgram: only what is proven or found is told; a gap that is rounding is none.
func TestAnswerOfAProgram(t *testing.T) {
	inf := math.Inf(-1)
	x := []float64{1}
	for _, c := range []struct {
		r               search.Result
		value, bound, g bool
		why             string
	}{
		{search.Result{Status: search.Optimal, X: x, Value: 7, Bound: 6, Gap: 0.125, Why: "w"}, true, true, true, ""}, {search.Result{Status: search.Limit, X: x, Value: 7, Bound: 6, Gap: 0.125, Why: "w"}, true, true, true, "w"},
		{search.Result{Status: search.Limit, Value: 7, Bound: 6, Gap: 0.125}, false, true, false, ""}, {search.Result{Status: search.Limit, X: x, Value: 7, Bound: inf, Gap: 0.125}, true, false, false, ""}, {search.Result{Status: search.Limit, X: x, Value: 7, Bound: math.NaN(), Gap: 0.125}, true, false, false, ""},
		{search.Result{Status: search.Infeasible, X: x, Value: 7, Bound: 6, Why: "w"}, false, false, false, ""}, {search.Result{Status: search.Numerical, X: x, Value: 7, Bound: 6, Why: "w"}, false, false, false, "w"},
	} {
		a := answerOf(&c.r, 1.5)
		if a.Status != c.r.Status.String() || a.Seconds != 1.5 || a.Why != c.why || (a.Value != nil) != c.value || (a.Bound != nil) != c.bound || (a.Gap != nil) != c.g || c.value && *a.Value != 7 || c.bound && *a.Bound != 6 || c.g && *a.Gap != 0.125 {
			t.Errorf("%+v: %+v", c.r, a)
		}
	}
	p := &linear.Problem{Rows: make([]linear.Row, 2), Cols: []linear.Col{{Integer: true, Entries: make([]linear.Entry, 2)}, {Entries: make([]linear.Entry, 1)}, {Integer: true}}}
	for gap, want := range map[float64]string{0.125: "12.5 %", 1e-9: "1e-07 %", 0.9e-9: "0 %", 0: "0 %"} {
		var text strings.Builder
		if err := (&solveAnswer{Status: "limit", Value: ptr(7), Bound: ptr(6.125), Gap: &gap, Seconds: 1.23456, Why: "the time ended"}).sheet(p).Text(&text); err != nil {
			t.Fatal(err)
		}
		flat := strings.Join(strings.Fields(text.String()), " ")
		if !strings.HasSuffix(flat, "status limit value 7 bound 6.125 gap "+want+" seconds 1.235 why the time ended model 2 rows, 3 columns (2 whole), 3 entries") {
			t.Errorf("%q, want a gap of %s", flat, want)
		}
	}
}

// TestRegisterInBothForms: the invented households are the same as a table and as lines of JSON,
// numbered from one.
func TestRegisterInBothForms(t *testing.T) {
	dir := t.TempDir()
	lines := dir + "/r.ndjson"
	code, answer, said := ran("register", "12", "--seed", "7")
	if code2, answer2, _ := ran("register", "12", "--seed", "7", "--out", lines); code != exit.Done || code2 != exit.Done || answer2 != "" {
		t.Fatalf("%d, %d, %s", code, code2, said)
	}
	rows, err := csv.NewReader(strings.NewReader(answer)).ReadAll()
	if err != nil || rows[0][0] != "household" || rows[0][1] != "name" {
		t.Fatal(err, rows)
	}
	content, _, err := (&session{ctx: t.Context()}).readAll(lines)
	if err != nil {
		t.Fatal(err)
	}
	at, n := 1, 0
	for line := range strings.Lines(string(content)) {
		n++
		var h struct {
			ID   string     `json:"id"`
			Rows [][]string `json:"household"`
		}
		if err := json.Unmarshal([]byte(line), &h); err != nil || h.ID != fmt.Sprint("H", n) || len(h.Rows) < 2 || strings.Join(h.Rows[0], "|") != strings.Join(rows[0][1:], "|") {
			t.Fatalf("%v: %s", err, line)
		}
		for _, row := range h.Rows[1:] {
			if want := append([]string{h.ID}, row...); strings.Join(rows[at], "|") != strings.Join(want, "|") {
				t.Errorf("row %d is %q, want %q", at, rows[at], want)
			}
			at++
		}
	}
	if n != 12 || at != len(rows) {
		t.Errorf("%d households, %d of %d rows", n, at, len(rows))
	}
	refused(t, exit.Usage, map[string]string{"register": "say how many households", "register 1 2": "say how many households", "register 0": "must be 1 to 10000000", "register 10000001": "must be 1 to 10000000", "register many": `"many": `})
	if code, first, _ := ran("register", "1"); code != exit.Done || strings.Count(first, "\nH1,") == 0 || strings.Contains(first, "\nH2,") {
		t.Errorf("%d: %s", code, first)
	}
}
