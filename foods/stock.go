package foods

import (
	"errors"
	"fmt"
	"io"

	"rationwright/nutrients/table"
)

// Stock is what a household owns already.
type Stock struct {
	Lines    []StockLine
	WaterL   *float64 // litres of stored water; nil when the file has no row for it
	HeatMJ   *float64 // useful heat of the fuel on hand, MJ; nil when the file has no row for it
	Rows     [][]string
	Warnings []string
}

// The words of the pack column that are no packs: litres of stored water, and
// MJ of useful heat (after stove losses) of the fuel on hand.
const (
	StockWater = "water"
	StockHeat  = "heat"
)

var stockColumns = columns("pack count best_before place opened food grams")

// mostCount bounds the packs of one stock line.
const mostCount = 1e5

// ReadStock reads what is on hand, a file with the columns pack and count and,
// if wanted, best_before and opened (ISO dates) and place. A row that has food
// and grams instead of pack is something filled or put up at home: it becomes a
// pack of that weight that cannot be bought, count of them (1 when empty); its
// jar is not weighed and its shelf litres come from the density of its form.
// The packs water and heat give litres of stored water and MJ of useful heat.
//
// The error is a [*table.Errors] with every fault of the file.
func (t *Table) ReadStock(file string, r io.Reader) (*Stock, error) {
	in, err := table.Format{Columns: stockColumns, Row: "pack on hand"}.Read(file, r)
	if in == nil {
		return nil, err
	}
	if !in.HasColumn("pack") && !in.HasColumn("food") {
		return nil, table.Join(err, &table.Error{File: file, Line: 1, Column: 1, Err: errors.New(`no column "pack"`), Fix: "the header needs pack,count or food,grams"})
	}
	s := &Stock{}
	seen := map[string]int{}
	for _, row := range in.Rows {
		line, ok := t.stockLine(row, s)
		if !ok {
			continue
		}
		key := line.Pack.Key + "\x00" + line.BestBefore + "\x00" + line.Place + "\x00" + line.Opened
		if first, twice := seen[key]; twice {
			row.Fail("pack", fmt.Errorf("%w: line %d has the same pack, dates and place", ErrTwice, first), "add the counts up in one row")
			continue
		}
		seen[key] = row.Line
		s.Lines = append(s.Lines, line)
	}
	if err := in.Err(); err != nil {
		return nil, err
	}
	s.Rows, s.Warnings = rowsOf(in, stockColumns), in.Warnings
	return s, nil
}

// stockLine reads one row; ok is false when it is faulty or is no pack.
func (t *Table) stockLine(row *table.Row, s *Stock) (line StockLine, ok bool) {
	line.Place = row.Text("place")
	faulty := false
	for _, date := range []struct {
		column string
		to     *string
	}{{"best_before", &line.BestBefore}, {"opened", &line.Opened}} {
		day, given := row.Date(date.column)
		if !given {
			faulty = faulty || row.Has(date.column)
			continue
		}
		if day.Year() < firstYear || day.Year() > lastYear {
			row.Fail(date.column, table.ErrRange, fmt.Sprintf("write a year from %d to %d", firstYear, lastYear))
			faulty = true
			continue
		}
		*date.to = day.Format("2006-01-02")
	}
	count, counted := row.Float("count", 0, mostCount)
	switch {
	case row.Has("pack") && (row.Has("food") || row.Has("grams")):
		row.Fail("food", errors.New("this row has a pack too"), "write either pack and count, or food and grams")
		return line, false
	case row.Has("food"):
		return t.homePacked(row, line, count, counted)
	case !row.Has("pack"):
		row.Fail("pack", table.ErrEmpty, "write the key of a pack, or food and grams for what was packed at home")
		return line, false
	}
	if !row.Has("count") {
		row.Fail("count", table.ErrEmpty, "write how many there are")
	}
	switch fold(row.Text("pack")) {
	case StockWater:
		s.WaterL = sum(s.WaterL, count)
		return line, false
	case StockHeat:
		s.HeatMJ = sum(s.HeatMJ, count)
		return line, false
	}
	p, err := t.Pack(row.Text("pack"))
	if err != nil {
		failUnknown(row, "pack", err)
		return line, false
	}
	if !counted || !whole(row, count) {
		return line, false
	}
	line.Pack, line.Count = p, count
	return line, !faulty
}

// Years that dates of a stock list may have: what lies beyond is a slip.
const (
	firstYear = 1980
	lastYear  = 2100
)

func sum(have *float64, add float64) *float64 {
	if have != nil {
		add += *have
	}
	return &add
}

// whole records a count that is not whole: packs of the model are.
func whole(row *table.Row, count float64) bool {
	if count == float64(int(count)) {
		return true
	}
	row.Fail("count", fmt.Errorf("%w: it is not whole", table.ErrNumber), "count full packs, and write food and grams for the rest of an open one")
	return false
}

// homePacked reads a row with food and grams.
func (t *Table) homePacked(row *table.Row, line StockLine, count float64, counted bool) (StockLine, bool) {
	f, err := t.Food(row.Text("food"))
	if err != nil {
		failUnknown(row, "food", err)
		return line, false
	}
	grams, ok := row.Float("grams", leastNetG, mostGrams)
	if !row.Has("grams") {
		row.Fail("grams", table.ErrEmpty, "write the grams of food in it, without the jar")
	}
	if !ok {
		return line, false
	}
	if row.Has("count") && (!counted || !whole(row, count)) {
		return line, false
	}
	if !counted {
		count = 1
	}
	density := t.density[f.Form]
	if density <= 0 {
		density = 1 // as water
	}
	line.Count = count
	line.Pack = &Pack{
		Key:     fmt.Sprintf("%s-%gg-own", f.NDB, grams),
		Food:    f,
		LabelG:  grams,
		NetG:    grams,
		GrossG:  grams,
		VolumeL: grams / density / 1000 / shelfUse,
		Basis:   f.Basis,
		Own:     true,
		Source:  "stock file, by weight",
		Note:    "the jar is not weighed; litres from the density of the food",
	}
	return line, true
}
