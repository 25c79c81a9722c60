package facts

import (
	"regexp"
	"strings"
	"unicode"
)

// Printable makes text from a user's file safe to print: control characters and line
// breaks become spaces, so that a name can neither move the cursor nor break a
// table; marks that are not seen, among them those that turn the direction of a
// line, go. Bytes that are no UTF-8 become U+FFFD.
func Printable(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.IsControl(r) || r == '\u2028' || r == '\u2029':
			return ' '
		case unicode.In(r, unicode.Cf) || strings.ContainsRune(blanks, r):
			return -1
		}
		return r
	}, s)
}

// blanks are letters that show nothing: the Hangul fillers and the empty Braille
// cell.
const blanks = "\u115f\u1160\u3164\uffa0\u2800"

// formula are the characters with which a spreadsheet lets a formula begin, and
// their full-width forms. Common practice, no source.
const formula = "=+-@|%\uff1d\uff0b\uff0d\uff20"

// plainNumber is a text that is a number and nothing else.
var plainNumber = regexp.MustCompile(`^[+-]?[0-9]+(\.[0-9]+)?$`)

// Cell returns text for a cell of a CSV file: clean, and behind an apostrophe
// where a spreadsheet would run it. Numbers stay numbers.
func Cell(s string) string {
	s = Printable(s)
	if t := strings.TrimSpace(s); t != "" && strings.ContainsRune(formula, []rune(t)[0]) && !plainNumber.MatchString(s) {
		return "'" + s
	}
	return s
}
