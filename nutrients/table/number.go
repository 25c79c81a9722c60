package table

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// ErrNumber is what every number that cannot be read wraps.
var ErrNumber = errors.New("not a number")

var (
	// plainNumber is narrower than strconv.ParseFloat: no NaN, infinity,
	// hexadecimal or underscore.
	plainNumber = regexp.MustCompile(`^[+-]?([0-9]+(\.[0-9]*)?|\.[0-9]+)([eE][+-]?[0-9]{1,3})?$`)
	commaNumber = regexp.MustCompile(`^[+-]?[0-9]+,[0-9]+$`)
	groupNumber = regexp.MustCompile(`^[+-]?[0-9]{1,3}([., '’\x{00a0}\x{202f}][0-9]{3})+([.,][0-9]+)?$`)
	unitNumber  = regexp.MustCompile(`^([+-]?[0-9]+(?:\.[0-9]*)?)\s*([%\pL][\pL/%]*)$`)
)

// ParseFloat reads a decimal number as people write it in tables: digits, one
// decimal point, an optional exponent. It refuses NaN, infinities, hexadecimal
// digits and underscores. The error wraps [ErrNumber] and fix says what to
// write instead.
func ParseFloat(s string) (value float64, fix string, err error) {
	if plainNumber.MatchString(s) {
		value, err := strconv.ParseFloat(s, 64)
		if err != nil {
			return 0, "write a smaller one", fmt.Errorf("%w that can be held", ErrNumber)
		}
		return value + 0, "", nil // + 0 makes -0 a plain 0
	}
	switch m := unitNumber.FindStringSubmatch(s); {
	case commaNumber.MatchString(s):
		point := strings.Replace(s, ",", ".", 1)
		return 0, fmt.Sprintf("write %s", point), fmt.Errorf("%w: it has a decimal comma", ErrNumber)
	case groupNumber.MatchString(s):
		return 0, "write the digits without separators between thousands", fmt.Errorf("%w: its digits are grouped", ErrNumber)
	case m != nil && !strings.EqualFold(m[2], "e") && !strings.EqualFold(m[2], "x"):
		return 0, fmt.Sprintf("write %s alone, in the unit of the column", m[1]), fmt.Errorf("%w alone: %q follows it", ErrNumber, m[2])
	}
	return 0, writeDigits, ErrNumber
}

// What to write instead of what is no number at all.
const (
	writeDigits = "write digits and a decimal point, such as 12.5"
	writeWhole  = "write a whole number in digits, such as 14"
)

// ParseInt reads a whole number, always decimal: 014 is fourteen, and 0x10 or 1_000
// is none. The error wraps [ErrNumber] and fix says what to write instead.
func ParseInt(s string) (value int, fix string, err error) {
	v, fix, err := ParseFloat(s)
	switch {
	case fix == writeDigits:
		return 0, writeWhole, err
	case err != nil:
		return 0, fix, err
	case v != math.Trunc(v):
		return 0, "write a whole number", fmt.Errorf("%w: it is not whole", ErrNumber)
	case math.Abs(v) > 1<<53: // beyond it not every whole number is a float64
		return 0, "write a smaller one", fmt.Errorf("%w that can be held", ErrNumber)
	}
	return int(v), "", nil
}

// ParseDay reads an ISO date (2026-01-31) from 1980 to 2100: what lies beyond is a
// slip. The error wraps [ErrDate] or [ErrRange].
func ParseDay(s string) (day time.Time, fix string, err error) {
	day, err = time.Parse(time.DateOnly, s)
	if err != nil {
		return time.Time{}, "write year-month-day, such as 2026-01-31", ErrDate
	}
	if day.Year() < firstYear || day.Year() > lastYear {
		return time.Time{}, fmt.Sprintf("write a year from %d to %d", firstYear, lastYear), ErrRange
	}
	return day, "", nil
}

const (
	firstYear = 1980
	lastYear  = 2100
)
