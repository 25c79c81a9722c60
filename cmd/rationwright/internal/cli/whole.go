package cli

import (
	"fmt"
	"strconv"

	"rationwright/nutrients/table"
)

// whole is the value of a flag that is a whole number from lo to hi, always decimal.
type whole struct {
	value  *int
	lo, hi int
}

func (w whole) String() string {
	if w.value == nil {
		return ""
	}
	return strconv.Itoa(*w.value)
}

func (w whole) Type() string { return "N" }

func (w whole) Set(text string) error {
	v, fix, err := table.ParseInt(text)
	if err != nil {
		return fmt.Errorf("%w; %s", err, fix)
	}
	if v < w.lo || v > w.hi {
		return fmt.Errorf("must be %d to %d", w.lo, w.hi)
	}
	*w.value = v
	return nil
}

// Bounds of flags that count: what is above is a slip.
const (
	mostPets    = 1_000
	mostDevices = 10_000
)

// goodDay refuses a --start that is no date.
func goodDay(start string) error {
	if _, fix, err := table.ParseDay(start); err != nil {
		return usagef("--start %q: %w; %s", start, err, fix)
	}
	return nil
}
