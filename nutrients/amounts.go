package nutrients

import "math"

// Amounts holds one value per table column, per 100 g of a food or per day of
// a person, each in [Nutrient.Unit]. A value may be unknown, which is not
// zero: it counts nothing towards a floor and is reported against a ceiling.
// The zero Amounts is all zeroes, all known; start from [Unknown] when reading.
type Amounts [Count]float64

// Unknown returns Amounts with every value unknown.
func Unknown() Amounts {
	var a Amounts
	for n := range a {
		a[n] = math.NaN()
	}
	return a
}

// Get returns the amount of n and whether it is known.
func (a *Amounts) Get(n Nutrient) (amount float64, known bool) {
	return a[n], !math.IsNaN(a[n])
}

// Known returns the amount of n, or 0 where it is unknown: the safe reading
// towards a floor, never towards a ceiling.
func (a *Amounts) Known(n Nutrient) float64 {
	if math.IsNaN(a[n]) {
		return 0
	}
	return a[n]
}
