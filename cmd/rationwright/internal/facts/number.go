package facts

import (
	"math"
	"strconv"
)

// csvDigits is how many significant digits a number has in csv: far finer than
// any figure behind it, and free of the last digits of the arithmetic. JSON has
// them all.
const csvDigits = 10

// csvResidue is the size under which a number in csv is what arithmetic leaves of
// nothing: under any price, amount or gap that an answer holds.
const csvResidue = 1e-9

// Number writes v in plain decimals: a spreadsheet rounds for itself.
func Number(v float64) string {
	if math.Abs(v) < csvResidue {
		return "0"
	}
	short, err := strconv.ParseFloat(strconv.FormatFloat(v, 'e', csvDigits-1, 64), 64)
	if err != nil { // out of range: as it is
		short = v
	}
	return strconv.FormatFloat(short, 'f', -1, 64)
}
