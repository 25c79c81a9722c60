package foods

import "rationwright/foods/kinds"

// Table is the food table of one request: every food in ascending order of
// its key, every pack by key, every supply that is no food.
type Table struct {
	Foods    []*Food
	Packs    []*Pack
	Supplies []*Supply // water, fuels and goods that are no food

	kinds       *kinds.Table
	caps        *kinds.Caps
	pattern     []patternRow // rows of the daily pattern
	keeping     map[string]*Keeping
	forms       []string // keys of keeping, sorted
	preparation map[string]*Preparation
	containers  map[string]container
	density     map[string]float64 // g/mL by form, the lowest of each
	cups        map[cupKey]float64 // g/mL of foods as they lie in a cup
	tags        []string
	groups      []string // shop groups in shelf order
}

// Groups returns the shop groups in the order in which they stand on the
// shelves of a shop.
func (t *Table) Groups() []string { return append([]string(nil), t.groups...) }

// StockLine is one line of a stock list: packs on hand.
type StockLine struct {
	Pack       *Pack
	Count      float64
	BestBefore string // ISO date, "" unknown
	Place      string
	Opened     string // ISO date, "" unopened
}
