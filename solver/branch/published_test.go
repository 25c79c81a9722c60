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
	m, err := linear.ReadMPS(file, f)
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
			if a := Audit(p, r); !a.OK() || !a.ValueOK {
				t.Errorf("audit %+v", a)
			}
		})
	}
	if solved == 0 {
		t.Error("no mixed-integer program in expected.csv")
	}
}
