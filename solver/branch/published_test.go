package branch

import (
	"context"
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"rationwright/solver/linear"
)

// published is the folder of programs with published optima; expected.csv in it
// names the source of each.
const published = "../../testdata/mps"

// readPublished reads one of them.
func readPublished(t testing.TB, name string) *linear.Problem {
	t.Helper()
	file := filepath.Join(published, name+".mps")
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	m, err := linear.ReadMPS(context.Background(), file, f)
	if err != nil {
		t.Fatal(err)
	}
	return m.Problem
}

// TestPublished solves the mixed-integer programs to the published optimum, and
// audits each proof.
func TestPublished(t *testing.T) {
	f, err := os.Open(filepath.Join(published, "expected.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	solved := 0
	for _, row := range rows[1:] { // file,kind,status,optimum,source
		if row[1] != "mip" {
			continue
		}
		solved++
		t.Run(row[0], func(t *testing.T) {
			want, err := strconv.ParseFloat(row[3], 64)
			if err != nil {
				t.Fatal(err)
			}
			p := readPublished(t, row[0])
			r := Solve(context.Background(), p, Options{Audit: true})
			// 1e-6 relative: bell5 is printed with nine digits.
			if r.Status != Optimal || math.Abs(r.Value-want) > 1e-6*math.Abs(want) {
				t.Fatalf("status %v, value %v, bound %v, want %v (%s)", r.Status, r.Value, r.Bound, want, row[4])
			}
			if a := Audit(context.Background(), p, r); !confirmed(a) || !a.ValueOK {
				t.Errorf("audit %+v", a)
			}
		})
	}
	if solved == 0 {
		t.Error("no mixed-integer program in expected.csv")
	}
}

// TestSteiner27 covers the lines of the affine space of three dimensions over
// the field of three elements: 27 zero-one columns, 117 rows of three. All
// columns are alike: the bound of the relaxation is 9 and hardly moves. That
// the optimum is 18 was proved with GLPK 5.0 on the same program.
func TestSteiner27(t *testing.T) {
	p := &linear.Problem{Name: "steiner27"}
	lines := make([][]int, 27)
	for a := range 27 {
		for b := a + 1; b < 27; b++ {
			// c completes the line through a and b: in each coordinate the sum is 0.
			c := 0
			for _, place := range []int{1, 3, 9} {
				c += (6 - a/place%3 - b/place%3) % 3 * place
			}
			if c > b {
				row := p.AddRow("", 1, inf)
				for _, j := range []int{a, b, c} {
					lines[j] = append(lines[j], row)
				}
			}
		}
	}
	for j := range 27 {
		p.AddCol("", 1, 0, 1, true)
		for _, row := range lines[j] {
			p.Set(row, j, 1)
		}
	}
	if len(p.Rows) != 117 {
		t.Fatalf("%d lines, want 117", len(p.Rows))
	}
	r := Solve(context.Background(), p, Options{Audit: true})
	if r.Status != Optimal || r.Value != 18 {
		t.Fatalf("status %v, value %v, want 18", r.Status, r.Value)
	}
	if a := Audit(context.Background(), p, r); !confirmed(a) {
		t.Errorf("audit %+v", a)
	}
}
