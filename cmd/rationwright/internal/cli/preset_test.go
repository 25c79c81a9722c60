package cli

import (
	"bytes"
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"rationwright/cmd/rationwright/internal/exit"
	"rationwright/solver/linear"
	"rationwright/solver/search"
)

// TestPresets: no flag is on unless it is given; what is known only so that it is refused in words
// is in no help.
func TestPresets(t *testing.T) {
	root := newRoot(&session{ctx: t.Context()})
	switches, hidden := 0, []string{}
	var look func(cmd *cobra.Command)
	look = func(cmd *cobra.Command) {
		cmd.Flags().VisitAll(func(f *pflag.Flag) {
			if f.Value.Type() == "bool" {
				switches++
				if f.DefValue != "false" || f.Value.String() != "false" {
					t.Errorf("%s --%s is on", cmd.CommandPath(), f.Name)
				}
			}
			if f.Hidden {
				hidden = append(hidden, cmd.Name()+" --"+f.Name)
			}
		})
		for _, sub := range cmd.Commands() {
			look(sub)
		}
	}
	look(root)
	if switches < 20 || strings.Join(hidden, ", ") != "check --least, share --least" {
		t.Errorf("%d switches; hidden are %q", switches, hidden)
	}
}

// TestModelShown: how long the model is, or all of it; it is that which export writes: a row of
// the MPS form for each of its rows and one for what is made least, a column for each column.
func TestModelShown(t *testing.T) {
	home := writer(t, t.TempDir())("one.csv", "name,age_years,sex\nSigne,30,f\n")
	asked := []string{"--household", home, "--standard", "basic", "--days", "3", "--start", "2026-01-05"}
	code, short, said := ran(append([]string{"plan", "--show-model"}, asked...)...)
	var rows, columns, lines int
	if _, err := fmt.Sscanf(short, "The model has %d rows and %d columns: %d lines of algebra. --out FILE keeps them, --out - shows them.\n", &rows, &columns, &lines); err != nil || code != exit.Done || said != "rationwright: Prices are invented for the demo.\n" && said != "" {
		t.Fatalf("%d, %v, %q, %q", code, err, short, said)
	}
	code, whole, said := ran(append([]string{"plan", "--show-model", "--out", "-"}, asked...)...)
	if code != exit.Done || strings.Count(whole, "\n") != lines || !strings.Contains(said, fmt.Sprintf("The model has %d rows and %d columns: %d lines of algebra.", rows, columns, lines)) {
		t.Errorf("%d, %d lines of %d, %q", code, strings.Count(whole, "\n"), lines, said)
	}
	code, mps, said := ran(append([]string{"export"}, asked...)...)
	if code != exit.Done {
		t.Fatalf("%d, %s", code, said)
	}
	p, err := linear.ReadMPS(t.Context(), "export", strings.NewReader(mps))
	if err != nil || len(p.Problem.Rows) != rows || len(p.Problem.Cols) != columns {
		t.Errorf("%v: %d rows of %d, %d columns of %d", err, len(p.Problem.Rows), rows, len(p.Problem.Cols), columns)
	}
}

// TestReadBeforeTheWork: a file that is not there ends each command that names it, before it
// answers anything.
func TestReadBeforeTheWork(t *testing.T) {
	refused(t, exit.BadInput, map[string]string{
		"rotate --plan none.json": "none.json", "menu --plan none.json": "none.json", "report --plan none.json": "none.json", "stores --plan none.json": "none.json", "swap --plan none.json --drop rice": "none.json", "swap --plan none.json --instead-of rice": "none.json",
		"share --households none.csv": "none.csv", "share --households none.csv --foods gone.csv": "gone.csv", "share --households none.csv --stock gone.csv": "gone.csv", "share --households none.csv --without zwrnk": "zwrnk", "batch --households none.csv": "none.csv", "batch --households none.csv --without zwrnk": "--without: ",
		"needs --foods gone.csv": "gone.csv", "needs --household gone.csv": "gone.csv", "foods verify --foods gone.csv": "gone.csv", "foods verify --dishes gone.csv --dish-parts gone2.csv": "gone.csv", "foods list --prices gone.csv": "gone.csv", "foods show rice --foods gone.csv": "gone.csv",
		"check --stock gone.csv": "gone.csv", "rotate --stock gone.csv": "gone.csv", "export --caps gone.csv": "gone.csv", "plan --weights gone.csv --time 1ns": "gone.csv", "plan --shelves gone.csv": "gone.csv", "plan --with-menu --dishes gone.csv --dish-parts gone2.csv": "gone.csv", "solve gone.mps": "gone.mps",
		"stores --shelves gone.csv": "gone.csv", "plan --without zwrnk": "--without: ",
	})
	if code, answer, _ := ran("plan", "--compare", "--time", "1ns"); code != exit.Limit || answer != "" {
		t.Errorf("no time to compare: %d, %.200q", code, answer)
	}
}

// TestSolveEnds: what the user stops before anything was found ends as interrupted, what the
// time stops as a limit; both say so in the answer.
func TestSolveEnds(t *testing.T) {
	home := writer(t, t.TempDir())("one.csv", "name,age_years,sex\nSigne,30,f\n")
	code, mps, said := ran("export", "--household", home, "--standard", "basic", "--days", "3", "--start", "2026-01-05")
	if code != exit.Done {
		t.Fatal(said)
	}
	long, err := linear.ReadMPS(t.Context(), "long", strings.NewReader(mps)) // no plan is found at once
	short, err2 := linear.ReadMPS(t.Context(), "small", strings.NewReader(small))
	if err != nil || err2 != nil {
		t.Fatal(err, err2)
	}
	stopped, stop := context.WithCancel(t.Context())
	stop()
	late, end := context.WithTimeout(t.Context(), 0)
	defer end()
	for _, c := range []struct {
		ctx  context.Context
		of   *linear.MPS
		code int
	}{{stopped, long, exit.Interrupted}, {late, long, exit.Limit}, {t.Context(), short, exit.Done}} {
		var out bytes.Buffer
		s := &session{ctx: t.Context(), stderr: &bytes.Buffer{}}
		code := exitCode(s.solve(c.ctx, c.of.Problem, search.Options{Gap: 1e-7}, &output{format: formatTable, stdout: &out}))
		flat := strings.Join(strings.Fields(out.String()), " ")
		if code != c.code || strings.Contains(flat, "status optimal value 7") != (c.code == exit.Done) || strings.Contains(flat, " why ") == (c.code == exit.Done) {
			t.Errorf("%d, want %d: %s", code, c.code, flat)
		}
	}
}
