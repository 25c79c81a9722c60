package web

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"io"
	"math"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"rationwright/cmd/rationwright/internal/page"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

//go:embed html static
var files embed.FS

// templates are the pages, over the parts of a report.
func (s *Server) templates() *template.Template {
	return template.Must(page.Parts().Funcs(template.FuncMap{
		"token":          func() string { return s.token },
		"kept":           func(food string) bool { return slices.Contains(s.said().Kept, food) },
		"cell":           cell,
		"list":           listOf,
		"has":            slices.Contains[[]string],
		"allergy":        allergyChoice,
		"inc":            func(n int) int { return n + 1 },
		"under":          func(s string) string { return strings.ReplaceAll(s, "-", " ") },
		"tab":            tabOf,
		"limitOf":        limitOf,
		"conditionWords": func() []choice { return conditionWords },
	}).ParseFS(files, "html/*.html"))
}

// tab is a link to a page.
type tab struct {
	Path, Label string
	Here        bool
}

func tabOf(path, label, here string) tab { return tab{path, label, path == here} }

// limitOf writes a limit that may be absent.
func limitOf(limits map[string]float64, key string) string {
	if v, ok := limits[key]; ok {
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	return ""
}

// frame is what every page has around its own part.
type frame struct {
	Title    string
	Here     string // path of the page
	Problems []string
	Said     []string // what words are taken to mean
	Folder   string
	State    state
	Content  template.HTML
	Words    []string // suggestions for food; nil where no field asks for one
}

// render writes a page.
func (s *Server) render(w http.ResponseWriter, f frame, part string, body any) error {
	s.locked(func() { f.Problems, s.problems = s.problems, nil })
	f.Folder, f.State = s.opt.Folder, s.state()
	var content, whole bytes.Buffer
	if err := s.pages.ExecuteTemplate(&content, part, body); err != nil {
		return err
	}
	f.Content = template.HTML(content.String()) // of our own template
	if err := s.pages.ExecuteTemplate(&whole, "frame", f); err != nil {
		return err
	}
	text := whole.String()
	if part == "plan" || part == "details" { // pages with sources, and with no words to type over
		text = page.Marked(text)
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	_, err := io.WriteString(w, text)
	return err
}

// choice is a word of a file and what it is called on a form.
type choice struct{ Word, Label string }

// conditionWords are the conditions of household.csv in everyday words.
var conditionWords = []choice{
	{string(nutrients.Vegetarian), "vegetarian"}, {string(nutrients.Vegan), "vegan"}, {string(nutrients.Lactose), "cannot take much lactose"},
	{string(nutrients.Coeliac), "coeliac disease"}, {string(nutrients.LowSodium), "low-salt diet"}, {string(nutrients.SoftFood), "needs soft food"},
	{string(nutrients.Diabetes1), "type 1 diabetes"}, {string(nutrients.Diabetes2), "type 2 diabetes with medicine"}, {string(nutrients.Diabetes2Diet), "type 2 diabetes, diet only"},
	{string(nutrients.DiabetesPregnancy), "diabetes of pregnancy"}, {string(nutrients.Warfarin), "takes warfarin"}, {string(nutrients.PotassiumSparing), "takes medicine that keeps potassium"},
	{string(nutrients.Metformin), "takes metformin"}, {string(nutrients.Lithium), "takes lithium"}, {string(nutrients.KidneyDisease), "kidney disease"},
	{string(nutrients.HeartFailure), "heart failure"}, {string(nutrients.Dysphagia), "trouble swallowing (dysphagia)"}, {string(nutrients.TubeFeeding), "fed by tube"},
	{string(nutrients.InbornError), "inborn error of metabolism"},
}

// allergyChoice is the choice on the form for an allergen, from the cell.
func allergyChoice(text, allergen string) string {
	for _, word := range listOf(text) {
		switch word {
		case allergen:
			return "yes"
		case allergen + "~":
			return "traces"
		case allergen + "!":
			return "nobody"
		}
	}
	return ""
}

// pages are what is shown.
type pages struct{ *Server }

// householdData is the form of the people.
type householdData struct {
	Columns   []string
	Rows      [][]string
	Demo      bool
	Allergens []string
	Long      bool // so many people that what few need is shown on request only
	More      int  // the person of whom it was asked for, -1 for nobody
}

// manyPeople is from how many rows on a household is Long: the page stays under
// 300 kB.
const manyPeople = 20

func (s pages) householdPage(w http.ResponseWriter, r *http.Request) error {
	more, err := strconv.Atoi(r.URL.Query().Get("more"))
	if err != nil {
		more = -1
	}
	e := s.said()
	d := householdData{personColumns, e.Household[1:], e.Demo.Household, nutrients.Allergens, len(e.Household) > manyPeople, more}
	var names []string
	for _, row := range d.Rows {
		names = append(names, listOf(cell(row, personColumns, "dislikes"))...)
	}
	return s.render(w, frame{Title: "Who is fed", Here: "/", Words: s.words, Said: meanings(s.shop(), names)}, "household", d)
}

// wishesData is the form of what the plan is to be like.
type wishesData struct {
	entered
	Stoves []string
	Names  []string // of the household
	Slack  string   // in percent
}

// percentOf writes a share as the percentage that the form has.
func percentOf(share string) string {
	v, err := strconv.ParseFloat(share, 64)
	if err != nil {
		return "0"
	}
	return strconv.FormatFloat(math.Round(v*1e4)/100, 'f', -1, 64)
}

func (s pages) wishesPage(w http.ResponseWriter, _ *http.Request) error {
	e := s.said()
	d := wishesData{e, stores.StoveNames(), e.names(), percentOf(e.Options["slack"])}
	return s.render(w, frame{Title: "What the store is to be like", Here: "/wishes", Words: s.words, Said: meanings(s.shop(), d.Without)}, "wishes", d)
}

// planData is the plan shown.
type planData struct {
	Report   *page.Report
	Swap     *sheet.Sheet
	Undo     bool
	Struck   []string
	State    state
	HasTotal bool
	Ways     []string // out, where nothing fits and this run found them
}

func (s *Server) planData() planData {
	st := s.state()
	s.mu.Lock()
	defer s.mu.Unlock()
	d := planData{Undo: len(s.before) > 0, Struck: s.entered.Without, State: st}
	if s.made != nil {
		for _, w := range s.made.plan.WaysOut {
			if w.Request != nil {
				d.Ways = append(d.Ways, sheet.Sentence(sheet.Nutrient(w.Change)))
			}
		}
		d.Report, d.Swap, d.HasTotal = s.made.report, s.made.swap, s.made.plan.Totals != nil
	}
	return d
}

// ofPlan is a page about the plan shown.
func (s pages) ofPlan(title, path, part string) func(http.ResponseWriter, *http.Request) error {
	return func(w http.ResponseWriter, _ *http.Request) error {
		return s.render(w, frame{Title: title, Here: path}, part, s.planData())
	}
}

func (s pages) menuPage(w http.ResponseWriter, r *http.Request) error {
	m, err := s.withMenu(r)
	d := s.planData()
	if m != nil {
		d.Report = m
	}
	if err != nil {
		s.complain(err)
	}
	return s.render(w, frame{Title: "The menu", Here: "/menu"}, "menu-page", d)
}

// withMenu is the report of the plan shown, with its menu, which is made once.
func (s *Server) withMenu(r *http.Request) (*page.Report, error) {
	m, err := s.current()
	if err != nil {
		return nil, err
	}
	var rep page.Report
	s.locked(func() { rep = *m.report })
	if rep.Strips != nil {
		return &rep, nil
	}
	if err := rep.AddMenu(r.Context(), m.plan, m.req); err != nil {
		return nil, err
	}
	s.locked(func() { m.report = &rep })
	return &rep, nil
}

// listData is a form of rows: stock or prices.
type listData struct {
	Columns []string
	Rows    [][]string
	Packs   []packChoice
	Check   *sheet.Sheet
	Invent  bool
	Money   string
}

// packChoice is a pack that can be named in a form.
type packChoice struct{ Key, Label string }

// packs are the packs of the table and their supplies, for suggestions.
func packs(t *foods.Table) []packChoice {
	list := []packChoice{{foods.StoredWater, "stored water, litres"}}
	for _, k := range t.Packs {
		list = append(list, packChoice{k.Key, k.Food.Name})
	}
	return list
}

// spareRows are empty lines at the end of a list to fill in.
const spareRows = 3

func (s pages) stockPage(w http.ResponseWriter, _ *http.Request) error {
	rows := withSpare(fitted(s.said().Stock, stockColumns), stockColumns, spareRows)
	d := listData{Columns: stockColumns, Rows: rows[1:], Packs: packs(s.shop())}
	s.locked(func() { d.Check = s.check })
	return s.render(w, frame{Title: "What is in store", Here: "/stock", Words: s.words}, "stock", d)
}

func (s pages) pricesPage(w http.ResponseWriter, _ *http.Request) error {
	e := s.said()
	d := listData{Columns: priceColumns, Rows: fitted(e.Prices, priceColumns)[1:], Packs: packs(s.shop()), Invent: len(e.Prices) == 0}
	var plan []ration.PlanPack
	if m := s.shown(); m != nil {
		plan = m.plan.Packs
	}
	for _, row := range d.Rows {
		d.Money = row[2]
	}
	for _, k := range plan {
		if !slices.ContainsFunc(d.Rows, func(row []string) bool { return row[0] == k.Pack }) {
			d.Rows = append(d.Rows, []string{k.Pack, "", ""})
		}
	}
	d.Rows = withSpare(d.Rows, priceColumns, spareRows)
	return s.render(w, frame{Title: "Prices", Here: "/prices"}, "prices", d)
}

// compareData is the plans side by side.
type compareData struct {
	Sheet *sheet.Sheet
	Drawn *page.Picture
	Plans []string
}

func (s pages) comparePage(w http.ResponseWriter, _ *http.Request) error {
	var d compareData
	var c *comparedPlans
	s.locked(func() { c = s.compared })
	if c != nil {
		d.Sheet, d.Drawn = c.sheet, c.drawn
		for _, p := range c.found.Plans {
			if p.Totals != nil {
				d.Plans = append(d.Plans, fmt.Sprintf("least %s", p.Least))
			}
		}
	}
	return s.render(w, frame{Title: "Cost, weight, volume", Here: "/compare"}, "compare", d)
}
