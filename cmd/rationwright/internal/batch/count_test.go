package batch

import (
	"strings"
	"testing"
)

// TestCountWholeLines: lines are counted from the beginning, wherever the file stood, and
// what stands behind the last line end is none.
func TestCountWholeLines(t *testing.T) {
	for text, want := range map[string]int{"": 0, "a": 0, "a\n": 1, "a\nb": 1, "a\nb\n": 2, "\n\n\n": 3, strings.Repeat("0123456789\n", 20_000): 20_000} {
		in := strings.NewReader(text)
		if _, err := in.ReadByte(); err != nil && text != "" {
			t.Fatal(err)
		}
		if got, err := Count(in); got != want || err != nil {
			t.Errorf("%.20q: %d lines, %v, want %d", text, got, err, want)
		}
	}
}
