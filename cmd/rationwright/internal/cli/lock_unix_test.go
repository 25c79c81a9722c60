//go:build unix

package cli

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"rationwright/cmd/rationwright/internal/exit"
)

// A file of lines that another run holds is refused with what to do, and left as it is;
// once that run ends it is free.
func TestBatchRefusesAFileThatIsBeingWritten(t *testing.T) {
	dir := t.TempDir()
	register, lines := filepath.Join(dir, "two.csv"), filepath.Join(dir, "lines.ndjson")
	for name, text := range map[string]string{register: "household,name,age_years,sex\nH1,Ola,34,m\n", lines: "{\"id\":\"there\"}\n"} {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	other, err := os.OpenFile(lines, os.O_RDWR, 0)
	if err != nil {
		t.Fatal(err)
	}
	if err := syscall.Flock(int(other.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); err != nil {
		passOver(t, fmt.Errorf("no locks here: %w", err))
	}
	run := func() (int, string) {
		var stdout, stderr strings.Builder
		code := Run([]string{"batch", "--households", register, "--out", lines, "--standard", "basic", "--days", "3", "--each", "50ms", "--start", "2026-11-25"}, strings.NewReader(""), &stdout, &stderr)
		return code, stderr.String()
	}
	code, said := run()
	text, err := os.ReadFile(lines)
	if err != nil || code != exit.BadInput || !strings.Contains(said, "is being written by another run") || string(text) != "{\"id\":\"there\"}\n" {
		t.Errorf("held by another: exit %d, %q, the file holds %q (%v)", code, said, text, err)
	}
	if err := other.Close(); err != nil {
		t.Fatal(err)
	}
	if code, said := run(); code != 0 {
		t.Errorf("free again: exit %d, %q", code, said)
	}
}
