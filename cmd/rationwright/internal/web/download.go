package web

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"net/http"
	"path"
	"strings"

	"rationwright/cmd/rationwright/internal/page"
	"rationwright/cmd/rationwright/internal/report"
	"rationwright/foods/stores"
	"rationwright/solver/menu"
)

// sheets are the documents to print, by file name.
var sheets = map[string]page.Only{"report.html": page.All, "list.html": page.Shopping, "menu.html": page.Menu, "door.html": page.Door}

var contentTypes = map[string]string{
	".html": "text/html; charset=utf-8", ".csv": "text/csv; charset=utf-8", ".json": "application/json",
	".ics": "text/calendar; charset=utf-8", ".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8",
}

// download sends a file made of what is entered or planned.
func (s pages) download(w http.ResponseWriter, r *http.Request) error {
	name := r.PathValue("file")
	var text bytes.Buffer
	if err := s.write(&text, name, r); err != nil {
		return err
	}
	w.Header().Set("Content-Type", contentTypes[path.Ext(name)])
	_, document := sheets[name]
	if !document || r.URL.Query().Has("save") {
		w.Header().Set("Content-Disposition", fmt.Sprintf("attachment; filename=%q", name))
	}
	if document {
		// The document carries its own style, which is allowed by its digest.
		sum := sha256.Sum256([]byte(page.CSS()))
		w.Header().Set("Content-Security-Policy", strings.Replace(policy, "style-src 'self'", "style-src 'sha256-"+base64.StdEncoding.EncodeToString(sum[:])+"'", 1))
	}
	_, err := w.Write(text.Bytes())
	return err
}

// write makes the file called name.
func (s pages) write(text *bytes.Buffer, name string, r *http.Request) error {
	e := s.said()
	tables := map[string][][]string{"household.csv": e.filled(), "stock.csv": fitted(e.Stock, stockColumns), "prices.csv": fitted(e.Prices, priceColumns)}
	if rows, ok := tables[name]; ok {
		return writeRows(text, rows)
	}
	m, err := s.current()
	if err != nil {
		return err
	}
	if only, ok := sheets[name]; ok {
		rep := m.report
		if only == page.All || only == page.Menu {
			if rep, err = s.withMenu(r); err != nil {
				return err
			}
		}
		return rep.Write(text, only)
	}
	switch name {
	case "plan.json":
		return report.JSON(text, m.plan)
	case "plan.csv":
		return report.PlanCSV(m.plan).Write(text)
	case "dates.ics":
		due, err := page.Dates(m.plan, m.req)
		if err != nil {
			return err
		}
		ics, err := stores.Calendar(due.Actions, due.Start, nil)
		text.Write(ics)
		return err
	case "menu.ics":
		days, err := menu.Of(r.Context(), m.plan, m.req)
		if err != nil {
			return err
		}
		return report.MenuCalendar(text, days, s.opt.Units)
	}
	return errNotThere
}

// static sends the style and the script.
func (s pages) static(w http.ResponseWriter, r *http.Request) error {
	name := r.PathValue("file")
	text, err := files.ReadFile("static/" + name)
	if err != nil {
		return errNotThere
	}
	if name == "style.css" {
		text = append([]byte(page.CSS()), text...)
	}
	w.Header().Set("Content-Type", contentTypes[path.Ext(name)])
	_, err = w.Write(text)
	return err
}
