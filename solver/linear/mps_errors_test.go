package linear

import (
	"errors"
	"fmt"
	"strings"
	"testing"
)

// TestErrorsThatAreNotTold: the first twenty errors are told, each by its line, and of the
// others how many there are; where there are a thousand reading has stopped, so that nobody knows.
func TestErrorsThatAreNotTold(t *testing.T) {
	for n, last := range map[int]string{1: "", 19: "", 20: "", 21: "1 error more is not told", 27: "7 errors more", 999: "979 errors more", 1000: "reading stopped", 1200: "reading stopped"} {
		var text strings.Builder
		text.WriteString("NAME t\nROWS\n N cost\n")
		for i := range n {
			fmt.Fprintf(&text, " Q row%d\n", i) // no such kind of row
		}
		text.WriteString("COLUMNS\n x cost 1\nENDATA\n")
		_, err := ReadMPS(t.Context(), "t.mps", strings.NewReader(text.String()))
		var all SyntaxErrors
		if !errors.As(err, &all) {
			t.Fatalf("%d bad rows: %v", n, err)
		}
		told := all
		if errors.Is(err, ErrTooMany) {
			told = all[:len(all)-1]
		}
		if len(told) != min(n, MaxErrors) || told[len(told)-1].Line != 3+len(told) {
			t.Errorf("%d bad rows: %d are told, the last in line %d", n, len(told), told[len(told)-1].Line)
		}
		if end := all[len(all)-1].Problem; errors.Is(err, ErrTooMany) != (last != "") || !strings.HasPrefix(end, last) && !strings.Contains(end, "that "+last) {
			t.Errorf("%d bad rows: at the end %q, want %q", n, end, last)
		}
	}
}
