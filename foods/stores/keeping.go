package stores

import (
	"errors"
	"fmt"
	"math"
	"time"
)

// Faults of keeping times.
var (
	ErrTooHot = errors.New("too hot to store food")
	ErrDay    = errors.New("not a date")
)

// temperatureFigure is one row of temperature.csv.
type temperatureFigure struct {
	key   string
	value float64
	ref   Ref
}

var temperatureFigures = tableOf("temperature", func(r row) temperatureFigure {
	return temperatureFigure{r.Text("key"), r.must("value"), r.ref()}
})

// temperatureRule returns a figure of temperature.csv, see [withKey].
func temperatureRule(key string) (value float64, ref Ref) {
	f := withKey(temperatureFigures(), "temperature", key, func(f *temperatureFigure) string { return f.key })
	return f.value, f.ref
}

// KeepingFactor returns what a steady storage temperature makes of a keeping
// time given for 21 °C:
//
//	2^((21 − T) / 11), at most 2
//
// after the USDA commodity storage table, which halves from 21 to 32 °C for
// most goods and doubles from 21 to 4 °C. The error wraps [ErrTooHot] above
// 35 °C, where no food is stored, and for a temperature that is no number.
func KeepingFactor(tempC float64) (float64, error) {
	hottest, _ := temperatureRule("hottest")
	if math.IsNaN(tempC) || tempC > hottest {
		return 0, fmt.Errorf("%w: %g °C; keep the store under %g °C, cooler is better", ErrTooHot, tempC, hottest)
	}
	reference, _ := temperatureRule("reference")
	halving, _ := temperatureRule("halving")
	most, _ := temperatureRule("gain_cap")
	return min(most, math.Exp2((reference-tempC)/halving)), nil
}

// KeepingDays returns the whole days that goods of months at 21 °C keep at
// tempC, rounded down.
func KeepingDays(months, tempC float64) (int, error) {
	factor, err := KeepingFactor(tempC)
	if err != nil {
		return 0, err
	}
	return int(math.Floor(months*factor*DaysPerMonth + roundingSlack)), nil
}

// parseDay reads an ISO date (2026-01-31).
func parseDay(s string) (time.Time, error) {
	day, err := time.Parse(time.DateOnly, s)
	if err != nil {
		return time.Time{}, fmt.Errorf("%w: %q; write year-month-day, such as 2026-01-31", ErrDay, s)
	}
	return day, nil
}

func isoDay(day time.Time) string { return day.Format(time.DateOnly) }

// daysBetween returns the whole days from a to b.
func daysBetween(a, b time.Time) int { return int(math.Round(b.Sub(a).Hours() / hoursPerDay)) }

const hoursPerDay = 24
