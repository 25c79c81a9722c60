package shelflist

import (
	"cmp"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"rationwright/nutrients/table"
)

// Item is one line of a list.
type Item struct {
	Count      int     // packs, at least 1
	Counted    bool    // the line says how many
	Part       float64 // of each pack that is left; 1 is full
	Container  string  // can, jar, bag …, "" not said
	Food       string  // the words for the food
	Size       float64 // in Unit on the label of one pack, 0 not said
	Unit       string  // g or mL
	Drained    bool    // Size is what is left when the liquid is poured off
	BestBefore string  // ISO date, "" not said
}

// Fault is what is wrong with a line, and what to do.
type Fault struct {
	Err error
	Fix string
}

func (f *Fault) Error() string { return f.Err.Error() + "; " + f.Fix }
func (f *Fault) Unwrap() error { return f.Err }

// ErrUnclear is wrapped by every fault of a line.
var ErrUnclear = errors.New("not clear")

func unclear(fix, format string, args ...any) *Fault {
	return &Fault{fmt.Errorf("%w: %s", ErrUnclear, fmt.Sprintf(format, args...)), fix}
}

// mostLine is the longest line, in bytes: longer text is no line of a list.
const mostLine = 300

// mostPacks and mostSize bound a line: beyond is a slip.
const (
	mostPacks = 10_000
	leastSize = 1      // g or mL
	mostSize  = 50_000 // g or mL
)

// unitSizes are g or mL of the units of a size. Sources: avoirdupois ounce and pound
// and US fluid ounce by definition (28.349523125 g, 16 oz, 29.5735295625 mL).
var unitSizes = map[string]struct {
	size float64
	unit string
}{
	"g": {1, "g"}, "kg": {1000, "g"}, "oz": {28.349523125, "g"}, "lb": {453.59237, "g"},
	"ml": {1, "mL"}, "cl": {10, "mL"}, "dl": {100, "mL"}, "l": {1000, "mL"}, "floz": {29.5735295625, "mL"},
}

var unitWords = map[string]string{
	"gr": "g", "gram": "g", "grams": "g", "gramme": "g", "grammes": "g", "kilo": "kg", "kilos": "kg", "kilogram": "kg", "kilograms": "kg", "kgs": "kg", "gms": "g", "gm": "g",
	"ounce": "oz", "ounces": "oz", "lbs": "lb", "pound": "lb", "pounds": "lb", "litre": "l", "litres": "l", "liter": "l", "liters": "l",
}

var numberWords = map[string]int{
	"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "dozen": 12,
}

var parts = map[string]float64{
	"half": 0.5, "1/2": 0.5, "½": 0.5, "quarter": 0.25, "1/4": 0.25, "¼": 0.25, "three quarters": 0.75, "three-quarters": 0.75, "3/4": 0.75, "¾": 0.75,
	"a third": 1.0 / 3, "1/3": 1.0 / 3, "⅓": 1.0 / 3, "two thirds": 2.0 / 3, "two-thirds": 2.0 / 3, "2/3": 2.0 / 3, "⅔": 2.0 / 3,
}

// containers are the words for containers, in the singular of the word that is kept.
var containers = map[string]string{
	"can": "can", "tin": "can", "jar": "jar", "bottle": "bottle", "box": "box", "bag": "bag", "sack": "sack", "carton": "carton", "pouch": "pouch", "packet": "packet",
	"pack": "pack", "package": "package", "pkt": "packet", "sachet": "sachet", "tub": "tub", "tube": "tube", "canister": "canister", "bar": "bar", "bucket": "bucket", "drum": "drum",
}

var (
	sizeOf   = regexp.MustCompile(`([0-9]+(?:[.,][0-9]+)?)\s*-?\s*(fl\.?\s*oz|fluid ounces?|kilograms?|kilos?|kgs?|grams?|grammes?|gms?|gr|g|ounces?|oz|pounds?|lbs?|lb|litres?|liters?|ml|cl|dl|l)\.?(?:$|[^\pL0-9])`)
	bestOf   = regexp.MustCompile(`[(,;]?\s*\b(?:best before(?: end)?|best by|bbe|bb|use by|expires|expiry|exp)\b[:.]?\s*([^,;()]*)\)?`)
	partOf   = regexp.MustCompile(`(?:^|\s)(a half|half|a quarter|three[ -]quarters|quarter|a third|two[ -]thirds|1/2|1/4|3/4|1/3|2/3|½|¼|¾|⅓|⅔)(?:[ -](?:full|of))?(?: an?)?(?:\s|$)`)
	timesOf  = regexp.MustCompile(`(?:^|\s)(?:([0-9]+)\s*[x×*]|[x×]\s*([0-9]+))(?:\s|$)`)
	countOf  = regexp.MustCompile(`^([0-9]+)\s+`)
	totalOf  = regexp.MustCompile(`\b(?:in total|total|altogether|all together)\b`)
	bullet   = regexp.MustCompile(`^[\s\-–—•*·☐□]+`)
	halfDoz  = regexp.MustCompile(`^half a dozen\b`)
	drained  = regexp.MustCompile(`\b(?:drained(?: weight)?)\b`)
	fillers  = regexp.MustCompile(`\b(?:each|net|approx|about|per (?:tin|can|jar|bag|box|pack|packet|bottle))\b`)
	thousand = regexp.MustCompile(`[1-9][0-9]{0,2}[.,][0-9]{3}\s*(?:g|ml)\b`)
)

// Parse reads a line. The error is a [*Fault].
func Parse(line string) (Item, error) {
	it := Item{Count: 1, Part: 1}
	if len(line) > mostLine {
		return it, unclear("write one item a line", "longer than %d bytes", mostLine)
	}
	s := strings.ToLower(strings.TrimSpace(table.Composed(line)))
	s = bullet.ReplaceAllString(s, "")
	if m := bestOf.FindStringSubmatchIndex(s); m != nil {
		day, fault := parseBestBefore(strings.TrimSpace(s[m[2]:m[3]]))
		if fault != nil {
			return it, fault
		}
		it.BestBefore = day
		s = s[:m[0]] + " , " + s[m[1]:]
		if bestOf.MatchString(s) {
			return it, unclear("leave one", "two dates")
		}
	}
	total := totalOf.MatchString(s)
	s = totalOf.ReplaceAllString(s, " ")
	it.Drained = drained.MatchString(s)
	s, fault := it.size(s)
	if fault != nil {
		return it, fault
	}
	if s, fault = it.count(fillers.ReplaceAllString(s, " ")); fault != nil {
		return it, fault
	}
	if total {
		it.Size /= float64(it.Count)
	}
	if fault := it.words(s); fault != nil {
		return it, fault
	}
	switch {
	case it.Count < 1 || it.Count > mostPacks:
		return it, unclear(fmt.Sprintf("write 1 to %d packs", mostPacks), "%d packs", it.Count)
	case it.Part < 1 && it.Count > 1:
		return it, unclear("give each open pack a line of its own", "a part of each of %d packs", it.Count)
	case it.Unit != "" && (it.Size < leastSize || it.Size > mostSize):
		return it, unclear("write the grams or millilitres of one pack", "%g %s in a pack", it.Size, it.Unit)
	}
	return it, nil
}

// mark stands in the text where the size was.
const mark = " § "

func (it *Item) size(s string) (string, *Fault) {
	found := sizeOf.FindAllStringSubmatchIndex(s, -1)
	switch {
	case len(found) == 0:
		it.Drained = false // the word is part of a name
		return s, nil
	case len(found) > 1:
		return s, unclear("write one: the grams of a pack", "two sizes, %q and %q", s[found[0][2]:found[0][5]], s[found[1][2]:found[1][5]])
	case thousand.MatchString(s[found[0][2]:found[0][5]]):
		return s, unclear("write it without a separator", "%q could be thousands or a fraction", s[found[0][2]:found[0][5]])
	}
	m := found[0]
	v, err := strconv.ParseFloat(strings.Replace(s[m[2]:m[3]], ",", ".", 1), 64)
	if err != nil {
		return s, unclear("write digits and a decimal point", "%q is no number", s[m[2]:m[3]])
	}
	word := s[m[4]:m[5]]
	if strings.HasPrefix(word, "fl") {
		word = "floz"
	}
	if as, ok := unitWords[word]; ok {
		word = as
	}
	unit := unitSizes[word]
	it.Size, it.Unit = v*unit.size, unit.unit
	if it.Drained {
		s = s[:m[0]] + drained.ReplaceAllString(mark+s[m[5]:], " ")
		return drained.ReplaceAllString(s, " "), nil
	}
	return s[:m[0]] + mark + s[m[5]:], nil
}

// count reads how many packs there are, and what part of one.
func (it *Item) count(s string) (string, *Fault) {
	s = strings.TrimSpace(s)
	if halfDoz.MatchString(s) {
		it.Count, it.Counted = 6, true
		s = strings.TrimSpace(halfDoz.ReplaceAllString(s, ""))
	}
	if m := partOf.FindStringSubmatchIndex(s); m != nil {
		said := s[m[2]:m[3]]
		it.Part = cmp.Or(parts[strings.TrimPrefix(said, "a ")], parts[said])
		s = strings.TrimSpace(s[:m[2]] + " " + s[m[1]:])
		if rest := strings.TrimSpace(s); rest == "a" || strings.HasPrefix(rest, "a ") {
			s = strings.TrimPrefix(rest, "a")
		}
	}
	set := func(n int) *Fault {
		if it.Counted {
			return unclear("write how many packs there are once", "two counts, %d and %d", it.Count, n)
		}
		it.Count, it.Counted = n, true
		return nil
	}
	for m := timesOf.FindStringSubmatchIndex(s); m != nil; m = timesOf.FindStringSubmatchIndex(s) {
		digits := ""
		for _, g := range [][2]int{{m[2], m[3]}, {m[4], m[5]}} {
			if g[0] >= 0 {
				digits = s[g[0]:g[1]]
			}
		}
		n, err := strconv.Atoi(digits)
		if err != nil {
			return s, unclear("write a smaller one", "%s packs", digits)
		}
		if fault := set(n); fault != nil {
			return s, fault
		}
		s = strings.TrimSpace(s[:m[0]] + " " + s[m[1]:])
	}
	if m := countOf.FindStringSubmatch(s); m != nil {
		n, err := strconv.Atoi(m[1])
		if err != nil {
			return s, unclear("write a smaller one", "%s packs", m[1])
		}
		if fault := set(n); fault != nil {
			return s, fault
		}
		return s[len(m[0]):], nil
	}
	first, rest, _ := strings.Cut(s, " ")
	if n, ok := numberWords[first]; ok && rest != "" {
		if first == "a" && strings.HasPrefix(rest, "dozen ") {
			n, rest = 12, strings.TrimPrefix(rest, "dozen ")
		}
		if fault := set(n); fault != nil {
			return s, fault
		}
		return rest, nil
	}
	return s, nil
}

// words reads the container and the words for the food.
func (it *Item) words(s string) *Fault {
	fields := strings.FieldsFunc(s, func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune(",;:()§", r) })
	at := -1
	for i, w := range fields {
		c := containerWord(w)
		if c == "" {
			continue
		}
		if i == 0 || i == len(fields)-1 || fields[i+1] == "of" {
			at, it.Container = i, c
			break
		}
	}
	if at >= 0 {
		rest := fields[at+1:]
		if len(rest) > 0 && rest[0] == "of" {
			rest = rest[1:]
		}
		fields = append(fields[:at:at], rest...)
	}
	for len(fields) > 0 && slices.Contains([]string{"of", "the", "some", "full", "a", "x"}, fields[0]) {
		fields = fields[1:]
	}
	it.Food = strings.Join(fields, " ")
	if it.Food == "" {
		return unclear("write the food, how many packs, and the grams of one: 6 tins of sardines, 120 g", "no food is named")
	}
	for _, w := range fields {
		if strings.ContainsAny(w, "0123456789½¼¾⅓⅔") && !strings.HasSuffix(w, "%") {
			return unclear("write as 6 tins of sardines, 120 g, best before 2027-03", "what does %q stand for?", w)
		}
	}
	return nil
}

func containerWord(w string) string {
	return cmp.Or(containers[w], containers[strings.TrimSuffix(w, "s")], containers[strings.TrimSuffix(w, "es")])
}
