package kinds

import (
	"cmp"
	"embed"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"

	"rationwright/nutrients/table"
)

// Kind is a named set of foods.
type Kind struct {
	Name  string   // the word that is printed
	Foods []string // NDB numbers of all foods in it, ascending; kinds inside it are written out
	Also  []string // other words for it
	Note  string   // what it holds and leaves out, "" where the name says it
}

// Has reports whether the food with the NDB number lies in the kind.
func (k *Kind) Has(ndb string) bool {
	_, found := slices.BinarySearch(k.Foods, ndb)
	return found
}

// Within reports whether the kind lies wholly inside other, and other holds more.
func (k *Kind) Within(other *Kind) bool {
	if len(k.Foods) >= len(other.Foods) {
		return false
	}
	return !slices.ContainsFunc(k.Foods, func(ndb string) bool { return !other.Has(ndb) })
}

// Table is all kinds and words. It does not change and may be shared.
type Table struct {
	Kinds []*Kind // by name

	spelling   spelling
	containers map[string]bool
	words      map[string]*Kind  // by folded word
	joined     map[string]*Kind  // by folded word without blanks
	sorted     map[string]*Kind  // by folded words in alphabetical order; nil where two kinds share them
	senses     map[string]*Sense // by folded word
	of         map[string][]*Kind
}

// Sense is what a word means that could mean several things.
type Sense struct {
	Word      string
	Means     *Kind   // nil: it must be asked
	CouldMean []*Kind // other meanings, the likeliest first
	Note      string
}

//go:embed data/*.csv
var data embed.FS

// embedded reads one of the embedded tables, of which each row fills some columns and
// may fill others.
func embedded(name, filled, optional string) (*table.Table, error) {
	return table.Embedded(data, "foods/kinds", name, append(table.Filled.Columns(filled), table.Optional.Columns(optional)...))
}

var (
	errTwice   = errors.New("written twice")
	errUnknown = errors.New("no such kind")
)

// Load returns the kinds of data/kinds.csv and the words of data/words.csv. They
// are parsed once. An error means that the embedded data are broken.
var Load = sync.OnceValues(func() (*Table, error) {
	t := &Table{
		words: map[string]*Kind{}, joined: map[string]*Kind{}, sorted: map[string]*Kind{},
		senses: map[string]*Sense{}, of: map[string][]*Kind{},
	}
	var err error
	if t.spelling, err = readSpelling(); err != nil {
		return nil, err
	}
	if err := table.Join(t.readContainers(), t.readKinds()); err != nil {
		return nil, err
	}
	return t, t.readSenses()
})

func (t *Table) readKinds() error {
	in, err := embedded("kinds.csv", "kind foods", "also note")
	if err != nil {
		return err
	}
	for _, row := range in.Rows {
		k := &Kind{Name: row.Text("kind"), Foods: row.List("foods"), Also: row.List("also"), Note: row.Text("note")}
		slices.Sort(k.Foods)
		for i, word := range k.Words() {
			column := "also"
			if i == 0 {
				column = "kind"
			}
			if other := t.addWord(word, k); other != nil && (other != k || i == 0) {
				row.FailValue(column, word, fmt.Errorf("%w: a word of %s", errTwice, other.Name), "leave it with one kind")
			}
		}
		t.Kinds = append(t.Kinds, k)
		for _, ndb := range k.Foods {
			t.of[ndb] = append(t.of[ndb], k)
		}
	}
	slices.SortFunc(t.Kinds, func(a, b *Kind) int { return strings.Compare(a.Name, b.Name) })
	for _, of := range t.of {
		slices.SortFunc(of, func(a, b *Kind) int {
			return cmp.Or(cmp.Compare(len(a.Foods), len(b.Foods)), strings.Compare(a.Name, b.Name))
		})
	}
	return in.Err()
}

// Words are the name of the kind and all other words for it.
func (k *Kind) Words() []string { return append([]string{k.Name}, k.Also...) }

// addWord files a word under its keys; it returns the kind that has it already.
func (t *Table) addWord(word string, k *Kind) (other *Kind) {
	key := t.Fold(word)
	if other = t.words[key]; other != nil {
		return other
	}
	t.words[key] = k
	for key, in := range map[string]map[string]*Kind{joined(key): t.joined, inOrder(key): t.sorted} {
		if has, ok := in[key]; ok && has != k {
			in[key] = nil
		} else {
			in[key] = k
		}
	}
	return nil
}

func joined(key string) string { return strings.ReplaceAll(key, " ", "") }

func inOrder(key string) string {
	words := strings.Fields(key)
	slices.Sort(words)
	return strings.Join(words, " ")
}

func (t *Table) readSenses() error {
	in, err := embedded("words.csv", "word", "means could_mean note")
	if err != nil {
		return err
	}
	for _, row := range in.Rows {
		s := &Sense{Word: row.Text("word"), Note: row.Text("note")}
		kind := func(column, name string) *Kind {
			k := t.words[t.Fold(name)]
			if k == nil {
				row.FailValue(column, name, errUnknown, "write a kind of kinds.csv")
			}
			return k
		}
		key := t.Fold(s.Word)
		if row.Has("means") {
			s.Means = kind("means", row.Text("means"))
			if has := t.words[key]; has != nil && has != s.Means {
				row.Fail("word", fmt.Errorf("%w: a word of %s", errTwice, has.Name), "let it mean one kind")
			}
		} else if has := t.words[key]; has != nil {
			row.Fail("word", fmt.Errorf("%w: a word of %s", errTwice, has.Name), "take it out there: it must be asked")
		}
		for _, name := range row.List("could_mean") {
			s.CouldMean = append(s.CouldMean, kind("could_mean", name))
		}
		if t.senses[key] != nil {
			row.Fail("word", errTwice, "leave one row")
		}
		t.senses[key] = s
	}
	return in.Err()
}

// Kind returns the kind with exactly this name, nil when there is none.
func (t *Table) Kind(name string) *Kind {
	i, found := slices.BinarySearchFunc(t.Kinds, name, func(k *Kind, name string) int { return strings.Compare(k.Name, name) })
	if !found {
		return nil
	}
	return t.Kinds[i]
}

// Of returns the kinds in which the food with the NDB number lies, the smallest
// first; none for a food that is not in the table.
func (t *Table) Of(ndb string) []*Kind { return slices.Clone(t.of[ndb]) }

// Find returns the kind for which word stands. sense, where it is not nil, says
// what else the word could mean; where kind is nil then too, it must be asked.
// Both are nil for a word that means nothing here. Containers in front are not
// dropped, see [Table.Unpacked].
func (t *Table) Find(word string) (kind *Kind, sense *Sense) {
	key := t.Fold(word)
	if key == "" {
		return nil, nil
	}
	if sense = t.senses[key]; sense != nil {
		return sense.Means, sense
	}
	if kind = t.words[key]; kind == nil {
		kind = t.joined[joined(key)]
	}
	if kind == nil {
		kind = t.sorted[inOrder(key)]
	}
	if kind == nil {
		return nil, nil
	}
	if own := t.senses[t.Fold(kind.Name)]; own != nil && own.Means == kind {
		sense = own // what is said of the kind's name holds of its other words
	}
	return kind, sense
}

// Holds returns the kinds that lie within k, by name.
func (k *Kind) Holds(all *Table) []*Kind {
	return all.where(func(o *Kind) bool { return o.Within(k) })
}

// Inside returns the kinds within which k lies, by name.
func (k *Kind) Inside(all *Table) []*Kind {
	return all.where(func(o *Kind) bool { return k.Within(o) })
}

func (t *Table) where(is func(*Kind) bool) []*Kind {
	var found []*Kind
	for _, k := range t.Kinds {
		if is(k) {
			found = append(found, k)
		}
	}
	return found
}
