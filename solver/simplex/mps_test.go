package simplex

import (
	"bytes"
	"context"
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"rationwright/solver/linear"
)

const collection = "../../testdata/mps"

// readMPS reads one program of the collection.
func readMPS(t testing.TB, name string) *linear.Problem {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(collection, name+".mps"))
	if err != nil {
		t.Fatal(err)
	}
	got, err := linear.ReadMPS(context.Background(), name, bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return got.Problem
}

// TestCollection solves every program of the collection, the integer ones
// without integrality. Expected values are those of expected.csv, with their
// sources there.
func TestCollection(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(collection, "expected.csv"))
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] {
		name, kind, status, optimum := row[0], row[1], row[2], row[3]
		t.Run(name, func(t *testing.T) {
			p := readMPS(t, name)
			s, err := New(p)
			if err != nil {
				t.Fatal(err)
			}
			got := s.Solve(context.Background(), Limits{})
			t.Logf("%v %.12g bound %.12g, %d iterations, residuals %.1e %.1e %.1e %s", got.Status, got.Value, got.Bound, got.Iterations,
				got.PrimalResidual, got.DualResidual, got.Complementarity, got.Why)
			if got.Status.String() != status {
				t.Fatalf("%v (%s), want %s", got.Status, got.Why, status)
			}
			if status != "optimal" {
				return
			}
			want, err := strconv.ParseFloat(optimum, 64)
			if err != nil {
				t.Fatal(err)
			}
			if kind == "lp" && math.Abs(got.Value-want) > 1e-6*math.Abs(want) {
				t.Errorf("value %.12g, want %.12g", got.Value, want)
			}
			if kind == "mip" && got.Value > want+1e-6*math.Abs(want) {
				t.Errorf("relaxation %.12g above the integer optimum %.12g", got.Value, want)
			}
		})
	}
}
