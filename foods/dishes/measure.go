package dishes

import (
	"fmt"
	"math"
	"strings"

	"rationwright/foods"
	"rationwright/nutrients/table"
)

// measure is one household measure of a food: a cup of 240 mL, a tablespoon of 15
// mL, a teaspoon of 5 mL, or a piece.
type measure struct {
	one, many string
	grams     float64
}

// readMeasures returns the measures of data/measures.csv by NDB number.
func readMeasures() (map[string][]measure, error) {
	in, err := table.Embedded(data, "foods/dishes", "measures.csv", fileColumns("ndb measure plural grams table_row", "", false))
	if err != nil {
		return nil, err
	}
	all := map[string][]measure{}
	for _, row := range in.Rows {
		m := measure{one: row.Text("measure"), many: row.Text("plural")}
		m.grams, _ = row.Float("grams", 0.05, mostGrams)
		all[row.Text("ndb")] = append(all[row.Text("ndb")], m)
	}
	return all, in.Err()
}

// Spoons in a US cup of 240 mL as the USDA table of weights has it.
const (
	spoonsPerCup   = 16
	teaPerTable    = 3
	leastTeaspoon  = 0.2 // under which an amount is a pinch
	mostTeaspoons  = 3
	leastPieces    = 0.5
	leastPackShare = 0.15 // under which a quarter of a pack says too much
)

// Measure returns grams of f in household measures, "3/4 cup", "2 tbsp", "5 slices";
// for a food without a measure of its own its share of pack, "a third of the 425 g
// pack"; "" where neither can be said.
func (b *Book) Measure(f *foods.Food, grams float64, pack *foods.Pack) string {
	var cup, tea float64
	for _, m := range b.measures[f.NDB] {
		switch m.one {
		case "cup":
			cup = m.grams
		case "tbsp":
			if tea == 0 {
				tea = m.grams / teaPerTable
			}
		case "tsp":
			tea = m.grams
		default:
			if n := grams / m.grams; n >= leastPieces {
				return counted(n, m.one, m.many)
			}
		}
	}
	if cup == 0 {
		cup = tea * teaPerTable * spoonsPerCup
	}
	if tea == 0 {
		tea = cup / spoonsPerCup / teaPerTable
	}
	switch {
	case cup > 0 && grams >= 0.22*cup:
		return counted(grams/cup, "cup", "cups")
	case cup > 0 && grams >= mostTeaspoons*tea:
		return counted(grams/tea/teaPerTable, "tbsp", "tbsp")
	case cup > 0 && grams >= leastTeaspoon*tea:
		return counted(grams/tea, "tsp", "tsp")
	case cup > 0:
		return "a pinch"
	}
	if pack != nil && grams >= leastPackShare*pack.NetG {
		return counted(grams/pack.NetG, "of a pack", "packs")
	}
	return ""
}

// shares are the parts of a measure that a kitchen has.
var shares = []struct {
	value float64
	text  string
}{{0, ""}, {0.25, "1/4"}, {1. / 3, "1/3"}, {0.5, "1/2"}, {2. / 3, "2/3"}, {0.75, "3/4"}, {1, ""}}

// counted writes n of a measure to the nearest share of it; from four on to the
// nearest half, from ten on to the nearest whole.
func counted(n float64, one, many string) string {
	switch {
	case n >= 10:
		n = math.Round(n)
	case n >= 4:
		n = math.Round(n*2) / 2
	}
	whole := math.Floor(n)
	best := shares[0]
	for _, s := range shares {
		if math.Abs(n-whole-s.value) < math.Abs(n-whole-best.value) {
			best = s
		}
	}
	if best.value == 1 {
		whole, best = whole+1, shares[0]
	}
	var words []string
	if whole > 0 {
		words = append(words, fmt.Sprintf("%.0f", whole))
	}
	if best.text != "" {
		words = append(words, best.text)
	}
	unit := one
	if whole+best.value > 1 {
		unit = many
	}
	return strings.Join(append(words, unit), " ")
}
