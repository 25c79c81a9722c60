package nutrients

import (
	"encoding/csv"
	"os"
	"slices"
	"testing"
)

// Every cell that is no source, mark or note is that of the extract in
// testdata, which was taken from the published tables.
func TestTablesEqualTheirExtracts(t *testing.T) {
	files, err := dataFiles.ReadDir("data")
	if err != nil {
		t.Fatal(err)
	}
	for _, entry := range files {
		file, err := dataFiles.Open("data/" + entry.Name())
		if err != nil {
			t.Fatal(err)
		}
		have, err := csv.NewReader(file).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		extract, err := os.Open("../testdata/nutrients/extract/" + entry.Name())
		if err != nil {
			t.Error(err)
			continue
		}
		defer extract.Close()
		want, err := csv.NewReader(extract).ReadAll()
		if err != nil || len(have) != len(want) {
			t.Errorf("%s: %d rows, the extract has %d; %v", entry.Name(), len(have), len(want), err)
			continue
		}
		for i := range have {
			at := 0
			for j, cell := range have[i] {
				if slices.Contains([]string{"source", "verified", "note"}, have[0][j]) {
					continue
				}
				if at >= len(want[i]) || cell != want[i][at] {
					t.Errorf("%s:%d: %s %q, the extract has %q", entry.Name(), i+1, have[0][j], cell, want[i])
				}
				at++
			}
			if at != len(want[i]) {
				t.Errorf("%s:%d: %d cells, the extract has %d", entry.Name(), i+1, at, len(want[i]))
			}
		}
	}
}
