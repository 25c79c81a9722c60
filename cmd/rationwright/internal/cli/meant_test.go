package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"rationwright/foods"
)

// TestWhatIsMeant: a word that could have been meant otherwise is said with what it is taken for,
// one that could not is not spoken of; each that means nothing is in the error.
func TestWhatIsMeant(t *testing.T) {
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	var words []string
	for _, k := range table.Kinds().Kinds {
		words = append(words, k.Words()...)
	}
	loud, quiet := 0, 0
	for _, word := range append(words, "20044") {
		m, err := table.Resolve(word)
		if err != nil {
			continue // it is asked which is meant
		}
		want := ""
		if m.Said() != "" {
			want = "rationwright: " + m.Said() + "\n"
			loud++
		} else {
			quiet++
		}
		var said bytes.Buffer
		if err := (&session{stderr: &said}).meant(table, word); err != nil || said.String() != want {
			t.Errorf("%q: %v, %q, want %q", word, err, said.String(), want)
		}
	}
	if loud == 0 || quiet == 0 {
		t.Errorf("%d words are spoken of, %d are not", loud, quiet)
	}
	var said bytes.Buffer
	err = (&session{stderr: &said}).meant(table, "zwrnk", "20044", "grmblf")
	if err == nil || strings.Count(err.Error(), "\n") != 1 || !strings.Contains(err.Error(), "zwrnk") || !strings.Contains(err.Error(), "grmblf") || said.Len() != 0 {
		t.Errorf("%v, %q", err, said.String())
	}
}

// TestSpare: only a file can be replaced by an answer that goes onto it: a device is read and
// written beside itself.
func TestSpare(t *testing.T) {
	dir := t.TempDir()
	write := writer(t, dir)
	in, other := write("in.csv", "a"), write("other.csv", "b")
	if err := os.Link(in, filepath.Join(dir, "hard.csv")); err != nil {
		passOver(t, err)
	}
	for _, c := range []struct {
		name string
		outs []string
		good bool
	}{
		{in, nil, true}, {in, []string{other}, true}, {in, []string{filepath.Join(dir, "new.csv")}, true}, {in, []string{in}, false}, {in, []string{other, in}, false}, {in, []string{filepath.Join(dir, "hard.csv"), other}, false}, {os.DevNull, []string{os.DevNull}, true},
	} {
		f, err := os.Open(c.name)
		if err != nil {
			t.Fatal(err)
		}
		if err := (&session{outs: c.outs}).spare(f, "it"); (err == nil) != c.good || err != nil && !strings.HasPrefix(err.Error(), "it is read and would be replaced by what is written to ") {
			t.Errorf("%s read, %q written: %v", c.name, c.outs, err)
		}
		f.Close()
	}
}
