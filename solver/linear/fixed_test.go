package linear

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"testing"
)

// Files in fixed columns whose names have no blanks must mean the same in both
// forms.
func TestFormsAgree(t *testing.T) {
	for _, name := range []string{"afiro", "adlittle", "kb2", "recipe", "galenet", "share2b", "sc50b", "stocfor1", "woodinfe"} {
		t.Run(name, func(t *testing.T) {
			data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "mps", name+".mps"))
			if err != nil {
				t.Fatal(err)
			}
			var got [2]*Problem
			for k, form := range []Form{FreeForm, FixedForm} {
				r := newMPSReader(name, form)
				r.read(context.Background(), data)
				m, err := r.finish()
				if err != nil {
					t.Fatalf("%v form: %v", form, err)
				}
				got[k] = m.Problem
			}
			if !reflect.DeepEqual(got[0], got[1]) {
				t.Error("free and fixed form give different problems")
			}
		})
	}
}

// card lays six fields out in fixed columns.
func card(f ...any) string {
	return fmt.Sprintf(" %-2s %-8s  %-8s  %12s   %-8s  %12s", f...)
}

func TestFixedFields(t *testing.T) {
	for _, c := range []struct {
		name, line string
		want       [6]string
		between    int // column of a character that stands between fields
	}{
		{"all six", card("UP", "dry figs", "a row", "4.2", "b row  c", "0.3"), [6]string{"UP", "dry figs", "a row", "4.2", "b row  c", "0.3"}, 0},
		{"three", card("", "x", "r", "1", "", ""), [6]string{"", "x", "r", "1", "", ""}, 0},
		{"short line", " N  cost", [6]string{"N", "cost", "", "", "", ""}, 0},
		{"past column 61", card("", "x", "r", "1", "s", "2") + "CARD 7", [6]string{"", "x", "r", "1", "s", "2"}, 0},
		{"comment in field 3", card("", "x", "$ rem", "", "", ""), [6]string{"", "x", "", "", "", ""}, 0},
		{"comment in field 5", card("", "x", "r", "1", "$ rem", "ark"), [6]string{"", "x", "r", "1", "", ""}, 0},
		{"tabs reach columns 9, 17 and 33", "\ty\tr\t\t1.0", [6]string{"", "y", "r", "1.0", "", ""}, 0},
		{"tabs reach the next column after a multiple of eight", " UP\tbndv\tcolumn", [6]string{"UP", "bndv", "column", "", "", ""}, 0},
		{"second name of nine", card("", "x", "r", "1", "dried fig", ""), [6]string{}, 48},
		{"name of nine", card("", "dried fig", "r", "1", "", ""), [6]string{}, 13},
		{"code of three", " UPP x", [6]string{}, 4},
		{"number too far left", "    x         r       12345.5", [6]string{}, 23},
	} {
		t.Run(c.name, func(t *testing.T) {
			fs, between := fixedFields(nil, c.line)
			if between != c.between {
				t.Fatalf("fixedFields(%q): character between fields in column %d, want %d", c.line, between, c.between)
			}
			if between > 0 {
				return
			}
			var got [6]string
			for k, f := range fs {
				got[k] = f.text
			}
			if got != c.want {
				t.Errorf("fixedFields(%q) = %q, want %q", c.line, got, c.want)
			}
		})
	}
}

func TestSignificantDigits(t *testing.T) {
	for text, want := range map[string]int{
		"0": 0, "1": 1, "-0.00120": 3, "1e30": 1, "+12.50D-3": 4, "1.2345678901234567890": 20, ".5": 1,
	} {
		if got := significantDigits(text); got != want {
			t.Errorf("significantDigits(%q) = %d, want %d", text, got, want)
		}
	}
}
