package tabletest

import (
	"encoding/csv"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"testing"
)

// unread are the columns of a table that no extract has.
var unread = []string{"source", "verified", "note"}

// EqualExtracts fails where a cell of a table below data in files, which is no source,
// mark or note, is another than that of the extract of the same name in dir, which was
// taken from the published tables.
func EqualExtracts(t *testing.T, files fs.FS, dir string) {
	t.Helper()
	entries, err := fs.ReadDir(files, "data")
	if err != nil || len(entries) == 0 {
		t.Fatalf("no tables: %v", err)
	}
	for _, entry := range entries {
		file, err := files.Open("data/" + entry.Name())
		if err != nil {
			t.Fatal(err)
		}
		have, err := csv.NewReader(file).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		extract, err := os.Open(filepath.Join(dir, entry.Name()))
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
				if slices.Contains(unread, have[0][j]) {
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
