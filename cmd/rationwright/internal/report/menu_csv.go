package report

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	ics "github.com/arran4/golang-ical"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/headline"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/menu"
	"rationwright/solver/ration"
)

// MenuCSV writes a menu as one flat table, one fact a row:
//
//	refused headline  the worst news of the plan
//	misfit   what of the plan fits no dish, or a rule of a day that is not kept
//	day      water into food and useful heat of a day
//	dish     a dish on the table, how it is made and for whom
//	open     packs opened at a meal
//	eat      what one person of the row gets of a food: grams, and household measure
//	soak     what is put to soak in the evening
func MenuCSV(m *menu.Menu, p *ration.Plan) *facts.Table {
	t := facts.New("section day date meal person count dish food ndb grams measure pack water_l heat_mj text")
	worst(t, "person", headline.Plan(p))
	t.Each("misfit", m.Misfits, "person text", nil)
	for _, d := range m.Days {
		row := func(section string, cells facts.Row) {
			cells["day"], cells["date"] = d.Day, d.Date
			t.Add(section, cells)
		}
		row("day", facts.Row{"water_l": d.WaterL, "heat_mj": d.HeatMJ})
		for _, meal := range d.Meals {
			for _, x := range meal.Dishes {
				row("dish", facts.Row{"meal": meal.Meal, "dish": x.Key, "person": x.For, "water_l": x.WaterML / 1000, "text": x.Name + ": " + x.How})
			}
			for _, k := range meal.Opens {
				row("open", facts.Row{"meal": meal.Meal, "pack": k, "count": 1})
			}
			for _, s := range meal.People {
				t.Each("eat", s.Foods, "dish food ndb grams measure", facts.Row{"day": d.Day, "date": d.Date, "meal": meal.Meal, "person": s.Name, "count": s.Count})
			}
		}
		for _, soak := range d.Tonight {
			row("soak", facts.Row{"text": soak})
		}
	}
	return t
}

// MenuCalendar writes a menu as an iCalendar (RFC 5545): one event a meal, in local
// time, with what is opened, how it is made and what each person gets. The same menu
// gives the same bytes, and an event keeps its UID from day to day of one plan.
func MenuCalendar(w io.Writer, m *menu.Menu, u sheet.Units) error {
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
			var lines sheet.Lines
			lines.If(len(meal.Opens) > 0, "Open: %s", packList(meal))
			for _, x := range meal.Dishes {
				lines = append(lines, x.Name+": "+x.How)
			}
			for _, p := range meal.People {
				lines = append(lines, facts.Printable(p.Name)+": "+servedText(p, meal.Dishes, names, u))
			}
			e.SetDescription(strings.Join(lines, "\n"))
			cal.AddVEvent(e)
		}
	}
	_, err = io.WriteString(w, cal.Serialize(ics.WithNewLine("\r\n")))
	return err
}
