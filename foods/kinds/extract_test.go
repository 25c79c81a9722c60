package kinds

import (
	"encoding/csv"
	"os"
	"testing"
)

// Every amount, age and unit of kind_caps.csv is that of the extract, which was
// taken from a separate table of amounts; what is this program's own planning
// rule stands there as a regression value and says so.
func TestCapsEqualTheirExtract(t *testing.T) {
	read := func(open func() ([][]string, error)) [][]string {
		all, err := open()
		if err != nil || len(all) < 400 {
			t.Fatalf("%d rows: %v", len(all), err)
		}
		return all
	}
	want := read(func() ([][]string, error) {
		file, err := os.Open("../../testdata/foods/kind_caps.csv")
		if err != nil {
			return nil, err
		}
		defer file.Close()
		return csv.NewReader(file).ReadAll()
	})
	have := read(func() ([][]string, error) {
		file, err := data.Open("data/kind_caps.csv")
		if err != nil {
			return nil, err
		}
		defer file.Close()
		return csv.NewReader(file).ReadAll()
	})
	if len(have) != len(want) {
		t.Fatalf("%d rows, the extract has %d", len(have), len(want))
	}
	column := map[string]int{}
	for j, name := range have[0] {
		column[name] = j
	}
	for i := range want {
		for j, cell := range want[i] {
			if name := want[0][j]; name != "of" && have[i][column[name]] != cell {
				t.Errorf("kind_caps.csv:%d: %s %q, the extract has %q", i+1, name, have[i][column[name]], cell)
			}
		}
	}
}
