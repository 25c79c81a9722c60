package referee_test

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"rationwright/solver/branch"
	"rationwright/solver/linear"
	"rationwright/solver/referee"
	"rationwright/solver/simplex"
)

const testdata = "../../testdata"

// readTable returns the rows of a CSV file as maps by header.
func readTable(t testing.TB, path ...string) []map[string]string {
	t.Helper()
	f, err := os.Open(filepath.Join(append([]string{testdata}, path...)...))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	records, err := csv.NewReader(f).ReadAll()
	if err != nil || len(records) < 2 {
		t.Fatalf("%s: %v, %d records", f.Name(), err, len(records))
	}
	var rows []map[string]string
	for _, r := range records[1:] {
		row := map[string]string{}
		for k, v := range r {
			row[records[0][k]] = v
		}
		rows = append(rows, row)
	}
	return rows
}

func number(t testing.TB, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// digit returns one unit in the last printed digit of a figure: printed values
// are rounded or cut off.
func digit(printed string) float64 {
	mantissa, _, _ := strings.Cut(strings.ToLower(printed), "e")
	_, decimals, _ := strings.Cut(mantissa, ".")
	return math.Pow(10, -float64(len(decimals)))
}

// worked is one published example. Its source and what other programs make of
// it stand in the file.
type worked struct {
	Name, Source, Sense string
	Variables           []struct {
		Name         string
		Cost         float64
		Lower, Upper *float64 // absent: none
		Integer      bool
	}
	Rows []struct {
		Name         string
		Lower, Upper *float64
		Coef         map[string]float64
	}
	Published struct {
		Status    string
		Objective json.Number
		Solution  map[string]json.Number
	}
	Measured struct {
		Highs, Glpk, Cbc *struct{ Objective *float64 }
		RowDualsHighs    map[string]float64 `json:"row_duals_highs"`
	}
}

func readWorked(t testing.TB, path string) (worked, *linear.Problem) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var w worked
	if err := json.Unmarshal(data, &w); err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	p := &linear.Problem{Name: w.Name, Maximize: w.Sense == "max"}
	or := func(v *float64, none float64) float64 {
		if v == nil {
			return none
		}
		return *v
	}
	for _, r := range w.Rows {
		p.AddRow(r.Name, or(r.Lower, -linear.Inf), or(r.Upper, linear.Inf))
	}
	for _, v := range w.Variables {
		j := p.AddCol(v.Name, v.Cost, or(v.Lower, -linear.Inf), or(v.Upper, linear.Inf), v.Integer)
		for i, r := range w.Rows {
			p.Set(i, j, r.Coef[v.Name])
		}
	}
	if err := p.Validate(); err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	return w, p
}

func workedFiles(t testing.TB) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(testdata, "worked", "*.json"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no worked examples: %v", err)
	}
	return files
}

// Every worked example has the dimensions its index tells, and survives MPS.
func TestWorkedFiles(t *testing.T) {
	index := map[string]map[string]string{}
	for _, row := range readTable(t, "worked", "index.csv") {
		index[row["name"]] = row
	}
	files := workedFiles(t)
	if len(files) != len(index) {
		t.Errorf("%d files, %d in the index", len(files), len(index))
	}
	for _, path := range files {
		w, p := readWorked(t, path)
		row := index[w.Name]
		got := fmt.Sprint(len(p.Rows), len(p.Cols), integerColumns(p))
		if want := strings.Join([]string{row["rows"], row["columns"], row["integers"]}, " "); got != want {
			t.Errorf("%s: rows, columns, integers %s, want %s (index.csv)", w.Name, got, want)
		}
		var b bytes.Buffer
		if err := linear.WriteMPS(&b, p); err != nil {
			t.Fatal(err)
		}
		m, err := linear.ReadMPS(context.Background(), w.Name, &b)
		if err != nil {
			t.Fatal(err)
		}
		if m.Problem.String() != p.String() {
			t.Errorf("%s changes when written and read", w.Name)
		}
	}
}

// Every worked example comes out as published, to the printed digits, and as
// three general programs made it, to 1e-6.
func TestWorkedExamples(t *testing.T) {
	for _, path := range workedFiles(t) {
		w, p := readWorked(t, path)
		t.Run(w.Name, func(t *testing.T) {
			var got answer
			if integerColumns(p) > 0 {
				got = mipAnswer(solveMIP(t, p))
			} else {
				got = lpAnswer(solveLP(t, p))
				compareWithReferee(t, p, got)
			}
			if got.status != w.Published.Status {
				t.Fatalf("status %s, want %s (%s)", got.status, w.Published.Status, w.Source)
			}
			if got.status != "optimal" {
				return
			}
			if s := w.Published.Objective.String(); s != "" {
				if want := number(t, s); math.Abs(got.value-want) > digit(s) {
					t.Errorf("optimum %.10g, want %s (%s)", got.value, s, w.Source)
				}
			}
			peers := 0
			for name, peer := range map[string]*struct{ Objective *float64 }{"HiGHS": w.Measured.Highs, "GLPK": w.Measured.Glpk, "CBC": w.Measured.Cbc} {
				if peer == nil || peer.Objective == nil {
					continue
				}
				peers++
				if !near(got.value, *peer.Objective) {
					t.Errorf("optimum %.10g, %s has %.10g", got.value, name, *peer.Objective)
				}
			}
			if peers != 3 {
				t.Errorf("%d programs to compare with, want 3", peers)
			}
			for name, v := range w.Published.Solution {
				j := column(t, p, name)
				if want := number(t, v.String()); math.Abs(got.x[j]-want) > digit(v.String()) {
					t.Errorf("%s = %.10g, want %s (%s)", name, got.x[j], v, w.Source)
				}
			}
		})
	}
}

func column(t testing.TB, p *linear.Problem, name string) int {
	t.Helper()
	for j := range p.Cols {
		if p.Cols[j].Name == name {
			return j
		}
	}
	t.Fatalf("no column %q", name)
	return -1
}

// Multipliers that another program found prove, in this project's arithmetic,
// the optimum that was published: linear.Problem.Dual against outside figures.
func TestWorkedDuals(t *testing.T) {
	for _, path := range workedFiles(t) {
		w, p := readWorked(t, path)
		if len(w.Measured.RowDualsHighs) == 0 {
			continue
		}
		t.Run(w.Name, func(t *testing.T) {
			y := make([]float64, len(p.Rows))
			for i, r := range p.Rows {
				y[i] = w.Measured.RowDualsHighs[r.Name]
			}
			dp, err := p.Dual(y)
			if err != nil {
				t.Fatal(err)
			}
			// The multipliers are given to nine decimals; in front of bounds in
			// the thousands that leaves five digits of the optimum.
			if want := *w.Measured.Highs.Objective; math.Abs(dp.Bound-want) > 1e-5*math.Max(1, math.Abs(want)) {
				t.Errorf("multipliers prove %.10g, optimum %.10g", dp.Bound, want)
			}
			if dp.WorstCol < 0 {
				return
			}
			size := 0.0
			for _, e := range p.Cols[dp.WorstCol].Entries {
				size += math.Abs(e.Value)
			}
			if dp.Residual > 1e-9*size {
				t.Errorf("reduced cost of %q is %g off, more than the rounding of the multipliers explains", p.Cols[dp.WorstCol].Name, dp.Residual)
			}
		})
	}
}

// answer is what an engine found, in words both engines share.
type answer struct {
	status string
	value  float64
	x      []float64
}

func lpAnswer(r simplex.Result) answer { return answer{fmt.Sprint(r.Status), r.Value, r.X} }

func mipAnswer(r branch.Result) answer {
	status := map[branch.Status]string{branch.Optimal: "optimal", branch.Infeasible: "infeasible",
		branch.Unbounded: "unbounded", branch.Limit: "limit", branch.Numerical: "numerical"}[r.Status]
	return answer{status, r.Value, r.X}
}

// compareWithReferee wants the referee, where it has an opinion, to agree.
func compareWithReferee(t testing.TB, p *linear.Problem, got answer) {
	t.Helper()
	op := opinion(t, p)
	switch {
	case op.Verdict == referee.Silent:
		t.Errorf("the referee has no opinion: %s", op.Why)
	case op.Verdict.String() != got.status:
		t.Errorf("the referee says %v, the engine %s", op, got.status)
	case op.Verdict == referee.Optimal && !near(got.value, op.Value):
		t.Errorf("the referee says %v, the engine %.10g", op, got.value)
	}
	if op.Verdict != referee.Unbounded && !op.Proven {
		t.Errorf("the referee does not prove it: %v", op)
	}
}

// Published and generated programs in MPS form: status and optimum, and for the
// infeasible ones a ray that proves it. Sources stand in expected.csv.
func TestMPSFiles(t *testing.T) {
	for _, row := range readTable(t, "mps", "expected.csv") {
		t.Run(row["file"], func(t *testing.T) {
			if row["file"] == "bell5" && *campaign < 10 {
				t.Skip("tens of thousands of nodes; run with -campaign 10")
			}
			p := readMPS(t, row["file"])
			var got answer
			switch row["kind"] {
			case "lp":
				got = lpAnswer(solveLP(t, p))
			case "mip":
				got = mipAnswer(solveMIP(t, p))
			default:
				t.Fatalf("kind %q", row["kind"])
			}
			if got.status != row["status"] {
				t.Fatalf("status %s, want %s (%s)", got.status, row["status"], row["source"])
			}
			if got.status != "optimal" {
				return
			}
			if want := number(t, row["optimum"]); !near(got.value, want) && math.Abs(got.value-want) > digit(row["optimum"]) {
				t.Errorf("optimum %.12g, want %s (%s)", got.value, row["optimum"], row["source"])
			}
		})
	}
}

func readMPS(t testing.TB, name string) *linear.Problem {
	t.Helper()
	f, err := os.Open(filepath.Join(testdata, "mps", name+".mps"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	m, err := linear.ReadMPS(context.Background(), name, f)
	if err != nil {
		t.Fatal(err)
	}
	return m.Problem
}

// The referee's opinion of the same files, against the same published figures
// and, for the integer programs, the optimum of the relaxation that the header
// of each file tells ("LP SOLN").
func TestRefereeOnMPSFiles(t *testing.T) {
	for _, row := range readTable(t, "mps", "expected.csv") {
		t.Run(row["file"], func(t *testing.T) {
			// Seconds of gonum's time for nothing new; -campaign 10 has them.
			if large := row["file"] == "F60_30_20_multi4_1" || row["file"] == "vpm1"; large && *campaign < 10 {
				t.Skip("over 200 rows; run with -campaign 10")
			}
			p := readMPS(t, row["file"])
			op := opinion(t, p)
			if op.Verdict.String() != row["status"] || !op.Proven {
				t.Fatalf("the referee says %v, want %s, proven (%s)", op, row["status"], row["source"])
			}
			if op.Verdict != referee.Optimal {
				return
			}
			printed := row["optimum"]
			if row["file"] == "wide_numbers" { // nobody has published its relaxation
				printed = ""
			} else if row["kind"] == "mip" {
				printed = headerValue(t, row["file"], "LP SOLN")
			}
			if printed == "" {
			} else if want := number(t, printed); !near(op.Value, want) && math.Abs(op.Value-want) > digit(printed) {
				t.Errorf("optimum %.12g, want %s (%s)", op.Value, printed, row["source"])
			}
			if r := solveLP(t, p); r.Status != simplex.Optimal || !near(r.Value, op.Value) {
				t.Errorf("relaxation: simplex says %v %.10g, the referee %.10g", r.Status, r.Value, op.Value)
			}
		})
	}
}

func headerValue(t testing.TB, name, key string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(testdata, "mps", name+".mps"))
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(string(data), "\n") {
		if rest, ok := strings.CutPrefix(line, "*"+key+":"); ok {
			return strings.TrimSpace(rest)
		}
	}
	t.Fatalf("%s has no header line %s", name, key)
	return ""
}

func integerColumns(p *linear.Problem) int {
	n := 0
	for _, c := range p.Cols {
		if c.Integer {
			n++
		}
	}
	return n
}
