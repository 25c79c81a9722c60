package sheet

import (
	"strings"

	"github.com/clipperhouse/displaywidth"

	"rationwright/cmd/rationwright/internal/facts"
)

// width returns the columns s takes in a terminal.
func width(s string) int { return displaywidth.String(s) }

// pad returns s with spaces up to n columns, on the left if right is set.
func pad(s string, n int, right bool) string {
	fill := strings.Repeat(" ", max(0, n-width(s)))
	if right {
		return fill + s
	}
	return s + fill
}

// wrap breaks s at spaces into lines of at most n columns. A word longer than n
// is broken behind a hyphen, and cut only where it has none. It returns at least one line.
func wrap(s string, n int) []string {
	n = max(n, 1)
	var lines []string
	line := ""
	for word := range strings.FieldsSeq(facts.Printable(s)) {
		for width(word) > n {
			head := prefix(word, n)
			if at := strings.LastIndex(head, "-"); at > 0 {
				head = head[:at+1]
			}
			if line != "" {
				lines, line = append(lines, line), ""
			}
			lines = append(lines, head)
			word = word[len(head):]
		}
		switch {
		case word == "":
		case line == "":
			line = word
		case width(line)+1+width(word) <= n:
			line += " " + word
		default:
			lines, line = append(lines, line), word
		}
	}
	if line != "" || len(lines) == 0 {
		lines = append(lines, line)
	}
	return lines
}

// prefix returns the longest start of s of at most n columns, but at least one
// grapheme, so that wrapping always moves on.
func prefix(s string, n int) string {
	end, used := 0, 0
	for g := displaywidth.StringGraphemes(s); g.Next(); {
		w := g.Width()
		if end > 0 && used+w > n {
			break
		}
		end += len(g.Value())
		used += w
	}
	return s[:end]
}
