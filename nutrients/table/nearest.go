package table

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
)

// Nearest returns at most n of words that word may have been meant to be, the
// likeliest first: those within a third of its length in single-letter edits
// (two at least), then those that contain it or that it contains. Case, and
// the difference between space, hyphen and underscore, do not count.
func Nearest(word string, words []string, n int) []string {
	type candidate struct {
		word string
		cost int
	}
	want := fold(word)
	if want == "" || n <= 0 || len(want) > longestWord {
		return nil
	}
	limit := max(2, len([]rune(want))/3)
	var found []candidate
	for _, w := range words {
		have := fold(w)
		if cost := edits(want, have, limit); cost <= limit && cost < len([]rune(want)) {
			found = append(found, candidate{w, cost})
		} else if contains(have, want) {
			found = append(found, candidate{w, limit + 1})
		} else if contains(want, have) {
			found = append(found, candidate{w, limit + 2})
		}
	}
	slices.SortFunc(found, func(a, b candidate) int {
		return cmp.Or(cmp.Compare(a.cost, b.cost), cmp.Compare(len(a.word), len(b.word)), strings.Compare(a.word, b.word))
	})
	found = slices.Compact(found) // words that stand there twice
	best := make([]string, min(n, len(found)))
	for i := range best {
		best[i] = found[i].word
	}
	return best
}

// longestWord is the longest, in bytes, for which near ones are sought: no name is
// that long, and each letter of it costs time for every name there is.
const longestWord = 200

// minPart is the shortest part of a word that counts as contained in another:
// shorter ones sit in everything.
const minPart = 4

func contains(whole, part string) bool {
	return len([]rune(part)) >= minPart && strings.Contains(whole, part)
}

func fold(s string) string {
	return spaces.Replace(strings.ToLower(strings.TrimSpace(Composed(s))))
}

var spaces = strings.NewReplacer("_", " ", "-", " ")

// edits returns the least number of insertions, deletions, replacements and
// swaps of neighbours that turn a into b (optimal string alignment distance),
// or a number above limit as soon as it must be.
func edits(a, b string, limit int) int {
	x, y := []rune(a), []rune(b)
	if len(x)-len(y) > limit || len(y)-len(x) > limit {
		return limit + 1
	}
	before := make([]int, len(y)+1)
	last := make([]int, len(y)+1)
	row := make([]int, len(y)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(x); i++ {
		row[0] = i
		least := i
		for j := 1; j <= len(y); j++ {
			swap := 1
			if x[i-1] == y[j-1] {
				swap = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+swap)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
			least = min(least, row[j])
		}
		if least > limit {
			return limit + 1
		}
		before, last, row = last, row, before
	}
	return last[len(y)]
}

// Words returns what of says of each of list, in its order.
func Words[T any](list []T, of func(T) string) []string {
	var words []string
	for _, one := range list {
		words = append(words, of(one))
	}
	return words
}

// Suggest words the nearest of words as a remedy, such as: did you mean "iron"?
// It is "" when none is near.
func Suggest(word string, words []string) string {
	near := Nearest(word, words, 3)
	if len(near) == 0 {
		return ""
	}
	return "did you mean " + OrList(near) + "?"
}

// OrList joins words as "a", "b" or "c", each in quotes.
func OrList(words []string) string {
	var b strings.Builder
	for i, w := range words {
		switch {
		case i == 0:
		case i == len(words)-1:
			b.WriteString(" or ")
		default:
			b.WriteString(", ")
		}
		b.WriteString(strconv.Quote(w))
	}
	return b.String()
}
