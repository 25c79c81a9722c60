package linear_test

import (
	"bufio"
	"bytes"
	"context"
	"os"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"rationwright/solver/linear"
)

// mpsFolder holds the published and generated files; expected.csv there gives
// their sources.
const mpsFolder = "../../testdata/mps"

// dimensions of the files in mpsFolder, counted by a text script that splits
// lines at blanks and knows nothing of this package: rows without the
// objective, columns, non-zero coefficients without those of the objective,
// columns between integer markers.
var dimensions = []struct {
	file                            string
	rows, columns, entries, integer int
}{
	{"F100_30_20_win6_1", 50, 100, 4279, 0},
	{"F150_30_20_infeas_1", 50, 150, 6428, 0},
	{"F150_30_20_ratio_1", 60, 150, 7888, 0},
	{"F40_30_20_deg_1", 50, 40, 1688, 0},
	{"F40_30_20_deg_10", 50, 40, 1700, 0},
	{"F50_30_20_plain_1", 50, 50, 2125, 0},
	{"F60_30_20_multi4_1", 260, 240, 10456, 0},
	{"adlittle", 56, 97, 383, 0},
	{"afiro", 27, 32, 83, 0},
	{"bell5", 91, 104, 266, 58},
	{"blend", 74, 83, 491, 0},
	{"box1", 231, 261, 651, 0},
	{"egout", 98, 141, 282, 55},
	{"flugpl", 18, 18, 46, 11},
	{"galenet", 8, 8, 16, 0},
	{"kb2", 43, 41, 286, 0},
	{"lseu", 28, 89, 309, 89},
	{"p0033", 16, 33, 98, 33},
	{"recipe", 91, 180, 663, 0},
	{"sc50b", 50, 48, 118, 0},
	{"share2b", 96, 79, 694, 0},
	{"stocfor1", 117, 111, 447, 0},
	{"vpm1", 234, 378, 749, 168},
	{"wide_numbers", 1, 4, 4, 3},
	{"woodinfe", 35, 89, 140, 0},
}

func readFile(t *testing.T, path string) *linear.MPS {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	m, err := linear.ReadMPS(context.Background(), filepath.Base(path), f)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func TestFileDimensions(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(mpsFolder, "*.mps"))
	if err != nil || len(files) != len(dimensions) {
		t.Fatalf("%d files in %s, %d in the table (%v)", len(files), mpsFolder, len(dimensions), err)
	}
	for _, want := range dimensions {
		t.Run(want.file, func(t *testing.T) {
			m := readFile(t, filepath.Join(mpsFolder, want.file+".mps"))
			p := m.Problem
			if len(p.Rows) != want.rows || len(p.Cols) != want.columns || entries(p) != want.entries || integers(p) != want.integer {
				t.Errorf("%d rows, %d columns, %d entries, %d integer; want %d, %d, %d, %d",
					len(p.Rows), len(p.Cols), entries(p), integers(p), want.rows, want.columns, want.entries, want.integer)
			}
			if err := p.Validate(); err != nil {
				t.Error(err)
			}
			if len(m.Notes) > 0 {
				t.Errorf("notes on a plain file: %v", m.Notes)
			}
		})
	}
}

// The integer programs carry their dimensions in their own header comments.
func TestFileHeaders(t *testing.T) {
	for _, name := range []string{"bell5", "egout", "flugpl", "lseu", "p0033", "vpm1"} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(mpsFolder, name+".mps")
			p := readFile(t, path).Problem
			got := map[string]int{"ROWS": len(p.Rows), "COLUMNS": len(p.Cols), "INTEGER": integers(p), "NONZERO": entries(p)}
			for key, n := range got {
				if want := headerNumber(t, path, key); want != n {
					t.Errorf("%s = %d, want %d (header of the file)", key, n, want)
				}
			}
		})
	}
}

func headerNumber(t *testing.T, path, key string) int {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for s := bufio.NewScanner(f); s.Scan(); {
		if rest, ok := strings.CutPrefix(s.Text(), "*"+key+":"); ok {
			n, err := strconv.Atoi(strings.TrimSpace(rest))
			if err != nil {
				t.Fatal(err)
			}
			return n
		}
	}
	t.Fatalf("%s has no header line %s", path, key)
	return 0
}

func TestFilesRoundTrip(t *testing.T) {
	for _, d := range dimensions {
		t.Run(d.file, func(t *testing.T) {
			roundTrip(t, readFile(t, filepath.Join(mpsFolder, d.file+".mps")).Problem)
		})
	}
}

// roundTrip writes p, reads it back and wants the same problem.
func roundTrip(t *testing.T, p *linear.Problem) {
	t.Helper()
	var b bytes.Buffer
	if err := linear.WriteMPS(&b, p); err != nil {
		t.Fatal(err)
	}
	text := b.String()
	m, err := linear.ReadMPS(context.Background(), "written", &b)
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	if m.Form != linear.FreeForm {
		t.Errorf("read back as %v form", m.Form)
	}
	if !same(p, m.Problem) {
		t.Errorf("read back as another problem:\n%v\nwant\n%v\n%s", m.Problem, p, text)
	}
}

// same compares two problems value by value; a nil and an empty slice are the
// same.
func same(p, q *linear.Problem) bool {
	p, q = p.Clone(), q.Clone()
	for _, x := range []*linear.Problem{p, q} {
		if len(x.Rows) == 0 {
			x.Rows = nil
		}
		if len(x.Cols) == 0 {
			x.Cols = nil
		}
		for j := range x.Cols {
			if len(x.Cols[j].Entries) == 0 {
				x.Cols[j].Entries = nil
			}
		}
	}
	return reflect.DeepEqual(p, q)
}

// entries counts the coefficients of p.
func entries(p *linear.Problem) int {
	n := 0
	for _, c := range p.Cols {
		n += len(c.Entries)
	}
	return n
}

// integers counts the columns of p that must be integer.
func integers(p *linear.Problem) int {
	n := 0
	for _, c := range p.Cols {
		if c.Integer {
			n++
		}
	}
	return n
}
