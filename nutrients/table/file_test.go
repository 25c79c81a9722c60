package table_test

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"rationwright/nutrients/table"
)

func TestFaultsOfAPath(t *testing.T) {
	dir := t.TempDir()
	missing := filepath.Join(dir, "none.csv")
	_, err := table.Open(missing)
	if want := missing + ": no such file: file does not exist; check the path"; err == nil || err.Error() != want || !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("got  %v\nwant %s", err, want)
	}
	_, err = table.Open(dir)
	if want := dir + ": a directory; give the CSV file inside it"; err == nil || err.Error() != want {
		t.Errorf("got  %v\nwant %s", err, want)
	}
	// A sparse file of 1 GiB: refused by its size, so this takes no time.
	huge := filepath.Join(dir, "huge.csv")
	file, err := os.Create(huge)
	if err != nil {
		t.Fatal(err)
	}
	if err := file.Truncate(1 << 30); err != nil {
		t.Fatal(err)
	}
	if err := file.Close(); err != nil {
		t.Fatal(err)
	}
	if _, err := table.Open(huge); !errors.Is(err, table.ErrTooLarge) {
		t.Errorf("error %v, want ErrTooLarge", err)
	}
}

// A file that may not be read says so. The superuser may read everything, so
// there the message is checked on the system's own error alone.
func TestUnreadableFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "locked.csv")
	if err := os.WriteFile(path, []byte("food,kcal\n"), 0o000); err != nil {
		t.Fatal(err)
	}
	_, err := table.Open(path)
	if os.Geteuid() == 0 {
		if err != nil {
			t.Errorf("as superuser: %v", err)
		}
		return
	}
	if want := path + ": cannot be read: permission denied; check who may read it"; err == nil || err.Error() != want || !errors.Is(err, fs.ErrPermission) {
		t.Errorf("got  %v\nwant %s", err, want)
	}
}
