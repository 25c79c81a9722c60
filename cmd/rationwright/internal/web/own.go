package web

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"rationwright/cmd/rationwright/internal/report"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/nutrients/table"
)

// shelfColumns are those of shelves.csv.
var shelfColumns = []string{"shelf", "width_cm", "depth_cm", "height_cm", "load_kg", "above_floor_cm"}

// shop is the food table with the user's own foods in it.
func (s *Server) shop() *foods.Table {
	e := s.said()
	rows, sizes := e.Foods, e.Options["sizes"]
	if rows == nil && sizes == "" {
		return s.table
	}
	t := s.table.Clone()
	if sizes != "" {
		t.Sell(sizes)
	}
	if rows == nil {
		return t
	}
	if _, err := t.ReadFoods("own foods", foods.FromRows(rows)); err != nil {
		return s.table // the plan's request says what is wrong with them
	}
	return t
}

// ownData is the page of the user's own foods and shelves.
type ownData struct {
	Columns   []string
	Foods     [][]string // as they were entered
	Names     []string   // of all foods, to be like
	Allergens []string
	Form      map[string]string // what was written and not taken
	Has       []string          // the allergens ticked there
	Shown     *sheet.Sheet      // what was understood of the last one
	ShelfCols []string
	Shelves   [][]string
}

func (s pages) ownPage(w http.ResponseWriter, _ *http.Request) error {
	t := s.shop()
	s.mu.Lock()
	e := &s.entered
	d := ownData{Allergens: nutrients.Allergens, ShelfCols: shelfColumns, Form: s.halfFood.cells, Has: s.halfFood.allergens, Shown: s.ownShown}
	if len(e.Foods) > 1 {
		d.Columns, d.Foods = e.Foods[0], e.Foods[1:]
	}
	d.Shelves = fitted(e.ShelfRows, shelfColumns)[1:]
	if e.ShelfRows == nil {
		d.Shelves = shelfRows(e.Shelves)
	}
	s.halfFood, s.ownShown = halfFood{}, nil
	s.mu.Unlock()
	d.Shelves = withSpare(d.Shelves, shelfColumns, spareRows)
	for _, f := range t.Foods {
		d.Names = append(d.Names, f.Name)
	}
	return s.render(w, frame{Title: "Your own foods and shelves", Here: "/own"}, "own", d)
}

// shelfRows are shelves as the rows of shelves.csv, without its header.
func shelfRows(shelves []stores.Shelf) [][]string {
	var rows [][]string
	for _, s := range shelves {
		row := []string{s.Name}
		for _, v := range []float64{s.WidthCm, s.DepthCm, s.HeightCm, s.LoadKg, s.AboveFloorCm} {
			row = append(row, strconv.FormatFloat(v, 'f', -1, 64))
		}
		rows = append(rows, row)
	}
	return rows
}

// halfFood is a food of one's own that could not be taken: it stays on the form.
type halfFood struct {
	cells     map[string]string
	allergens []string
}

// nothingHeld is the tick for a food that holds none of the nine.
const nothingHeld = "none"

// changeOwn adds a food of the user's own or takes one out, or takes a file of them.
func (s changes) changeOwn(r *http.Request) (string, error) {
	text, name, err := upload(r)
	if err != nil {
		return "/own", err
	}
	rows := slices.Clone(s.said().Foods)
	switch {
	case text != nil:
		changes, err := s.table.Clone().ReadFoods(name, bytes.NewReader(text))
		if err != nil {
			return "/own", err
		}
		s.setOwn(changes.Rows, nil)
	case r.PostForm.Has("remove"):
		n, err := strconv.Atoi(r.PostFormValue("remove"))
		if err != nil || n < 0 || n+1 >= len(rows) {
			return "/own", nil
		}
		if rows = slices.Delete(rows, n+1, n+2); len(rows) == 1 {
			rows = nil
		}
		s.setOwn(rows, nil)
	default:
		return "/own", s.addOwn(r, rows)
	}
	return "/own", nil
}

// addOwn adds the food of the form to rows.
func (s changes) addOwn(r *http.Request, rows [][]string) error {
	half := halfFood{cells: map[string]string{}, allergens: r.PostForm["allergens"]}
	for _, key := range []string{"name", "grams", "price", "like", "label"} {
		half.cells[key] = strings.TrimSpace(r.PostFormValue(key))
	}
	next, shown, err := s.withFood(rows, half)
	if err != nil {
		s.locked(func() { s.halfFood = half })
		return err
	}
	s.setOwn(next, shown)
	return nil
}

// withFood returns rows with one more, and what was understood of it.
func (s changes) withFood(rows [][]string, half halfFood) ([][]string, *sheet.Sheet, error) {
	name, like := half.cells["name"], half.cells["like"]
	var faults []error
	if name == "" || half.cells["grams"] == "" {
		faults = append(faults, errors.New("write at least the name and the grams on the pack"))
	}
	if like == "" {
		faults = append(faults, errors.New("choose the food of the table that it is most like: how it is cooked and kept is taken from there"))
	}
	switch none := slices.Contains(half.allergens, nothingHeld); {
	case len(half.allergens) == 0:
		faults = append(faults, errors.New("look at the label for allergens and tick what it holds, or tick that it holds none"))
	case none && len(half.allergens) > 1:
		faults = append(faults, errors.New("it cannot hold an allergen and none: take one tick away"))
	}
	if len(faults) > 0 {
		return nil, nil, errors.Join(faults...)
	}
	t := s.shop().Clone()
	if slices.ContainsFunc(t.Foods, func(f *foods.Food) bool { return strings.EqualFold(f.Name, table.Composed(name)) }) {
		return nil, nil, fmt.Errorf("%q is there already: give this one another name", name)
	}
	label := strings.Join(slices.DeleteFunc(strings.Split(strings.ReplaceAll(half.cells["label"], "\r", ""), "\n"), func(line string) bool { return strings.TrimSpace(line) == "" }), "; ")
	cells := []foods.Cell{{Column: "ndb"}, {Column: "name", Text: name}, {Column: "pack"}, {Column: "grams", Text: half.cells["grams"]}, {Column: "price", Text: half.cells["price"]},
		{Column: "allergens", Text: strings.Join(half.allergens, ";")}, {Column: "like", Text: like}, {Column: "label", Text: label}}
	one := make([][]string, 2)
	for _, c := range cells {
		one[0], one[1] = append(one[0], c.Column), append(one[1], c.Text)
	}
	changes, err := t.ReadFoods("own foods", foods.FromRows(one))
	if err != nil {
		return nil, nil, worded{error: err}
	}
	p := changes.Packs[0]
	cells[0].Text, cells[2].Text = p.Food.NDB, p.Key
	var have bytes.Buffer
	if err := csv.NewWriter(&have).WriteAll(rows); err != nil {
		return nil, nil, err
	}
	whole, err := foods.AddRow(have.Bytes(), cells)
	if err != nil {
		return nil, nil, err
	}
	all, err := s.table.Clone().ReadFoods("own foods", bytes.NewReader(whole))
	if err != nil {
		return nil, nil, worded{error: err}
	}
	for i, line := range changes.Warnings {
		changes.Warnings[i] = placeless(line)
	}
	return all.Rows, report.OwnPack(p, changes.Notes, changes.Warnings), nil
}

// placeless is a warning without the place in a file that nobody sees.
func placeless(line string) string {
	line = strings.TrimPrefix(line, "own foods:")
	return strings.TrimLeft(line, "0123456789: ")
}

func (s changes) setOwn(rows [][]string, shown *sheet.Sheet) {
	s.locked(func() { s.entered.Foods, s.ownShown, s.halfFood = rows, shown, halfFood{} })
}

// changeShelves takes the shelves on which all of it must stand, from the floor up, or
// a file of them.
func (s changes) changeShelves(r *http.Request) (string, error) {
	text, name, err := upload(r)
	if err != nil {
		return "/own", err
	}
	rows := withoutBlank(rowsOf(r, "h", shelfColumns))
	for i, row := range rows[1:] {
		if row[0] == "" {
			row[0] = fmt.Sprintf("shelf %d", i+1)
		}
	}
	in := foods.FromRows(rows)
	switch {
	case text != nil:
		in = bytes.NewReader(text)
	case len(rows) == 1:
		s.locked(func() { s.entered.ShelfRows, s.entered.Shelves = nil, nil })
		return "/own", nil
	default:
		name = "shelves"
		s.locked(func() { s.entered.ShelfRows = rows }) // right or wrong, it stays on the page
	}
	shelves, _, err := stores.ReadShelves(name, in)
	if err != nil {
		return "/own", worded{error: err}
	}
	s.locked(func() {
		s.entered.Shelves = shelves
		if text != nil {
			s.entered.ShelfRows = nil
		}
	})
	if r.PostFormValue("do") == "plan" {
		return s.makePlan(r)
	}
	return "/own", nil
}
