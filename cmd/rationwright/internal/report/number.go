package report

import (
	"math"
	"strconv"
	"strings"
)

// decimals writes v with the given number of decimals and a comma between
// thousands.
func decimals(v float64, places int) string {
	s := strconv.FormatFloat(math.Abs(v), 'f', places, 64)
	whole, rest, _ := strings.Cut(s, ".")
	var b strings.Builder
	if v < 0 && strings.Trim(s, "0.") != "" {
		b.WriteByte('-')
	}
	for i, digit := range whole {
		if i > 0 && (len(whole)-i)%3 == 0 {
			b.WriteByte(',')
		}
		b.WriteRune(digit)
	}
	if rest != "" {
		b.WriteByte('.')
		b.WriteString(rest)
	}
	return b.String()
}

// amount writes v to about three digits: 2,104; 56.1; 1.25; 0.03; 0.003.
func amount(v float64) string {
	switch a := math.Abs(v); {
	case a >= 99.95:
		return decimals(v, 0)
	case a >= 9.995:
		return decimals(v, 1)
	case a >= 0.00995:
		return decimals(v, 2)
	case a >= 0.00005:
		return decimals(v, 4)
	default:
		return "0"
	}
}

// figure writes a published limit as a table prints it: no zeros at the end.
func figure(v float64) string {
	s := amount(v)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// money writes an amount of a currency.
func money(v float64) string { return decimals(v, 2) }

// signed writes v with its sign.
func signed(text string, v float64) string {
	if v > 0 {
		return "+" + text
	}
	return text
}

// share writes a fraction as a percentage of two digits: "0.83 %", "12 %". A
// gap is rounded up, so that a proof is never said to be better than it is.
func gapPercent(fraction float64) string {
	p := 100 * math.Max(0, fraction)
	switch {
	case p >= 10:
		return decimals(math.Ceil(p-1e-9), 0) + " %"
	case p >= 1:
		return decimals(math.Ceil(10*p-1e-9)/10, 1) + " %"
	default:
		return decimals(math.Ceil(100*p-1e-9)/100, 2) + " %"
	}
}

// percent writes a fraction in whole per cent, rounded down: 99.9 % of a floor
// is never shown as 100 %.
func percent(fraction float64) string {
	return decimals(math.Floor(100*fraction+percentSlack), 0)
}

// percentSlack keeps an amount that equals its floor up to the rounding of
// float64 arithmetic and the plan's own tolerance from showing as 99 %.
const percentSlack = 1e-4
