package web

import (
	"bytes"
	"fmt"
	"io"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// changes are what a form asks for; each returns the page that shows it.
type changes struct{ *Server }

// mostRows bounds the rows of a form.
const mostRows = 500

// upload returns the file of a form, nil where none was chosen.
func upload(r *http.Request) ([]byte, string, error) {
	f, head, err := r.FormFile("file")
	if err != nil {
		return nil, "", nil //nolint:nilerr // no file is no fault
	}
	defer f.Close() //nolint:errcheck // it was only read
	text, err := io.ReadAll(io.LimitReader(f, mostBody))
	return text, head.Filename, err
}

// rowsOf reads the rows of a form whose fields are called prefix, number, dot, column.
func rowsOf(r *http.Request, prefix string, columns []string) [][]string {
	n, err := strconv.Atoi(r.PostFormValue("rows"))
	if err != nil {
		n = 0
	}
	rows := [][]string{columns}
	for i := range min(n, mostRows) {
		at := prefix + strconv.Itoa(i) + "."
		if r.PostFormValue("remove") == strconv.Itoa(i) {
			continue
		}
		row := make([]string, len(columns))
		for c, name := range columns {
			row[c] = strings.TrimSpace(strings.Join(r.PostForm[at+name], "; "))
		}
		rows = append(rows, row)
	}
	return rows
}

// changeHousehold takes the form of the people, or a file in its place.
func (s changes) changeHousehold(r *http.Request) (string, error) {
	text, name, err := upload(r)
	if err != nil {
		return "/", err
	}
	if text != nil {
		people, _, err := nutrients.ReadHousehold(name, bytes.NewReader(text))
		if err != nil {
			return "/", err
		}
		return "/", s.setHousehold(nutrients.HouseholdRows(people), false)
	}
	do := r.PostFormValue("do")
	if do == "demo" {
		people, _, err := nutrients.ReadHouseholdRows("demo", s.opt.Demo)
		if err != nil {
			return "/", err
		}
		return "/", s.setHousehold(nutrients.HouseholdRows(people), true)
	}
	rows := rowsOf(r, "p", personColumns)
	for i := range rows[1:] {
		addFood(r, rows[i+1], "p"+strconv.Itoa(i)+".")
		addAllergies(r, rows[i+1], "p"+strconv.Itoa(i)+".")
		if cell(rows[i+1], personColumns, "age_months") != "" {
			rows[i+1][slices.Index(personColumns, "age_years")] = ""
		}
	}
	if do == "add" {
		rows = append(rows, make([]string, len(personColumns)))
	}
	before := s.said()
	same := slices.EqualFunc(rows, before.Household, slices.Equal[[]string])
	if err := s.setHousehold(rows, before.Demo.Household && same); err != nil {
		return "/", err
	}
	if more, err := strconv.Atoi(r.PostFormValue("more")); err == nil {
		return fmt.Sprintf("/?more=%d#person%d", more, more), nil
	}
	if do == "add" || r.PostForm.Has("remove") {
		return "/", nil
	}
	if _, err = s.request(); err != nil || do == "save" {
		return "/", err
	}
	return s.makePlan(r)
}

// addFood adds the food that is newly disliked to the cell.
func addFood(r *http.Request, row []string, at string) {
	if add := strings.TrimSpace(r.PostFormValue(at + "dislike")); add != "" {
		c := slices.Index(personColumns, "dislikes")
		row[c] = strings.Join(append(listOf(row[c]), listOf(add)...), "; ")
	}
}

// addAllergies writes the choices of the nine allergens as household.csv does.
func addAllergies(r *http.Request, row []string, at string) {
	var list []string
	for _, a := range nutrients.Allergens {
		switch r.PostFormValue(at + "allergy." + a) {
		case "yes":
			list = append(list, a)
		case "traces":
			list = append(list, a+"~")
		case "nobody":
			list = append(list, a+"!")
		}
	}
	row[slices.Index(personColumns, "allergies")] = strings.Join(list, "; ")
}

// setHousehold takes rows over, unless they are more than can be planned.
func (s changes) setHousehold(rows [][]string, demo bool) error {
	if len(rows)-1 > ration.MostPeople {
		return fmt.Errorf("%d rows of people, at most %d: people who are alike can stand in one row, with how many they are", len(rows)-1, ration.MostPeople)
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.entered.Household = fitted(rows, personColumns)
	s.entered.Demo.Household = demo
	names := s.entered.names()
	s.entered.Ill = slices.DeleteFunc(slices.Clone(s.entered.Ill), func(name string) bool { return !slices.Contains(names, name) })
	return nil
}

// changeStock takes the list of what is in store, or a file in its place.
func (s changes) changeStock(r *http.Request) (string, error) {
	text, name, err := upload(r)
	if err != nil {
		return "/stock", err
	}
	rows := withoutBlank(rowsOf(r, "s", stockColumns))
	in := foods.FromRows(rows)
	switch {
	case text != nil:
		in = bytes.NewReader(text)
	case len(rows) < 2:
		s.locked(func() { s.entered.Stock = nil })
		return "/stock", nil
	default:
		name = "stock list"
		s.locked(func() { s.entered.Stock = rows }) // what was written stays on the page, right or wrong
	}
	stock, err := s.shop().ReadStockOn(s.said().Start, name, in)
	if err != nil {
		return "/stock", err
	}
	s.locked(func() { s.entered.Stock = stock.Rows })
	if text == nil && r.PostFormValue("do") == "check" {
		return s.checkStock(r)
	}
	return "/stock", nil
}

// withoutBlank drops rows in which nothing is written.
func withoutBlank(rows [][]string) [][]string {
	return slices.DeleteFunc(slices.Clone(rows), func(row []string) bool {
		return !slices.ContainsFunc(row, func(cell string) bool { return cell != "" })
	})
}

// changePrices takes the prices, or a file in their place.
func (s changes) changePrices(r *http.Request) (string, error) {
	text, name, err := upload(r)
	if err != nil {
		return "/prices", err
	}
	var in io.Reader = bytes.NewReader(text)
	if text == nil {
		rows := [][]string{priceColumns}
		for _, row := range rowsOf(r, "c", priceColumns)[1:] {
			if row[0] != "" && row[1] != "" {
				row[2] = strings.TrimSpace(r.PostFormValue("currency"))
				rows = append(rows, row)
			}
		}
		if len(rows) == 1 {
			s.locked(func() { s.entered.Prices = nil })
			return "/prices", nil
		}
		name, in = "prices", foods.FromRows(rows)
	}
	changes, err := s.shop().Clone().ReadPrices(name, in)
	if err != nil {
		return "/prices", err
	}
	s.locked(func() { s.entered.Prices = changes.Rows })
	if r.PostFormValue("do") == "plan" {
		return s.makePlan(r)
	}
	return "/prices", nil
}
