package cli

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"rationwright/cmd/rationwright/internal/exit"
	"rationwright/cmd/rationwright/internal/report"
	"rationwright/solver/ration"
)

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no space left") }

// TestOutputKeepsTheOldFile: whatever fails, the target holds its old content
// and nothing is left beside it.
func TestOutputKeepsTheOldFile(t *testing.T) {
	dir := t.TempDir()
	target := filepath.Join(dir, "plan.txt")
	o := &output{out: target}
	for _, content := range []string{"old", "a new and longer content"} {
		if err := o.write([]byte(content)); err != nil {
			t.Fatal(err)
		}
		if got, err := os.ReadFile(target); err != nil || string(got) != content {
			t.Fatalf("read %q, %v, want %q", got, err, content)
		}
	}
	if err := os.Chmod(target, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := o.write([]byte("third")); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Stat(target); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("mode %v, %v, want 0600 kept", info.Mode(), err)
	}
	if err := replaceFile(filepath.Join(dir, "missing", "plan.txt"), nil, []byte("x")); err == nil {
		t.Error("a file was written into a directory that is not there")
	}
	blocked := filepath.Join(dir, "blocked")
	if err := os.MkdirAll(filepath.Join(blocked, "inside"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := replaceFile(blocked, nil, []byte("x")); err == nil {
		t.Error("a directory was replaced by a file")
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	if len(entries) != 2 {
		t.Errorf("%d entries in the directory, want plan.txt and blocked", len(entries))
	}
}

// TestNewFilesRespectUmask: a new file has what the user's mask leaves of read and write
// for all; one that is replaced keeps its own mode, whatever the mask.
func TestNewFilesRespectUmask(t *testing.T) {
	for mask, want := range map[int]os.FileMode{0o000: 0o666, 0o022: 0o644, 0o027: 0o640, 0o077: 0o600} {
		target := filepath.Join(t.TempDir(), "plan.txt")
		before := syscall.Umask(mask)
		err := (&output{out: target}).write([]byte("new"))
		syscall.Umask(before)
		if err != nil {
			t.Fatal(err)
		}
		if info, err := os.Stat(target); err != nil || info.Mode().Perm() != want {
			t.Errorf("under the mask %03o a new file is %v, %v, want %v", mask, info.Mode().Perm(), err, want)
		}
		if err := os.Chmod(target, 0o664); err != nil {
			t.Fatal(err)
		}
		before = syscall.Umask(mask)
		err = (&output{out: target}).write([]byte("again"))
		syscall.Umask(before)
		if info, err2 := os.Stat(target); err != nil || err2 != nil || info.Mode().Perm() != 0o664 {
			t.Errorf("under the mask %03o a file of 664 becomes %v, %v", mask, info.Mode().Perm(), err)
		}
	}
}

// TestOutputIntoAPipe: a pipe is written through and stays a pipe.
func TestOutputIntoAPipe(t *testing.T) {
	pipe := filepath.Join(t.TempDir(), "pipe")
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Fatal(err)
	}
	read := make(chan string, 1)
	go func() {
		text, err := os.ReadFile(pipe)
		if err != nil {
			text = []byte(err.Error())
		}
		read <- string(text)
	}()
	o := &output{out: pipe}
	if err := errors.Join(o.check(&session{}), o.write([]byte("through"))); err != nil {
		t.Fatal(err)
	}
	if got := <-read; got != "through" {
		t.Errorf("%q comes out of it", got)
	}
	if info, err := os.Stat(pipe); err != nil || info.Mode()&os.ModeNamedPipe == 0 {
		t.Errorf("%v, %v, want a pipe still", info, err)
	}
}

func TestOutputReportsAFullDevice(t *testing.T) {
	o := &output{stdout: full{}}
	if err := o.write([]byte("x")); err == nil {
		t.Error("a failed write was not reported")
	}
}

// TestOutcomeOfAPlan: a plan ends well however it was stopped; one that was not found in
// time is told apart from one that was interrupted.
func TestOutcomeOfAPlan(t *testing.T) {
	value := 1.0
	for _, c := range []struct {
		plan        ration.Plan
		interrupted bool
		code        int
	}{
		{ration.Plan{Status: ration.StatusLimit, Value: &value, Totals: &ration.Totals{}}, false, exit.Done}, {ration.Plan{Status: ration.StatusLimit, Value: &value, Totals: &ration.Totals{}}, true, exit.Done},
		{ration.Plan{Status: ration.StatusLimit}, false, exit.Limit}, {ration.Plan{Status: ration.StatusLimit}, true, exit.Interrupted},
		{ration.Plan{Status: ration.StatusInfeasible}, false, exit.NoRation}, {ration.Plan{Status: ration.StatusInfeasible}, true, exit.NoRation},
	} {
		if got := exitCode(planOutcome(&c.plan, c.interrupted)); got != c.code {
			t.Errorf("%s, interrupted %v: exit code %d, want %d", c.plan.Status, c.interrupted, got, c.code)
		}
	}
}

// TestOutcomeOfSharing: a household for which no plan was found in the time is not passed
// over where the others are fed.
func TestOutcomeOfSharing(t *testing.T) {
	for want, codes := range map[int][]int{exit.Done: {exit.Done, exit.Done}, exit.Limit: {exit.Done, exit.Limit}, exit.NoRation: {exit.Limit, exit.NoRation}, exit.BadInput: {exit.BadInput, exit.NoRation}} {
		shared := &report.Shared{}
		for _, code := range codes {
			shared.Households = append(shared.Households, report.SharedTo{Exit: code})
		}
		if got := exitCode(sharedOutcome(shared)); got != want {
			t.Errorf("households that end with %v end with %d together, want %d", codes, got, want)
		}
	}
}

// TestExitCodes runs the program in one process: what it prints where, and how
// it ends.
func TestExitCodes(t *testing.T) {
	for _, c := range []struct {
		name string
		args []string
		code int
	}{
		{"help", []string{"--help"}, exit.Done},
		{"unknown command", []string{"cook"}, exit.Usage},
		{"unknown flag", []string{"needs", "--salt"}, exit.Usage},
		{"missing file", []string{"needs", "--household", filepath.Join(t.TempDir(), "none.csv")}, exit.BadInput},
		{"unknown food", []string{"foods", "show", "nothing of the kind"}, exit.BadInput},
	} {
		var out, messages bytes.Buffer
		if code := Run(c.args, bytes.NewReader(nil), &out, &messages); code != c.code {
			t.Errorf("%s: exit code %d, want %d", c.name, code, c.code)
		}
		if (c.code == exit.Done) != (out.Len() > 0) || (c.code == exit.Done) != (messages.Len() == 0) {
			t.Errorf("%s: %d bytes of result and %d of messages with code %d", c.name, out.Len(), messages.Len(), c.code)
		}
	}
	if code := Run([]string{"needs"}, bytes.NewReader(nil), full{}, &bytes.Buffer{}); code != exit.BadInput {
		t.Errorf("a failed write ends with %d, want %d", code, exit.BadInput)
	}
}
