package cli

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"rationwright/cmd/rationwright/internal/exit"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// TestComplaints: one problem a line, each with the name of the program; a mistake in the call
// shows how the command is used, one in the input does not; an answer that was written has
// said all.
func TestComplaints(t *testing.T) {
	cmd := &cobra.Command{Use: "plan FILE"}
	usage := "usage: plan FILE\n\"plan --help\" explains every flag.\n"
	for _, c := range []struct {
		err  error
		want string
		code int
	}{
		{nil, "", 0},
		{ended(exit.Done), "", 0},
		{ended(exit.Short), "", 5},
		{fmt.Errorf("here: %w", outcome(4)), "", 4},
		{badInput(nil), "", 0},
		{badInput(errors.New("a.csv:1:1: bad\nb.csv:2:2: \x1b[31mworse\n")), "rationwright: a.csv:1:1: bad\nrationwright: b.csv:2:2:  [31mworse\n", 3},
		{usagef("no %s", "salt"), "rationwright: no salt\n" + usage, 2},
		{badInput(usagef("no salt")), "rationwright: no salt\n" + usage, 2},
		{fmt.Errorf("here: %w", context.Canceled), "rationwright: interrupted before there was an answer\n", 130},
		{badInput(context.Canceled), "rationwright: interrupted before there was an answer\n", 130},
		{errors.New("odd"), "rationwright: odd\n", 1},
	} {
		var said bytes.Buffer
		(&session{stderr: &said}).complain(cmd, c.err)
		if got := exitCode(c.err); said.String() != c.want || got != c.code {
			t.Errorf("%v: %d, %q, want %d, %q", c.err, got, said.String(), c.code, c.want)
		}
	}
	help := exitHelp()
	if !strings.HasPrefix(help, "Exit codes:\n") {
		t.Errorf("%q", help)
	}
	for _, code := range []int{0, 1, 2, 3, 4, 5, 6, 130} {
		if strings.Count(help, fmt.Sprintf("\n  %3d  ", code)) != 1 {
			t.Errorf("code %d does not stand once in\n%s", code, help)
		}
	}
}

// TestBatchProgress: on a terminal a line that is redrawn, elsewhere one now and then: how
// many, how fast and how long yet. 2,010 in a thousand seconds, ten of them before, are 2 a
// second, and 20 more take ten seconds. A warning is said once, and no more than ten.
func TestBatchProgress(t *testing.T) {
	var said bytes.Buffer
	p := newBatchProgress(&session{stderr: &said}, 2030, 10)
	if p.live || p.said.IsZero() || p.began.IsZero() {
		t.Fatalf("%+v", p)
	}
	p.wrote(11)
	if said.Len() != 0 {
		t.Errorf("it speaks at once: %q", said.String())
	}
	p.began, p.said = time.Now().Add(-1000*time.Second), time.Now().Add(-batchEvery)
	p.wrote(2010)
	if got, want := said.String(), "rationwright: 2010 of 2030 households, 2.0 a second, 10s left\n"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	p.wrote(2011)
	if strings.Count(said.String(), "\n") != 1 {
		t.Errorf("it speaks again at once: %q", said.String())
	}
	said.Reset()
	for i := range 30 {
		p.told(fmt.Sprint("warning ", i/2))
	}
	got := strings.Split(strings.TrimSpace(said.String()), "\n")
	if len(got) != 11 || got[0] != "rationwright: warning: warning 0" || got[9] != "rationwright: warning: warning 9" || got[10] != "rationwright: further warnings of households are not repeated" {
		t.Errorf("%q", got)
	}
	var drawn bytes.Buffer
	live := newBatchProgress(&session{stderr: &said}, 50, 10)
	live.progressLine = &progressLine{out: &drawn, live: true}
	said.Reset()
	live.said = time.Time{}
	live.wrote(12)
	if !strings.Contains(drawn.String(), "12 of 50 households, ") || !strings.HasSuffix(drawn.String(), "(Ctrl-C: stop here, --resume goes on)") || said.Len() != 0 {
		t.Errorf("%q, %q", drawn.String(), said.String())
	}
	live.told("bad")
	if !strings.HasSuffix(drawn.String(), "\r\x1b[K") || said.String() != "rationwright: warning: bad\n" {
		t.Errorf("the line is not taken away before a warning: %q", drawn.String())
	}
}

// TestWhoIsIll: whoever is named is in the household, whatever the case of the letters; of one
// who is not, the nearest names are told, or all.
func TestWhoIsIll(t *testing.T) {
	people := []nutrients.Person{{Name: "Signe"}, {Name: "Odd"}, {Name: "Liv"}}
	for _, c := range []struct {
		ill  []string
		want []string
		said string
	}{
		{nil, nil, ""}, {[]string{" liv ", "SIGNE"}, []string{"Liv", "Signe"}, ""},
		{[]string{"Signy"}, nil, `--ill "Signy": nobody in the household is called that; there is Signe`},
		{[]string{"Odd", "Wolfgang"}, nil, `--ill "Wolfgang": nobody in the household is called that; there is Signe, Odd, Liv`},
	} {
		got, err := (&planFlags{ill: c.ill}).sick(people)
		if !slices.Equal(got, c.want) || (err == nil) != (c.said == "") || err != nil && (err.Error() != c.said || exitCode(err) != exit.BadInput) {
			t.Errorf("%q: %q, %v, want %q, %q", c.ill, got, err, c.want, c.said)
		}
	}
}

// TestFlagsBesideAPlan: what decides a plan cannot go with one that is made; the command that
// makes one anew names what the old one was made of.
func TestFlagsBesideAPlan(t *testing.T) {
	cmd := &cobra.Command{Use: "why"}
	var f planFlags
	f.add(cmd.Flags())
	cmd.Flags().Bool("more", false, "")
	if err := cmd.Flags().Parse([]string{"--more", "--time", "3s"}); err != nil {
		t.Fatal(err)
	}
	if err := onlyWithoutPlan(cmd, "time"); err != nil {
		t.Error(err)
	}
	if err := cmd.Flags().Parse([]string{"--days", "3", "--hot"}); err != nil {
		t.Fatal(err)
	}
	if err := onlyWithoutPlan(cmd, "time"); err == nil || !strings.HasPrefix(err.Error(), "--days, --hot cannot go with --plan") || exitCode(err) != exit.Usage {
		t.Error(err)
	}
	rec := &ration.RequestRecord{Prices: [][]string{{"pack"}}, Options: map[string]string{"days": "7", "cook": "warm", "pets": ""}}
	if got, want := madeAnew(rec), "rationwright plan --household FILE --prices FILE --days 7 --cook warm --format json"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if f.asked.Stove == "" || f.asked.Within != 0.01 || f.asked.Time != 3*time.Second || f.asked.Days != 3 || f.asked.Least != ration.LeastCost || f.asked.Cook != ration.CookBoil {
		t.Errorf("%+v", f.asked)
	}
	fs := pflag.NewFlagSet("", pflag.ContinueOnError)
	(&f).addStorage(fs)
	if err := fs.Parse([]string{"--stove", "canister-230", "--ill", "Liv", "--shelves", "s.csv"}); err != nil || f.asked.Stove != "canister-230" || !slices.Equal(f.ill, []string{"Liv"}) || f.shelf != "s.csv" {
		t.Errorf("%v: %+v", err, f)
	}
	if err := fs.Parse([]string{"--stove", "campfire"}); err == nil || f.asked.Stove != "canister-230" {
		t.Errorf("%v: the stove is %s", err, f.asked.Stove)
	}
}

// TestWhereAnswersGo: two answers do not go to one file, by whatever path; a directory and a
// link to nothing are refused; a place that cannot be written to is found before any work, and
// nothing is left there. What a run that was killed left goes, what a running one has stays.
func TestWhereAnswersGo(t *testing.T) {
	dir := t.TempDir()
	path := func(name string) string { return filepath.Join(dir, name) }
	write := writer(t, dir)
	write("old.txt", "old")
	if err := os.Symlink(path("old.txt"), path("link")); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(path("nothing"), path("broken")); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		outs []string
		code int
		said string
	}{
		{[]string{"", "-", ""}, 0, ""}, {[]string{path("new.txt"), path("other.txt")}, 0, ""}, {[]string{path("old.txt")}, 0, ""},
		{[]string{path("old.txt"), path("link")}, exit.Usage, "is to hold two answers"},
		{[]string{path("new.txt"), dir + "/./new.txt"}, exit.Usage, "is to hold two answers"},
		{[]string{dir}, exit.BadInput, "is a directory"}, {[]string{path("broken")}, exit.BadInput, "is a link to nothing"}, {[]string{path("none/x.txt")}, exit.BadInput, "there is no directory"},
	} {
		s := &session{}
		var err error
		for _, out := range c.outs {
			if err = (&output{out: out}).check(s); err != nil {
				break
			}
		}
		if files := len(slices.DeleteFunc(slices.Clone(c.outs), func(out string) bool { return out == "" || out == "-" })); err == nil && len(s.outs) != files {
			t.Errorf("%q: %q are files, want %d", c.outs, s.outs, files)
		}
		if exitCode(err) != c.code || err != nil && !strings.Contains(err.Error(), c.said) {
			t.Errorf("%q: %v, want code %d and %q", c.outs, err, c.code, c.said)
		}
	}
	if text, err := os.ReadFile(path("old.txt")); err != nil || string(text) != "old" {
		t.Errorf("looking whether it can be written to left %q, %v", text, err)
	}
	if err := (&output{out: path("link")}).write([]byte("new")); err != nil {
		t.Fatal(err)
	}
	if text, err := os.ReadFile(path("old.txt")); err != nil || string(text) != "new" {
		t.Errorf("behind the link is %q, %v", text, err)
	}
	own := fmt.Sprintf("%s%d-0", temporaryPrefix, os.Getpid())
	write(own, "")
	write(temporaryPrefix+"notes-1", "")
	write(temporaryPrefix+"99999999-0", "") // no process has so high a number
	f, err := temporary(dir)
	if err != nil || filepath.Dir(f.Name()) != dir || filepath.Base(f.Name()) == own {
		t.Fatalf("%v", err)
	}
	if err := errors.Join(f.Close(), os.Remove(f.Name())); err != nil {
		t.Fatal(err)
	}
	if err := (&output{out: path("new.txt")}).check(&session{}); err != nil {
		t.Fatal(err)
	}
	for name, there := range map[string]bool{own: true, temporaryPrefix + "notes-1": true, temporaryPrefix + "99999999-0": false} {
		if _, err := os.Stat(path(name)); (err == nil) != there {
			t.Errorf("%s is there: %v, want %v", name, err == nil, there)
		}
	}
}

// TestWordsOfFlags: one of some words, said with what else could be; a command that takes no
// argument, and the name of one that is near.
func TestWordsOfFlags(t *testing.T) {
	fs := pflag.NewFlagSet("", pflag.ContinueOnError)
	var word format
	choice(fs, &word, "format", formatTable, "", formatTable, formatCSV)
	if word != formatTable || fs.Lookup("format").Value.Type() != "table|csv" || fs.Lookup("format").DefValue != "table" {
		t.Errorf("%q, %q", word, fs.Lookup("format").Value.Type())
	}
	if err := fs.Set("format", "csv"); err != nil || word != formatCSV {
		t.Errorf("%v, %q", err, word)
	}
	if err := fs.Set("format", "json"); err == nil || word != formatCSV || !strings.Contains(err.Error(), "write table, csv") {
		t.Errorf("%v, %q", err, word)
	}
	for _, c := range []struct {
		args []string
		said string
	}{
		{[]string{"needz"}, `there is no command "needz"; did you mean needs?`},
		{[]string{"cook"}, `there is no command "cook"; "rationwright --help" lists the commands`},
		{[]string{"help", "needz"}, "did you mean needs?"},
		{[]string{"needs", "x"}, `rationwright needs takes no argument such as "x"; its inputs are flags`},
		{[]string{"foods", "show"}, "foods show takes one FOOD; 0 given"},
		{[]string{"foods", "show", "a", "b"}, "foods show takes one FOOD; 2 given"},
		{[]string{"foods"}, "say what to do: foods list"},
		{[]string{"foods", "shov"}, `there is no command "foods shov"; did you mean show?`},
		{[]string{"foods", "list", "--format", "xml"}, "write table, csv, json"},
	} {
		if code, text := said(t, c.args...); code != exit.Usage || !strings.Contains(text, c.said) {
			t.Errorf("%q: %d %q, want %q", c.args, code, text, c.said)
		}
	}
	if code, text := said(t, "--version"); code != 0 || text != "rationwright "+ration.PlanVersion+"\n" {
		t.Errorf("%d %q", code, text)
	}
}
