package foods

import (
	"cmp"
	"slices"
	"strings"

	"rationwright/foods/kinds"
)

// Table is the food table of one request: every food in ascending order of
// its key, every pack by key, every supply that is no food.
type Table struct {
	sizes    string // the market whose packs can be bought
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
	Taken      string // what a line in people's words was taken for, "" for a row by key
}

// Supply is something in store that is no food: water, fuel, and the goods
// that are renewed, such as batteries. Its physical figures are in package
// stores, its name and price here, so that price and stock files know it.
type Supply struct {
	Key      string // the word of the pack column in price and stock files
	What     string // in words
	Unit     string // what one of it is: L, MJ, cartridge …
	Price    float64
	HasPrice bool // it costs something in a plan and may stand in a price file
	Currency string
	Invented bool // price invented for the demo
	Source   string
	Verified string
}

// StoredWater is the supply of stored water, in litres.
const StoredWater = "water"

// Clone returns a copy of the table with foods, packs and supplies of its own, see
// [Load].
func (t *Table) Clone() *Table {
	c := *t
	c.Foods = make([]*Food, len(t.Foods))
	c.Packs = make([]*Pack, len(t.Packs))
	foods := make(map[*Food]*Food, len(t.Foods))
	packs := make(map[*Pack]*Pack, len(t.Packs))
	for i, f := range t.Foods {
		copied := *f
		copied.Packs = nil
		c.Foods[i], foods[f] = &copied, &copied
	}
	for i, p := range t.Packs {
		copied := *p
		copied.Food = foods[p.Food]
		c.Packs[i], packs[p] = &copied, &copied
	}
	c.Supplies = make([]*Supply, len(t.Supplies))
	for i, s := range t.Supplies {
		copied := *s
		c.Supplies[i] = &copied
	}
	for _, f := range t.Foods {
		own := foods[f]
		for _, p := range f.Packs {
			own.Packs = append(own.Packs, packs[p])
		}
	}
	return &c
}

// sort puts foods in order of their keys, packs in order of theirs, and the
// packs of each food from the smallest to the largest.
func (t *Table) sort() {
	slices.SortStableFunc(t.Foods, func(a, b *Food) int { return strings.Compare(a.NDB, b.NDB) })
	slices.SortStableFunc(t.Packs, func(a, b *Pack) int { return strings.Compare(a.Key, b.Key) })
	for _, f := range t.Foods {
		f.folded = t.kinds.Fold(f.Name)
		slices.SortStableFunc(f.Packs, func(a, b *Pack) int {
			return cmp.Or(cmp.Compare(a.NetG, b.NetG), strings.Compare(a.Key, b.Key))
		})
	}
}

// byNDB returns the food with the key, nil when there is none.
func (t *Table) byNDB(ndb string) *Food {
	for _, f := range t.Foods {
		if strings.EqualFold(f.NDB, ndb) {
			return f
		}
	}
	return nil
}
