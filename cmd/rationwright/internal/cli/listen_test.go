package cli

import (
	"bytes"
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"rationwright/cmd/rationwright/internal/exit"
	"strings"
	"testing"
	"time"
)

// TestHeard: a reader passes everything on, and ends as soon as its context does,
// although what it reads from never answers.
func TestHeard(t *testing.T) {
	long := strings.Repeat("household ", 50_000)
	if got, err := io.ReadAll(&heard{ctx: t.Context(), in: strings.NewReader(long)}); err != nil || string(got) != long {
		t.Errorf("read %d of %d bytes, %v", len(got), len(long), err)
	}
	silent, open, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer open.Close() // the end to write to: collected as garbage it would be closed, and the pipe would end
	ctx, stop := context.WithTimeout(t.Context(), 20*time.Millisecond)
	defer stop()
	if _, err := (&heard{ctx: ctx, in: silent}).Read(make([]byte, 9)); !errors.Is(err, context.DeadlineExceeded) {
		t.Errorf("a silent pipe: %v", err)
	}
}

// place runs the program in a directory with a household, a stock and a price file.
func place(t *testing.T) (dir string, run func(code int, says string, args ...string)) {
	t.Helper()
	dir = t.TempDir()
	for name, text := range map[string]string{
		"home.csv": "name,age_years,sex\nSigne,30,f\n", "stock.csv": "pack,count,best_before\n", "price.csv": "pack,price\nwater,1\n",
		"shelves.csv": "shelf,width_cm,depth_cm,height_cm,load_kg\nA,90,40,40,60\n", "foods.csv": "ndb,name,pack\n", "model.mps": "NAME x\n",
		"plan.json": "{}", "old.ics": "BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n",
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir, func(code int, says string, args ...string) {
		t.Helper()
		before := map[string]string{}
		all, _ := filepath.Glob(filepath.Join(dir, "*"))
		for _, name := range all {
			if text, err := os.ReadFile(name); err == nil { // is a file
				before[name] = string(text)
			}
		}
		for i := range args {
			args[i] = strings.ReplaceAll(args[i], "DIR", dir)
		}
		var out, messages bytes.Buffer
		if got := Run(args, bytes.NewReader(nil), &out, &messages); got != code || !strings.Contains(messages.String(), says) {
			t.Errorf("%s: code %d, want %d: %s want %q", strings.Join(args, " "), got, code, messages.String(), says)
		}
		for name, text := range before {
			if now, err := os.ReadFile(name); code != exit.Done && (err != nil || string(now) != text) {
				t.Errorf("%s: %s is not what it was", strings.Join(args, " "), name)
			}
		}
	}
}

// passOver leaves out a test where the file system cannot do what it needs; in the
// pipeline (CI_FILES=1) that is a failure.
func passOver(t *testing.T, err error) {
	t.Helper()
	if os.Getenv("CI_FILES") == "1" {
		t.Fatal(err)
	}
	t.Skip(err)
}

// TestOutOntoInput: no command replaces a file that it reads, by whatever path.
func TestOutOntoInput(t *testing.T) {
	dir, run := place(t)
	if err := os.Symlink("home.csv", filepath.Join(dir, "link.csv")); err != nil {
		passOver(t, err)
	}
	if err := os.Mkdir(filepath.Join(dir, "sub"), 0o755); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"home.csv", "stock.csv", "price.csv", "plan.json"} { // a second name of the same file
		if err := os.Link(filepath.Join(dir, name), filepath.Join(dir, "sub", "hard-"+name)); err != nil {
			passOver(t, err)
		}
	}
	const says = "is read and would be replaced"
	for _, args := range []string{
		"needs --household DIR/home.csv --out DIR/home.csv",
		"needs --household DIR/home.csv --out DIR/link.csv",
		"needs --household DIR/link.csv --out DIR/home.csv",
		"needs --household DIR/home.csv --out DIR/sub/../home.csv",
		"plan --household DIR/home.csv --out DIR/home.csv",
		"plan --household DIR/home.csv --prices DIR/price.csv --out DIR/price.csv",
		"plan --household DIR/home.csv --stock DIR/stock.csv --out DIR/stock.csv",
		"plan --household DIR/home.csv --shelves DIR/shelves.csv --out DIR/shelves.csv",
		"plan --household DIR/home.csv --foods DIR/foods.csv --out DIR/foods.csv",
		"export --household DIR/home.csv --out DIR/home.csv",
		"check --household DIR/home.csv --stock DIR/stock.csv --out DIR/stock.csv",
		"foods list --prices DIR/price.csv --out DIR/price.csv",
		"swap --plan DIR/plan.json --drop raisins --out DIR/plan.json",
		"why --plan DIR/plan.json --out DIR/plan.json",
		"stores --plan DIR/plan.json --out DIR/plan.json",
		"rotate --stock DIR/stock.csv --out DIR/stock.csv",
		"rotate --stock DIR/stock.csv --format ics --earlier DIR/old.ics --out DIR/old.ics",
		"solve DIR/model.mps --out DIR/model.mps",
		"needs --household DIR/home.csv --out DIR/sub/hard-home.csv",
		"needs --household DIR/sub/hard-home.csv --out DIR/home.csv",
		"plan --household DIR/home.csv --prices DIR/price.csv --out DIR/sub/hard-price.csv",
		"check --household DIR/home.csv --stock DIR/stock.csv --out DIR/sub/hard-stock.csv",
		"why --plan DIR/plan.json --out DIR/sub/hard-plan.json",
	} {
		run(exit.BadInput, says, strings.Fields(args)...)
	}
	if err := os.Link(filepath.Join(dir, "home.csv"), filepath.Join(dir, "home.svg")); err != nil {
		t.Fatal(err)
	}
	run(exit.BadInput, says, strings.Fields("plan --compare --frontier cost-weight --household DIR/home.svg --plot DIR/home.svg")...)
	run(exit.Usage, "is to hold two answers", strings.Fields("plan --compare --frontier cost-weight --out DIR/x.svg --plot DIR/sub/../x.svg")...)
}

// TestPlaces: where nothing can be written is found before anything is read, told by
// the name that the user gave.
func TestPlaces(t *testing.T) {
	dir, run := place(t)
	if err := os.Symlink("nowhere", filepath.Join(dir, "dangling")); err != nil {
		passOver(t, err)
	}
	run(exit.BadInput, "dangling: is a link to nothing", "needs", "--household", "missing.csv", "--out", dir+"/dangling")
	run(exit.BadInput, "there is no directory", "needs", "--household", "missing.csv", "--out", dir+"/none/x")
	run(exit.BadInput, "/proc/x: cannot be written", "needs", "--household", "missing.csv", "--out", "/proc/x")
	if info, err := os.Lstat(filepath.Join(dir, "dangling")); err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Error("the link is gone")
	}
	// What a process that is no more has left goes, what one that lives writes stays.
	dead, alive := filepath.Join(dir, temporaryPrefix+"2147483646-0"), filepath.Join(dir, temporaryPrefix+"1-0")
	for _, name := range []string{dead, alive} {
		if err := os.WriteFile(name, nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	run(exit.Done, "", "needs", "--household", dir+"/home.csv", "--out", dir+"/needs.txt")
	if _, err := os.Stat(dead); err == nil {
		t.Error("a file left over is still there")
	}
	if _, err := os.Stat(alive); err != nil {
		t.Error("a file of a living process is gone")
	}
}

// TestWholeFlags: whole numbers are decimal in every flag, and bounded.
func TestWholeFlags(t *testing.T) {
	_, run := place(t)
	for _, flag := range []string{"plan --days", "plan --pets", "stores --devices", "rotate --stock DIR/stock.csv --months"} {
		for _, bad := range []string{"0x10", "0b11", "0o7", "1_000", "1.5", "ten", "", "99999999999999999999", "-1"} {
			run(exit.Usage, "--"+strings.SplitN(flag, "--", 3)[strings.Count(flag, "--")], append(strings.Fields(flag), bad)...)
		}
	}
	var n int
	if err := (whole{&n, 1, 365}).Set("014"); err != nil || n != 14 {
		t.Errorf("014 is %d, %v; want fourteen", n, err)
	}
	for text, want := range map[string]bool{"0": false, "1": true, "365": true, "366": false} {
		if err := (whole{&n, 1, 365}).Set(text); (err == nil) != want {
			t.Errorf("%s of 1 to 365: taken %v, want %v (%v)", text, err == nil, want, err)
		}
	}
}

// TestForeignText: nothing that a file or its name holds reaches a terminal as it is.
func TestForeignText(t *testing.T) {
	dir := t.TempDir()
	bad := "\x1b[31m\u202ered\u200b\a\u0085"
	file := filepath.Join(dir, "a"+bad+".csv")
	if err := os.WriteFile(file, []byte("name,age_years,sex,"+strings.ReplaceAll(bad, "\u0085", "")+"\n\x1b[2JSigne,x,f,\n"), 0o644); err != nil {
		passOver(t, err)
	}
	for _, args := range [][]string{{"needs", "--household", file}, {"needs", "--household", "none" + bad}, {"needs", bad}, {"foods", "show", bad}, {"needs", "--out", dir + "/none" + bad + "/x"}, {"help", bad}} {
		var out, messages bytes.Buffer
		if code := Run(args, bytes.NewReader(nil), &out, &messages); code == exit.Done {
			t.Errorf("%q was taken", args)
		}
		if at := strings.IndexAny(messages.String()+out.String(), "\x1b\u202e\u200b\a\u0085"); at >= 0 || messages.Len() == 0 {
			t.Errorf("%q: %q", args, messages.String())
		}
	}
}

func TestHelpOfNothing(t *testing.T) {
	_, run := place(t)
	run(exit.Usage, `there is no command "nosuch"`, "help", "nosuch")
	run(exit.Usage, `there is no command "foods nosuch"`, "help", "foods", "nosuch")
	run(exit.Done, "", "help", "foods", "list")
	run(exit.Done, "", "help")
	for _, args := range [][]string{{"--help"}, {"--version"}, {"help", "plan"}, {"foods", "list"}} {
		var messages bytes.Buffer
		if code := Run(args, bytes.NewReader(nil), full{}, &messages); code != exit.BadInput || !strings.Contains(messages.String(), "standard output cannot be written to: no space left") {
			t.Errorf("%s to a full device: code %d, %s", args, code, messages.String())
		}
	}
}
