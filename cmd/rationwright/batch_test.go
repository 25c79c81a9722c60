package main

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"rationwright/solver/rationtest"
)

// A batch that is killed again and again, at any moment, and gone on with each time,
// writes the same bytes as one that nobody disturbed: its lines, its list and its
// pages. -campaign 10 kills ten times, and more households.
func TestBatchIsKilledAndGoesOn(t *testing.T) {
	kills, households := 2, 4
	if *rationtest.Campaign >= 10 {
		kills, households = 10, 40
	}
	dir := t.TempDir()
	var register strings.Builder
	register.WriteString("household,name,age_years,sex,activity\n")
	for i := range households {
		fmt.Fprintf(&register, "H%d,Ola,%d,m,\n", i, 20+i)
		if i%3 == 0 {
			fmt.Fprintf(&register, "H%d,Kari,%d,f,active\n", i, 70-i)
		}
	}
	register.WriteString("bad,Per,x,m,\nalike,Åse,20,m,\n")
	file := filepath.Join(dir, "register.csv")
	if err := os.WriteFile(file, []byte(register.String()), 0o666); err != nil {
		t.Fatal(err)
	}
	batch := func(name string, more ...string) *exec.Cmd {
		args := []string{
			"batch", "--households", file, "--standard", "basic", "--each", "50ms", "--start", "2026-11-25",
			"--out", filepath.Join(dir, name+".ndjson"), "--list", filepath.Join(dir, name+".csv"), "--reports", filepath.Join(dir, name),
		}
		return exec.Command("rationwright", append(args, more...)...)
	}
	began := time.Now()
	if out, err := batch("calm").CombinedOutput(); err == nil || batchCode(err) != 3 {
		t.Fatalf("%v, want exit code 3 for the household that cannot be read: %s", err, out)
	}
	whole := time.Since(began)

	rng := rand.New(rand.NewPCG(17, 2))
	resume := []string{}
	killed, between := 0, 0
	there := func() int { // whole lines
		text, err := os.ReadFile(filepath.Join(dir, "killed.ndjson"))
		if err != nil {
			return 0
		}
		return bytes.Count(text, []byte{'\n'})
	}
	for range kills {
		cmd := batch("killed", resume...)
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		// So many lines more are waited for, or none; then a moment.
		ended := make(chan struct{})
		go func() {
			cmd.Wait() //nolint:errcheck // it was killed
			close(ended)
		}()
		for more := there() + rng.IntN(1+households/kills); there() < more; {
			select {
			case <-ended:
				more = 0
			case <-time.After(time.Millisecond):
			}
		}
		time.Sleep(time.Duration(rng.Int64N(int64(whole) / int64(4*households))))
		if cmd.Process.Kill() == nil {
			killed++
		}
		<-ended
		if n := there(); n > 0 && n < households+2 {
			between++
		}
		if _, err := os.Stat(filepath.Join(dir, "killed.ndjson.begun")); err == nil {
			resume = []string{"--resume"}
		}
		// As a kill in the middle of a write would leave it.
		if out, err := os.OpenFile(filepath.Join(dir, "killed.ndjson"), os.O_WRONLY|os.O_APPEND, 0); err == nil && len(resume) > 0 {
			if _, err := out.WriteString(`{"id":"H`); err != nil {
				t.Fatal(err)
			}
			out.Close()
		}
	}
	if out, err := batch("killed", resume...).CombinedOutput(); batchCode(err) != 3 {
		t.Fatalf("%v, want exit code 3: %s", err, out)
	}
	if killed == 0 || between == 0 {
		t.Errorf("%d runs were killed, %d behind some of the households: the test shows nothing", killed, between)
	}
	pages, err := filepath.Glob(filepath.Join(dir, "calm", "*"))
	if err != nil || len(pages) != households+1 {
		t.Fatalf("%d pages, want %d (%v)", len(pages), households+1, err)
	}
	names := []string{".ndjson", ".csv"}
	for _, page := range pages {
		names = append(names, "/"+filepath.Base(page))
	}
	for _, name := range names {
		calm, err := os.ReadFile(filepath.Join(dir, "calm"+name))
		if err != nil {
			t.Fatal(err)
		}
		other, err := os.ReadFile(filepath.Join(dir, "killed"+name))
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(calm, other) {
			t.Errorf("%s differs after %d kills", name, killed)
		}
	}
	if lines := bytes.Count(mustRead(t, filepath.Join(dir, "killed.ndjson")), []byte("\n")); lines != households+2 {
		t.Errorf("%d lines, want %d", lines, households+2)
	}
	// With nothing left to do, going on changes nothing.
	if out, err := batch("killed", "--resume").CombinedOutput(); batchCode(err) != 3 {
		t.Fatalf("%v, want exit code 3: %s", err, out)
	}
	if !bytes.Equal(mustRead(t, filepath.Join(dir, "killed.ndjson")), mustRead(t, filepath.Join(dir, "calm.ndjson"))) {
		t.Error("the lines differ after going on with nothing left to do")
	}
}

func mustRead(t *testing.T, name string) []byte {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// batchCode is the exit code behind the error of a command.
func batchCode(err error) int {
	if exit, ok := err.(*exec.ExitError); ok {
		return exit.ExitCode()
	}
	return 0
}
