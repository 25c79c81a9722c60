package foods

import (
	"errors"
	"fmt"
	"io"

	"rationwright/nutrients/table"
)

// PriceChanges says what a price file did to a table.
type PriceChanges struct {
	Priced   int    // packs with a price from the file
	Invented int    // packs left with an invented demo price
	Currency string // of every price now; "" when the file names none
	Rows     [][]string
	Warnings []string
}

var priceColumns = append(filled("pack price"), columns("currency")...)

// ReadPrices sets the prices of the packs that r names, a file with the
// columns pack, price and, if wanted, currency. Besides packs it may name
// "water", the price of a litre of stored water with its share of a container,
// and the fuels of data/supplies.csv, the price of one can, canister or bottle
// as sold. What it does not name keeps its demo price and stays marked Invented;
// all prices then are taken to be in the currency of the file, as the demo
// currency does not exist.
//
// The error is a [*table.Errors] with every fault of the file: unknown packs
// with the nearest keys, packs named twice, prices that are no positive number,
// more than one currency. The table is then unchanged.
func (t *Table) ReadPrices(file string, r io.Reader) (*PriceChanges, error) {
	in, err := table.Format{Columns: priceColumns, Row: "pack"}.Read(file, r)
	if in == nil {
		return nil, err
	}
	changes := &PriceChanges{}
	prices, lines := map[any]float64{}, map[any]int{} // by pack or supply
	for i, row := range in.Rows {
		price, priced := row.Float("price", 0, mostPrice)
		if priced && price == 0 {
			row.Fail("price", table.ErrRange, "write a price above 0; what you own already goes into the stock file")
		}
		if c := row.Text("currency"); i == 0 {
			changes.Currency = c
		} else if c != changes.Currency {
			row.Fail("currency", errors.New("not the currency of the first row"), "give all prices in one currency")
		}
		key := row.Text("pack")
		p, s := t.pack(fold(key)), t.supply(key)
		var priceOf any = p
		switch {
		case p == nil && s == nil:
			failUnknown(row, "pack", t.unknownItem(key))
			continue
		case p == nil && !s.HasPrice:
			row.Fail("pack", fmt.Errorf("%s has no price in a plan", s.Key), "leave the row out; packs, water and fuels are priced")
			continue
		case p == nil:
			priceOf = s
		}
		if first, twice := lines[priceOf]; twice {
			row.Fail("pack", fmt.Errorf("%w: already in line %d", ErrTwice, first), "leave one price")
			continue
		}
		lines[priceOf], prices[priceOf] = row.Line, price
	}
	if err := in.Err(); err != nil {
		return nil, err
	}
	for _, p := range t.Packs {
		p.Currency = changes.Currency
		if price, ok := prices[p]; ok {
			p.Price, p.HasPrice, p.Invented = price, true, false
			changes.Priced++
		} else if p.HasPrice && p.Invented {
			changes.Invented++
		}
	}
	for _, s := range t.Supplies {
		if !s.HasPrice {
			continue
		}
		if price, ok := prices[s]; ok {
			s.Price, s.Invented = price, false
		}
		s.Currency = changes.Currency
	}
	changes.Rows, changes.Warnings = rowsOf(in, priceColumns), in.Warnings
	return changes, nil
}
