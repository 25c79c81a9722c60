package nutrients

import (
	"fmt"
	"math"

	"rationwright/nutrients/table"
)

// ages is a range of ages in full months: from Min to under Max.
type ages struct{ Min, Max int }

func (a ages) has(months int) bool { return months >= a.Min && months < a.Max }

// beyondAge is the upper end of an open range of ages, in months.
const beyondAge = 12 * 1000

// agesOf reads the columns age_min_months and age_max_months.
func agesOf(row *table.Row) ages { return agesFrom(row, "age_min_months", "age_max_months") }

// agesFrom reads a range of ages; an empty maximum means no upper bound.
func agesFrom(row *table.Row, from, under string) ages {
	lo, _ := row.Float(from, 0, beyondAge)
	hi, ok := row.Float(under, 0, beyondAge)
	if !ok {
		hi = beyondAge
	}
	return ages{int(lo), int(math.Ceil(hi))}
}

func ageText(months int) string {
	switch {
	case months == 1:
		return "1 month"
	case months < 24:
		return fmt.Sprintf("%d months", months)
	default:
		return fmt.Sprintf("%d years", months/12)
	}
}

// maxAgeYears is the oldest that a household may hold: it only catches slips
// of the pen.
const maxAgeYears = 120

// Ages that part the equations, in months.
const (
	infantBelow  = 12
	toddlerBelow = 3 * 12  // one equation without activity class below three years
	adultFrom    = 19 * 12 // 228
	olderFrom    = 65 * 12
	overSeventy  = 71 * 12 // the tables' stage "over 70 y"
)
