package cli

import (
	"bytes"
	"os"
	"strings"
	"testing"
	"time"

	"rationwright/solver/search"
)

// TestProgressIsForTerminals: neither a buffer nor a file gets control
// characters.
func TestProgressIsForTerminals(t *testing.T) {
	file, err := os.CreateTemp(t.TempDir(), "log")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	var buffer bytes.Buffer
	for _, line := range []*progressLine{newProgress(&buffer, "kg"), newProgress(file, "kg")} {
		line.show(search.Progress{Value: 1, HasValue: true})
		line.clear()
	}
	if info, err := file.Stat(); err != nil || info.Size() != 0 || buffer.Len() != 0 {
		t.Errorf("%d bytes in the file, %d in the buffer, want none (%v)", info.Size(), buffer.Len(), err)
	}
}

// TestProgressLine: what a terminal would get.
func TestProgressLine(t *testing.T) {
	var out bytes.Buffer
	line := &progressLine{out: &out, live: true, unit: "kg"}
	line.clear()
	if out.Len() != 0 {
		t.Errorf("clearing an empty line wrote %q", out.String())
	}
	line.show(search.Progress{Bound: 12.5, Elapsed: 1500 * time.Millisecond})
	line.show(search.Progress{Bound: 13, Elapsed: 1501 * time.Millisecond}) // too soon: left out
	line.last = time.Time{}
	line.show(search.Progress{Value: 14, HasValue: true, Bound: 13.9, Gap: 0.0072, Elapsed: 2 * time.Second})
	line.clear()
	got := out.String()
	for _, want := range []string{"\r\x1b[K 1.5 s  no plan yet, nothing better than 12.50 kg", "best plan 14.00 kg, within 0.72 % of the best possible"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in %q", want, got)
		}
	}
	if strings.Contains(got, "13.00") {
		t.Error("the line was redrawn at once")
	}
	if !strings.HasSuffix(got, "\r\x1b[K") || strings.Contains(got, "\n") {
		t.Errorf("the line is not taken away: %q", got)
	}
}
