package web

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"net/http"
	"slices"
	"strconv"
	"strings"
	"time"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
)

// changes are what a form asks for; each returns the page that shows it.
type changes struct{ *Server }

// mostRows bounds the rows of a form.
const mostRows = 500

// upload returns a file of a form, nil where none was chosen.
func upload(r *http.Request, field string) ([]byte, string, error) {
	f, head, err := r.FormFile(field)
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
	text, name, err := upload(r, "file")
	if err != nil {
		return "/", err
	}
	if text != nil {
		people, _, err := nutrients.ReadHousehold(name, bytes.NewReader(text))
		if err != nil {
			return "/", err
		}
		return "/", s.setHousehold(nutrients.HouseholdRows(people), ration.Demo{})
	}
	do := r.PostFormValue("do")
	if do == "demo" {
		people, _, err := nutrients.ReadHouseholdRows("demo", s.opt.Demo)
		if err != nil {
			return "/", err
		}
		return "/", s.setHousehold(nutrients.HouseholdRows(people), ration.Demo{Household: true})
	}
	s.mu.Lock()
	demo := s.entered.Demo
	s.mu.Unlock()
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
	s.mu.Lock()
	same := slices.EqualFunc(rows, s.entered.Household, slices.Equal[[]string])
	s.mu.Unlock()
	if !same {
		demo.Household = false
	}
	if err := s.setHousehold(rows, demo); err != nil {
		return "/", err
	}
	if more, err := strconv.Atoi(r.PostFormValue("more")); err == nil {
		return fmt.Sprintf("/?more=%d#person%d", more, more), nil
	}
	if do == "add" || r.PostForm.Has("remove") {
		return "/", nil
	}
	s.mu.Lock()
	_, err = s.entered.request()
	s.mu.Unlock()
	if err != nil || do == "save" {
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
func (s changes) setHousehold(rows [][]string, demo ration.Demo) error {
	if len(rows)-1 > ration.MostPeople {
		return fmt.Errorf("%d rows of people, at most %d: people who are alike can stand in one row, with how many they are", len(rows)-1, ration.MostPeople)
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.entered.Household = fitted(rows, personColumns)
	s.entered.Demo.Household = demo.Household
	return nil
}

// changeWishes takes the form of what the plan is to be like.
func (s changes) changeWishes(r *http.Request) (string, error) {
	var faults []error
	limits := map[string]float64{}
	for key, what := range limitWords {
		v, err := limit(r.PostFormValue(key), what)
		faults = append(faults, err)
		if v != nil {
			limits[key] = *v
		}
	}
	number := func(key, what string, least, most int) string {
		text := strings.TrimSpace(r.PostFormValue(key))
		n, err := strconv.Atoi(text)
		if err != nil || n < least || n > most {
			faults = append(faults, fmt.Errorf("%s %q: write a whole number from %d to %d", what, text, least, most))
			return strconv.Itoa(least)
		}
		return text
	}
	options := map[string]string{
		"days": number("days", "Days", 1, ration.MostDays), "pets": number("pets", "Pets", 0, 1000),
	}
	start := r.PostFormValue("start")
	if _, err := time.Parse(time.DateOnly, start); err != nil {
		faults = append(faults, fmt.Errorf("First day %q: write the date as 2026-11-25", start))
	}
	for _, key := range []string{"hot", "easy_open", "boil_water"} {
		options[key] = strconv.FormatBool(r.PostFormValue(key) == "true")
	}
	for _, key := range []string{"least", "cook", "stove", "standard"} {
		options[key] = r.PostFormValue(key)
	}
	if options["with_menu"] = ""; r.PostFormValue("with_menu") == "true" {
		options["with_menu"] = "true"
	}
	without := r.PostForm["without"]
	without = append(without, listOf(r.PostFormValue("no"))...)
	if err := s.setWishes(options, limits, start, without, errors.Join(faults...)); err != nil {
		return "/wishes", err
	}
	if r.PostFormValue("do") == "save" {
		return "/wishes", nil
	}
	return s.makePlan(r)
}

// setWishes takes wishes over that can be read; words for food stay on the page even
// where they mean nothing.
func (s changes) setWishes(options map[string]string, limits map[string]float64, start string, without []string, fault error) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.entered.Without = without
	if fault != nil {
		return fault
	}
	next := s.entered
	next.Options = maps.Clone(next.Options)
	maps.Copy(next.Options, options)
	next.Limits, next.Start = limits, start
	probe := next
	if len(probe.filled()) < 2 {
		probe.Household = demoRow
	}
	if _, err := probe.request(); err != nil {
		return err
	}
	s.entered = next
	return nil
}

// demoRow stands for a household where only other things are looked at.
var demoRow = [][]string{{"name", "age_years", "sex"}, {"somebody", "30", "f"}}

// limitWords are the limits of a plan and their names on the form.
var limitWords = map[string]string{
	"budget": "Most that it may cost", "weight_kg": "Most that it may weigh", "volume_l": "Most that it may fill", "water_l": "Most water stored", "heat_mj": "Most heat for cooking",
}

// changeStock takes the list of what is in store, or a file in its place.
func (s changes) changeStock(r *http.Request) (string, error) {
	text, name, err := upload(r, "file")
	if err != nil {
		return "/stock", err
	}
	s.mu.Lock()
	start := s.entered.Start
	s.mu.Unlock()
	rows := rowsOf(r, "s", stockColumns)
	in := foods.FromRows(withoutBlank(rows))
	if text != nil {
		in = bytes.NewReader(text)
	} else {
		s.mu.Lock()
		s.entered.Stock = withoutBlank(rows) // what was written stays on the page, right or wrong
		if len(s.entered.Stock) < 2 {
			s.entered.Stock = nil
		}
		s.mu.Unlock()
		name = "stock list"
		if len(withoutBlank(rows)) < 2 {
			return "/stock", nil
		}
	}
	stock, err := s.shop().ReadStockOn(start, name, in)
	if err != nil {
		return "/stock", err
	}
	s.mu.Lock()
	s.entered.Stock = stock.Rows
	s.mu.Unlock()
	if text == nil && r.PostFormValue("do") == "check" {
		return s.checkStock(r)
	}
	return "/stock", nil
}

// withoutBlank drops rows in which nothing is written; a count alone is nothing.
func withoutBlank(rows [][]string) [][]string {
	out := rows[:1:1]
	for _, row := range rows[1:] {
		if slices.ContainsFunc(row, func(c string) bool { return c != "" }) {
			out = append(out, row)
		}
	}
	return out
}

// changePrices takes the prices, or a file in their place.
func (s changes) changePrices(r *http.Request) (string, error) {
	text, name, err := upload(r, "file")
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
			s.mu.Lock()
			s.entered.Prices = nil
			s.mu.Unlock()
			return "/prices", nil
		}
		name, in = "prices", foods.FromRows(rows)
	}
	changes, err := s.shop().Clone().ReadPrices(name, in)
	if err != nil {
		return "/prices", err
	}
	s.mu.Lock()
	s.entered.Prices = changes.Rows
	s.mu.Unlock()
	if r.PostFormValue("do") == "plan" {
		return s.makePlan(r)
	}
	return "/prices", nil
}

// openFile takes up a plan that was saved before.
func (s changes) openFile(r *http.Request) (string, error) {
	text, _, err := upload(r, "file")
	if err != nil || text == nil {
		return "/save", errors.Join(err, errors.New("no file was chosen"))
	}
	m, err := s.readPlan(text)
	if err != nil {
		return "/save", err
	}
	s.stopJob()
	s.replace(m, true)
	s.mu.Lock()
	s.entered.RequestRecord = *m.plan.Request
	s.entered.Household = fitted(m.plan.Request.Household, personColumns)
	s.entered.ShelfRows = nil
	s.mu.Unlock()
	return "/plan", nil
}

// keepFood keeps a food in later changes, or lets it go again.
func (s changes) keepFood(r *http.Request) (string, error) {
	food := r.PostFormValue("food")
	s.mu.Lock()
	defer s.mu.Unlock()
	if k := slices.Index(s.entered.Kept, food); k >= 0 {
		s.entered.Kept = slices.Delete(s.entered.Kept, k, k+1)
	} else if s.made != nil && slices.ContainsFunc(s.made.plan.Packs, func(p ration.PlanPack) bool { return p.Food == food }) {
		s.entered.Kept = append(s.entered.Kept, food)
	}
	return "/plan", nil
}

// undo shows the plan before this one.
func (s changes) undo(*http.Request) (string, error) {
	s.stopJob()
	s.mu.Lock()
	defer s.mu.Unlock()
	if n := len(s.before); n > 0 {
		s.made, s.before = s.before[n-1], s.before[:n-1]
		s.entered.Without = slices.Clone(s.made.plan.Request.Without)
	}
	return "/plan", nil
}

// takeWayOut enters what a way out changes and shows the plan that was found with it;
// the search goes on from there.
func (s changes) takeWayOut(r *http.Request) (string, error) {
	n, err := strconv.Atoi(r.PostFormValue("way"))
	s.mu.Lock()
	var ways []ration.WayOut
	if s.made != nil {
		ways = s.made.plan.WaysOut
	}
	s.mu.Unlock()
	if err != nil || n < 0 || n >= len(ways) || ways[n].Request == nil {
		return "/plan", nil
	}
	s.stopJob()
	req := ways[n].Request
	p, err := plan.OfWayOut(&ways[n])
	if err != nil {
		return "/plan", err
	}
	shown, err := s.take(p, req, true)
	if err != nil {
		return "/plan", err
	}
	s.mu.Lock()
	next := *ration.Record(req)
	next.Demo, next.Household = s.entered.Demo, fitted(next.Household, personColumns)
	s.entered.RequestRecord = next
	s.mu.Unlock()
	s.start("plan", func(ctx context.Context, j *job) error {
		j.show()
		return s.goOn(ctx, j, req, shown)
	})
	return "/plan", nil
}

// choose shows one of the plans that were compared.
func (s changes) choose(r *http.Request) (string, error) {
	s.mu.Lock()
	c := s.compared
	s.mu.Unlock()
	n, err := strconv.Atoi(r.PostFormValue("plan"))
	if c == nil || err != nil || n < 0 || n >= len(c.found.Plans) {
		return "/compare", nil
	}
	p := c.found.Plans[n]
	req, err := p.Request.Load()
	if err != nil {
		return "/compare", err
	}
	m, err := s.show(p, req)
	if err != nil {
		return "/compare", err
	}
	s.stopJob()
	s.replace(m, true)
	s.mu.Lock()
	s.entered.Options = maps.Clone(s.entered.Options)
	s.entered.Options["least"] = string(p.Least)
	s.mu.Unlock()
	return "/plan", nil
}
