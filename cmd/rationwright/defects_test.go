//go:build defects

package main

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

var (
	defectList = flag.String("defects", "*", "lists of testdata/defects to run, a pattern of file names without .txt")
	defectID   = flag.String("defect", "", "only defects whose name matches this expression")
	wide       = flag.Bool("wide", false, "what survives the tests named with it runs all tests")
	least      = flag.Float64("least", 95, "percent of each list that must be caught")
)

// A defect is one change to one file, and the tests that should fail by it.
type defect struct {
	name     string
	file     string
	old, new string   // of a file of text: old stands in it once
	row      []string // of a table: column=value of cells that only this row has
	column   string   // of a table: the column that changes from old to new
	run      []string // a package, or package:expression of tests
}

// TestDefects puts the defects of testdata/defects into the program one at a
// time, by an overlay: the files stay as they are. A defect is caught if a test
// fails that passes without it; one that does not build, or whose old text is not there,
// is a fault of the list. What is printed is one line a defect and a total a list.
func TestDefects(t *testing.T) {
	lists, err := filepath.Glob(filepath.Join(root, "testdata", "defects", *defectList+".txt"))
	if err != nil || len(lists) == 0 {
		t.Fatalf("no list %q of defects: %v", *defectList, err)
	}
	only := regexp.MustCompile(*defectID)
	for _, list := range lists {
		caught, tried := 0, 0
		var survived []string
		for _, d := range readDefects(t, list) {
			if !only.MatchString(d.name) {
				continue
			}
			start := time.Now()
			by, err := d.try(t.TempDir())
			if err != nil {
				t.Errorf("%s: %v", d.name, err)
				fmt.Printf("INVALID  %s: %v\n", d.name, err)
				continue
			}
			tried++
			if by == "" {
				survived = append(survived, d.name)
				fmt.Printf("SURVIVED %s (%.0f s)\n", d.name, time.Since(start).Seconds())
				continue
			}
			caught++
			fmt.Printf("caught   %s by %s (%.0f s)\n", d.name, by, time.Since(start).Seconds())
		}
		if tried == 0 {
			continue
		}
		share := 100 * float64(caught) / float64(tried)
		fmt.Printf("%s: %d of %d caught, %.1f %%; survived: %s\n", filepath.Base(list), caught, tried, share, strings.Join(survived, ", "))
		if share < *least {
			t.Errorf("%s: %.1f %% caught, at least %g %% should be", filepath.Base(list), share, *least)
		}
	}
}

// TestDefectsHaveTheirPlace: what each defect changes stands in its file once, so that no
// list grows old unseen.
func TestDefectsHaveTheirPlace(t *testing.T) {
	lists, err := filepath.Glob(filepath.Join(root, "testdata", "defects", "*.txt"))
	if err != nil || len(lists) == 0 {
		t.Fatalf("no lists of defects: %v", err)
	}
	for _, list := range lists {
		for _, d := range readDefects(t, list) {
			was, err := os.ReadFile(filepath.Join(root, filepath.FromSlash(d.file)))
			if err != nil {
				t.Errorf("%s: %s: %v", filepath.Base(list), d.name, err)
				continue
			}
			if _, err := d.change(was); err != nil {
				t.Errorf("%s: %s: %s: %v", filepath.Base(list), d.name, d.file, err)
			}
		}
	}
}

// readDefects reads a list. A defect begins with "== name"; "in" names the
// file; "-" and "+" are lines of the old and the new text; of a table, "row"
// has column=value parted by ";", and "cell" is "column: old -> new"; "run"
// names packages, with the tests to run behind a colon, none: all.
func readDefects(t *testing.T, path string) []defect {
	t.Helper()
	file, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	var all []defect
	var d *defect
	scan := bufio.NewScanner(file)
	for line := 1; scan.Scan(); line++ {
		word, rest, _ := strings.Cut(scan.Text(), " ")
		if word == "" || word == "#" {
			continue
		}
		if word == "==" {
			all = append(all, defect{name: rest})
			d = &all[len(all)-1]
			continue
		}
		if d == nil {
			t.Fatalf("%s:%d: %q before the first ==", path, line, scan.Text())
		}
		switch word {
		case "in":
			d.file = rest
		case "-":
			d.old = joined(d.old, rest)
		case "+":
			d.new = joined(d.new, rest)
		case "row":
			d.row = strings.Split(rest, ";")
		case "cell":
			column, change, ok := strings.Cut(rest, ": ")
			old, to, ok2 := strings.Cut(change, " -> ")
			if !ok || !ok2 {
				t.Fatalf("%s:%d: cell is column: old -> new", path, line)
			}
			d.column, d.old, d.new = column, old, to
		case "run":
			d.run = strings.Fields(rest)
		default:
			t.Fatalf("%s:%d: %q is no word of a list", path, line, word)
		}
	}
	if err := scan.Err(); err != nil {
		t.Fatal(err)
	}
	return all
}

func joined(text, line string) string {
	if text == "" {
		return line
	}
	return text + "\n" + line
}

// try runs the tests of d and returns the first package that fails, "" if all
// pass. dir is an empty directory.
func (d *defect) try(dir string) (string, error) {
	target, err := filepath.Abs(filepath.Join(root, filepath.FromSlash(d.file)))
	if err != nil {
		return "", err
	}
	was, err := os.ReadFile(target)
	if err != nil {
		return "", err
	}
	is, err := d.change(was)
	if err != nil {
		return "", fmt.Errorf("%s: %w", d.file, err)
	}
	changed, overlay := filepath.Join(dir, filepath.Base(d.file)), filepath.Join(dir, "overlay.json")
	if err := os.WriteFile(changed, is, 0o600); err != nil {
		return "", err
	}
	text, err := json.Marshal(map[string]map[string]string{"Replace": {target: changed}})
	if err != nil {
		return "", err
	}
	if err := os.WriteFile(overlay, text, 0o600); err != nil {
		return "", err
	}
	if len(d.run) == 0 {
		return "", fmt.Errorf("no package is named to run")
	}
	run := d.run
	if *wide {
		run = append(run[:len(run):len(run)], "./...")
	}
	for _, tests := range run {
		if out, err := goTest(tests); err != nil {
			return "", fmt.Errorf("%s fails without the defect:\n%s", tests, out)
		}
		out, err := goTest(tests, "-overlay="+overlay)
		if bytes.Contains(out, []byte("[build failed]")) || bytes.Contains(out, []byte("[setup failed]")) {
			return "", fmt.Errorf("does not build:\n%s", out)
		}
		if err != nil {
			if testing.Verbose() {
				fmt.Printf("%s\n", out)
			}
			return tests, nil
		}
	}
	return "", nil
}

// goTest runs the tests that a word of a list names. What passed before, unchanged, is not
// run again: the go command remembers it.
func goTest(tests string, flags ...string) ([]byte, error) {
	pkg, expression, _ := strings.Cut(tests, ":")
	args := append([]string{"test", "-vet=off", "-failfast", "-timeout=10m"}, flags...)
	if expression != "" {
		args = append(args, "-run="+expression)
	}
	cmd := exec.Command("go", append(args, pkg)...)
	cmd.Dir = root
	return cmd.CombinedOutput()
}

// change returns the file with the defect in it.
func (d *defect) change(was []byte) ([]byte, error) {
	if d.row == nil {
		if n := bytes.Count(was, []byte(d.old)); n != 1 || d.old == d.new {
			return nil, fmt.Errorf("the old text stands %d times in it, should be once", n)
		}
		return bytes.Replace(was, []byte(d.old), []byte(d.new), 1), nil
	}
	all, err := csv.NewReader(bytes.NewReader(was)).ReadAll()
	if err != nil {
		return nil, err
	}
	column := map[string]int{}
	for i, name := range all[0] {
		column[name] = i
	}
	at, found := 0, 0
	for i, row := range all[1:] {
		same := true
		for _, cell := range d.row {
			name, value, _ := strings.Cut(cell, "=")
			j, ok := column[name]
			if !ok {
				return nil, fmt.Errorf("no column %q", name)
			}
			same = same && row[j] == value
		}
		if same {
			at, found = i+1, found+1
		}
	}
	j, ok := column[d.column]
	if !ok || found != 1 || all[at][j] != d.old || d.old == d.new {
		return nil, fmt.Errorf("%d rows %v, should be one, and column %q should be %q", found, d.row, d.column, d.old)
	}
	all[at][j] = d.new
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	if err := w.WriteAll(all); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}
