package table_test

import (
	"bytes"
	"errors"
	"slices"
	"testing"

	"rationwright/nutrients/table"
)

// FuzzRead: whatever the bytes, reading neither panics nor gives a table
// without saying what is wrong, every fault has a position inside the file, and
// what was read is written and read back the same.
func FuzzRead(f *testing.F) {
	for _, seed := range []string{
		"food,kcal,note\nrice,360,\n",
		"\ufefffood,kcal\r\nrice,360\r\n",
		"food;kcal\nrice;1,5\n",
		"food,kcal\nrice,1,5\n",
		"food,kcal\nrice,\"1,5\"\n",
		"",
		"food,kcal\n",
		"food,food\nrice,oats\n",
		"food,kcal\nrice\n",
		"food,kcal\n\"rice,360\n",
		"food,kcal\n\"a\nb\",NaN\n\"c \"\" d\",0x1p-2\n,\n",
		"\xff\xfef\x00",
		"food,kcal\npur\xe9e,1\n",
	} {
		f.Add([]byte(seed))
	}
	format := table.Format{Columns: []table.Column{{Name: "food", Presence: table.Present}, {Name: "kcal"}, {Name: "note"}}}
	f.Fuzz(func(t *testing.T, data []byte) {
		read, err := format.Read("f.csv", bytes.NewReader(data))
		if read == nil {
			if err == nil {
				t.Fatal("neither a table nor an error")
			}
			return
		}
		var cells [][]string
		for _, row := range read.Rows {
			row.Float("kcal", -1e9, 1e9)
			row.Int("kcal", -10, 10)
			row.Date("note")
			row.Choices("note", "a", "b")
			cells = append(cells, []string{row.Text("food"), row.Text("kcal"), row.Text("note")})
		}
		lines := 1 + bytes.Count(data, []byte("\n"))
		var faults *table.Errors
		if errors.As(read.Err(), &faults) {
			for _, fault := range faults.List {
				if fault.Line < 0 || fault.Line > lines || fault.Error() == "" {
					t.Fatalf("fault outside the file: %v", fault)
				}
			}
		}
		var written bytes.Buffer
		if err := table.Write(&written, []string{"food", "kcal", "note"}, cells); err != nil {
			t.Fatal(err)
		}
		again := format
		again.AllowEmpty = true
		back, err := again.Read("f.csv", &written)
		if err != nil {
			t.Fatalf("what was written cannot be read: %v", err)
		}
		if len(back.Rows) != nonEmpty(cells) {
			t.Fatalf("%d rows written, %d read", nonEmpty(cells), len(back.Rows))
		}
		i := 0
		for _, want := range cells {
			if want[0] == "" && want[1] == "" && want[2] == "" {
				continue
			}
			row := back.Rows[i]
			if got := []string{row.Text("food"), row.Text("kcal"), row.Text("note")}; !slices.Equal(got, want) {
				t.Fatalf("row %d: wrote %q, read %q", i, want, got)
			}
			i++
		}
	})
}

// nonEmpty counts the rows with any content in the columns read: a row may
// have content in unknown columns alone.
func nonEmpty(cells [][]string) int {
	n := 0
	for _, row := range cells {
		if row[0] != "" || row[1] != "" || row[2] != "" {
			n++
		}
	}
	return n
}
