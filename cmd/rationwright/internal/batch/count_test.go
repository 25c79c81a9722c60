package batch

import (
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/register"
	"rationwright/foods"
)

// TestCountWholeLines: lines are counted from the beginning, wherever the file stood, and
// what stands behind the last line end is none.
func TestCountWholeLines(t *testing.T) {
	for text, want := range map[string]int{"": 0, "a": 0, "a\n": 1, "a\nb": 1, "a\nb\n": 2, "\n\n\n": 3, strings.Repeat("0123456789\n", 20_000): 20_000} {
		in := strings.NewReader(text)
		if _, err := in.ReadByte(); err != nil && text != "" {
			t.Fatal(err)
		}
		if got, err := Count(in); got != want || err != nil {
			t.Errorf("%.20q: %d lines, %v, want %d", text, got, err, want)
		}
	}
}

// TestIDsInTwoPlaces: a household whose id stands in two places is refused in both, told
// that it comes again at the first and where it began at the second.
func TestIDsInTwoPlaces(t *testing.T) {
	const text = "household,name,age_years,sex\nA,Ola,34,m\nB,Per,70,m\nA,Kari,33,f\n"
	scan, err := ScanRegister("r.csv", strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	r, err := register.NewReader("r.csv", strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	larder, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"comes again further down", "", "begins in line 2 already"} {
		h, err := r.Next()
		if err != nil {
			t.Fatal(err)
		}
		scan.judge("r.csv", h)
		_, _, err = h.People(larder)
		if (err != nil) != (want != "") || err != nil && !strings.Contains(err.Error(), want) {
			t.Errorf("%s in line %d: %v, want %q", h.ID, h.Line, err, want)
		}
	}
}
