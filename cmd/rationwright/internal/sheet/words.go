package sheet

import (
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"rationwright/cmd/rationwright/internal/facts"
)

// Count writes a number with its noun.
func Count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return Decimals(float64(n), 0) + " " + many
}

// Capital writes text from a file with a capital first and without a full stop.
func Capital(text string) string {
	text = strings.TrimSuffix(strings.TrimSpace(facts.Printable(text)), ".")
	first, size := utf8.DecodeRuneInString(text)
	if size == 0 {
		return ""
	}
	return string(unicode.ToUpper(first)) + text[size:]
}

// Sentence ends text with a full stop and starts it with a capital.
func Sentence(text string) string {
	text = Capital(text)
	if text == "" || strings.HasSuffix(text, "!") || strings.HasSuffix(text, "?") {
		return text
	}
	return text + "."
}

// Sourced writes a statement with its source in brackets, unless it has none.
func Sourced(text, source string) string {
	text = Sentence(text)
	if source = strings.TrimSuffix(strings.TrimSpace(source), "."); source == "" {
		return text
	}
	return strings.TrimSuffix(text, ".") + " (" + source + ")."
}

// Around writes text between what stands before and after it, or nothing where it is empty.
func Around(before, text, after string) string {
	if text == "" {
		return ""
	}
	return before + text + after
}

// Names joins names in a sentence.
func Names(list []string) string {
	clean := make([]string, len(list))
	for i, name := range list {
		clean[i] = facts.Printable(name)
	}
	if n := len(clean); n > 1 {
		return strings.Join(clean[:n-1], ", ") + " and " + clean[n-1]
	}
	return strings.Join(clean, "")
}

// vitamin finds the letter of a vitamin that a key or a limit names.
var vitamin = regexp.MustCompile(`\bvitamin ([a-z])(\d*)( iu)?\b`)

// Nutrient writes the key of a nutrient, or a limit that holds one, in plain
// words: "vitamin_b6" becomes "vitamin B6".
func Nutrient(key string) string {
	if !strings.Contains(key, " ") {
		key = strings.ReplaceAll(key, "-", " ") // the key of a food group
	}
	return vitamin.ReplaceAllStringFunc(strings.ReplaceAll(facts.Printable(key), "_", " "), func(found string) string {
		return "vitamin " + strings.ToUpper(strings.TrimPrefix(found, "vitamin "))
	})
}
