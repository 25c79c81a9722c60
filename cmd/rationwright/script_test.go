package main

import (
	"errors"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/clipperhouse/displaywidth"
	"github.com/rogpeppe/go-internal/testscript"

	"rationwright/cmd/rationwright/internal/sheet"
)

var update = flag.Bool("update", false, "rewrite the expected output inside testdata/script/*.txtar; read the diff")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"rationwright": main})
}

// TestScripts runs the command line as users do: one script a behaviour in
// testdata/script. Beside the usual commands there are
//
//	status N command args…   runs the command, which must exit with code N
//	narrow                   no line of the last output is wider than a table may be
//	calendar FILE N          another program's parser finds N events in the calendar
//	kept OLD NEW N           N events have the same identity in both calendars
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 filepath.Join("..", "..", "testdata", "script"),
		UpdateScripts:       *update,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(env *testscript.Env) error {
			env.Setenv("TZ", "UTC")
			return copyExamples(env.WorkDir)
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"status": status,
			"narrow": narrow,

			"calendar": calendar,
			"kept":     kept,
		},
	})
}

// examples are the households of testdata/examples, found by every script in
// its own directory examples.
var examples = filepath.Join("..", "..", "testdata", "examples")

func copyExamples(dir string) error {
	return os.CopyFS(filepath.Join(dir, "examples"), os.DirFS(examples))
}

// status runs a command and compares its exit code.
func status(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: status N command args…")
	}
	want, err := strconv.Atoi(args[0])
	if err != nil {
		ts.Fatalf("status %q: not a number", args[0])
	}
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("%s: %v", args[1], err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("%s exited with %d, want %d", strings.Join(args[1:], " "), got, want)
	}
}

// narrow checks the width of every line of the last command's output.
func narrow(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 0 {
		ts.Fatalf("usage: narrow")
	}
	text := ts.ReadFile("stdout")
	if text == "" {
		ts.Fatalf("narrow: the last command wrote nothing")
	}
	for line := range strings.Lines(text) {
		if n := displaywidth.String(strings.TrimRight(line, "\n")); n > sheet.MaxColumns {
			ts.Fatalf("%d columns: %s", n, line)
		}
	}
}
