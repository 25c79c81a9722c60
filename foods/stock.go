package foods

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"rationwright/nutrients/table"
)

// Stock is what a household owns already.
type Stock struct {
	Lines    []StockLine
	WaterL   *float64 // litres of stored water; nil when the file has no row for it
	HeatMJ   *float64 // MJ of useful heat in the file's rows called heat; nil when it has none
	Goods    []GoodsLine
	Rows     [][]string
	Taken    []string // what each line in people's words was taken for
	Warnings []string
}

// GoodsLine is one line of a stock list that is no food: water, fuel, and what
// is renewed, such as batteries.
type GoodsLine struct {
	Supply     *Supply
	Count      float64 // in the supply's unit
	BestBefore string  // ISO date by which it is renewed, "" unknown
	Place      string
}

// StockHeat is the supply of useful heat, in MJ after stove losses: for whoever
// knows it and not the fuel.
const StockHeat = "heat"

// holdsWater reports whether s is counted in litres of stored water.
func (s *Supply) holdsWater() bool {
	return s.Key == StoredWater || strings.HasPrefix(s.Key, StoredWater+"-") && s.Unit == "L"
}

var stockColumns = columns("pack count best_before place opened food grams")

// mostCount bounds the packs of one stock line.
const mostCount = 1e5

// ReadStock reads what is on hand, a file with the columns pack and count and,
// if wanted, best_before and opened (ISO dates) and place. A row that has food
// and grams instead of pack is something filled or put up at home: it becomes a
// pack of that weight that cannot be bought, count of them (1 when empty); its
// jar is not weighed and its litres are those of the box around a round jar.
// The keys of data/supplies.csv stand for what is no food: water in litres, heat
// in MJ of useful heat, fuels by the pack as sold, batteries and the like by the
// piece.
//
// In place of a key the pack column may hold what people write on the list of a
// shelf (6 tins of sardines, 120 g, best before 2027-03), with the count in it or
// beside it; a file without a header is a list of such lines. Words mean what
// [Table.Resolve] says; a size that the table lacks becomes a pack of one's own.
//
// A header without rows means that nothing is on hand. The error is a
// [*table.Errors] with every fault of the file.
func (t *Table) ReadStock(file string, r io.Reader) (*Stock, error) {
	return t.ReadStockOn("", file, r)
}

// ReadStockOn is [Table.ReadStock] for a stock as it is on day, an ISO date: no pack
// can have been opened later. "" is any day.
func (t *Table) ReadStockOn(day, file string, r io.Reader) (*Stock, error) {
	in, err := readStockFile(file, r)
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
		if day != "" && line.Opened > day { // ISO dates sort as days do
			row.Fail("opened", fmt.Errorf("after %s, the day from which is counted", day), "correct the date, or leave the cell empty if the pack is closed")
			continue
		}
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

// readStockFile reads a table of packs, or a list of lines where the file is no CSV
// by its name and its first line holds no column of one.
func readStockFile(file string, r io.Reader) (*table.Table, error) {
	format := table.Format{Columns: stockColumns, Row: "pack on hand", AllowEmpty: true}
	in := bufio.NewReaderSize(r, 1<<16)
	start, err := in.Peek(1 << 16)
	if err != nil && !errors.Is(err, io.EOF) {
		return format.Read(file, in) // the fault is that reader's to tell
	}
	first, _, _ := strings.Cut(strings.TrimSpace(strings.TrimPrefix(string(start), "\ufeff")), "\n")
	isColumn := func(name string) bool {
		return slices.ContainsFunc(stockColumns, func(c table.Column) bool { return fold(name) == c.Name })
	}
	headed := slices.ContainsFunc(strings.FieldsFunc(first, func(r rune) bool { return strings.ContainsRune(",;\t|\"", r) }), isColumn)
	if headed || first == "" || strings.HasSuffix(strings.ToLower(file), ".csv") {
		return format.Read(file, in)
	}
	return format.ReadLines(file, in)
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
	if isShelfLine(row.Text("pack")) {
		line, ok = s.shelfLine(t, row, line, count, counted)
		return line, ok && !faulty
	}
	if !row.Has("count") {
		row.Fail("count", table.ErrEmpty, "write how many there are")
	}
	if supply := t.supply(row.Text("pack")); supply != nil {
		if row.Has("opened") {
			row.Fail("opened", errors.New("only packs of food have a day of opening"), "leave the cell empty")
			faulty = true
		}
		if counted && !faulty {
			s.addGoods(supply, count, line)
		}
		return line, false
	}
	p := t.pack(fold(row.Text("pack")))
	if p == nil {
		failUnknown(row, "pack", t.unknownItem(row.Text("pack")))
		return line, false
	}
	if !counted || !whole(row, count) {
		return line, false
	}
	line.Pack, line.Count = p, count
	return line, !faulty
}

// addGoods adds count of what is no food, with the dates and place of line.
func (s *Stock) addGoods(supply *Supply, count float64, line StockLine) {
	s.Goods = append(s.Goods, GoodsLine{
		Supply: supply, Count: count, BestBefore: line.BestBefore, Place: line.Place,
	})
	switch {
	case supply.holdsWater():
		s.WaterL = sum(s.WaterL, count)
	case supply.Key == StockHeat:
		s.HeatMJ = sum(s.HeatMJ, count)
	}
}

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
	density, ok := t.looseDensity(f, "")
	if !ok {
		density = 1 // as water
	}
	line.Count = count
	line.Pack = &Pack{
		Key:     fmt.Sprintf("%s-%gg-own", f.NDB, grams),
		Food:    f,
		LabelG:  grams,
		NetG:    grams,
		GrossG:  grams,
		VolumeL: grams / density / 1000 * jarBox,
		Basis:   f.Basis,
		Own:     true,
		Source:  "stock file, by weight",
		Note:    "the jar is not weighed; litres of the box around a round jar, from the density of the food",
	}
	return line, true
}

// jarBox is the upright box around a round jar over the food in it: the room
// left at the top, the walls, and the corners of the square that a round jar
// stands in. Source: foods/stores/data/packing.csv, can_headspace_ratio (from
// memory), can_capacity_over_outer and cylinder_square_packing (computed).
const jarBox = 1 / (0.9 * 0.84 * 0.7854)
