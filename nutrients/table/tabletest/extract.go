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

// EqualColumns fails where a cell of the table data/name in files is another than that
// of the extract, a file of the same rows in the same order, in the columns that both
// have by name; the extract's last column says where its row is from. The extract has at
// least so many rows.
func EqualColumns(t *testing.T, files fs.FS, name, extract string, least int) {
	t.Helper()
	file, err := files.Open("data/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	have, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	other, err := os.Open(extract)
	if err != nil {
		t.Fatal(err)
	}
	defer other.Close()
	want, err := csv.NewReader(other).ReadAll()
	if err != nil || len(have) != len(want) || len(want) <= least {
		t.Fatalf("%s: %d rows, the extract has %d; %v", name, len(have), len(want), err)
	}
	for j, column := range want[0][:len(want[0])-1] {
		at := slices.Index(have[0], column)
		if at < 0 {
			t.Fatalf("%s: no column %s", name, column)
		}
		for i := range want {
			if have[i][at] != want[i][j] {
				t.Errorf("%s:%d: %s %q, the extract has %q", name, i+1, column, have[i][at], want[i][j])
			}
		}
	}
}
