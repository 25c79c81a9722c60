package label

import (
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"rationwright/nutrients/table"
)

// part is one line of a label, or what stands between two semicolons.
type part struct {
	text         string
	line, column int // of its first byte
}

// partsOf cuts a label at line ends, semicolons and bars, and at commas that part
// no digits.
func partsOf(text string) []part {
	var parts []part
	line, lineStart, start := 1, 0, 0
	add := func(end int) {
		raw := text[start:end]
		trimmed := strings.TrimLeft(raw, " \t\r-–•*·")
		if t := strings.TrimRight(trimmed, " \t\r*.:†‡"); t != "" {
			parts = append(parts, part{text: t, line: line, column: start + len(raw) - len(trimmed) - lineStart + 1})
		}
		start = end + 1
	}
	for i := 0; i < len(text); i++ {
		switch text[i] {
		case ';', '|':
			add(i)
		case ',':
			if i+1 < len(text) && text[i+1] == ' ' {
				add(i)
			}
		case '\n':
			add(i)
			line, lineStart = line+1, i+1
		}
	}
	add(len(text))
	return parts
}

// figure is a number of a label; the comma is a decimal comma.
const figure = `([0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)`

var (
	perBasis     = regexp.MustCompile(`(?i)(?:\b(?:per|serving size|portion size)\b.{0,40}?|\bin\s+)` + figure + `\s*(g|ml|oz)\b\)?:?`)
	perServing   = regexp.MustCompile(`(?i)\b(per (serving|portion|pack|slice|piece|bar|can|tin)|serving size)\b`)
	preparedWord = regexp.MustCompile(`(?i)\b(as prepared|prepared as|as consumed|made up|when cooked|when prepared)\b`)
	dvWord       = regexp.MustCompile(`(?i)(%|\b)\s*dv\b|\bnutrition facts\b`)
	nrvWord      = regexp.MustCompile(`(?i)\bnrvs?\b|nutrient reference value`)
	headingWord  = regexp.MustCompile(`\b(nutrition|nutritional|nutrient|nutrients|typical|declaration|amount|daily|servings?|as sold|vitamins|minerals|average|facts)\b`)
	caloriesLine = regexp.MustCompile(`(?i)^calories:?\s+` + figure + `$`)
	added        = regexp.MustCompile(`\badded sugars?\b`)
	amountOf     = regexp.MustCompile(`(?i)(<|≤|less than|under)?\s*` + figure + `\s*(?:(kcal|kj|calories|cal|mg|µg|μg|mcg|ug|g|iu|ml)(?:$|[^\pL])|(%))`)
	grouped      = regexp.MustCompile(`(?:^|[^0-9.,\pL])[1-9][0-9]{0,2}[,. ’'][0-9]{3}\s*(?i:kj|kcal|mg|µg|μg|mcg|ug|iu)`)
)

// amount is a figure with its unit, lower case; less means "less than".
type amount struct {
	value float64
	unit  string
	less  bool
}

// amountsOf returns the figures of a part; fault says which is not certain.
func amountsOf(text string) (amounts []amount, fault string) {
	if m := grouped.FindString(text); m != "" {
		return nil, strconv.Quote(strings.TrimSpace(m)) + " could be thousands or a fraction"
	}
	for rest := text; ; {
		at := amountOf.FindStringSubmatchIndex(rest)
		if at == nil {
			return amounts, ""
		}
		unit, end := "%", at[1]
		if at[6] >= 0 {
			unit, end = strings.ToLower(rest[at[6]:at[7]]), at[7] // what follows may begin the next figure
		}
		if unit == "calories" {
			unit = "kcal"
		}
		amounts = append(amounts, amount{value: mustFloat(rest[at[4]:at[5]]), unit: unit, less: at[2] >= 0})
		rest = rest[end:]
	}
}

// nameOf is what stands before the first figure.
func nameOf(text string) string {
	if at := amountOf.FindStringIndex(text); at != nil {
		return text[:at[0]]
	}
	return text
}

func onlyEnergy(amounts []amount) bool {
	return !slices.ContainsFunc(amounts, func(a amount) bool { return a.unit != "kj" && a.unit != "kcal" && a.unit != "cal" })
}

// mustFloat reads what [figure] matched.
func mustFloat(s string) float64 {
	v, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
	if err != nil {
		panic("label: " + s + " is matched as a figure") // the caller's bug
	}
	return v
}

func nearestWord(name string) string {
	if near := table.Suggest(name, slices.Sorted(maps.Keys(words))); near != "" {
		return near
	}
	return "write the name as on the label, in English, or leave the line out"
}

// shorten cuts what an error quotes.
func shorten(s string) string {
	const most = 60
	if len(s) <= most {
		return s
	}
	return strings.ToValidUTF8(s[:most], "") + "…"
}
