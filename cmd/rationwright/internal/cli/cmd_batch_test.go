package cli

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/batch"
	"rationwright/cmd/rationwright/internal/exit"
)

// TestSummaryOfARegister: each way to end is counted in its own words, and the run ends with
// the code of the worst: what cannot be read (3) before what cannot be fed (4) before what no
// plan was found for (6). Three gaps of 9 % in all are 3 % on average.
func TestSummaryOfARegister(t *testing.T) {
	for _, c := range []struct {
		total batch.Total
		want  string
		code  int
	}{
		{batch.Total{Households: 1}, "1 households", exit.Done},
		{batch.Total{Households: 4, Gaps: 1, Gap: 0.02, Widest: 0.02}, "4 households; gap 2.00 % on average, 2.00 % at most", exit.Done},
		{batch.Total{Households: 5, Gaps: 3, Gap: 0.09, Widest: 0.05}, "5 households; gap 3.00 % on average, 5.00 % at most", exit.Done},
		{batch.Total{Households: 5, Refusing: 1}, "5 households; 1 with someone whom a clinician must plan for", exit.Done},
		{batch.Total{Households: 5, Short: 1}, "5 households; 1 fed short of a vitamin", exit.Done},
		{batch.Total{Households: 5, Unplanned: 1}, "5 households; 1 without a plan after the work", exit.Limit},
		{batch.Total{Households: 5, Unfed: 1}, "5 households; 1 not fed within the limits", exit.NoRation},
		{batch.Total{Households: 5, Unread: 1}, "5 households; 1 not read or not planned as they are", exit.BadInput},
		{batch.Total{Households: 9, Unfed: 2, Unplanned: 3, Short: 4}, "9 households; 2 not fed within the limits; 3 without a plan after the work; 4 fed short of a vitamin", exit.NoRation},
		{batch.Total{Households: 20, Unread: 2, Unfed: 3, Unplanned: 4, Refusing: 5, Short: 6},
			"20 households; 2 not read or not planned as they are; 3 not fed within the limits; 4 without a plan after the work; 5 with someone whom a clinician must plan for; 6 fed short of a vitamin", exit.BadInput},
	} {
		var said bytes.Buffer
		code := exitCode(summary(&session{stderr: &said}, &c.total))
		if got := said.String(); got != "rationwright: "+c.want+"\n" || code != c.code {
			t.Errorf("%+v: %d, %q, want %d, %q", c.total, code, got, c.code, c.want)
		}
	}
}

// TestWhereLinesBegin: lines go behind what stands there only where that is asked for; a file
// with some of the lines of a run is not overwritten, one with all of them is.
func TestWhereLinesBegin(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "lines.ndjson")
	const register = "household,name,age_years,sex\nH1,Ola,34,m\nH2,Kari,33,f\n"
	scan, err := batch.ScanRegister("village.csv", strings.NewReader(register))
	if err != nil {
		t.Fatal(err)
	}
	const one = `{"id":"H1","status":"unread","exit":3}` + "\n"
	const two = one + `{"id":"H2","status":"unread","exit":3}` + "\n"
	// begin is what the run begins with: the households done, what stands in the file and where
	// the next line goes; start is day one, which is that of the run where none is said.
	begin := func(resume, started bool, reports, day string) (done int, at int64, start string, err error) {
		f := &batchFlags{out: path, resume: resume, started: started, reports: reports}
		asked, err := Asked(t.Context(), []string{"--start", day}, io.Discard)
		if err != nil {
			t.Fatal(err)
		}
		out, total, err := f.begin(&session{ctx: t.Context()}, &output{out: path}, scan, asked)
		if err != nil {
			return 0, 0, "", err
		}
		defer out.Close()
		at, err = out.(io.Seeker).Seek(0, io.SeekCurrent)
		return total.Households, at, asked.Start, err
	}
	put := func(text string) {
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	holds := func(what, want string) {
		t.Helper()
		if text, err := os.ReadFile(path); err != nil || string(text) != want {
			t.Errorf("%s: %q, %v, want %q", what, text, err, want)
		}
	}
	if _, _, _, err := begin(true, false, "", "2026-01-05"); exitCode(err) != exit.BadInput || !strings.Contains(err.Error(), "no run was begun there") {
		t.Errorf("go on with nothing: %v", err)
	}
	if done, at, start, err := begin(false, false, "", "2026-01-05"); done != 0 || at != 0 || start != "2026-01-05" || err != nil {
		t.Errorf("anew: %d, %d, %s, %v", done, at, start, err)
	}
	holds("anew", "")
	note, err := batch.ReadBegun(path)
	if err != nil || note.Households != 2 || note.Start() != "2026-01-05" || string(note.Asked["reports"]) != "false" {
		t.Errorf("the note is %+v, %v", note, err)
	}
	for _, part := range []string{"", one, one + `{"id":"H2"`} { // the last line is not whole
		put(part)
		_, _, _, err := begin(false, false, "", "2026-01-05")
		want := fmt.Sprintf("%s: %d of 2 households of a run stand there; --resume goes on with it, or remove %s.begun to begin anew", path, strings.Count(part, "\n"), path)
		if exitCode(err) != exit.BadInput || strings.TrimSpace(err.Error()) != want {
			t.Errorf("over a part: %v, want %s", err, want)
		}
		holds("over a part", part)
	}
	put(one + `{"id":"H2"`)
	if done, at, start, err := begin(true, false, "", "2026-03-01"); done != 1 || at != int64(len(one)) || start != "2026-01-05" || err != nil {
		t.Errorf("go on on another day: %d, %d, %s, %v", done, at, start, err)
	}
	holds("go on", one)
	if _, _, _, err := begin(true, true, "", "2026-03-01"); exitCode(err) != exit.BadInput || !strings.Contains(err.Error(), "with other: start;") {
		t.Errorf("go on from another day that is said: %v", err)
	}
	if _, _, _, err := begin(true, false, "pages", "2026-01-05"); exitCode(err) != exit.BadInput || !strings.Contains(err.Error(), "with other: reports;") {
		t.Errorf("go on with pages: %v", err)
	}
	put(two)
	if done, at, start, err := begin(true, true, "", "2026-01-05"); done != 2 || at != int64(len(two)) || start != "2026-01-05" || err != nil {
		t.Errorf("go on behind all: %d, %d, %s, %v", done, at, start, err)
	}
	holds("go on behind all", two)
	if done, at, start, err := begin(false, false, "", "2026-03-01"); done != 0 || at != 0 || start != "2026-03-01" || err != nil {
		t.Errorf("anew over all: %d, %d, %s, %v", done, at, start, err)
	}
	holds("anew over all", "")
	if note, err := batch.ReadBegun(path); err != nil || note.Start() != "2026-03-01" {
		t.Errorf("the note of the new run is %+v, %v", note, err)
	}
	for _, plain := range []string{"", "-"} {
		var to bytes.Buffer
		out, total, err := (&batchFlags{out: plain}).begin(&session{stdout: &to}, &output{out: plain}, scan, nil)
		if err != nil || total.Households != 0 {
			t.Fatal(err)
		}
		if _, err := io.WriteString(out, one); err != nil || to.String() != one {
			t.Errorf("to standard output: %q, %v", to.String(), err)
		}
	}
}

// TestUseOfBatch: what does not go together is refused before anything is read; a file, one
// that is yet to be made too, can be gone on with, a device cannot.
func TestUseOfBatch(t *testing.T) {
	dir := t.TempDir()
	there := writer(t, dir)("there.ndjson", "")
	for out, file := range map[string]bool{"": false, "-": false, there: true, filepath.Join(dir, "new.ndjson"): true, os.DevNull: false} {
		if got := (&batchFlags{out: out}).inFile(); got != file {
			t.Errorf("%q is a file: %v, want %v", out, got, file)
		}
		err := (&batchFlags{households: "v.csv", out: out, resume: true}).checkUse()
		if (err == nil) != file || err != nil && (exitCode(err) != exit.Usage || !strings.Contains(err.Error(), "--resume goes on with a file")) {
			t.Errorf("go on with %q: %v", out, err)
		}
	}
	for households, says := range map[string]string{"": "say which register", "-": "cannot be standard input", "v.csv": ""} {
		f := &batchFlags{households: households}
		err := f.checkUse()
		if (err == nil) != (says == "") || err != nil && (exitCode(err) != exit.Usage || !strings.Contains(err.Error(), says)) || f.started {
			t.Errorf("%q: %v, want %q", households, err, says)
		}
	}
	f := &batchFlags{households: "v.csv"}
	f.asked.Start = "2026-01-05"
	if err := f.checkUse(); err != nil || !f.started {
		t.Errorf("a day that is said: %v, %v", err, f.started)
	}
	if f.asked.Start = "soon"; exitCode(f.checkUse()) != exit.Usage {
		t.Error("a day that is none is taken")
	}
	// The directory of pages is made, also in one that is yet to be; nothing is left in it.
	pages := filepath.Join(dir, "all", "pages")
	if err := (&batchFlags{reports: pages}).checkReports(); err != nil {
		t.Error(err)
	}
	if entries, err := os.ReadDir(pages); err != nil || len(entries) != 0 {
		t.Errorf("%v, %v", entries, err)
	}
	if err := (&batchFlags{reports: there}).checkReports(); exitCode(err) != exit.BadInput || !strings.Contains(err.Error(), there+": cannot be written to: ") {
		t.Errorf("a file for pages: %v", err)
	}
	if err := (&batchFlags{}).checkReports(); err != nil {
		t.Error(err)
	}
}

// stopping ends a run with the first line that is written to it, and counts lines.
type stopping struct {
	stop  context.CancelFunc
	lines int
}

func (w *stopping) Write(line []byte) (int, error) {
	w.stop()
	w.lines += bytes.Count(line, []byte{'\n'})
	return len(line), nil
}

// TestBatchInterrupted: what was written stays, and it is said behind how many it ended; only
// a file can be gone on with.
func TestBatchInterrupted(t *testing.T) {
	dir := t.TempDir()
	village := writer(t, dir)("village.csv", "household,name,age_years,sex\nH1,Ola,x,m\nH2,Kari,x,f\n"+strings.Repeat("H3,Per,x,m\n", 3))
	asked, err := Asked(t.Context(), []string{"--start", "2026-01-05"}, io.Discard)
	if err != nil {
		t.Fatal(err)
	}
	for out, more := range map[string]string{"": "", filepath.Join(dir, "a.ndjson"): "; --resume goes on with the next"} {
		f := &batchFlags{households: village, out: out}
		var said bytes.Buffer
		ctx, stop := context.WithCancel(t.Context())
		defer stop()
		s := &session{ctx: ctx, stderr: &said}
		scan, err := f.scan(s)
		if err != nil || scan.Households != 3 {
			t.Fatal(err)
		}
		to := &stopping{stop: stop}
		err = f.plan(s, scan, asked, to, &batch.Total{Households: 1}) // the first is done already
		want := fmt.Sprintf("rationwright: interrupted behind %d of 3 households%s\n", 1+to.lines, more)
		if exitCode(err) != exit.Interrupted || to.lines == 0 || said.String() != want {
			t.Errorf("%q: %v, %q, want %q", out, err, said.String(), want)
		}
	}
}

// TestPagesOfABatch: each household that is fed has a page of its own, one that cannot be read
// has none; the list says what all need together.
func TestPagesOfABatch(t *testing.T) {
	dir := t.TempDir()
	village := writer(t, dir)("village.csv", "household,name,age_years,sex\nH1,Ola,34,m\nH2,Kari,many,f\n")
	pages, list := filepath.Join(dir, "pages"), filepath.Join(dir, "buy.csv")
	var out, errs bytes.Buffer
	code := Run([]string{"batch", "--households", village, "--reports", pages, "--list", list, "--standard", "basic", "--days", "2", "--each", "50ms", "--start", "2026-01-05"}, strings.NewReader(""), &out, &errs)
	if code != exit.BadInput || strings.Count(out.String(), "\n") != 2 || !strings.HasPrefix(out.String(), `{"id":"H1","status":`) || !strings.Contains(errs.String(), "rationwright: 2 households; gap ") {
		t.Fatalf("%d, %s, %s", code, out.String(), errs.String())
	}
	entries, err := os.ReadDir(pages)
	if err != nil || len(entries) != 1 || entries[0].Name() != "household-H1.html" {
		t.Fatalf("%v, %v", entries, err)
	}
	text, err := os.ReadFile(filepath.Join(pages, "household-H1.html"))
	if err != nil || !strings.Contains(string(text), "Ola") || !strings.Contains(string(text), "</html>") {
		t.Errorf("the page is %d bytes, %v", len(text), err)
	}
	if text, err := os.ReadFile(list); err != nil || !strings.HasPrefix(string(text), "row,pack,") || !strings.Contains(string(text), "\nall,,,,,,1,") {
		t.Errorf("%v: %s", err, text)
	}
}
