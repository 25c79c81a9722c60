package table_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"rationwright/nutrients/table"
)

// TestLimits: what stands just inside each limit is read, what stands just outside
// is refused with the limit named.
func TestLimits(t *testing.T) {
	columns := func(n int) string { return "x" + strings.Repeat(",y", n-1) + "\n" }
	wide := func(cells, rows int) string {
		return columns(cells) + strings.Repeat("1"+strings.Repeat(",", cells-1)+"\n", rows)
	}
	for _, c := range []struct {
		name, text string
		want       error
		at         string // of the row that is too many, or of the byte of its line
	}{
		{"columns", columns(table.MaxColumns) + "1" + strings.Repeat(",", table.MaxColumns-1), nil, ""},
		{"one column more", columns(table.MaxColumns + 1), table.ErrTooMany, "1:1"},
		{"a header of 10 MB", strings.Repeat("a,", 5<<20), table.ErrTooMany, "1:1048577"},
		{"line", "x\n" + strings.Repeat("1", table.MaxLine), nil, ""},
		{"one byte more", "x\n" + strings.Repeat("1", table.MaxLine+1), table.ErrTooMany, "2:1048577"},
		{"one byte more further down", "x\n1\n22\n" + strings.Repeat("1", table.MaxLine+1) + "\n1\n", table.ErrTooMany, "4:1048577"},
		{"rows", "x\n" + strings.Repeat("1\n", table.MaxRows), nil, ""},
		{"rows more", "x\n" + strings.Repeat("1\n", table.MaxRows+2), table.ErrTooMany, "200002:1"},
		{"cells", wide(400, table.MaxCells/400), nil, ""},
		{"a row of cells more", wide(400, table.MaxCells/400+1), table.ErrTooMany, "10002:1"},
	} {
		_, err := table.Read("f.csv", strings.NewReader(c.text), []table.Column{{Name: "x"}})
		if c.want == nil && err != nil || !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", c.name, err, c.want)
		}
		if c.at != "" && (err == nil || !strings.HasPrefix(err.Error(), "f.csv:"+c.at+": ") || strings.Contains(err.Error(), "\n")) {
			t.Errorf("%s: %v, want one fault at %s", c.name, err, c.at)
		}
	}
}

// TestOtherLineEnds: a file whose lines end in what ends no line in CSV has one line,
// and is not taken for a header without rows.
func TestOtherLineEnds(t *testing.T) {
	for _, end := range []string{"\u2028", "\u2029", "\u0085", "\v", "\f"} {
		text := "x" + end + "1" + end
		_, err := table.Format{Columns: []table.Column{{Name: "x"}}, AllowEmpty: true}.Read("f.csv", strings.NewReader(text))
		if err == nil || !strings.Contains(err.Error(), fmt.Sprintf("f.csv:1:2: holds %U", []rune(end)[0])) {
			t.Errorf("%U: %v", []rune(end)[0], err)
		}
		if _, err := table.Read("f.csv", strings.NewReader(end+"x\n1\n"), []table.Column{{Name: "x"}}); err == nil || !strings.HasPrefix(err.Error(), "f.csv:1:1: holds U+") {
			t.Errorf("%U at once: %v", []rune(end)[0], err)
		}
	}
}

func TestParseInt(t *testing.T) {
	for text, want := range map[string]int{"14": 14, "014": 14, "0": 0, "-3": -3, "+7": 7, "12.0": 12, "9007199254740992": 1 << 53} {
		if got, _, err := table.ParseInt(text); err != nil || got != want {
			t.Errorf("ParseInt(%q) = %d, %v, want %d", text, got, err, want)
		}
	}
	for _, text := range []string{"", "0x10", "0b1", "0o7", "1_000", "1.5", "1,000", "ten", "1e30", "-1e30", "9007199254740994", "-9007199254740994", "NaN", "٣"} {
		if got, fix, err := table.ParseInt(text); !errors.Is(err, table.ErrNumber) || fix == "" {
			t.Errorf("ParseInt(%q) = %d, %v, %q, want ErrNumber and a remedy", text, got, err, fix)
		}
	}
}

// TestComposed: a name typed with a letter and a mark is the name typed with one
// letter, in cells and in what is near.
func TestComposed(t *testing.T) {
	row, _ := cell(t, "A\u030ase")
	if got := row.Text("x"); got != "\u00c5se" {
		t.Errorf("a cell is read as %q", got)
	}
	if near := table.Nearest("A\u030ase", []string{"\u00c5se-x"}, 1); len(near) != 1 {
		t.Error("Åse is not near Åse-x")
	}
}

// TestCrowded: words near a wrong one are sought for as many as are printed.
func TestCrowded(t *testing.T) {
	read, err := table.Read("f.csv", strings.NewReader("x\n"+strings.Repeat("boild\n", 200)), []table.Column{{Name: "x"}})
	if err != nil {
		t.Fatal(err)
	}
	for i, row := range read.Rows {
		if row.Crowded() != (i >= 100) {
			t.Fatalf("row %d: crowded is %v", i, row.Crowded())
		}
		row.Choice("x", "boiled")
	}
	text := read.Err().Error()
	if n := strings.Count(text, "did you mean"); n != 100 || !strings.Contains(text, "and 100 more") {
		t.Errorf("%d remedies for 100 printed faults", n)
	}
}

// BenchmarkRead reads n rows; ten times the rows should take about ten times as long.
func BenchmarkRead(b *testing.B) {
	for _, n := range []int{1_000, 10_000, 100_000} {
		text := "x,unknown\n" + strings.Repeat("wrong,1\n", n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				read, err := table.Read("f.csv", strings.NewReader(text), []table.Column{{Name: "x"}})
				if err != nil {
					b.Fatal(err)
				}
				for _, row := range read.Rows {
					row.Choice("x", "right")
				}
			}
		})
	}
}
