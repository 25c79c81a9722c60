package kinds

import (
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"rationwright/nutrients/table"
)

// mostWord is the longest name of a food that is looked at, in bytes: longer
// text is no name.
const mostWord = 200

// Fold returns the key under which a name is compared with others: lower case,
// without accents and marks, each word in the singular and in one spelling, one
// blank between words. Two names with one key are the same name. What is longer
// than a name can be has the empty key, as has what holds no letter or digit.
func (t *Table) Fold(name string) string { return strings.Join(t.tokens(name), " ") }

// tokens are the folded words of a name.
func (t *Table) tokens(name string) []string {
	var tokens []string
	for _, w := range plainWords(name) {
		tokens = append(tokens, t.spelling.fold(w)...)
	}
	return tokens
}

// plainWords cuts a name into words of letters and digits in lower case without
// accents. An apostrophe parts no word.
func plainWords(name string) []string {
	if len(name) > mostWord {
		return nil
	}
	var words []string
	var b strings.Builder
	end := func() {
		if b.Len() > 0 {
			words = append(words, b.String())
			b.Reset()
		}
	}
	for _, r := range norm.NFKD.String(strings.ReplaceAll(name, "&", " and ")) {
		switch {
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			b.WriteRune(unicode.ToLower(r))
		case unicode.Is(unicode.Mn, r) || r == '\'' || r == '’':
		case r == '%':
			b.WriteString("percent")
		default:
			end()
		}
	}
	end()
	return words
}

// spelling maps a word in the singular to the words that it is read as.
type spelling map[string][]string

func (s spelling) fold(word string) []string {
	one := singular(word)
	if as, ok := s[one]; ok {
		return as
	}
	return []string{one}
}

// singular takes the ending of an English plural off a word. That it also maims
// words that are none (molasses) does no harm: it does so wherever they stand.
func singular(w string) string {
	switch {
	case len(w) > 4 && strings.HasSuffix(w, "ies"):
		return w[:len(w)-3] + "y"
	case len(w) > 4 && hasSuffix(w, "oes", "ches", "shes", "sses", "xes"):
		return w[:len(w)-2]
	case len(w) > 2 && strings.HasSuffix(w, "s") && !hasSuffix(w, "ss", "us", "is"):
		return w[:len(w)-1]
	}
	return w
}

func hasSuffix(s string, suffixes ...string) bool {
	return slices.ContainsFunc(suffixes, func(x string) bool { return strings.HasSuffix(s, x) })
}

func readSpelling() (spelling, error) {
	in, err := embedded("spelling.csv", "written read_as", "note")
	if err != nil {
		return nil, err
	}
	s := spelling{}
	for _, row := range in.Rows {
		as := table.Words(plainWords(row.Text("read_as")), singular)
		for _, w := range plainWords(row.Text("written")) {
			s[singular(w)] = as
		}
	}
	return s, in.Err()
}

// readContainers returns the folded words for containers; those that are true
// may be dropped in front of a name without "of" (tinned carrots).
func (t *Table) readContainers() error {
	in, err := embedded("containers.csv", "container drop_alone", "")
	if err != nil {
		return err
	}
	t.containers = map[string]bool{}
	for _, row := range in.Rows {
		t.containers[t.Fold(row.Text("container"))] = row.Yes("drop_alone")
	}
	return in.Err()
}

// Unpacked returns name without the container that it says in front ("tin of",
// "tinned", "a jar of"), folded; ok is false where it says none.
func (t *Table) Unpacked(name string) (rest string, ok bool) {
	tokens := t.tokens(name)
	start := 0
	if len(tokens) > 1 && (tokens[0] == "a" || tokens[0] == "the" || tokens[0] == "some") {
		start = 1
	}
	for n := 2; n >= 1; n-- { // the longest container first
		if len(tokens) < start+n+1 {
			continue
		}
		alone, known := t.containers[strings.Join(tokens[start:start+n], " ")]
		if !known {
			continue
		}
		rest := tokens[start+n:]
		if rest[0] == "of" && len(rest) > 1 {
			return strings.Join(rest[1:], " "), true
		}
		if alone {
			return strings.Join(rest, " "), true
		}
	}
	if start > 0 {
		return strings.Join(tokens[start:], " "), true
	}
	return "", false
}
