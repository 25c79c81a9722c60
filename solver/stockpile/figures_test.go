package stockpile

import (
	"encoding/csv"
	"os"
	"slices"
	"testing"

	"rationwright/foods/stores"
)

// TestTemperaturesOfTheTable: what is counted with where none is given stands over two columns
// of the published table; and what one adult lifts is 25 kg (common practice, no source).
func TestTemperaturesOfTheTable(t *testing.T) {
	file, err := os.Open("../../testdata/stores/extract/storage_temperature.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	header, err := csv.NewReader(file).Read()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		column    string
		got, want float64
	}{{"best_quality_months_21c_70f", UsualStoreC, 21}, {"best_quality_months_32c_90f", HotStoreC, 32}} {
		if !slices.Contains(header, c.column) || c.got != c.want {
			t.Errorf("%s: counted with %g °C; the table has %q", c.column, c.got, header)
		}
	}
	if stores.LiftKg != 25 {
		t.Errorf("%g kg are lifted, want 25", stores.LiftKg)
	}
}
