package linear

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// escapeComment is the comment by which [WriteMPS] says, and [ReadMPS] knows,
// that names of the file are escaped: %XX stands for the byte with that
// hexadecimal number. Only files whose names need it carry it, so the names of
// other files, with or without %, are taken as they are.
const escapeComment = "* In names of this file %XX stands for the byte with that hexadecimal number."

// needsEscape says whether a name cannot stand in free form as it is: blanks
// and control characters would end it, and other programs take a first $ or *
// for a comment and a first quote for a marker.
func needsEscape(name string) bool {
	return escapeName(name) != strings.ReplaceAll(name, "%", "%25")
}

// escapeName returns the name with its awkward bytes, and every %, as %XX.
func escapeName(name string) string {
	var b strings.Builder
	for i := 0; i < len(name); {
		c, size := utf8.DecodeRuneInString(name[i:])
		awkward := c == '%' || unicode.IsSpace(c) || !unicode.IsPrint(c) || (c == utf8.RuneError && size == 1) ||
			(i == 0 && strings.ContainsRune(`$*'"`, c))
		if !awkward {
			b.WriteString(name[i : i+size])
		} else {
			for _, x := range []byte(name[i : i+size]) {
				fmt.Fprintf(&b, "%%%02X", x)
			}
		}
		i += size
	}
	return b.String()
}

// unescape undoes escapeName in a file that says its names are escaped.
func (r *mpsReader) unescape(name string) string {
	if !r.escaped || !strings.Contains(name, "%") {
		return name
	}
	var b strings.Builder
	for i := 0; i < len(name); i++ {
		if name[i] == '%' && i+2 < len(name) {
			if x, ok := hexByte(name[i+1], name[i+2]); ok {
				b.WriteByte(x)
				i += 2
				continue
			}
		}
		b.WriteByte(name[i])
	}
	return b.String()
}

func hexByte(high, low byte) (byte, bool) {
	const digits = "0123456789ABCDEF"
	h, l := strings.IndexByte(digits, high), strings.IndexByte(digits, low)
	return byte(h<<4 | l), h >= 0 && l >= 0
}

// freeName returns wanted, or wanted with a number, so that taken lacks it.
func freeName(wanted string, taken map[string]bool) string {
	name := wanted
	for n := 2; taken[name]; n++ {
		name = fmt.Sprintf("%s_%d", wanted, n)
	}
	return name
}
