package cli

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"rationwright/foods/stores"
)

// A quantity flag is a number with an optional unit. A plain number is in the
// first unit of its kind whatever --units says, so that the same command means
// the same everywhere.
type quantity struct {
	kind  *quantityKind
	value **float64 // in the first unit of kind; nil until set
}

// quantityKind is what a flag measures. Its word is what help shows for the value.
type quantityKind struct {
	word   string
	units  units
	accept string // the units for a remedy
	check  func(v float64) error
}

// units are those that are known, in small letters, and what v of each is in the unit of
// a plain number.
type units map[string]func(v float64) float64

// The kinds. Factors are exact by definition; their source stands in package
// stores.
var (
	kindWeight = &quantityKind{"kg",
		units{"kg": times(1), "g": times(0.001), "lb": times(stores.KgPerLb), "oz": times(stores.GPerOz / 1000)},
		"a plain number for kg, or one of the units kg, g, lb, oz", limitCheck}
	kindVolume = &quantityKind{"L",
		units{"l": times(1), "ml": times(0.001), "gal": times(stores.LPerGallon), "cuft": times(stores.LPerCubicFoot)},
		"a plain number for L, or one of the units L, mL, gal, cuft", limitCheck}
	kindHeat = &quantityKind{"MJ", units{"mj": times(1), "kj": times(0.001), "kwh": times(stores.MJPerKWh)},
		"a plain number for MJ, or one of the units MJ, kJ, kWh", limitCheck}
	kindMoney    = &quantityKind{"amount", nil, "a plain number in the currency of the prices", limitCheck}
	kindAltitude = &quantityKind{"m", units{"m": times(1), "ft": times(stores.MPerFoot)}, "metres, or feet as 1000ft", altitudeCheck}
	kindTemp     = &quantityKind{"C", units{"c": times(1), "°c": times(1), "f": stores.Celsius, "°f": stores.Celsius},
		"21, 21C or 70F", tempCheck}
)

func times(factor float64) func(float64) float64 {
	return func(v float64) float64 { return v * factor }
}

func limitCheck(v float64) error {
	if v < 0 {
		return fmt.Errorf("a limit cannot be negative")
	}
	return nil
}

// altitudeCheck is of metres above the sea.
func altitudeCheck(v float64) error {
	if lowest, highest := -500.0, 9000.0; v < lowest || v > highest {
		return fmt.Errorf("no place is that high; write metres above the sea")
	}
	return nil
}

// tempCheck is of °C in a store.
func tempCheck(v float64) error {
	if coldest := -40.0; v < coldest {
		return fmt.Errorf("no store is that cold; write °C, or °F as 70F")
	}
	_, err := stores.KeepingFactor(v)
	return err
}

func (q quantity) String() string {
	if q.value == nil || *q.value == nil {
		return ""
	}
	return strconv.FormatFloat(**q.value, 'g', -1, 64)
}

func (q quantity) Type() string { return q.kind.word }

// Set parses text. It refuses non-finite numbers, what no such quantity can be and units
// of another kind.
func (q quantity) Set(text string) error {
	number, unit := splitUnit(text)
	v, err := plainNumber(number)
	if err != nil {
		return err
	}
	if unit != "" {
		in, ok := q.kind.units[strings.ToLower(unit)]
		if !ok {
			return fmt.Errorf("unit %q is not known here; write %s", unit, q.kind.accept)
		}
		v = in(v)
	}
	if err := q.kind.check(v); err != nil {
		return err
	}
	*q.value = &v
	return nil
}

// splitUnit splits "30 gal" into its number and its unit.
func splitUnit(text string) (number, unit string) {
	text = strings.TrimSpace(text)
	end := strings.LastIndexAny(text, "0123456789.")
	return strings.TrimSpace(text[:end+1]), strings.TrimSpace(text[end+1:])
}

// plainNumber parses a finite decimal number: no exponent, hexadecimal,
// underscore, infinity or decimal comma.
func plainNumber(text string) (float64, error) {
	if text == "" {
		return 0, fmt.Errorf("no number; write one such as 12.5")
	}
	for _, r := range text {
		if (r < '0' || r > '9') && r != '.' && r != '-' && r != '+' {
			if r == ',' {
				return 0, fmt.Errorf("write the decimals with a point and no comma between thousands")
			}
			return 0, fmt.Errorf("%q is not a plain number; write one such as 12.5", text)
		}
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		return 0, fmt.Errorf("%q is not a plain number; write one such as 12.5", text)
	}
	return v, nil
}

// fraction is the value of --within: "1%" or 0.01.
type fraction float64

func (f *fraction) String() string {
	if f == nil {
		return ""
	}
	return strconv.FormatFloat(100*float64(*f), 'g', 10, 64) + "%"
}

func (f *fraction) Type() string { return "share" }

// Set parses a percentage or a fraction below 1.
func (f *fraction) Set(text string) error {
	number, percent := strings.CutSuffix(strings.TrimSpace(text), "%")
	v, err := plainNumber(strings.TrimSpace(number))
	if err != nil {
		return err
	}
	switch {
	case v < 0:
		return fmt.Errorf("a share cannot be negative")
	case percent:
		v /= 100
	case v >= 1:
		return fmt.Errorf("%s means %s %%; write %s%% or a fraction such as 0.01", text, decimalsOf(100*v), text)
	}
	if v > 1 {
		return fmt.Errorf("more than 100 %%; write a share such as 1%%")
	}
	*f = fraction(v)
	return nil
}

func decimalsOf(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// seconds is the value of --time: a duration such as 10s or 2m, or a plain
// number of seconds.
type seconds time.Duration

func (s *seconds) String() string {
	if s == nil || *s == 0 {
		return "" // the flag's help says what is taken then
	}
	return time.Duration(*s).String()
}

func (s *seconds) Type() string { return "time" }

// Set parses a positive duration of at most a day.
func (s *seconds) Set(text string) error {
	d, err := time.ParseDuration(strings.TrimSpace(text))
	if err != nil {
		v, plainErr := plainNumber(strings.TrimSpace(text))
		if plainErr != nil || v > longestTime.Seconds() {
			return fmt.Errorf("not a time; write it as 10s or 2m")
		}
		d = time.Duration(v * float64(time.Second))
	}
	if d <= 0 || d > longestTime {
		return fmt.Errorf("must be more than 0 and at most %s", longestTime)
	}
	*s = seconds(d)
	return nil
}

// longestTime is the longest a search may be told to run.
const longestTime = 24 * time.Hour
