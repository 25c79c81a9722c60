package cli

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/exit"
)

// small is, in MPS: make 3 x + 2 y least, where x + y is at least 3.5 and x, whole, at most
// 10. By hand: y alone, 3.5 of it, for 7.
const small = `NAME small
ROWS
 N cost
 G need
COLUMNS
 M1 'MARKER' 'INTORG'
 x cost 3 need 1
 M2 'MARKER' 'INTEND'
 y cost 2 need 1
RHS
 r need 3.5
BOUNDS
 UP b x 10
ENDATA
`

// TestSolve: what is proven is told with its value and bound; where nothing is possible, or
// nothing holds it, there are none, and that is an answer too.
func TestSolve(t *testing.T) {
	solve := func(model string, args ...string) (int, string, string) {
		var out, errs bytes.Buffer
		code := Run(append([]string{"solve", "-"}, args...), strings.NewReader(model), &out, &errs)
		return code, out.String(), errs.String()
	}
	for _, c := range []struct {
		name, model, status string
		value               *float64
	}{
		{"small", small, "optimal", ptr(7)},
		{"whole", strings.Replace(strings.Replace(small, "y cost 2", "y cost 4", 1), "UP b x 10", "UP b x 3", 1), "optimal", ptr(11)}, // 3 x, 0.5 y: 9 + 2
		{"nothing fits", strings.Replace(small, "UP b x 10", "UP b x 1\n UP b y 2", 1), "infeasible", nil},
		{"nothing holds it", strings.Replace(small, "y cost 2", "y cost -2", 1), "unbounded", nil},
	} {
		code, text, errs := solve(c.model, "--format", "json")
		var a solveAnswer
		if err := json.Unmarshal([]byte(text), &a); err != nil || code != exit.Done {
			t.Errorf("%s: %d, %v: %s %s", c.name, code, err, text, errs)
			continue
		}
		near := func(v *float64) bool {
			return (v == nil) == (c.value == nil) && (v == nil || *v-*c.value < 1e-6 && *c.value-*v < 1e-6)
		}
		if a.Status != c.status || !near(a.Value) || !near(a.Bound) || (a.Gap != nil) != (c.value != nil) || a.Why != "" || a.Seconds < 0 {
			t.Errorf("%s: %s, want %s of %v", c.name, text, c.status, c.value)
		}
		_, table, _ := solve(c.model)
		flat := strings.Join(strings.Fields(table), " ")
		if !strings.Contains(flat, "status "+c.status+" ") || !strings.Contains(flat, "model 1 rows, 2 columns (1 whole), 2 entries") || strings.Contains(flat, "value ") != (c.value != nil) || strings.Contains(flat, "gap 0 %") != (c.value != nil) {
			t.Errorf("%s:\n%s", c.name, table)
		}
	}
	if code, _, errs := solve("ROWS\n X cost\n"); code != exit.BadInput || errs == "" {
		t.Errorf("no model: %d %s", code, errs)
	}
	if code, text := said(t, "solve"); code != exit.Usage || !strings.Contains(text, "solve takes one FILE.mps, or - for standard input; 0 given") {
		t.Errorf("%d %s", code, text)
	}
}

func ptr(v float64) *float64 { return &v }

// TestNeedsOfTheDemo: without a household it is the demo's, and says so; sources are numbered
// where they are asked for.
func TestNeedsOfTheDemo(t *testing.T) {
	for _, sources := range []bool{false, true} {
		args := []string{"needs"}
		if sources {
			args = append(args, "--sources")
		}
		code, text := said(t, args...)
		if code != 0 || !strings.Contains(text, "The demo household of Ternsund: these people are invented.") || !strings.Contains(text, "rationwright: this is the demo household of Ternsund") || strings.Contains(text, "\nSOURCES\n[1] ") != sources {
			t.Errorf("sources %v: %d\n%s", sources, code, text)
		}
	}
	own := writer(t, t.TempDir())("own.csv", "name,age_years,sex\nSigne,30,f\n")
	if code, text := said(t, "needs", "--household", own); code != 0 || strings.Contains(text, "demo") || !strings.Contains(text, "WHAT SIGNE NEEDS A DAY") {
		t.Errorf("%d\n%s", code, text)
	}
	if code, text := said(t, "serve", "--port", "65536"); code != exit.Usage || text == "" {
		t.Errorf("%d %s", code, text)
	}
}
