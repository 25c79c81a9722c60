package nutrients

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// ErrUnit is wrapped by every unit that cannot be converted exactly.
var ErrUnit = errors.New("nutrients: unit does not fit")

// Exact factors between units.
const (
	kJPerKcal       = 4.184        // thermochemical calorie, by definition
	gPerOunce       = 28.349523125 // avoirdupois ounce, by definition
	iuPerUgVitaminD = 40           // 1 µg vitamin D = 40 IU: IOM DRI, Calcium and Vitamin D (2011); note of data/dri.csv
	mgPerG          = 1000
	ugPerMg         = 1000
)

// massMg is the size of each unit of mass in mg.
var massMg = map[string]float64{"g": mgPerG, "mg": 1, "µg": 1.0 / ugPerMg, "oz": gPerOunce * mgPerG}

// canonicalUnit returns unit in the spelling of this package: lower-case but
// for DFE, RAE, NE and IU, "µg" for ug and mcg, nothing after "/day".
func canonicalUnit(unit string) string {
	u := strings.ToLower(strings.Join(strings.Fields(unit), " "))
	u = strings.ReplaceAll(u, "μ", "µ") // Greek letter to the unit sign
	for _, perDay := range []string{"/day", "/d", " a day", " per day"} {
		if cut, ok := strings.CutSuffix(u, perDay); ok {
			u = strings.TrimSpace(cut)
			break
		}
	}
	head, tail, _ := strings.Cut(u, " ")
	switch head {
	case "ug", "mcg":
		head = "µg"
	case "iu":
		head = "IU"
	case "kj":
		head = "kJ"
	}
	switch tail {
	case "dfe", "rae", "ne":
		tail = strings.ToUpper(tail)
	}
	return strings.TrimSpace(head + " " + tail)
}

// ToColumn converts an amount of n in unit into n's own unit, the unit of its
// column in the food table. It converts between g, mg, µg and oz, between kJ
// and kcal, and IU of vitamin D; µg of vitamin A and folate are taken as µg
// RAE and µg DFE. Everything else that is not the unit itself fails with
// [ErrUnit]: IU of vitamin A, for one, has no exact equivalent, and niacin
// equivalents count tryptophan, which the column does not.
func ToColumn(n Nutrient, amount float64, unit string) (float64, error) {
	from, to := canonicalUnit(unit), n.Unit()
	if from == to {
		return amount, nil
	}
	switch {
	case n == Energy && from == "kJ":
		return amount / kJPerKcal, nil
	case n == VitaminD && from == "IU":
		return amount / iuPerUgVitaminD, nil
	case n == VitaminDIU && from == "µg":
		return amount * iuPerUgVitaminD, nil
	}
	head, _, _ := strings.Cut(to, " ") // "µg" of "µg RAE"
	size, ok := massMg[from]
	column, fits := massMg[head]
	if !ok || !fits {
		return 0, fmt.Errorf("%w: %q for %s, which is in %s", ErrUnit, unit, n, to)
	}
	return amount * size / column, nil
}

// measure writes a height or weight, "" where there is none.
func measure(v float64) string {
	if v == 0 {
		return ""
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// trim rounds an amount to three significant digits for a note.
func trim(v float64) string {
	if v == 0 {
		return "0"
	}
	scale := math.Pow(10, 2-math.Floor(math.Log10(math.Abs(v))))
	return measure(math.Round(v*scale) / scale)
}
