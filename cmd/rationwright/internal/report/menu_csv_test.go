package report

import (
	"bytes"
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/menu"
)

// TestCalendarOfMeals: an event a meal that has an hour, on the day of the plan that it is of,
// an hour long, with what is opened, how it is made and who gets what.
func TestCalendarOfMeals(t *testing.T) {
	meal := menu.Meal{Meal: "midday", Hour: 12.5, Opens: []string{"rice-1kg"}, Dishes: []menu.Dish{{Key: "porridge", Name: "porridge", How: "Boil it."}}, People: []menu.Served{{Name: "Odd", Foods: []menu.Amount{{Food: "oats", Dish: "porridge", Grams: 80}}}}}
	m := &menu.Menu{Start: "2026-11-30", Days: []menu.Day{{Day: 1, Meals: []menu.Meal{{Meal: "feed"}}}, {Day: 2, Meals: []menu.Meal{meal, {Meal: "late snack", Hour: 21, People: meal.People}}}}}
	var out bytes.Buffer
	if err := MenuCalendar(&out, m, sheet.Metric); err != nil {
		t.Fatal(err)
	}
	text := strings.ReplaceAll(strings.ReplaceAll(out.String(), "\r\n ", ""), "\r\n", "\n") // unfolded, RFC 5545 section 3.1
	head, events, _ := strings.Cut(text, "BEGIN:VEVENT\n")
	has(t, "the calendar", head, []string{"BEGIN:VCALENDAR\n", "VERSION:2.0\n", "PRODID:-//rationwright//menu//EN\n", "METHOD:PUBLISH\n", "CALSCALE:GREGORIAN\n"})
	first, second, _ := strings.Cut(events, "BEGIN:VEVENT\n")
	has(t, "the first event", first, []string{"UID:20261201-midday@menu.rationwright\n", "DTSTAMP:20261130T000000Z\n", "DTSTART:20261201T123000\n", "DTEND:20261201T133000\n", "SUMMARY:midday: porridge\n",
		"DESCRIPTION:Open: 1 rice-1kg\\nporridge: Boil it.\\nOdd: oats 80 g\n"})
	has(t, "the second event", second, []string{"UID:20261201-late-snack@menu.rationwright\n", "DTSTART:20261201T210000\n", "DESCRIPTION:Odd: oats 80 g\n"}, "BEGIN:VEVENT", "Open:")
	m.Start = ""
	if err := MenuCalendar(&out, m, sheet.Metric); err == nil {
		t.Error("a plan without a first day has a calendar")
	}
}
