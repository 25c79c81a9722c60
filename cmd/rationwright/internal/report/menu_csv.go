package report

import (
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"

	ics "github.com/arran4/golang-ical"

	"rationwright/solver/menu"
	"rationwright/solver/ration"
)

// MenuCSV writes a menu as one flat table, one fact a row:
//
//	misfit   what of the plan fits no dish, or a rule of a day that is not kept
//	day      water into food and useful heat of a day
//	dish     a dish on the table, how it is made and for whom
//	open     packs opened at a meal
//	eat      what one person of the row gets of a food: grams, and household measure
//	soak     what is put to soak in the evening
func MenuCSV(w io.Writer, m *menu.Menu, p *ration.Plan) error {
	columns := []string{"section", "day", "date", "meal", "person", "count", "dish", "food", "ndb", "grams", "measure", "pack", "water_l", "heat_mj", "text"}
	rows := [][]string{columns}
	for _, r := range p.Refused {
		rows = append(rows, cellsOf(columns, "refused", map[string]string{"person": r.Name, "text": doesNotFeed(r)}))
	}
	for _, x := range m.Misfits {
		rows = append(rows, cellsOf(columns, "misfit", map[string]string{"person": x.Person, "text": x.Text}))
	}
	for _, d := range m.Days {
		row := func(section string, cells map[string]string) {
			cells["day"], cells["date"] = strconv.Itoa(d.Day), d.Date
			rows = append(rows, cellsOf(columns, section, cells))
		}
		row("day", map[string]string{"water_l": num(d.WaterL), "heat_mj": num(d.HeatMJ)})
		for _, meal := range d.Meals {
			for _, x := range meal.Dishes {
				row("dish", map[string]string{"meal": meal.Meal, "dish": x.Key, "person": strings.Join(x.For, "; "), "water_l": num(x.WaterML / 1000), "text": x.Name + ": " + x.How})
			}
			for _, k := range meal.Opens {
				row("open", map[string]string{"meal": meal.Meal, "pack": k, "count": "1"})
			}
			for _, s := range meal.People {
				for _, a := range s.Foods {
					row("eat", map[string]string{"meal": meal.Meal, "person": s.Name, "count": strconv.Itoa(s.Count), "dish": a.Dish, "food": a.Food, "ndb": a.NDB, "grams": num(a.Grams), "measure": a.Measure})
				}
			}
		}
		for _, soak := range d.Tonight {
			row("soak", map[string]string{"text": soak})
		}
	}
	return writeRows(w, rows)
}

// MenuCalendar writes a menu as an iCalendar (RFC 5545): one event a meal, in local
// time, with what is opened, how it is made and what each person gets. The same menu
// gives the same bytes, and an event keeps its UID from day to day of one plan.
func MenuCalendar(w io.Writer, m *menu.Menu, u Units) error {
	start, err := time.Parse(time.DateOnly, m.Start)
	if err != nil {
		return errors.New("the plan has no first day; make it with --start DATE")
	}
	cal := ics.NewCalendarFor("rationwright")
	cal.SetProductId("-//rationwright//menu//EN")
	cal.SetMethod(ics.MethodPublish)
	cal.SetCalscale("GREGORIAN")
	names := shortFoodNames(m)
	for i := range m.Days {
		d := &m.Days[i]
		for _, meal := range d.Meals {
			if meal.Hour == 0 {
				continue
			}
			at := start.AddDate(0, 0, d.Day-1).Add(time.Duration(meal.Hour * float64(time.Hour)))
			e := ics.NewEvent(fmt.Sprintf("%s-%s@menu.rationwright", at.Format("20060102"), strings.ReplaceAll(meal.Meal, " ", "-")))
			e.SetDtStampTime(start)
			e.SetProperty(ics.ComponentPropertyDtStart, at.Format("20060102T150405"))
			e.SetProperty(ics.ComponentPropertyDtEnd, at.Add(time.Hour).Format("20060102T150405"))
			e.SetSummary(meal.Meal + ": " + mainDish(meal))
			var lines []string
			if len(meal.Opens) > 0 {
				lines = append(lines, "Open: "+packList(meal))
			}
			for _, x := range meal.Dishes {
				lines = append(lines, x.Name+": "+x.How)
			}
			for _, p := range meal.People {
				lines = append(lines, clean(p.Name)+": "+servedText(p, names, u))
			}
			e.SetDescription(strings.Join(lines, "\n"))
			cal.AddVEvent(e)
		}
	}
	_, err = io.WriteString(w, cal.Serialize(ics.WithNewLine("\r\n")))
	return err
}
