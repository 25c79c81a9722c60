package sheet

import (
	"math"
	"strconv"
	"strings"
)

// Decimals writes v with the given number of decimals and a comma between
// thousands.
func Decimals(v float64, places int) string {
	s := strconv.FormatFloat(math.Abs(v), 'f', places, 64)
	whole, rest, _ := strings.Cut(s, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if v < 0 && strings.Trim(s, "0.") != "" {
		whole = "-" + whole
	}
	return whole + Around(".", rest, "")
}

// Amount writes v to about three digits: 2,104; 56.1; 1.25; 0.03; 0.003.
func Amount(v float64) string {
	switch a := math.Abs(v); {
	case a >= 99.95:
		return Decimals(v, 0)
	case a >= 9.995:
		return Decimals(v, 1)
	case a >= 0.00995:
		return Decimals(v, 2)
	case a >= 0.00005:
		return Decimals(v, 4)
	default:
		return "0"
	}
}

// Figure writes a published limit as a table prints it: no zeros at the end.
func Figure(v float64) string {
	s := Amount(v)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// Money writes an amount of a currency.
func Money(v float64) string { return Decimals(v, 2) }

// Signed writes v with its sign.
func Signed(text string, v float64) string {
	if v > 0 {
		return "+" + text
	}
	return text
}

// GapPercent writes a fraction as a percentage of two digits: "0.83 %", "12 %". A
// gap is rounded up, so that a proof is never said to be better than it is.
func GapPercent(fraction float64) string {
	p := 100 * math.Max(0, fraction)
	switch {
	case p >= 10:
		return Decimals(math.Ceil(p-1e-9), 0) + " %"
	case p >= 1:
		return Decimals(math.Ceil(10*p-1e-9)/10, 1) + " %"
	default:
		return Decimals(math.Ceil(100*p-1e-9)/100, 2) + " %"
	}
}

// Percent writes a fraction in whole per cent, rounded down: 99.9 % of a floor
// is never shown as 100 %.
func Percent(fraction float64) string {
	return Decimals(math.Floor(100*fraction+percentSlack), 0)
}

// percentSlack keeps an amount that equals its floor up to the rounding of
// float64 arithmetic and the plan's own tolerance from showing as 99 %.
const percentSlack = 1e-4
